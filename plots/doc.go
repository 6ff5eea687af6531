// Package plots draws finished results. It solves nothing, reads no files and
// knows no craft file: a figure is a plain struct of numbers and names, and
// drawing it changes nothing else.
//
// # Use
//
// A figure draws itself on a canvas of any size; [Write] turns that into PNG,
// SVG or PDF:
//
//	w, h := fig.Size()
//	err := plots.Write(out, "png", w, h, fig.Draw)
//
// Figures with axes start from [New], which sets the one theme: Liberation
// Sans, colors from the palette of Okabe and Ito each with a dash of its own,
// a pale grid, a thin frame. Titles of axes carry their unit ([Label]).
// Several figures share one page through [Layout]. Drawings to scale are made
// on a [View].
//
// # Rules of the theme
//
// Everything must survive a black-and-white printer: curves differ in dash
// and not only in color, areas in hatch and not only in tint, ramps run from
// light to dark. Colors are opaque, because the PDF backend darkens
// translucent ones. No label is clipped, and every rune of a label has a glyph
// ([Missing] tells which have none).
//
// Importing the package sets gonum/plot's default font and text handler (see
// [Outlines]) and the PDF backend's default dates, which are global.
package plots
