package main

import (
	"archive/zip"
	"math"
	"strings"

	"millpond/mesh"
	"millpond/mesh/shape"

	"gonum.org/v1/gonum/spatial/r3"
)

// badGroups is all that was tried.
func badGroups() []badGroup {
	box := stl(floatBox())
	sound := badInput{file: "box.stl", data: box}
	quick := func(what, args string) badInput {
		return badInput{what: what, file: sound.file, data: sound.data, args: args}
	}
	long := strings.Repeat("x", 5000)
	return []badGroup{
		{"STL", []badInput{
			{what: "an empty file", file: "empty.stl"},
			{what: "nothing but blanks", file: "blank.stl", data: " \n\n"},
			{what: "cut off in the header", file: "head.stl", data: box[:50]},
			{what: "cut off while it was copied", file: "cut.stl", data: box[:len(box)-75]},
			{what: "a header that announces 4,000,000,000 facets", file: "many.stl", data: count(box, 4_000_000_000)},
			{what: "a header that announces fewer facets than there are", file: "few.stl", data: count(box, 7)},
			{what: "no facets", file: "none.stl", data: count(box[:84], 0)},
			{what: "a few bytes too many", file: "pad.stl", data: box + "\x01\x02\x03"},
			{what: "a coordinate that is NaN", file: "nan.stl", data: coordinate(box, 5, math.NaN())},
			{what: "an infinite coordinate", file: "inf.stl", data: coordinate(box, 5, math.Inf(1))},
			{what: "a coordinate of 1e30", file: "far.stl", data: coordinate(box, 5, 1e30)},
			{what: "text, cut off in a facet", file: "cut.stl", data: ascii()[:200]},
			{what: "text without its last line", file: "open.stl", data: ascii("endsolid float\n", "")},
			{what: "text with decimal commas", file: "comma.stl", data: ascii("100 0 0", "100,5 0 0")},
			{what: "text with a word for a number", file: "word.stl", data: ascii("0 0 100", "0 zero 100")},
			{what: "text with a number missing", file: "short.stl", data: ascii("vertex 0 0 100", "vertex 0 100")},
			{what: "text with facets of four corners", file: "quad.stl", data: ascii("endloop", "vertex 1 1 1\nendloop")},
			{what: "text with a word of 5,000 letters", file: "long.stl", data: ascii("outer", long)},
			{what: "two solids in one file", file: "two.stl", data: ascii() + ascii("0 0 0\n", "500 0 0\n", "100 0 0\n", "600 0 0\n", "0 100 0\n", "500 100 0\n", "0 0 100\n", "500 0 100\n")},
		}},
		{"3MF", bad3MF()},
		{"OBJ", []badInput{
			{what: "no faces", file: "points.obj", data: strings.Split(obj(), "f ")[0]},
			{what: "a face with vertex 0", file: "zero.obj", data: obj("f 1 2 6 5", "f 0 2 6 5")},
			{what: "a face with a vertex that is not there", file: "nine.obj", data: obj("f 1 2 6 5", "f 1 2 6 9")},
			{what: "a face with a word for a vertex", file: "word.obj", data: obj("f 1 2 6 5", "f 1 two 6 5")},
			{what: "a vertex with decimal commas", file: "comma.obj", data: obj("v 100 0 0", "v 100,5 0 0")},
			{what: "a vertex of two numbers", file: "short.obj", data: obj("v 100 0 0", "v 100 0")},
			{what: "a vertex that is NaN", file: "nan.obj", data: obj("v 100 0 0", "v nan 0 0")},
			{what: "a face that crosses itself", file: "bow.obj", data: obj("f 5 6 7 8", "f 5 7 6 8")},
			{what: "faces that are not flat", file: "bent.obj", data: obj("v 100 100 100", "v 95 95 95")},
			{what: "curved surfaces", file: "nurbs.obj", data: obj() + "surf 0 1 0 1 1 2 3 4\n"},
			{what: "a call for another file", file: "call.obj", data: obj() + "call wing.obj\n"},
			{what: "a damaged line", file: "damaged.obj", data: obj("f 5 6", "fff 5 6")},
		}},
		{"PLY", []badInput{
			{what: "cut off in the header", file: "head.ply", data: ply()[:40]},
			{what: "a vertex row too few", file: "cut.ply", data: ply("0 100 100\n", "")},
			{what: "a header that announces 4,000,000,000 faces", file: "many.ply", data: ply("face 6", "face 4000000000")},
			{what: "a header that announces fewer faces than there are", file: "few.ply", data: ply("face 6", "face 5")},
			{what: "a format that is none", file: "format.ply", data: ply("ascii", "utf8")},
			{what: "vertices without z", file: "flat.ply", data: ply("float z", "float w")},
			{what: "triangle strips", file: "strips.ply", data: ply("element face", "element tristrips")},
			{what: "a number missing in a row", file: "short.ply", data: ply("4 4 5 6 7", "4 4 5 6")},
			{what: "a face with a vertex that is not there", file: "nine.ply", data: ply("4 4 5 6 7", "4 4 5 6 8")},
			{what: "decimal commas", file: "comma.ply", data: ply("0 0 100", "0,5 0 100")},
		}},
		{"Files of other kinds", []badInput{
			{what: "no such file", args: "inspect nowhere.stl --unit mm"},
			{what: "a folder", args: "inspect . --unit mm"},
			{what: "a STEP file", file: "hull.step", data: "ISO-10303-21;\nHEADER;\n"},
			{what: "an IGES file", file: "hull.igs", data: strings.Repeat(" ", 72) + "S      1\n"},
			{what: "a DXF drawing", file: "hull.dxf", data: "  0\nSECTION\n  2\nHEADER\n"},
			{what: "a glTF file", file: "hull.gltf", data: `{ "asset": { "version": "2.0" } }`},
			{what: "an AMF file", file: "hull.amf", data: `<?xml version="1.0"?><amf unit="millimeter">`},
			{what: "a zip archive with an STL in it", file: "hull.zip", data: zipped("hull.stl", box)},
			{what: "the web page instead of the download", file: "hull.stl", data: "<!DOCTYPE html><html><body>log in</body></html>"},
			{what: "a picture", file: "hull.png", data: "\x89PNG\r\n\x1a\n"},
			{what: "a program for the mill", file: "hull.nc", data: "; roughing\nG21\nG0 X0 Y0\n"},
			{what: "text in UTF-16", file: "hull.stl", data: "\xff\xfes\x00o\x00l\x00i\x00d\x00"},
			{what: "some other text", file: "notes.txt", data: "Dear all,\nthe float is 12 cm wide.\n"},
			{what: "random bytes", file: "noise.stl", data: strings.Repeat("\x8b\x00\xf1\x37\x02", 100)},
		}},
		{"Meshes with faults", badMeshes()},
		{"Units", []badInput{
			quick("no unit for an STL file", "inspect box.stl"),
			quick("a unit that is none", "inspect box.stl --unit furlong"),
			quick("a mass for a unit", "inspect box.stl --unit kg"),
			quick("millimeters taken for meters", "inspect box.stl --unit m"),
			quick("millimeters taken for inches", "inspect box.stl --unit in"),
			{what: "another unit than a 3MF file states", file: "cube.3mf", data: must3MF("inch"), args: "inspect cube.3mf --unit mm"},
		}},
		{"Craft files", badCrafts(box)},
		{"The command line", []badInput{
			quick("no mass", "rest box.stl --unit mm --cg 0mm,0mm,50mm"),
			quick("a mass without a unit", "rest box.stl --unit mm --mass 3 --cg 0mm,0mm,50mm"),
			quick("a negative mass", "rest box.stl --unit mm --mass=-3kg --cg 0mm,0mm,50mm"),
			quick("no CG", "rest box.stl --unit mm --mass 3kg"),
			quick("a CG of two numbers", "rest box.stl --unit mm --mass 3kg --cg 0mm,0mm"),
			quick("a mass that sinks it", "rest box.stl --unit mm --mass 30kg --cg 0mm,0mm,50mm"),
			quick("forward and up along one axis", "rest box.stl --unit mm --mass 3kg --cg 0mm,0mm,50mm --forward z"),
			quick("water that is none", "rest box.stl --unit mm --mass 3kg --cg 0mm,0mm,50mm --water sea"),
			quick("a flag that is none", "rest box.stl --units mm"),
			quick("a verb that is none", "float box.stl"),
			{what: "a weld tolerance that would lose the shape", file: "crack.stl", data: stl(halves(0.02)), args: "inspect crack.stl --unit mm --weld 20mm"},
			quick("a repaired mesh over its own file", "inspect box.stl --unit mm --repaired box.stl --force"),
		}},
	}
}

