// STL in and out, and checks that a body is closed.
import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { weld } from './shapes.mjs';

/** Binary STL of a body; coordinates are rounded to float32. */
export function encode(body, name) {
  const out = Buffer.alloc(84 + 50 * body.tris.length);
  out.write(`reference mesh ${name}`.slice(0, 80), 0, 'latin1');
  out.writeUInt32LE(body.tris.length, 80);
  body.tris.forEach((t, i) => {
    const p = t.map((k) => body.verts[k].map((c) => Math.fround(c)));
    const n = cross(sub(p[1], p[0]), sub(p[2], p[0]));
    const l = Math.sqrt(n[0] * n[0] + n[1] * n[1] + n[2] * n[2]) || 1;
    [...n.map((c) => c / l), ...p.flat()].forEach((c, k) => out.writeFloatLE(c + 0, 84 + 50 * i + 4 * k));
  });
  return out;
}

/** Welded body of an STL file, binary or ASCII, coordinates rounded to float32. */
export function decode(bytes) {
  const verts = [];
  const count = bytes.length >= 84 ? bytes.readUInt32LE(80) : -1;
  if (bytes.length === 84 + 50 * count) {
    for (let i = 0; i < count; i++) {
      for (let k = 0; k < 3; k++) {
        const at = 84 + 50 * i + 12 + 12 * k;
        verts.push([bytes.readFloatLE(at), bytes.readFloatLE(at + 4), bytes.readFloatLE(at + 8)]);
      }
    }
  } else {
    for (const m of bytes.toString('latin1').matchAll(/vertex\s+(\S+)\s+(\S+)\s+(\S+)/g)) {
      verts.push([Number(m[1]), Number(m[2]), Number(m[3])]);
    }
  }
  const tris = [];
  for (let i = 0; i < verts.length; i += 3) tris.push([i, i + 1, i + 2]);
  return weld({ verts, tris });
}

export const sha256 = (bytes) => createHash('sha256').update(bytes).digest('hex');
export const load = (path) => decode(readFileSync(path));

/** Writes a body as binary STL after checking it, and gives the bytes. */
export function save(path, body, name) {
  checkClosed(weld(body), name);
  const bytes = encode(body, name);
  writeFileSync(path, bytes);
  return bytes;
}

/** Throws unless each directed edge has exactly one partner the other way. */
export function checkClosed(body, name) {
  const edges = new Map();
  for (const t of body.tris) {
    for (let k = 0; k < 3; k++) {
      const key = `${t[k]} ${t[(k + 1) % 3]}`;
      edges.set(key, (edges.get(key) ?? 0) + 1);
    }
  }
  let bad = 0;
  for (const [key, n] of edges) {
    const [a, b] = key.split(' ');
    if (edges.get(`${b} ${a}`) !== n) bad++;
  }
  if (bad) throw new Error(`${name}: ${bad} open edges`);
}

export const sub = (a, b) => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const dot = (a, b) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a, b) => [
  a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0],
];
export const unit = (a) => {
  const l = Math.sqrt(dot(a, a));
  return a.map((c) => c / l);
};
