package meshfile_test

import (
	"fmt"
	"io"
	"log"
	"os"
	"path/filepath"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh/meshfile"
)

func Example() {
	dir, err := os.MkdirTemp("", "meshfile")
	if err != nil {
		log.Fatal(err)
	}
	defer os.RemoveAll(dir)
	path := filepath.Join(dir, "sheet.stl")

	sheet := []r3.Triangle{
		{{}, {X: 300}, {X: 300, Y: 200}},
		{{}, {X: 300, Y: 200}, {Y: 200}},
	}
	err = meshfile.WriteWhole(path, false, func(w io.Writer) error {
		return meshfile.WriteSTL(w, "foam sheet", len(sheet), func(i int) r3.Triangle { return sheet[i] })
	})
	if err != nil {
		log.Fatal(err)
	}

	f, err := meshfile.Read(path)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%s: %s %q, %d triangles\n", f.Mesh.Name, f.Format, f.Solids, len(f.Mesh.Triangles))
	fmt.Println(f.Mesh.Triangle(1))
	// Output:
	// sheet.stl: binary STL ["foam sheet"], 2 triangles
	// [{0 0 0} {300 200 0} {0 200 0}]
}
