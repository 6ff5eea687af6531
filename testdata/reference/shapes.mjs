// Closed triangle bodies for the reference cuts and unions.
//
// A body is { verts: [[x, y, z], ...], tris: [[a, b, c], ...] }, outward facing
// anticlockwise. Circles are rational (half angle), so that every coordinate
// comes from +, -, * and / alone and is the same on every machine.

/** Seeded generator of doubles in [0, 1) (mulberry32). */
export function random(seed) {
  let a = seed >>> 0;
  return () => {
    a = (a + 0x6d2b79f5) >>> 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Point j of m (a multiple of 4) on the unit circle, [cos, sin]. */
export function circle(j, m) {
  const k = m / 4;
  const q = Math.floor(j / k) % 4;
  const t = (j % k) / k;
  const c = (1 - t * t) / (1 + t * t);
  const s = (2 * t) / (1 + t * t);
  return [[c, s], [-s, c], [-c, -s], [s, -c]][q];
}

/** Axis-aligned box from corner a to corner b. flip turns every diagonal. */
export function box(a, b, flip = false) {
  const verts = [];
  for (let i = 0; i < 8; i++) verts.push([0, 1, 2].map((k) => ((i >> k) & 1 ? b[k] : a[k])));
  const quads = [[0, 2, 3, 1], [4, 5, 7, 6], [0, 1, 5, 4], [2, 6, 7, 3], [0, 4, 6, 2], [1, 3, 7, 5]];
  const tris = quads.flatMap(([p, q, r, s]) => (flip ? [[q, r, s], [q, s, p]] : [[p, q, r], [p, r, s]]));
  return { verts, tris };
}

/**
 * Skin over rings of equal length, each anticlockwise seen from the far (last)
 * end, with a fan over either end. Rings may share points: triangles without
 * area are dropped after welding.
 */
export function loft(rings) {
  const m = rings[0].length;
  const verts = rings.flat();
  const tris = [];
  for (let i = 0; i + 1 < rings.length; i++) {
    for (let j = 0; j < m; j++) {
      const [a, b] = [i * m + j, i * m + ((j + 1) % m)];
      tris.push([a, b, b + m], [a, b + m, a + m]);
    }
  }
  const last = (rings.length - 1) * m;
  for (let j = 1; j + 1 < m; j++) {
    tris.push([0, j + 1, j], [last, last + j, last + j + 1]);
  }
  return weld({ verts, tris });
}

/**
 * Ellipsoid-like body of 2 m (n - 1) triangles: poles on x; point gives a
 * place from the circles along (C, S) and around (c, s).
 */
export function globe(n, m, point = (C, S, c, s) => [C, S * c, S * s]) {
  const verts = [];
  for (let i = 1; i < n; i++) {
    const [C, S] = circle(i, 2 * n);
    for (let j = 0; j < m; j++) {
      const [c, s] = circle(j, m);
      verts.push(point(C, S, c, s));
    }
  }
  const first = verts.push(point(1, 0, 1, 0)) - 1;
  const last = verts.push(point(-1, 0, 1, 0)) - 1;
  const tris = [];
  for (let j = 0; j < m; j++) {
    const k = (j + 1) % m;
    tris.push([first, j, k]);
    for (let i = 0; i + 2 < n; i++) {
      const [a, b] = [i * m + j, i * m + k];
      tris.push([a, a + m, b + m], [a, b + m, b]);
    }
    tris.push([last, (n - 2) * m + k, (n - 2) * m + j]);
  }
  return { verts, tris };
}

/** Torus about z: ring radius R, tube half width a (radial) and b (along z). */
export function torus(R, a, b, n, m) {
  const verts = [];
  const tris = [];
  for (let i = 0; i < n; i++) {
    const [C, S] = circle(i, n);
    for (let j = 0; j < m; j++) {
      const [c, s] = circle(j, m);
      verts.push([(R + a * c) * C, (R + a * c) * S, b * s]);
      const k = (j + 1) % m;
      const [p, q, r, t] = [i * m + j, ((i + 1) % n) * m + j, ((i + 1) % n) * m + k, i * m + k];
      tris.push([p, q, r], [p, r, t]);
    }
  }
  return { verts, tris };
}

/** Prism over a regular (rational) m-gon of radius r from point a along x, y or z (axis 0, 1, 2). */
export function cylinder(a, axis, length, r, m) {
  const [u, v] = [(axis + 1) % 3, (axis + 2) % 3];
  const ring = (h) => Array.from({ length: m }, (_, j) => {
    const [c, s] = circle(j, m);
    const p = [...a];
    p[axis] += h;
    p[u] += r * c;
    p[v] += r * s;
    return p;
  });
  return loft([ring(0), ring(length)]);
}

/**
 * Seaplane float, bow toward +x from x = 0 (stern) to 900, one step at x = 430:
 * V bottom, chine, upright side, crowned deck. halved gives the port half of
 * one without a step, closed by a flat face at y = 0.
 */
export function float(stations = 44, halved = false) {
  const at = (x, fore) => {
    const u = x / 900;
    const bow = Math.max(0, (u - 0.55) / 0.45);
    const half = 52 * (1 - bow * bow * bow * 0.9) * (1 - 0.35 * (1 - u) * (1 - u));
    const keel = fore ? 62 * bow * bow * bow : 14 + (430 - x) * 0.09;
    const chine = keel + (fore ? 20 + 6 * bow : 14) * (half / 52);
    const deck = 96 - 10 * (1 - u) * (1 - u) - 6 * bow * bow;
    const side = [];
    const low = fore ? half : 0.96 * half; // the afterbody's bottom lies within the forebody's at the step
    for (let i = 1; i <= 5; i++) { // keel to chine, rounding up a little
      const t = i / 5;
      side.push([low * t, keel + (chine - keel) * t * (0.85 + 0.15 * t)]);
    }
    for (let i = 1; i <= 3; i++) side.push([[low * 0.98, half * 0.95, half * 0.9][i - 1], chine + ((deck - 8 - chine) * i) / 3]);
    for (let i = 1; i <= 4; i++) {
      const t = i / 5;
      side.push([half * 0.9 * (1 - t), deck - 8 + 8 * t * (2 - t)]);
    }
    const ring = [[x, 0, keel], ...side.map(([y, z]) => [x, y, z]), [x, 0, deck]];
    for (let i = side.length - 1; i >= 0 && !halved; i--) ring.push([x, -side[i][0], side[i][1]]);
    return ring;
  };
  if (halved) return loft(Array.from({ length: stations + 1 }, (_, i) => at((900 * i) / stations, true)));
  const rings = [];
  const aft = Math.round(stations * 0.4);
  for (let i = 0; i <= aft; i++) rings.push(at((430 * i) / aft, false));
  // The deck and the sides run through at the step: only the bottom jumps.
  const step = at(430, true);
  for (let i = 0; i <= stations - aft; i++) {
    const x = 430 + (470 * i) / (stations - aft);
    rings.push(i === 0 ? step.map((p, j) => (p[2] > 48 ? rings[rings.length - 1][j] : p)) : at(x, true));
  }
  return loft(rings);
}

/**
 * Round tube of radius r along a figure of eight that climbs so little that it
 * runs into itself at the crossing. Stations from to last of 64.
 */
export function eight(from, last, r) {
  const rings = [];
  for (let i = from; i <= last; i++) {
    const [C, S] = circle(i, 64);
    const [tx, ty] = [-S, C * C - S * S]; // tangent of (C, C S)
    const l = Math.sqrt(tx * tx + ty * ty);
    rings.push(Array.from({ length: 16 }, (_, j) => {
      const [c, s] = circle(j, 16);
      return [100 * C - (r * c * ty) / l, 100 * C * S + (r * c * tx) / l, i / 4 + r * s];
    }));
  }
  return loft(rings);
}

/** Body moved point by point. */
export const map = (b, f) => ({ verts: b.verts.map((p) => f(...p)), tris: b.tris });
export const move = (b, x, y, z) => map(b, (p, q, r) => [p + x, q + y, r + z]);
export const turnedInside = (b) => ({ verts: b.verts, tris: b.tris.map(([p, q, r]) => [p, r, q]) });
/** Mirrored in the plane y = 0, facing outward. */
export const mirror = (b) => turnedInside(map(b, (x, y, z) => [x, -y, z]));
/** Several bodies as shells of one. */
export function join(...bodies) {
  const verts = [];
  const tris = [];
  for (const b of bodies) {
    const k = verts.length;
    verts.push(...b.verts);
    tris.push(...b.tris.map((t) => t.map((i) => i + k)));
  }
  return { verts, tris };
}

/** Rotation by the quaternion w + xi + yj + zk of any length, as a function of a point. */
export function turn(w, x, y, z) {
  const s = 2 / (w * w + x * x + y * y + z * z);
  const m = [
    [1 - s * (y * y + z * z), s * (x * y - w * z), s * (x * z + w * y)],
    [s * (x * y + w * z), 1 - s * (x * x + z * z), s * (y * z - w * x)],
    [s * (x * z - w * y), s * (y * z + w * x), 1 - s * (x * x + y * y)],
  ];
  return (...p) => m.map((r) => r[0] * p[0] + r[1] * p[1] + r[2] * p[2]);
}

/** Body with coordinates rounded to float32, equal points made one, triangles of two points dropped. */
export function weld(b) {
  const seen = new Map();
  const verts = [];
  const to = b.verts.map((p) => {
    const q = p.map((c) => Math.fround(c) + 0); // + 0 makes -0 into 0
    const key = q.join();
    if (!seen.has(key)) seen.set(key, verts.push(q) - 1);
    return seen.get(key);
  });
  const tris = b.tris
    .map((t) => t.map((i) => to[i]))
    .filter(([p, q, r]) => p !== q && q !== r && r !== p);
  return { verts, tris };
}

/** Shells of a welded body, as bodies of their own, in order of their first triangle. */
export function shells(b) {
  const up = b.verts.map((_, i) => i);
  const root = (i) => {
    while (up[i] !== i) i = up[i] = up[up[i]];
    return i;
  };
  for (const [p, q, r] of b.tris) {
    up[root(q)] = root(p);
    up[root(r)] = root(p);
  }
  const parts = new Map();
  for (const t of b.tris) {
    const k = root(t[0]);
    if (!parts.has(k)) parts.set(k, []);
    parts.get(k).push(t);
  }
  return [...parts.values()].map((tris) => {
    const to = new Map();
    const verts = [];
    const renamed = tris.map((t) => t.map((i) => {
      if (!to.has(i)) to.set(i, verts.push(b.verts[i]) - 1);
      return to.get(i);
    }));
    return { verts, tris: renamed };
  });
}