// badMeshes is files that can be read and bound no body, or hardly.
func badMeshes() []badInput {
	box := floatBox()
	of := func(what, file string, m *mesh.Mesh, flags ...string) badInput {
		c := badInput{what: what, file: file, data: stl(m)}
		if len(flags) > 0 {
			c.args = "inspect " + file + " --unit mm " + strings.Join(flags, " ")
		}
		return c
	}
	inside := func(lo, hi r3.Vec) *mesh.Mesh { return shape.InsideOut(shape.BoxBetween(lo, hi)) }
	return []badInput{
		of("a facet is missing", "hole.stl", shape.Without(box, 4)),
		of("the same, allowed to be closed", "hole.stl", shape.Without(box, 4), "--close-holes 14%"),
		of("a small facet is missing", "pin.stl", shape.Without(shape.Transformed(shape.Icosphere(1, 4), mesh.Scaling(100, 100, 100)), 7)),
		of("a cap is missing from a ball", "cap.stl", capless(85)),
		of("the same, allowed to be closed", "cap.stl", capless(85), "--close-holes 8% --close-curved-holes"),
		of("half a ball, whose volume nobody can tell", "half.stl", capless(60), "--close-holes 100% --close-curved-holes"),
		of("two halves end 0.02 mm apart", "crack.stl", halves(0.02)),
		of("the same, with a tolerance", "crack.stl", halves(0.02), "--weld 0.05mm"),
		of("inside out", "turned.stl", shape.InsideOut(box)),
		of("one facet turned", "flip.stl", flip(box, 3)),
		of("one facet there twice", "double.stl", double(box, 3)),
		of("the whole body there twice", "twice.stl", shape.Join(box, box)),
		of("two boxes that cross", "cross.stl", shape.Join(box, shape.BoxBetween(r3.Vec{X: -50, Y: -450, Z: 20}, r3.Vec{X: 50, Y: 450, Z: 80}))),
		of("a cavity", "hollow.stl", shape.Join(box, inside(r3.Vec{X: -400, Y: -40, Z: 10}, r3.Vec{X: 400, Y: 40, Z: 90}))),
		of("a solid inside a solid", "nested.stl", shape.Join(box, shape.BoxBetween(r3.Vec{X: -400, Y: -40, Z: 10}, r3.Vec{X: 400, Y: 40, Z: 90}))),
		of("a box of panels that meet and shut a space in", "panels.stl", shape.Join(panels()...)),
		of("two foils, too thin for their distance", "foils.stl", shape.Join(
			shape.BoxBetween(r3.Vec{}, r3.Vec{X: 10, Y: 10, Z: 1e-8}), shape.BoxBetween(r3.Vec{X: 1e4}, r3.Vec{X: 1e4 + 10, Y: 10, Z: 1e-8}))),
		of("a single sheet", "sheet.stl", shape.Without(box, 0, 1, 2, 3, 4, 5, 6, 7, 8, 9)),
		of("a sheet and its back: no thickness", "flat.stl", shape.Join(shape.Without(box, 0, 1, 2, 3, 4, 5, 6, 7, 8, 9), shape.InsideOut(shape.Without(box, 0, 1, 2, 3, 4, 5, 6, 7, 8, 9)))),
		of("a surface without an inside (a Klein bottle)", "klein.stl", moebius()),
	}
}

