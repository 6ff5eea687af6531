// Package overlap finds what closed surfaces enclose more than once, so that
// it can be counted once.
//
// [Shared] gives what a solid shares with others as a closed chain of
// triangles: all that the union of them throws away of their surfaces. Its
// volume is the volume they share; its area is the area of surface that is
// inside one of them or pressed flat against it, and so is not wet. A hull that
// counts each part once and takes away what each shares with those before it
// has the volume, the moments, the waterplane and the wetted area of the union.
//
// [Once] does the same to a surface that passes through itself: what it winds
// around more than once is enclosed once.
//
// # How
//
// The corners are put on a lattice of 2^-50 of the size, finer than float32 by
// 2^26, and from there on all is decided in whole numbers, with float64 to
// settle what is clear. There is no tolerance: coplanar facets, edges on edges
// and corners on facets are cases like any other.
//
//  1. A tree of boxes gives the pairs of facets that may meet. What two facets
//     have in common, a point, a stretch of line or a part of a plane, cuts
//     both, with the same points (pair.go). Points where edges pass through
//     facets are exact fractions, each entered in a table once (points.go).
//  2. Each facet is triangulated anew with its cuts as sides (sheet.go,
//     draw.go), which needs no point that its neighbor has not got. So the
//     pieces close edge to edge.
//  3. Pieces form patches, connected over edges that two of them have to
//     themselves. One line through one piece of a patch tells what is in front
//     of all of it and what lies flat on it (pieces.go, look.go).
//  4. A piece is thrown away when it has the inside of a solid in front of it,
//     or another solid's facet flat on it that faces the same way. Two that
//     face each other both go.
//
// Only then are points rounded to float64, one by one: the chain stays closed
// whatever rounding does to it.
//
// What is not found: solids handed to Shared are taken not to pass through
// themselves, as mend.Close leaves them.
package overlap
