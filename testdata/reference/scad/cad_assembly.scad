// Three parts of a small flying boat that run into each other, one at a time:
// part = "hull", "wing" or "pod". Lengths in mm.
part = "hull";
if (part == "hull") {
  difference() {
    hull() {
      translate([260, 0, 30]) sphere(r = 12, $fn = 18);
      translate([60, 0, 40]) rotate([0, 84, 0]) cylinder(r1 = 34, r2 = 30, h = 80, $fn = 22);
      translate([-240, 0, 62]) rotate([0, 90, 0]) cylinder(r = 9, h = 30, $fn = 14);
      translate([-10, 0, 4]) cube([60, 6, 8], center = true);
    }
    translate([-140, 0, 0]) rotate([0, 3, 0]) cube([260, 120, 34], center = true);
    translate([105, 0, 70]) cube([60, 34, 50], center = true);
  }
}
if (part == "wing") {
  translate([20, 0, 66]) for (side = [-1, 1]) hull() {
    rotate([-90, 0, 0]) scale([1, 0.13, 1]) cylinder(r = 62, h = 1, $fn = 40);
    translate([-12, side * 330, 14]) rotate([-90, 0, 0]) scale([1, 0.11, 1]) cylinder(r = 40, h = 1, $fn = 40);
  }
}
if (part == "pod") {
  union() {
    translate([-10, 0, 60]) rotate([0, -80, 0]) cylinder(r = 11, h = 110, center = true, $fn = 26);
    translate([0, 0, 50]) rotate([0, 8, 0]) linear_extrude(height = 70, scale = 0.7) square([40, 10], center = true);
  }
}
