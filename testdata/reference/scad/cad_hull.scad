// A hull plug as a drawing program exports it: a hulled body with a rounded
// (minkowski) hatch rim, lightening holes through, a tilted spar tube, cut
// pockets and a fin. Lengths in mm. The facets come out as needles.
module body() {
  hull() {
    translate([170, 0, 34]) sphere(r = 9, $fn = 20);
    translate([90, 0, 26]) scale([1.6, 1, 1]) rotate([7, 11, 0]) sphere(r = 27, $fn = 28);
    translate([-80, 0, 34]) rotate([90, 0, 0]) cylinder(r = 13, h = 44, center = true, $fn = 24);
    translate([0, 0, 3]) cube([90, 8, 6], center = true);
  }
}
module rim() {
  minkowski() {
    cube([46, 24, 10], center = true);
    sphere(r = 4, $fn = 12);
  }
}
difference() {
  union() {
    body();
    translate([52, 0, 50]) rim();
    hull() {
      translate([-88, 0, 40]) cylinder(r = 2, h = 4, $fn = 16);
      translate([-96, 0, 78]) sphere(r = 1.5, $fn = 10);
      translate([-60, 0, 42]) cylinder(r = 1, h = 3, $fn = 10);
    }
  }
  // hatch well
  translate([52, 0, 53]) cube([40, 18, 26], center = true);
  // spar tube, tilted, right through
  translate([0, 0, 30]) rotate([93, 4, 2]) cylinder(r = 6.35, h = 200, center = true, $fn = 36);
  // row of lightening holes right through, top to bottom
  for (i = [0:3]) translate([-70 + 13 * i, 0, 0]) rotate([3 * i, 2, 0]) cylinder(r = 3 + 0.4 * i, h = 200, center = true, $fn = 13 + 4 * i);
  // step notch and a shallow wedge
  translate([-30, 0, -1]) rotate([0, -2.5, 0]) cube([90, 80, 4], center = true);
  translate([128, 0, 63]) rotate([0, 17, 0]) cube([60, 3, 30], center = true);
}
