// What is cut and what is united.
import {
  box, cylinder, eight, float, globe, join, map, mirror, move, random, torus, turn, turnedInside, weld,
} from './shapes.mjs';

const turned = (b, w, x, y, z) => map(b, turn(w, x, y, z));
const scaled = (b, k, l, m) => map(b, (x, y, z) => [k * x, l * y, m * z]);

const all = { random: 6, level: 4, vertex: 4, edge: 2, facet: 6, tangent: 6 };

/** Meshes to cut. scad names a drawing under scad/ that openscad exports. */
export const cuts = [
  { name: 'cad_hull', scad: 'cad_hull', seed: 101, counts: all, unit: 'mm',
    about: 'Hull plug exported by openscad as ASCII: holes right through, rounded rim, needle facets; genus 9.' },
  { name: 'float_step', body: () => float(), seed: 102, counts: all, unit: 'mm',
    about: 'Seaplane float with one step, V bottom and crowned deck; bow toward +x.' },
  { name: 'ellipsoid_turned', seed: 103, counts: all, unit: 'm',
    body: () => turned(scaled(globe(30, 48), 1.7, 0.6, 0.45), 0.9, 0.31, -0.23, 0.17),
    about: 'Ellipsoid turned so that nothing is aligned, coordinates rounded to float32.' },
  { name: 'torus', body: () => torus(60, 22, 15, 48, 24), seed: 104, counts: all, unit: 'mm',
    about: 'Ring with a hole through it (genus 1), axis z; many vertices share a level.' },
  { name: 'twin', seed: 105, counts: all, unit: 'mm',
    body: () => join(move(float(26), 0, 140, 0), mirror(move(float(26), 0, 140, 0))),
    about: 'Two floats side by side: two shells that do not touch, mirror images in y = 0.' },
  { name: 'far_float', seed: 106, counts: all, unit: 'mm',
    body: () => move(float(26), 20480, -10240, 5120),
    about: 'A float drawn some 25 lengths from the origin, where float32 has steps of 0.002.' },
  { name: 'box', body: () => box([-6, -2, -1], [10, 3, 2]), seed: 107, counts: all, unit: 'm',
    about: 'A box of whole numbers, for closed forms.' },
];

const boxes = (seed, count) => {
  const rnd = random(seed);
  const n = (k) => Math.floor(rnd() * k);
  return Array.from({ length: count }, () => {
    const a = [n(9), n(9), n(9)];
    return box(a, a.map((c) => c + 1 + n(4)), rnd() < 0.5);
  });
};
const flush = () => ({
  slab: box([0, 0, 0], [400, 100, 20]),
  strip: box([50, 10, -60], [350, 40, 0]), // glued flat under it
  edge: box([50, 70, -60], [400, 100, 0], true), // the same, two sides flush with the slab's
  extension: box([380, 0, 0], [480, 100, 20]), // lengthens the slab, top and bottom flush
});
const each = (parts, f) => Object.fromEntries(Object.entries(parts).map(([k, b]) => [k, f(b)]));
const cavity = (a, b) => turnedInside(box([a, a, a], [b, b, b]));
const big = (o) => globe(o.n, o.m, (C, S, c, s) => {
  const x = o.L * C;
  const y = o.y + o.B * (S * c);
  const z = o.z + (o.H * (S * s) + o.R * (C * C));
  return [(o.cos * x - o.sin * y) / o.div, (o.sin * x + o.cos * y) / o.div, z];
});
const plain = { n: 626, m: 80, L: 450, B: 50, H: 40, R: 30, y: 0, z: 0, cos: 1, sin: 0, div: 1 };
export const formula = [
  'circle(j, m): k = m/4, q = floor(j/k) mod 4, t = (j mod k)/k, c = (1 - t*t)/(1 + t*t), s = (2*t)/(1 + t*t);',
  '  (c, s), (-s, c), (-c, -s), (s, -c) for q = 0, 1, 2, 3.',
  'vertex i, j for i = 1 .. n-1 (outer), j = 0 .. m-1 (inner), number (i-1)*m + j: (C, S) = circle(i, 2*n), (c, s) = circle(j, m);',
  '  x = L*C; y = y0 + B*(S*c); z = z0 + (H*(S*s) + R*(C*C));',
  '  point = ((cos*x - sin*y)/div, (sin*x + cos*y)/div, z), y negated at the end where mirrored.',
  'vertex (n-1)*m: C = 1, S = 0, c = 1, s = 0; vertex (n-1)*m + 1: C = -1, S = 0, c = 1, s = 0.',
  'triangles, for j = 0 .. m-1 with k = (j+1) mod m: (first pole, j, k); then for i = 0 .. n-3 with a = i*m + j, b = i*m + k:',
  '  (a, a+m, b+m), (a, b+m, b); then (last pole, (n-2)*m + k, (n-2)*m + j). Where mirrored the last two corners of each are swapped.',
  'Each operation rounds to float64 in the order written, none fused; coordinates are then rounded to float32, and -0 becomes 0.',
  'sha256 is of the coordinates as little-endian float32, x y z of the three corners of each triangle in order (36 bytes a triangle).',
];

