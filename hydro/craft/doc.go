// Package craft is what the builder made: parts from meshes, items without
// buoyancy, places and lines to watch, and the mass all of it adds up to. It
// turns into a [hydro.Body]; it solves nothing.
//
// Axes are the craft's: x forward, y to port, z up, meters. A part is drawn in
// its file's unit and axes; [Part.Drawn] maps those to the part's own axes in
// meters, and its [Fit] sets it on the craft. A Solid is never changed: every
// placement, attached point and mass is worked out afresh from the Fit, and no
// change is applied to the result of another.
package craft
