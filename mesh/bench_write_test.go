package mesh_test

import (
	"bufio"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
	"millpond/mesh/bench"
)

// Writes the floats and planes of the benchmarks for the other libraries that
// testdata/bench/run.sh cuts them with, and the volumes that come out here.
func TestWriteBenchMeshes(t *testing.T) {
	dir := os.Getenv("MILLPOND_BENCH_DIR")
	if dir == "" {
		t.Skip("for testdata/bench/run.sh")
	}
	planes := floatPlanes(rand.New(rand.NewPCG(5, 10)), benchPlanes)
	write(t, filepath.Join(dir, "planes.txt"), func(w *bufio.Writer) {
		for _, pl := range planes {
			fmt.Fprintln(w, pl.Normal.X, pl.Normal.Y, pl.Normal.Z, pl.Offset)
		}
	})
	for _, size := range bench.Sizes {
		m := bench.Float(size.Count)
		write(t, filepath.Join(dir, "float-"+size.Name+".off"), func(w *bufio.Writer) {
			fmt.Fprintln(w, "OFF\n", len(m.Vertices), len(m.Triangles), 0)
			for _, v := range m.Vertices {
				fmt.Fprintln(w, v.X, v.Y, v.Z)
			}
			for _, f := range m.Triangles {
				fmt.Fprintln(w, 3, f[0], f[1], f[2])
			}
		})
		p := mesh.Placed{Solid: solidOf(t, m), Place: mesh.Identity()}
		write(t, filepath.Join(dir, "volumes-"+size.Name+".txt"), func(w *bufio.Writer) {
			for _, pl := range planes {
				fmt.Fprintln(w, p.Below(pl, r3.Vec{}).Volume)
			}
		})
	}
}

func write(t *testing.T, name string, f func(w *bufio.Writer)) {
	t.Helper()
	file, err := os.Create(name)
	if err != nil {
		t.Fatal(err)
	}
	w := bufio.NewWriter(file)
	f(w)
	if err := w.Flush(); err != nil {
		t.Fatal(err)
	}
	if err := file.Close(); err != nil {
		t.Fatal(err)
	}
}
