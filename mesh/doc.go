// Package mesh holds closed triangle meshes and integrates them below planes.
//
// It knows triangles, affine maps and planes, and nothing of water, mass,
// gravity or files. The usual way through it:
//
//  1. meshfile.Read gives a [Mesh]: vertices and triangles as a file had them,
//     in the file's own coordinates, with nothing promised about them.
//  2. mend.Close welds, checks and mends it and gives a [Solid]: closed,
//     oriented outward, immutable, safe for concurrent use.
//  3. [Placed] sets a Solid somewhere with an [Affine] map (which also carries
//     the file's unit, its axes, a mirror, a stretch). The Solid is never
//     copied for that.
//  4. [Placed.Below] gives a [Section]: volume, first moment and the
//     waterplane's moments of the part below a [Plane]. Whoever has many cuts
//     ahead says so by [Solid.Prepare] and gets them in the time that the
//     triangles along the waterline take, not all triangles.
//
// A plane is given by its unit normal and an offset; the side where the height
// normal.p + offset is below zero is called wet, and a vertex at height exactly
// zero is dry. That one rule, computed by one formula, decides every case, so
// that planes through vertices, edges and facets need no special treatment.
//
// Lengths have whatever unit the caller uses; a Section's volume is in that
// unit cubed, and so on. Angles are radians.
package mesh
