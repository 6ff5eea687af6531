package meshfile

import (
	"archive/zip"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"gonum.org/v1/gonum/spatial/r3"
)

// volume is that within the facets, negative where they face inward.
func volume(f *File) float64 {
	sum := 0.0
	for _, t := range facetsOf(f) {
		sum += r3.Dot(t[0], r3.Cross(t[1], t[2])) / 6
	}
	return sum
}

// mustRead reads a file or ends the test.
func mustRead(t *testing.T, data string) *File {
	t.Helper()
	f, err := read([]byte(data))
	if err != nil {
		t.Fatalf("read: %v", err)
	}
	return f
}

func TestRead3MF(t *testing.T) {
	f := mustRead(t, simple3MF(` unit="inch"`, object3MF(7, ` name="tip float"`), `<item objectid="7"/>`))
	if f.Format != ThreeMF || f.Mesh.Unit != 0.0254 || f.Mesh.Name != "float.stl" || len(f.Warnings) != 0 {
		t.Errorf("format %q, unit %g, name %q, warnings %q", f.Format, f.Mesh.Unit, f.Mesh.Name, f.Warnings)
	}
	if diff := cmp.Diff(tetrahedron, facetsOf(f)); diff != "" {
		t.Errorf("facets (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff([]string{"tip float"}, f.Solids); diff != "" {
		t.Errorf("solids (-want +got):\n%s", diff)
	}
}

// The six units of the 3MF Core Specification 1.3, section 3.4, and its default.
func TestUnits3MF(t *testing.T) {
	for unit, want := range map[string]float64{
		"": 0.001, ` unit="micron"`: 1e-6, ` unit="millimeter"`: 0.001, ` unit="centimeter"`: 0.01,
		` unit="inch"`: 0.0254, ` unit="foot"`: 0.3048, ` unit="meter"`: 1,
	} {
		f := mustRead(t, simple3MF(unit, object3MF(1, ""), `<item objectid="1"/>`))
		if f.Mesh.Unit != want {
			t.Errorf("%q: unit %g m, want %g", unit, f.Mesh.Unit, want)
		}
	}
}

// Transforms act on row vectors, section 3.3: the image of (x, y, z) is
// x times the first three numbers, plus y times the next, plus z times the
// next, plus the last three.
func TestTransform3MF(t *testing.T) {
	const turn = `transform="0 1 0 -1 0 0 0 0 1 10 20 30"` // x to y, y to -x, and moved
	for _, c := range []struct {
		name, objects, build string
		want                 func(p r3.Vec) r3.Vec
		factor               float64 // on the volume
	}{
		{"item", object3MF(1, ""), `<item objectid="1" ` + turn + `/>`,
			func(p r3.Vec) r3.Vec { return r3.Vec{X: 10 - p.Y, Y: 20 + p.X, Z: 30 + p.Z} }, 1},
		{"component", object3MF(1, "") + `<object id="2"><components><component objectid="1" ` + turn + `/></components></object>`,
			`<item objectid="2" transform="2 0 0 0 2 0 0 0 2 0 0 1"/>`,
			func(p r3.Vec) r3.Vec { return r3.Vec{X: 2 * (10 - p.Y), Y: 2 * (20 + p.X), Z: 2*(30+p.Z) + 1} }, 8},
		{"nested", object3MF(1, "") +
			`<object id="2"><components><component objectid="1" transform="1 0 0 0 1 0 0 0 1 0 0 5"/></components></object>` +
			`<object id="3"><components><component objectid="2" ` + turn + `/></components></object>`,
			`<item objectid="3" transform="1 0 0 0 1 0 0 0 3 0 0 0"/>`,
			func(p r3.Vec) r3.Vec { return r3.Vec{X: 10 - p.Y, Y: 20 + p.X, Z: 3 * (35 + p.Z)} }, 3},
		{"mirror", object3MF(1, ""), `<item objectid="1" transform="-1 0 0 0 1 0 0 0 1 0 0 0"/>`,
			func(p r3.Vec) r3.Vec { return r3.Vec{X: -p.X, Y: p.Y, Z: p.Z} }, 1},
	} {
		f := mustRead(t, simple3MF("", c.objects, c.build))
		for i, tri := range tetrahedron {
			got := f.Mesh.Triangle(i)
			if c.name == "mirror" {
				got[1], got[2] = got[2], got[1] // so that it faces as before
			}
			for k, p := range tri {
				if want := c.want(p); r3.Norm(r3.Sub(got[k], want)) > 1e-12 {
					t.Errorf("%s: facet %d corner %d at %v, want %v", c.name, i, k, got[k], want)
				}
			}
		}
		// The corner of a box of 1 x 1 x 2.5, drawn inside out.
		if want := -c.factor * 2.5 / 6; math.Abs(volume(f)-want) > 1e-9 {
			t.Errorf("%s: volume %g, want %g", c.name, volume(f), want)
		}
	}
}

func TestJoined3MF(t *testing.T) {
	objects := object3MF(1, ` name="left"`) + object3MF(2, ` partnumber="R 2"`) + object3MF(3, ` type="support" name="raft"`) +
		object3MF(5, ` type="surface"`) + object3MF(6, ` name="spare"`) +
		`<object id="4"><components><component objectid="1"/><component objectid="3"/></components></object>`
	f := mustRead(t, simple3MF("", objects, `<item objectid="1"/><item objectid="2" transform="1 0 0 0 1 0 0 0 1 5 0 0"/><item objectid="5"/><item objectid="4" transform="1 0 0 0 1 0 0 0 1 9 0 0"/>`))
	if len(f.Mesh.Triangles) != 12 || len(f.Mesh.Vertices) != 36 {
		t.Errorf("%d facets over %d vertices, want 12 over 36", len(f.Mesh.Triangles), len(f.Mesh.Vertices))
	}
	want := []string{
		`3 solids in one file, all read as one mesh: "left" (4 facets), "R 2" (4 facets), "object 4" (4 facets)`,
		`objects that are marked as supports, surfaces or the like were left out: 2 ("object 5", "raft")`,
	}
	if diff := cmp.Diff(want, f.Warnings); diff != "" {
		t.Errorf("warnings (-want +got):\n%s", diff)
	}
}

// Objects in further models, named in the production extension's way, a root
// model of another name, and a namespace under a prefix.
func TestPackage3MF(t *testing.T) {
	const production = ` xmlns:p="http://schemas.microsoft.com/3dmanufacturing/production/2015/06" requiredextensions="p"`
	root := model3MF(production, `<object id="8"><components><component objectid="3" p:path="/3D/Objects/a%20b.model" p:UUID="x"/></components></object>`,
		`<item objectid="8" p:UUID="1"/><item objectid="3" p:path="/3D/Objects/a b.model" transform="1 0 0 0 1 0 0 0 1 5 0 0"/>`)
	root.name = "3D/other.MODEL"
	child := model3MF(production, object3MF(3, ""), "")
	child.name = "3D/Objects/a b.model"
	picture := partOf{"Metadata/plate_1.png", strings.Repeat("\x00", 3<<20)} // not unpacked
	f := mustRead(t, string(pack3MF(zip.Deflate, partOf{"_rels/.rels", relationTo("3D/Other.model")}, picture, root, child)))
	if len(f.Mesh.Triangles) != 8 {
		t.Errorf("%d facets, want 8", len(f.Mesh.Triangles))
	}

	text := strings.NewReplacer("</", "</m:", "<?", "<?", "<", "<m:", " xmlns=", " xmlns:m=").
		Replace(model3MF("", object3MF(1, ""), `<item objectid="1"/>`).content)
	text = strings.Replace(text, "<m:mesh>", "<!-- <mesh> --><m:metadata name='Title'><![CDATA[<mesh>]]></m:metadata><m:mesh>", 1)
	f = mustRead(t, string(pack3MF(zip.Store, partOf{"3D/3dmodel.model", text})))
	if diff := cmp.Diff(tetrahedron, facetsOf(f)); diff != "" {
		t.Errorf("with a prefix: facets (-want +got):\n%s", diff)
	}
}

func Test3MFErrors(t *testing.T) {
	one := `<item objectid="1"/>`
	part := func(content string) string {
		return string(pack3MF(zip.Deflate, partOf{"3D/3dmodel.model", content}))
	}
	whole := model3MF("", object3MF(1, ""), one).content
	model := `its model "3D/3dmodel.model": `
	const again, orSTL = "; export the mesh again", "; export it again, or as STL"
	nested := object3MF(1, "")
	for i := 2; i < 40; i++ {
		nested += fmt.Sprintf(`<object id="%d"><components><component objectid="%d"/></components></object>`, i, i-1)
	}
	doubling := object3MF(1, "")
	for i := 2; i < 32; i++ {
		doubling += fmt.Sprintf(`<object id="%d"><components><component objectid="%d"/><component objectid="%d"/></components></object>`, i, i-1, i-1)
	}
	empty := strings.Replace(doubling, mesh3MF, `<mesh><vertices/><triangles/></mesh>`, 1)
	bomb := pack3MF(zip.Deflate, partOf{"3D/3dmodel.model", whole + strings.Repeat(" ", 3<<20)})
	for _, c := range []errorCase{
		{"cut", simple3MF("", object3MF(1, ""), one)[:500], "a 3MF file that cannot be unpacked (not a valid zip file): damaged, or cut short; copy or export it again"},
		{"changed", strings.Replace(string(pack3MF(zip.Store, model3MF("", object3MF(1, ""), one))), `z="-2.5"`, `z="-3.5"`, 1),
			`its part "3D/3dmodel.model" cannot be unpacked: checksum error; copy or export it again`},
		{"bomb", string(bomb), fmt.Sprintf(`its part "3D/3dmodel.model" would unpack to %d bytes from a file of %d: far more than a mesh does; export it again, or as STL`, len(whole)+3<<20, len(bomb))},
		{"no root", string(pack3MF(zip.Deflate, partOf{"_rels/.rels", "<Relationships/>"}, model3MF("", object3MF(1, ""), one))),
			"the 3MF file does not say which of its parts is the model; export it again"},
		{"absent root", string(pack3MF(zip.Deflate, partOf{"_rels/.rels", relationTo("/3D/a.model")}, model3MF("", object3MF(1, ""), one))),
			`its model "/3D/a.model" is not in the 3MF file; export it again`},
		{"no item", simple3MF("", object3MF(1, ""), ""), "its build places nothing; put the parts on the plate and export again"},
		{"no facets", simple3MF("", `<object id="1"><mesh><vertices/><triangles/></mesh></object>`, one), "the mesh has no facets" + again},
		{"only supports", simple3MF("", object3MF(1, ` type="support"`), one), "its build places only what is marked as a support, a surface or the like; mark the solid as a model, or export it as STL"},
		{"absent object", simple3MF("", object3MF(1, ""), `<item objectid="2"/>`), "build item 1 is object 2, which is not in the file" + again},
		{"absent component", simple3MF("", `<object id="1"><components><component objectid="9"/></components></object>`, one), "a component of object 1 is object 9, which is not in the file" + again},
		{"double object", simple3MF("", object3MF(1, "")+object3MF(1, ""), one), model + "it has two objects with the number 1" + orSTL},
		{"empty object", simple3MF("", `<object id="1" name="A"/>`, one), `object 1 ("A") has neither a mesh nor components` + orSTL},
		{"mesh and components", simple3MF("", object3MF(2, "")+`<object id="1">`+mesh3MF+`<components><component objectid="2"/></components></object>`, one), "object 1 has a mesh and components" + again},
		{"itself", simple3MF("", `<object id="1"><components><component objectid="2"/></components></object><object id="2"><components><component objectid="1"/></components></object>`, one),
			"object 1 is a component of itself" + again},
		{"deep", simple3MF("", nested, `<item objectid="39"/>`), "its objects are nested more than 32 deep; export it as one mesh"},
		{"a billion copies", simple3MF("", doubling, `<item objectid="31"/>`), "it places objects more than 100000 times; export it as one mesh"},
		{"a billion of nothing", simple3MF("", empty, `<item objectid="31"/>`), "it places objects more than 100000 times; export it as one mesh"},
		{"flat", simple3MF("", object3MF(1, ""), `<item objectid="1" transform="1 0 0 0 1 0 0 0 0 0 0 0"/>`), "the transform of build item 1 flattens it" + again},
		{"bad transform", simple3MF("", object3MF(1, ""), `<item objectid="1" transform="1 0 0"/>`), model + "it cannot be decoded: /model/build/item[0]: error parsing optional attribute 'transform'" + orSTL},
		{"absent vertex", simple3MF("", strings.Replace(object3MF(1, ` name="A"`), `v3="11"`, `v3="12"`, 1), one), `object 1 ("A"): facet 3 names vertex 12, and there are 12` + again},
		{"NaN", simple3MF("", strings.Replace(object3MF(1, ""), `x="1"`, `x="NaN"`, 1), one), "object 1: vertex 2: x is NaN" + again},
		{"far", simple3MF("", strings.Replace(object3MF(1, ""), `x="1"`, `x="1e30"`, 1), one), "object 1: vertex 2: x is 1e+30, beyond any sensible size (1e+09)" + again},
		{"no coordinate", simple3MF("", strings.Replace(object3MF(1, ""), ` x="1"`, "", 1), one), model + `object "1": an element "vertex" has no x` + orSTL},
		{"coordinate twice", simple3MF("", strings.Replace(object3MF(1, ""), ` x="1"`, ` x="1" x="2"`, 1), one), model + `object "1": an element "vertex" has x twice` + orSTL},
		{"no corner", simple3MF("", strings.Replace(object3MF(1, ""), ` v3="11"`, "", 1), one), model + `object "1": an element "triangle" has no v3` + orSTL},
		{"not a number", simple3MF("", strings.Replace(object3MF(1, ""), ` x="1"`, ` x="one"`, 1), one),
			model + "it cannot be decoded: /model/resources/object[0]/mesh/vertices/vertex[2]: error parsing required at..." + orSTL},
		{"two lists", simple3MF("", strings.Replace(object3MF(1, ""), "</mesh>", "<triangles/></mesh>", 1), one), model + `object "1": a second element "triangles" where one is allowed` + orSTL},
		{"mesh in mesh", simple3MF("", strings.Replace(object3MF(1, ""), "<vertices>", "<mesh/><vertices>", 1), one), model + `object "1": an element "mesh" stands inside another` + orSTL},
		{"lattice", simple3MF(` xmlns:b="http://schemas.microsoft.com/3dmanufacturing/beamlattice/2017/02"`,
			strings.Replace(object3MF(1, ""), "</mesh>", `<b:beamlattice radius="1"><b:beams/></b:beamlattice></mesh>`, 1), one),
			"object 1 has a lattice of beams, which is not read; export it as a plain mesh"},
		{"needs more", simple3MF(` xmlns:v="http://schemas.3mf.io/3dmanufacturing/volumetric/2022/01" requiredextensions="v"`, object3MF(1, ""), one),
			model + `it needs an extension of 3MF that is not read: "http://schemas.3mf.io/3dmanufacturing/vo"...` + orSTL},
		{"other unit", string(pack3MF(zip.Deflate, model3MF(` xmlns:p="http://schemas.microsoft.com/3dmanufacturing/production/2015/06"`, "", `<item objectid="1" p:path="/3D/a.model"/>`),
			partOf{"3D/a.model", model3MF(` unit="inch"`, object3MF(1, ""), "").content})),
			`its model "3D/a.model" has another unit than its root` + orSTL},
		{"cut model", part(whole[:len(whole)-13]), model + "a tag is not closed" + orSTL},
		{"unfinished model", part(whole[:len(whole)-16]), model + `it ends inside an element "build": it was cut short` + orSTL},
		{"not XML", part("solid float"), model + "it is no model of 3MF" + orSTL},
		{"other XML", part("<amf/>"), model + "it is no model of 3MF" + orSTL},
		{"other namespace", part(strings.Replace(whole, "2015/02", "2055/02", 1)), model + "it is no model of 3MF" + orSTL},
		{"twice the namespace", part(strings.Replace(whole, "<mesh>", `<mesh xmlns:q="http://schemas.microsoft.com/3dmanufacturing/core/2015/02">`, 1)), model + `object "1": it names the namespace of 3MF twice` + orSTL},
		{"hidden namespace", part(strings.Replace(whole, "<mesh>", `<mesh xmlns:q="http://schemas.microsoft.com&#47;3dmanufacturing/core/2015/02">`, 1)), model + `object "1": the namespace "http://schemas.microsoft.com&#47;3dmanuf"... is not written plainly` + orSTL},
		{"entity", part(`<!DOCTYPE a [<!ENTITY b "c">]>` + whole), model + "it has a document type, which 3MF does not allow" + orSTL},
		{"crossed", part(strings.Replace(whole, "</vertices><triangles>", "<triangles></vertices>", 1)), model + `object "1": an element ends with "vertices" that did not begin so` + orSTL},
		{"two roots", part(whole + "<model></model>"), model + "it goes on behind its end" + orSTL},
		{"open comment", part("<!-- " + whole), model + "a comment is not closed" + orSTL},
		{"deep XML", part(strings.Replace(whole, "<mesh>", strings.Repeat("<a>", 99), 1)), model + `object "1": its elements are nested too deep` + orSTL},
		{"utf-16", part("\xff\xfe<\x00m\x00"), model + "it is text in UTF-16, which is not read" + orSTL},
	} {
		t.Run(c.name, c.run)
	}
}

// Vertices that no facet uses are bounded too, however often they are placed.
func TestPlacedVertices3MF(t *testing.T) {
	lone := `<mesh><vertices>` + strings.Repeat(`<vertex x="0" y="0" z="0"/>`, 1000) + `</vertices><triangles><triangle v1="0" v2="1" v3="2"/></triangles></mesh>`
	_, err := read([]byte(simple3MF("", `<object id="1">`+lone+`</object>`, strings.Repeat(`<item objectid="1"/>`, 1001))))
	if err == nil || !strings.Contains(err.Error(), "placed so often that it has more than 1000000 vertices") {
		t.Errorf("read: %v, want a refusal of a million vertices", err)
	}
}
