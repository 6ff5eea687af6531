// Package meshfile reads triangle meshes from files and writes them.
//
// [Read] looks at the content of a file, not at its name, and gives a [File]:
// the mesh, what the file said about itself, and warnings about anything odd
// that was accepted. What cannot be read in full is refused with an [Error]
// that names the place and the cure: no geometry is ever dropped in silence.
//
//   - STL has two dialects, binary and ASCII, neither with a unit. Facets are
//     counted from zero, as in mesh.Mesh.Triangles. The normals in the file are
//     ignored: the order of the vertices already tells the outside, and
//     exporters write zeros or NaN for normals freely.
//   - 3MF states its unit, in mesh.Mesh.Unit. What its build places is read,
//     where the build and the components put it, in one mesh.
//   - OBJ and PLY, the latter in text and in binary of either order of bytes,
//     have polygons, which are cut into triangles; colors, normals and groups
//     are passed over.
//
// Files are written by [WriteSTL], and whole or not at all by [WriteWhole].
//
// The package decodes STL through github.com/hschendel/stl and the models of
// 3MF through github.com/hpinc/go3mf, and is their only importer. The libraries
// trust what they are given, so everything a damaged file could do to them is
// checked in front of them.
package meshfile
