// Cuts and unions with manifold-3d.
//
// The library computes in double but hands meshes over in float32. To see the
// doubles, each coordinate is carried as three float32 vertex properties whose
// sum is the double.
import { readFileSync } from 'node:fs';
import Module from 'manifold-3d';
import { cross, dot, sub } from './stl.mjs';

const lib = await Module();
lib.setup();
export const { version } = JSON.parse(readFileSync(new URL('package.json', import.meta.resolve('manifold-3d'))));
const { Manifold, Mesh } = lib;

/** Manifold of a welded body with float32 coordinates. */
export function solid(body) {
  const m = new Manifold(new Mesh({
    numProp: 3,
    vertProperties: Float32Array.from(body.verts.flat()),
    triVerts: Uint32Array.from(body.tris.flat()),
  }));
  if (m.status() !== 'NoError') throw new Error(`manifold-3d: ${m.status()}`);
  return m;
}

export const union = (solids) => Manifold.union(solids);

/** Integrals of what lies where n.p + d < 0; own holds the runs of the whole. */
export function cut(whole, { n, d }, own) {
  const below = whole.trimByPlane(n.map((c) => -c), d);
  const r = integrals(below, own);
  below.delete();
  return r;
}

/** Integrals of a manifold; triangles of runs not in own are the cut. */
export function integrals(m, own) {
  const carried = m.setProperties(9, (out, p) => {
    for (let k = 0; k < 3; k++) {
      const a = Math.fround(p[k]);
      const b = Math.fround(p[k] - a);
      out[3 * k] = a;
      out[3 * k + 1] = b;
      out[3 * k + 2] = p[k] - a - b;
    }
  });
  const mesh = carried.getMesh();
  carried.delete();
  const v = mesh.vertProperties;
  const point = (i) => [0, 1, 2].map((k) => {
    const at = i * mesh.numProp + 3 + 3 * k;
    return v[at] + v[at + 1] + v[at + 2];
  });
  const count = mesh.triVerts.length / 3;
  if (count === 0) return { volume: 0, centroid: null, wetted_area: 0, ...(own && { cut_area: 0 }) };
  // Sum about a corner of the body, with the rounding carried along.
  const o = point(mesh.triVerts[0]);
  const sums = Array.from({ length: 6 }, () => new Sum());
  let run = 0;
  for (let i = 0; i < count; i++) {
    while (3 * i >= mesh.runIndex[run + 1]) run++;
    const p = [0, 1, 2].map((k) => sub(point(mesh.triVerts[3 * i + k]), o));
    const six = dot(p[0], cross(p[1], p[2]));
    sums[0].add(six / 6);
    for (let k = 0; k < 3; k++) sums[1 + k].add((six * (p[0][k] + p[1][k] + p[2][k])) / 24);
    const a = cross(sub(p[1], p[0]), sub(p[2], p[0]));
    sums[own && !own.has(mesh.runOriginalID[run]) ? 5 : 4].add(Math.sqrt(dot(a, a)) / 2);
  }
  const [volume, mx, my, mz, skin, lid] = sums.map((s) => s.value());
  return {
    volume,
    centroid: volume === 0 ? null : [mx, my, mz].map((c, k) => o[k] + c / volume),
    wetted_area: skin,
    ...(own && { cut_area: lid }),
  };
}

/** Neumaier sum. */
class Sum {
  s = 0;
  c = 0;
  add(x) {
    const t = this.s + x;
    this.c += Math.abs(this.s) >= Math.abs(x) ? this.s - t + x : x - t + this.s;
    this.s = t;
  }
  value() {
    return this.s + this.c;
  }
}
