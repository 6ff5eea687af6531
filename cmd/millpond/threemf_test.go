package main

import (
	"archive/zip"
	"fmt"
	"os"
	"strings"

	"github.com/rogpeppe/go-internal/testscript"

	"millpond/mesh/shape"

	"gonum.org/v1/gonum/spatial/r3"
)

// writeThreeMF is the script command that writes a cube of one unit as 3MF:
//
//	threemf FILE UNIT
func writeThreeMF(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: threemf FILE UNIT")
	}
	data, err := cube3MF(args[1])
	ts.Check(err)
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(data), 0o644))
}

// cube3MF returns a 3MF file with a cube of one unit.
func cube3MF(unit string) (string, error) {
	var text strings.Builder
	fmt.Fprintf(&text, `<model unit="%s" xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02"><resources><object id="1"><mesh><vertices>`, unit)
	m := shape.BoxBetween(r3.Vec{}, r3.Vec{X: 1, Y: 1, Z: 1})
	for _, v := range m.Vertices {
		fmt.Fprintf(&text, `<vertex x="%g" y="%g" z="%g"/>`, v.X, v.Y, v.Z)
	}
	text.WriteString("</vertices><triangles>")
	for _, t := range m.Triangles {
		fmt.Fprintf(&text, `<triangle v1="%d" v2="%d" v3="%d"/>`, t[0], t[1], t[2])
	}
	text.WriteString(`</triangles></mesh></object></resources><build><item objectid="1"/></build></model>`)
	var file strings.Builder
	z := zip.NewWriter(&file)
	w, err := z.Create("3D/3dmodel.model")
	if err != nil {
		return "", err
	}
	if _, err := w.Write([]byte(text.String())); err != nil {
		return "", err
	}
	err = z.Close()
	return file.String(), err
}
