// Cuts float-N.off by the planes of planes.txt with manifold-3d and prints one
// line: size, milliseconds to prepare, least milliseconds of a cut, and how far
// the volumes are from those in volumes-N.txt at most, relative. It keeps
// vertices in float32, as STL does.
//
//	node manifold.mjs DIR SIZE CUTS
import {readFileSync} from 'node:fs';
import Module from 'manifold-3d';

const [dir, size, cuts] = process.argv.slice(2);
const wasm = await Module();
wasm.setup();
const {Manifold, Mesh} = wasm;

const numbers = name => readFileSync(`${dir}/${name}`, 'utf8').trim().split(/\s+/);
const off = numbers(`float-${size}.off`); // OFF nv nt 0, vertices, then "3 a b c" each
const nv = +off[1], nt = +off[2];
const vertProperties = new Float32Array(3 * nv), triVerts = new Uint32Array(3 * nt);
for (let i = 0; i < 3 * nv; i++) vertProperties[i] = +off[4 + i];
for (let i = 0; i < nt; i++) for (let k = 0; k < 3; k++) triVerts[3 * i + k] = +off[4 + 3 * nv + 4 * i + 1 + k];

let start = performance.now();
const body = new Manifold(new Mesh({numProp: 3, vertProperties, triVerts}));
body.volume();
const prepared = performance.now() - start;

const planes = numbers('planes.txt').map(Number), volumes = numbers(`volumes-${size}.txt`).map(Number);
let least = Infinity, worst = 0;
for (let i = 0; i < Math.min(+cuts, volumes.length); i++) {
  const [a, b, c, d] = planes.slice(4 * i, 4 * i + 4);
  start = performance.now();
  const part = body.trimByPlane([-a, -b, -c], d); // what is on the side the vector points to
  const volume = part.volume();
  least = Math.min(least, performance.now() - start);
  worst = Math.max(worst, Math.abs(volume / volumes[i] - 1));
  part.delete();
}
console.log(`peer manifold ${size} ${prepared.toPrecision(3)} ${least.toPrecision(6)} ${worst.toPrecision(2)}`);
