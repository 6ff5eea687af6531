package meshfile

import (
	"archive/zip"
	"bytes"
	"fmt"
	"strings"
)

// partOf is a part of a 3MF file.
type partOf struct{ name, content string }

// pack3MF makes a 3MF file of parts, after ISO/IEC 29500-2 for the package and
// the 3MF Core Specification 1.3 for the model. The relationships name
// 3D/3dmodel.model as root, unless a part of theirs is given.
func pack3MF(method uint16, parts ...partOf) []byte {
	const types = `<?xml version="1.0"?><Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">` +
		`<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>` +
		`<Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/></Types>`
	all := []partOf{{"[Content_Types].xml", types}}
	if len(parts) == 0 || parts[0].name != "_rels/.rels" {
		all = append(all, partOf{"_rels/.rels", relationTo("/3D/3dmodel.model")})
	}
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, p := range append(all, parts...) {
		w, err := z.CreateHeader(&zip.FileHeader{Name: p.name, Method: method})
		if err != nil {
			panic(err)
		}
		if _, err := w.Write([]byte(p.content)); err != nil {
			panic(err)
		}
	}
	if err := z.Close(); err != nil {
		panic(err)
	}
	return b.Bytes()
}

// relationTo is the relationships of a package whose root model is target.
func relationTo(target string) string {
	return `<?xml version="1.0"?><Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">` +
		`<Relationship Target="` + target + `" Id="rel0" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/></Relationships>`
}

// model3MF makes a model with some attributes of its own, of objects and build.
func model3MF(attributes, objects, build string) partOf {
	return partOf{"3D/3dmodel.model", `<?xml version="1.0" encoding="UTF-8"?>` +
		`<model xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02"` + attributes + `>` +
		`<resources>` + objects + `</resources><build>` + build + `</build></model>`}
}

// simple3MF is a file of one model, packed.
func simple3MF(attributes, objects, build string) string {
	return string(pack3MF(zip.Deflate, model3MF(attributes, objects, build)))
}

// object3MF makes an object of the tetrahedron's facets, three vertices each.
func object3MF(id int, attributes string) string {
	return fmt.Sprintf(`<object id="%d"%s>%s</object>`, id, attributes, mesh3MF)
}

// mesh3MF is the tetrahedron.
var mesh3MF = func() string {
	var v, t strings.Builder
	for i, f := range tetrahedron {
		for _, p := range f {
			fmt.Fprintf(&v, `<vertex x="%g" y="%g" z="%g"/>`, p.X, p.Y, p.Z)
		}
		fmt.Fprintf(&t, `<triangle v1="%d" v2="%d" v3="%d"/>`, 3*i, 3*i+1, 3*i+2)
	}
	return `<mesh><vertices>` + v.String() + `</vertices><triangles>` + t.String() + `</triangles></mesh>`
}()
