// Makes every mesh and reference file. Called by make.sh as
//   node make.mjs HERE SCRATCH CUTTER [NAME...]
// HERE is the folder of the results, SCRATCH one for large and passing files,
// CUTTER the program built from reference.cpp; names limit the work to those.
import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join as path } from 'node:path';
import { cuts, formula, generate, unions } from './bodies.mjs';
import { cut, integrals, solid, union, version } from './manifold.mjs';
import { planes } from './planes.mjs';
import { join, shells, weld } from './shapes.mjs';
import { decode, encode, save, sha256 } from './stl.mjs';

const [here, scratch, cutter, ...only] = process.argv.slice(2);
mkdirSync(scratch, { recursive: true });
const wanted = (c) => only.length === 0 || only.includes(c.name);

for (const c of cuts.filter(wanted)) await makeCut(c);
for (const u of unions.filter(wanted)) await makeUnion(u);

async function makeCut(c) {
  const file = `${c.name}.stl`;
  const to = path(here, 'cut', file);
  if (c.scad) drawing(c.scad, to);
  else save(to, c.body(), c.name);
  const bytes = readFileSync(to);
  const body = decode(bytes);
  const list = planes(body, c.seed, c.counts);
  const cgal = runCutter(c.name, [to], list);
  const whole = solid(body);
  report(path(here, 'cut', `${c.name}.json`), {
    name: c.name,
    about: c.about,
    file,
    sha256: sha256(bytes),
    unit: c.unit,
    triangles: body.tris.length,
    shells: shells(body).length,
  }, body, whole, cgal, list);
}

async function makeUnion(u) {
  const parts = [];
  const bodies = [];
  const files = [];
  const names = Object.keys(u.scad ?? u.generated ?? u.parts());
  for (const name of names) {
    const part = { name };
    let bytes;
    if (u.generated) {
      part.generated = u.generated[name];
      const body = generate(part.generated);
      bytes = save(path(scratch, `${u.name}_${name}.stl`), body, `${u.name} ${name}`);
      files.push(path(scratch, `${u.name}_${name}.stl`));
      part.sha256_coordinates = sha256(coordinates(body));
    } else {
      part.file = u.reuse?.[name] ?? `${u.name}_${name}.stl`;
      const to = path(here, 'union', part.file);
      if (u.scad) drawing(u.scad[name], to, name);
      else if (!u.reuse) save(to, u.parts()[name], `${u.name} ${name}`);
      bytes = readFileSync(to);
      files.push(to);
      part.sha256 = sha256(bytes);
    }
    bodies.push(decode(bytes));
    part.triangles = bodies[bodies.length - 1].tris.length;
    parts.push(part);
  }
  // What the libraries unite: the parts, or stand-ins where those will not do.
  let solids = bodies;
  let about = 'Each library was given the parts as they are.';
  if (u.split) {
    solids = bodies.flatMap(shells);
    about = 'Each library was given the shells one by one.';
  }
  if (u.solids) {
    solids = u.solids().map(weld);
    about = u.solidsAbout;
  }
  const inputs = solids === bodies ? files : solids.map((b, i) => {
    const f = path(scratch, `${u.name}_solid${i}.stl`);
    writeFileSync(f, encode(b, `${u.name} solid ${i}`));
    return f;
  });
  const body = weld(join(...bodies));
  const list = planes(body, u.seed, u.counts);
  const cgal = runCutter(u.name, inputs, list, u.nef);
  report(path(here, 'union', `${u.name}.json`), {
    name: u.name, about: u.about, unit: u.unit, parts, solids: about, ...(u.generated && { formula }),
  }, body, union(solids.map(solid)), cgal, list, true);
}

