package main

import (
	"bytes"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
	"millpond/mesh/meshfile"
)

const committed = "../../testdata/demo"

// Each committed file must be what the program writes today. Other processors
// may round the last bit of a coordinate otherwise, so corners may differ by a
// tenth of a micrometer.
func TestCommittedMeshesAreCurrent(t *testing.T) {
	for _, d := range drawings(1) {
		f, err := meshfile.Read(filepath.Join(committed, d.name))
		if err != nil {
			t.Errorf("%v; run: go run ./cmd/demomeshes -o testdata/demo", err)
			continue
		}
		if got, want := len(f.Mesh.Triangles), len(d.mesh.Triangles); got != want {
			t.Errorf("%s has %d triangles, the program makes %d; run: go run ./cmd/demomeshes -o testdata/demo", d.name, got, want)
			continue
		}
		worst := 0.0
		for i := range f.Mesh.Triangles {
			a, b := f.Mesh.Triangle(i), d.mesh.Triangle(i)
			for k := range a {
				worst = math.Max(worst, r3.Norm(r3.Sub(a[k], b[k])))
			}
		}
		if worst > 1e-4 {
			t.Errorf("%s differs by %v mm from what the program makes; run: go run ./cmd/demomeshes -o testdata/demo", d.name, worst)
		}
	}
}

// Rounding to the file's float32 must leave the meshes closed.
func TestCommittedMeshesAreClosed(t *testing.T) {
	for _, d := range drawings(1) {
		f, err := meshfile.Read(filepath.Join(committed, d.name))
		if err != nil {
			t.Fatal(err)
		}
		index := make(map[r3.Vec]uint32)
		var vertices []r3.Vec
		triangles := make([][3]uint32, len(f.Mesh.Triangles))
		for i := range f.Mesh.Triangles {
			for k, p := range f.Mesh.Triangle(i) {
				j, ok := index[p]
				if !ok {
					j = uint32(len(vertices))
					index[p] = j
					vertices = append(vertices, p)
				}
				triangles[i][k] = j
			}
		}
		solid, err := mesh.NewSolid(vertices, triangles)
		if err != nil {
			t.Errorf("%s: %v", d.name, err)
			continue
		}
		if v := solid.Volume(); v <= 0 {
			t.Errorf("%s: volume %v mm³, want more than 0", d.name, v)
		}
	}
}

func TestRunRepeatsItself(t *testing.T) {
	one, two := t.TempDir(), t.TempDir()
	for _, dir := range []string{one, two} {
		if err := run([]string{"-o", dir, "-n", "2"}, io.Discard, io.Discard); err != nil {
			t.Fatal(err)
		}
	}
	for _, d := range drawings(1) {
		a, err := os.ReadFile(filepath.Join(one, d.name))
		if err != nil {
			t.Fatal(err)
		}
		b, err := os.ReadFile(filepath.Join(two, d.name))
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(a, b) {
			t.Errorf("%s differs between two runs", d.name)
		}
		if got, want := float64(len(a))/50, 4*float64(len(d.mesh.Triangles)); math.Abs(got/want-1) > 0.1 {
			t.Errorf("%s with -n 2 has about %.0f triangles, want about %.0f", d.name, got, want)
		}
	}
}

func TestRunRefuses(t *testing.T) {
	for _, c := range []struct {
		args []string
		want string
	}{
		{nil, "give one with -o"},
		{[]string{"-o", "x", "-n", "0"}, "from 1 to 30"},
		{[]string{"-o", "x", "-n", "31"}, "from 1 to 30"},
		{[]string{"-o", "x", "more"}, `"more"`},
		{[]string{"-z"}, "not defined: -z"},
		{[]string{"-o", "main.go"}, "main.go"},
	} {
		err := run(c.args, io.Discard, io.Discard)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("run(%q) = %v, want an error with %q", c.args, err, c.want)
		}
	}
	if _, err := os.Stat("x"); err == nil {
		t.Error("a refused call made the folder x")
	}
}
