package main

import (
	"context"
	"encoding/binary"
	"io"
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh/meshfile"
	"millpond/mesh/shape"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"millpond": func() {
			os.Exit(run(context.Background(), os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
		},
	})
}

// The scripts in testdata/script run the command on real files. Each begins in
// a folder that holds the demo under demo/ and a box of 900 x 100 x 100 mm as
// box.stl, from which the scripts make what they need.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: filepath.Join("testdata", "script"),
		Setup: func(env *testscript.Env) error {
			if err := os.CopyFS(filepath.Join(env.WorkDir, "demo"), os.DirFS(filepath.Join("..", "..", "testdata", "demo"))); err != nil {
				return err
			}
			return writeBox(filepath.Join(env.WorkDir, "box.stl"))
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"bytes": editBytes, "threemf": writeThreeMF},
	})
}

// writeBox writes a box float drawn in millimeters, keel at z = 0.
func writeBox(path string) error {
	m := shape.BoxBetween(r3.Vec{X: -450, Y: -50}, r3.Vec{X: 450, Y: 50, Z: 100})
	return meshfile.WriteWhole(path, false, func(w io.Writer) error {
		return meshfile.WriteSTL(w, "box", len(m.Triangles), m.Triangle)
	})
}

// editBytes is the script command that spoils a file:
//
//	bytes FROM TO cut N       all but the last N bytes
//	bytes FROM TO pad N       N bytes of 1 more
//	bytes FROM TO count N     another facet count in the header
//	bytes FROM TO header TEXT another header text
//	bytes FROM TO nan I       a NaN for the x of facet I's first corner
//	bytes FROM TO inf I       an infinity
//	bytes FROM TO drop I      without facet I
//	bytes FROM TO turn        every facet inside out
func editBytes(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 3 {
		ts.Fatalf("usage: bytes FROM TO HOW [N]")
	}
	data := []byte(ts.ReadFile(args[0]))
	arg := ""
	if len(args) > 3 {
		arg = args[3]
	}
	n := 0
	for _, c := range arg {
		n = n*10 + int(c-'0')
	}
	const head, record, corner = 84, 50, 12
	count := func(n int) { binary.LittleEndian.PutUint32(data[80:], uint32(n)) }
	put := func(at int, v float64) {
		binary.LittleEndian.PutUint32(data[at:], math.Float32bits(float32(v)))
	}
	switch args[2] {
	case "cut":
		data = data[:len(data)-n]
	case "pad":
		for range n {
			data = append(data, 1)
		}
	case "count":
		count(n)
	case "header":
		copy(data, arg+" ")
	case "nan":
		put(head+record*n+corner, math.NaN())
	case "inf":
		put(head+record*n+corner, math.Inf(1))
	case "drop":
		count(int(binary.LittleEndian.Uint32(data[80:])) - 1)
		data = append(data[:head+record*n], data[head+record*(n+1):]...)
	case "turn":
		for at := head; at < len(data); at += record {
			a, b := data[at+corner:at+2*corner], data[at+2*corner:at+3*corner]
			for i := range a {
				a[i], b[i] = b[i], a[i]
			}
		}
	default:
		ts.Fatalf("no such change: %s", args[2])
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[1]), data, 0o644))
}