function report(to, head, body, whole, cgal, list, united) {
  const full = integrals(whole, null);
  const own = new Set(whole.getMesh().runOriginalID);
  const [lo, hi] = [Math.min, Math.max].map((f) => [0, 1, 2].map((k) => body.verts.reduce((m, p) => f(m, p[k]), body.verts[0][k])));
  const size = Math.max(...hi.map((c, k) => c - lo[k]));
  const results = list.map((p, i) => {
    const { clip, why, direct } = cgal.planes[i];
    return { ...p, cgal: clip, ...(why && { cgal_missing: why }), direct, manifold: cut(whole, p, own) };
  });
  const v = cgal.whole.volume;
  const gap = (a, b, of) => (of(a) == null || of(b) == null ? 0 : Math.max(...[of(a)].flat().map((x, k) => Math.abs(x - [of(b)].flat()[k]))));
  // A moment keeps its meaning where the volume goes to zero, a centroid does not.
  const moment = (r) => r.centroid && r.centroid.map((c, k) => (c - cgal.whole.centroid[k]) * r.volume);
  const worst = (get, scale) => Math.max(...results.map(get)) / scale;
  const pairs = (name, a, b) => ({
    [`${name}_volume_over_whole_volume`]: worst((r) => (r[a] && r[b] ? gap(r[a], r[b], (x) => x.volume) : 0), v),
    [`${name}_moment_over_whole_volume_and_size`]: worst((r) => (r[a] && r[b] ? gap(r[a], r[b], moment) : 0), v * size),
  });
  const out = {
    ...head,
    below: 'n.p + d < 0, lengths in file units',
    size,
    libraries: {
      cgal: {
        version: cgal.version,
        calls: `${united ? `${cgal.method}; ` : ''}${cgal.method.startsWith('Nef') ? 'Nef_polyhedron_3 intersection with a half space' : 'Polygon_mesh_processing::clip'}`,
        exact: 'Epeck: exact predicates and constructions from the float32 mesh and the double plane; integrals summed from the exact coordinates in 512 bits and rounded to double once. Right to the last digit.',
        mesh_crosses_itself: cgal.self_intersecting_input,
      },
      direct: {
        exact: 'No library: each triangle of the same surface against the plane in GMP rationals, summed in 512 bits. As exact; a check on the clip and a stand-in where there is none.',
      },
      manifold: {
        version,
        calls: (united ? 'Manifold.union; ' : '') + 'trimByPlane',
        exact: 'Double precision, with vertices merged and edges collapsed within a tolerance; never exact. Measured differences are under agreement.',
        tolerance: whole.tolerance(),
      },
    },
    whole: { cgal: cgal.whole, ...(cgal.nef && { cgal_nef: cgal.nef }), manifold: full },
    ...(united && { solids_alone: cgal.parts }),
    agreement: {
      manifold_whole_volume: gap(cgal.whole, full, (x) => x.volume) / v,
      ...pairs('manifold', 'direct', 'manifold'),
      ...pairs('cgal', 'direct', 'cgal'),
    },
    planes: results,
  };
  writeFileSync(to, pretty(out));
  const missing = results.filter((r) => !r.cgal).length;
  console.log(head.name, cgal.method ?? '', 'V', v, 'nef', cgal.nef ? Math.abs(cgal.nef.volume - v) / v : '-',
    'planes', results.length, missing ? `no clip ${missing} (${[...new Set(results.map((r) => r.cgal_missing))].filter(Boolean)})` : '',
    'selfX', cgal.self_intersecting_input, out.agreement);
}

/** Exports a drawing, unless the stored export is there: other versions triangulate otherwise. */
function drawing(name, to, part) {
  if (existsSync(to)) return;
  execFileSync('openscad', ['-o', to, ...(part ? ['-D', `part="${part}"`] : []), path(here, 'scad', `${name}.scad`)], { stdio: 'pipe' });
}

function runCutter(name, files, list, nef) {
  const lines = [`job ${name}`, ...(nef ? ['nef'] : []), ...files.map((f) => `part ${f}`), ...list.map((p) => `plane ${[...p.n, p.d].join(' ')}`), 'end', ''];
  const r = spawnSync(cutter, { input: lines.join('\n'), maxBuffer: 1 << 28, encoding: 'utf8' });
  if (r.status !== 0) throw new Error(`${name}: ${r.stderr || r.error || r.signal}`);
  if (r.stderr) console.log(r.stderr.trim());
  return JSON.parse(r.stdout);
}

function coordinates(body) {
  const out = Buffer.alloc(36 * body.tris.length);
  body.tris.forEach((t, i) => t.forEach((k, j) => body.verts[k].forEach((c, q) => out.writeFloatLE(c, 36 * i + 12 * j + 4 * q))));
  return out;
}

/** JSON with one line for each innermost object or array, to keep diffs readable. */
function pretty(x) {
  const flat = (v) => v === null || typeof v !== 'object' || (Array.isArray(v) ? v.every((c) => typeof c === 'number') : Object.values(v).every((c) => c === null || typeof c !== 'object' || (Array.isArray(c) && flat(c))));
  const show = (v, pad) => {
    if (flat(v)) return JSON.stringify(v);
    const inner = `${pad} `;
    if (Array.isArray(v)) return `[\n${v.map((c) => inner + show(c, inner)).join(',\n')}\n${pad}]`;
    return `{\n${Object.entries(v).map(([k, c]) => `${inner}${JSON.stringify(k)}: ${show(c, inner)}`).join(',\n')}\n${pad}}`;
  };
  return `${show(x, '')}\n`;
}