// zipped returns a zip archive of one file.
func zipped(name, content string) string {
	var b strings.Builder
	z := zip.NewWriter(&b)
	w, err := z.Create(name)
	if err == nil {
		_, err = w.Write([]byte(content))
	}
	if err == nil {
		err = z.Close()
	}
	if err != nil {
		panic(err)
	}
	return b.String()
}

// must3MF returns a 3MF file of a cube of one unit.
func must3MF(unit string) string {
	s, err := cube3MF(unit)
	if err != nil {
		panic(err)
	}
	return s
}

// bad3MF is 3MF files that are refused.
func bad3MF() []badInput {
	model := func(objects, build string) string {
		return zipped("3D/3dmodel.model", `<model xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02"><resources>`+objects+`</resources><build>`+build+`</build></model>`)
	}
	const tetrahedron = `<mesh><vertices><vertex x="0" y="0" z="0"/><vertex x="9" y="0" z="0"/><vertex x="0" y="9" z="0"/><vertex x="0" y="0" z="9"/></vertices>` +
		`<triangles><triangle v1="0" v2="2" v3="1"/><triangle v1="0" v2="1" v3="3"/><triangle v1="0" v2="3" v3="2"/><triangle v1="1" v2="2" v3="3"/></triangles></mesh>`
	const object, item = `<object id="1">` + tetrahedron + `</object>`, `<item objectid="1"/>`
	doubling := object
	for i := 2; i < 32; i++ {
		doubling += strings.NewReplacer("I", itoa(i), "J", itoa(i-1)).Replace(`<object id="I"><components><component objectid="J"/><component objectid="J"/></components></object>`)
	}
	of := func(what, data string) badInput {
		return badInput{what: what, file: "part.3mf", data: data, args: "inspect part.3mf"}
	}
	whole := model(object, item)
	return []badInput{
		of("cut off while it was copied", whole[:len(whole)/2]),
		of("changed on the way", whole[:100]+"?"+whole[101:]),
		of("a model that unpacks to 100 MB from 100 kB", model(object+strings.Repeat(" ", 100<<20), item)),
		of("objects made of two of the one before, 31 times over", model(doubling, `<item objectid="31"/>`)),
		of("an object that is a component of itself", model(`<object id="1"><components><component objectid="1"/></components></object>`, item)),
		of("objects, but none on the plate", model(object, "")),
		of("an object that is not there", model(object, `<item objectid="5"/>`)),
		of("a facet with a vertex that is not there", model(strings.Replace(object, `v3="1"`, `v3="7"`, 1), item)),
		of("a vertex without x", model(strings.Replace(object, ` x="9"`, "", 1), item)),
		of("a vertex that is NaN", model(strings.Replace(object, ` x="9"`, ` x="NaN"`, 1), item)),
		of("two meshes in one object", model(strings.Replace(object, tetrahedron, tetrahedron+tetrahedron, 1), item)),
		of("a transform that flattens", model(object, `<item objectid="1" transform="1 0 0 0 1 0 0 0 0 0 0 0"/>`)),
		of("supports and nothing else", model(strings.Replace(object, `id="1"`, `id="1" type="support"`, 1), item)),
		of("a lattice of beams", model(strings.Replace(object, "</mesh>", `<b:beamlattice xmlns:b="http://schemas.microsoft.com/3dmanufacturing/beamlattice/2017/02"/></mesh>`, 1), item)),
		of("a document type that defines entities", zipped("3D/3dmodel.model", `<!DOCTYPE model [<!ENTITY a "b">]><model/>`)),
		of("a model in another XML", zipped("3D/3dmodel.model", `<amf/>`)),
	}
}

// panels returns a box like that of floatBox, but of six panels 10 mm thick
// that cross at its edges.
func panels() []*mesh.Mesh {
	lo, hi := r3.Vec{X: -450, Y: -50}, r3.Vec{X: 450, Y: 50, Z: 100}
	const thick = 10
	cut := func(change func(lo, hi *r3.Vec)) *mesh.Mesh {
		lo, hi := lo, hi
		change(&lo, &hi)
		return shape.BoxBetween(lo, hi)
	}
	return []*mesh.Mesh{
		cut(func(lo, hi *r3.Vec) { hi.X = lo.X + thick }), cut(func(lo, hi *r3.Vec) { lo.X = hi.X - thick }),
		cut(func(lo, hi *r3.Vec) { hi.Y = lo.Y + thick }), cut(func(lo, hi *r3.Vec) { lo.Y = hi.Y - thick }),
		cut(func(lo, hi *r3.Vec) { hi.Z = lo.Z + thick }), cut(func(lo, hi *r3.Vec) { lo.Z = hi.Z - thick }),
	}
}
