// Package testdata holds the demo craft and the starter that `millpond new`
// writes. Other files beside it are read by tests.
package testdata

import (
	"embed"
	"fmt"
	"path"
)

//go:embed demo
var demo embed.FS

// File is one file of the starter.
type File struct {
	Name string
	Data []byte
}

// Starter returns the files of the starter craft: a commented craft file,
// craft.toml, and the meshes it names.
func Starter() []File {
	var out []File
	for _, name := range []string{"craft.toml", "float.stl", "fuselage.stl", "wing.stl", "tail.stl"} {
		data, err := demo.ReadFile(path.Join("demo", name))
		if err != nil {
			panic(fmt.Sprintf("testdata: %v", err)) // embedded at build time
		}
		out = append(out, File{name, data})
	}
	return out
}
