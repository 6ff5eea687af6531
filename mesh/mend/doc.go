// Package mend turns a mesh as read from a file into a closed solid, and says
// what it found and what it did.
//
// [Close] works in the file's own coordinates and unit, in this order:
//
//  1. Equal vertices are welded; facets with two equal corners, facets that are
//     there twice and fins without thickness are dropped.
//  2. Facets are paired along their edges, and turned where they face the
//     other way from most of their shell.
//  3. Where edges stay open: vertices that nearly meet are merged (if a
//     tolerance is given), facets are split where a vertex lies on their open
//     edge, and small planar holes are closed, others too where that is asked
//     for. How much volume may be missing behind them is worked out from how
//     the facets around slope toward them. What stays open then is refused
//     with a [*HolesError] that says where, and which options would close it.
//  4. Shells, the parts of the surface connected over edges, are measured.
//     Inside-out ones are turned. A shell within another displaces nothing of
//     its own, whatever way it faces: water reaches only the outermost one.
//  5. Where the outer shells pass through themselves or each other, the surface
//     of all that they wind around takes their place (package overlap), so that
//     what they share counts once. Pairs names the shells that cross. What
//     they shut in between them is a cavity: water does not reach it either.
//
// Nothing is silent: [Report] counts each step, and says in plain words what
// was changed. The result depends on neither the order of the triangles nor on
// which corner comes first, except for rounding in sums.
//
// [Cross] tells how two placed solids lie to each other, [Pairs] the same for
// many.
package mend
