// Cutting planes for a body: { kind, n, d } with n of unit length; below means
// n.p + d < 0. kind says why a plane is there.
import { cross, dot, sub, unit } from './stl.mjs';
import { random } from './shapes.mjs';

/** counts is { random, level, vertex, edge, facet, tangent }, each a number of planes. */
export function planes(body, seed, counts) {
  const rnd = random(seed);
  const pick = (list) => list[Math.floor(rnd() * list.length)];
  const direction = () => {
    for (;;) {
      const v = [0, 0, 0].map(() => 2 * rnd() - 1);
      const l = dot(v, v);
      if (l > 0.01 && l < 1) return unit(v);
    }
  };
  const lo = [0, 1, 2].map((k) => body.verts.reduce((m, p) => Math.min(m, p[k]), Infinity));
  const hi = [0, 1, 2].map((k) => body.verts.reduce((m, p) => Math.max(m, p[k]), -Infinity));
  const size = Math.max(...sub(hi, lo));
  const out = [];
  const through = (kind, n, p, more) => out.push({ kind, ...more, n, d: -dot(n, p) + 0 });
  const point = (low, high) => [0, 1, 2].map((k) => lo[k] + (low + (high - low) * rnd()) * (hi[k] - lo[k]));

  for (let i = 0; i < counts.random; i++) through('random', direction(), point(0.3, 0.7));

  // n as the water's up vector: trim nose up, heel starboard down.
  for (let i = 0; i < counts.level; i++) {
    const [trim, heel] = i === 0 ? [0, 0] : [Math.round(120 * rnd() - 60) / 10, Math.round(100 * rnd() - 50) / 10];
    const [t, h] = [trim, heel].map((a) => (a * Math.PI) / 180);
    const n = [Math.sin(t), Math.cos(t) * Math.sin(h), Math.cos(t) * Math.cos(h)];
    const p = [0, 1, 2].map((k) => (lo[k] + hi[k]) / 2);
    p[2] = lo[2] + (0.15 + (0.7 * (i + 0.5)) / counts.level) * (hi[2] - lo[2]);
    through('level', n, p, { trim_deg: trim, heel_deg: heel });
  }

  // Through vertices: exactly for a plane across an axis, else to rounding.
  const axes = [[0, 0, 1], [0, 0, -1], [1, 0, 0], [0, -1, 0], [0, 1, 0], [-1, 0, 0]];
  for (let i = 0; i < counts.vertex; i++) through('vertex', i % 2 ? direction() : axes[(i / 2) % 6], pick(body.verts));

  // Through both ends of an edge.
  for (let i = 0; i < counts.edge; i++) {
    const t = pick(body.tris);
    const along = sub(body.verts[t[1]], body.verts[t[0]]);
    through('edge', unit(cross(unit(along), direction())), body.verts[t[0]]);
  }

  // Through the largest facets that look different ways, seen from either side.
  const facets = body.tris.map((t) => {
    const [a, b, c] = t.map((i) => body.verts[i]);
    const v = cross(sub(b, a), sub(c, a));
    return { a, area: dot(v, v), n: unit(v) };
  }).filter((f) => f.area > 0).sort((f, g) => g.area - f.area);
  const kept = [];
  for (const f of facets) {
    if (kept.length * 2 >= counts.facet) break;
    if (kept.every((g) => Math.abs(dot(f.n, g.n)) < 0.99)) kept.push(f);
  }
  for (const f of kept) {
    const n = f.n.map((c) => (Math.abs(c) < 1e-15 ? 0 : Math.abs(c) > 1 - 1e-15 ? Math.sign(c) : c));
    through('facet', n, f.a);
    through('facet', n.map((c) => -c + 0), f.a);
  }

  // Nearly all below, nearly none: a little inside the farthest vertex.
  const depths = [1e-2, 1e-4, 1e-6];
  for (let i = 0; i < counts.tangent; i++) {
    const n = direction();
    const h = body.verts.map((p) => dot(n, p));
    const e = depths[Math.floor(i / 2) % 3] * size;
    const far = h.reduce((m, v) => (i % 2 ? Math.min(m, v) : Math.max(m, v)));
    out.push({ kind: i % 2 ? 'tangent, little below' : 'tangent, little above', n, d: i % 2 ? -(far + e) : -(far - e) });
  }
  return out;
}
