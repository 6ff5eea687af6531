// Package meshfile reads triangle meshes from files and writes them.
//
// [Read] looks at the content of a file, not at its name, and gives a [File]:
// the mesh, what the file said about itself, and warnings about anything odd
// that was accepted. What cannot be read in full is refused with an [Error]
// that names the place and the cure: no geometry is ever dropped in silence.
//
// STL has two dialects, binary and ASCII, neither with a unit. Facets are
// counted from zero, as in mesh.Mesh.Triangles. The normals in the file are
// ignored: the order of the vertices already tells the outside, and exporters
// write zeros or NaN for normals freely.
//
// Files are written by [WriteSTL], and whole or not at all by [WriteWhole].
//
// The package decodes through github.com/hschendel/stl and is its only
// importer. The library trusts what it is given, so everything a damaged file
// could do to it is checked in front of it.
package meshfile