const some = { random: 3, level: 2, vertex: 2, edge: 0, facet: 4, tangent: 1 };
const few = { random: 3, level: 2, vertex: 1, edge: 0, facet: 0, tangent: 1 };

/**
 * Assemblies to unite. parts are what the files hold; solids what the libraries
 * are given, where they cannot take the parts as they are.
 */
export const unions = [
  { name: 'box_cylinder', seed: 201, unit: 'mm', about: 'A box and a tilted 64-sided prism through it.',
    parts: () => ({
      box: box([-150, -40, -30], [150, 40, 30]),
      cylinder: turned(cylinder([0, 0, -100], 2, 200, 25, 64), 1, 0.21, -0.13, 0.05),
    }) },
  { name: 'slab_floats', seed: 202, unit: 'mm', about: 'Two mirrored floats let into a slab.',
    parts: () => ({
      slab: box([200, -300, 84], [420, 300, 104]),
      port: move(float(22), 0, 180, 0),
      starboard: mirror(move(float(22), 0, 180, 0)),
    }) },
  { name: 'coplanar_boxes', seed: 203, unit: 'm', about: 'Overlapping boxes with coplanar faces looking the same way.',
    parts: () => ({ a: box([0, 0, 0], [4, 3, 2]), b: box([2, 0, 1], [6, 3, 3]), c: box([1, 1, 0], [5, 3, 2], true) }) },
  { name: 'flush', seed: 204, unit: 'mm', about: 'Boxes glued flat under a slab and on end: faces that touch facing each other, some flush at the sides.',
    parts: flush },
  { name: 'identical_boxes', seed: 205, unit: 'm', about: 'The same box three times, once with the other diagonals: every face coincides.',
    parts: () => ({ a: box([0, 0, 0], [4, 3, 2]), b: box([0, 0, 0], [4, 3, 2]), c: box([0, 0, 0], [4, 3, 2], true) }) },
  { name: 'self_overlap', seed: 206, unit: 'mm', about: 'One tube in a figure of eight that runs through itself.',
    parts: () => ({ tube: eight(6, 58, 12) }),
    solids: () => [eight(6, 32, 12), eight(32, 58, 12)],
    solidsAbout: 'Neither library takes a mesh that crosses itself: each was given the tube in two halves, same triangles, with two flat ends where it is parted.' },
  { name: 'crossing_shells', seed: 207, unit: 'mm', about: 'Three shells that cross, in one file.',
    parts: () => ({ shells: join(
      scaled(globe(16, 24), 60, 25, 20),
      turned(scaled(globe(16, 24), 50, 15, 15), 1, 0.1, 0.7, 0.9),
      box([-70, -8, -6], [10, 8, 30])) }),
    split: true },
  { name: 'cavity_pod', seed: 208, unit: 'mm', about: 'A hollow box (an inverted shell within) and a pod through both walls and the cavity. The cavity is empty: it displaces nothing.',
    parts: () => ({
      hollow: join(box([0, 0, 0], [100, 100, 100]), cavity(10, 90)),
      pod: cylinder([-30, 50, 50], 0, 160, 18, 24),
    }) },
  { name: 'cavity_filled', seed: 209, unit: 'mm', about: 'The same files as cavity_pod with the cavity counted as solid: water does not reach it, so the outer envelope displaces.',
    reuse: { hollow: 'cavity_pod_hollow.stl', pod: 'cavity_pod_pod.stl' },
    parts: () => ({
      hollow: join(box([0, 0, 0], [100, 100, 100]), cavity(10, 90)),
      pod: cylinder([-30, 50, 50], 0, 160, 18, 24),
    }),
    solids: () => [box([0, 0, 0], [100, 100, 100]), cylinder([-30, 50, 50], 0, 160, 18, 24)],
    solidsAbout: 'Each library was given the outer shell of the hollow box alone.' },
  { name: 'nested_shells', seed: 210, unit: 'mm', about: 'Four shells, each within the last, solid and empty in turn, and a pod through the outer wall into the first cavity.',
    parts: () => ({
      nest: join(box([0, 0, 0], [100, 100, 100]), cavity(10, 90), box([30, 30, 30], [70, 70, 70]), cavity(40, 60)),
      pod: move(turned(cylinder([-20, 0, 0], 0, 40, 9, 20), 1, 0.3, 0.04, -0.02), 0, 50, 50),
    }) },
  { name: 'halves_meet', seed: 211, unit: 'mm', about: 'A float without a step in mirrored halves that meet face to face at y = 0.',
    parts: () => ({ port: float(20, true), starboard: mirror(float(20, true)) }) },
  { name: 'halves_overlap', seed: 212, unit: 'mm', about: 'The same halves set 3 mm too far in, so that they cross the centerline.',
    parts: () => ({ port: move(float(20, true), 0, -3, 0), starboard: mirror(move(float(20, true), 0, -3, 0)) }) },
  { name: 'turned_boxes', seed: 213, unit: 'm', about: 'The boxes of coplanar_boxes turned together and rounded to float32: faces meant to be coplanar are not quite.',
    parts: () => ({
      a: turned(box([0, 0, 0], [4, 3, 2]), 1, 0.3, 0.2, -0.4),
      b: turned(box([2, 0, 1], [6, 3, 3]), 1, 0.3, 0.2, -0.4),
      c: turned(box([1, 1, 0], [5, 3, 2], true), 1, 0.3, 0.2, -0.4),
    }) },
  { name: 'turned_flush', seed: 214, unit: 'mm', about: 'The boxes of flush turned together and rounded to float32: faces meant to touch leave hair gaps and overlaps.',
    parts: () => each(flush(), (b) => turned(b, 1, -0.17, 0.09, 0.35)) },
  { name: 'hair', seed: 215, unit: 'm', about: 'Boxes with a gap, an overlap and an offset of 2^-20 (about 1e-6) between them.',
    parts: () => ({
      middle: box([0, 0, 0], [1, 1, 1]),
      gap: box([1 + 2 ** -20, 0.25, 0], [1.75, 0.75, 1]),
      overlap: box([-0.5, 0, 0], [2 ** -20, 1, 1 - 2 ** -20]),
      offset: box([0.25, 0.5, 2 ** -20], [0.75, 1.5, 1 + 2 ** -20]),
    }) },
  { name: 'spheres', seed: 216, unit: 'mm', about: 'Two faceted spheres of radius 50 set 60 apart, the second turned.',
    parts: () => ({
      a: scaled(globe(24, 32), 50, 50, 50),
      b: move(turned(scaled(globe(24, 32), 50, 50, 50), 1, 0.4, -0.3, 0.2), 60, 0, 0),
    }) },
  { name: 'crossed_cylinders', seed: 217, unit: 'mm', about: 'Two 128-sided prisms of one radius that cross at a right angle and touch in two points of an edge each.',
    parts: () => ({ x: cylinder([-50, 0, 0], 0, 100, 20, 128), y: cylinder([0, -60, 0], 1, 120, 20, 128) }) },
  { name: 'edge_contact', seed: 218, unit: 'm', about: 'Boxes that touch along an edge and in a corner only.',
    parts: () => ({ a: box([0, 0, 0], [2, 2, 2]), b: box([2, 2, 0], [4, 4, 2]), c: box([-1, -1, 2], [0, 0, 3]) }) },
  { name: 'cell_boxes', seed: 219, unit: 'm', about: 'Fourteen boxes of whole numbers in one file, many faces shared.',
    nef: true, // corefinement never ends on it
    parts: () => ({ shells: join(...boxes(21, 14)) }), solids: () => boxes(21, 14),
    solidsAbout: 'Each library was given the boxes one by one.' },
  { name: 'cell_boxes_turned', seed: 220, unit: 'm', about: 'The same fourteen boxes, turned together and rounded to float32.',
    nef: true,
    parts: () => ({ shells: join(...boxes(21, 14).map((b) => turned(b, 1, 0.21, -0.33, 0.4))) }),
    solids: () => boxes(21, 14).map((b) => turned(b, 1, 0.21, -0.33, 0.4)),
    solidsAbout: 'Each library was given the boxes one by one.' },
  { name: 'cad_assembly', seed: 221, unit: 'mm', about: 'Hull, wing and pod of a small flying boat, exported by openscad as ASCII.',
    scad: { hull: 'cad_assembly', wing: 'cad_assembly', pod: 'cad_assembly' } },
  { name: 'big_crossing', seed: 222, unit: 'mm', counts: few, about: 'Two bodies of 100,000 triangles that cross at 16 degrees.',
    generated: { a: plain, b: { ...plain, y: 10, z: 15, cos: 24, sin: 7, div: 25 } } },
  { name: 'big_mirrored', seed: 223, unit: 'mm', counts: few, about: 'A body of 100,000 triangles and its mirror image in y = 0, which it crosses there.',
    generated: { port: { ...plain, y: 30 }, starboard: { ...plain, y: 30, mirrored: true } } },
].map((u) => ({ counts: some, ...u }));

/** Body of a generated part. */
export const generate = (o) => weld(o.mirrored ? mirror(big(o)) : big(o));
