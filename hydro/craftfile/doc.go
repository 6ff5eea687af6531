// Package craftfile reads craft files: TOML in, a craft and what is wanted of
// it out, every name bound at its line.
//
// [Read] reads a craft file and the meshes it names; [Quick] makes a craft of
// one mesh from what stands on a command line. Both give a [File].
//
// Everything wrong with a file's own text is reported at once, as [Errors],
// each with its line and column; only a text without faults has its meshes
// read. What is odd but usable comes back in [File].Warnings.
//
// The text is parsed by go-toml into a tree that knows where each key and
// value stands. One file of this package holds one table of the craft file:
// a function that asks its [table] for each key by name. Asking makes a key
// known, so a key that nobody asked for is an error that offers the nearest
// one. A new table is a new file and a line in sections.
package craftfile
