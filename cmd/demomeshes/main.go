// Demomeshes writes the meshes of the demo craft, the Sedgeling, an invented
// radio-controlled survey airplane on twin floats for the reed beds of the
// invented lake Quillmere.
//
//	go run ./cmd/demomeshes -o testdata/demo
//	go run ./cmd/demomeshes -o DIR -n 4
//
// With -n every mesh is n times finer along both ways of its surface and has n²
// times the triangles: the float has about 6,000, 100,000 with -n 4, 1,000,000
// with -n 13. The same flags give the same bytes.
//
// All files are binary STL in millimeters, each in the axes a builder would
// have drawn it in:
//
//	float.stl      one float; origin at the keel at the step, nose toward +x
//	low-float.stl  the same float with 10 mm less side, for the second craft
//	fuselage.stl   origin at the firewall on the thrust line, nose toward -y
//	wing.stl       both halves; origin at the leading edge, nose toward +x
//	tail.stl       tailplane and fin; origin at the tailplane's leading edge
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
	"millpond/mesh/meshfile"
	"millpond/mesh/shape"
)

const deg = math.Pi / 180

var float = shape.Float{
	Forebody:       440,
	Afterbody:      380,
	Beam:           86,
	Depth:          74,
	Step:           10,
	Deadrise:       20 * deg,
	BowDeadrise:    42 * deg,
	AfterbodyAngle: 4 * deg,
	Straight:       0.36,
	BowRise:        64,
	Sheer:          12,
	Transom:        48,
	Edge:           9,
}

// lowFloat came off the same drawing after somebody saved a sheet of foam.
func lowFloat() shape.Float {
	f := float
	f.Depth -= 10
	f.BowRise -= 9
	return f
}

// The frames are written from the firewall, forward positive, heights from the
// thrust line.
var fuselage = []shape.Frame{
	{X: -1040, Half: 9, Bottom: 2, Top: 38, Square: 2.2},
	{X: -760, Half: 22, Bottom: -24, Top: 39, Square: 2.6},
	{X: -515, Half: 42, Bottom: -60, Top: 43, Square: 3.4},
	{X: -260, Half: 52, Bottom: -74, Top: 43, Square: 3.6},
	{X: -190, Half: 52, Bottom: -73, Top: 52, Square: 3.4},
	{X: -100, Half: 49, Bottom: -67, Top: 51, Square: 3.2},
	{X: -25, Half: 38, Bottom: -46, Top: 40, Square: 2.6},
	{X: 18, Half: 21, Bottom: -21, Top: 21, Square: 2},
}

var wing = shape.Wing{
	Span:      1600,
	Root:      260,
	Tip:       200,
	Sweep:     20,
	Dihedral:  3 * deg,
	Thickness: 0.12,
	Camber:    0.02,
	CamberAt:  0.4,
}

var tailplane = shape.Wing{Span: 520, Root: 150, Tip: 115, Sweep: 25, Thickness: 0.09}

// fin has twice its height as span, since it is half a wing; it stands finGap
// above the tailplane's middle plane, clear of its upper side.
var fin = shape.Wing{Span: 400, Root: 150, Tip: 95, Sweep: 65, Thickness: 0.09}

const finGap = 7.2

// drawing is one file to write.
type drawing struct {
	name string
	mesh *mesh.Mesh
}

// drawings returns all meshes, n times as fine as for the demo.
func drawings(n int) []drawing {
	noseToMinusY := mesh.Affine{M: [3][3]float64{{0, 1, 0}, {-1, 0, 0}, {0, 0, 1}}}
	onTailplane := mesh.Translation(r3.Vec{Z: finGap})
	return []drawing{
		{"float.stl", float.Mesh(6000 * n * n)},
		{"low-float.stl", lowFloat().Mesh(6000 * n * n)},
		{"fuselage.stl", shape.Transformed(shape.Fuselage(fuselage, 6000*n*n), noseToMinusY)},
		{"wing.stl", wing.Mesh(6000 * n * n)},
		{"tail.stl", shape.Join(
			tailplane.Mesh(2000*n*n),
			shape.Transformed(fin.Fin(1200*n*n), onTailplane),
		)},
	}
}

func main() {
	if err := run(os.Args[1:], os.Stdout, os.Stderr); err != nil {
		if !errors.Is(err, flag.ErrHelp) {
			fmt.Fprintln(os.Stderr, "demomeshes:", err)
		}
		os.Exit(2)
	}
}

func run(args []string, out, errs io.Writer) error {
	flags := flag.NewFlagSet("demomeshes", flag.ContinueOnError)
	flags.SetOutput(errs)
	dir := flags.String("o", "", "write the meshes to this `folder`, replacing those there")
	n := flags.Int("n", 1, "make every mesh this many times finer, 1 to 30")
	if err := flags.Parse(args); err != nil {
		return err
	}
	switch {
	case *dir == "":
		return errors.New("no folder to write to: give one with -o")
	case *n < 1 || *n > 30:
		return fmt.Errorf("-n is %d: give a number from 1 to 30", *n)
	case flags.NArg() > 0:
		return fmt.Errorf("do not know what to do with %q", flags.Arg(0))
	}
	if err := os.MkdirAll(*dir, 0o755); err != nil {
		return err
	}
	for _, d := range drawings(*n) {
		path := filepath.Join(*dir, d.name)
		if err := meshfile.WriteWhole(path, true, func(w io.Writer) error {
			return meshfile.WriteSTL(w, d.name, len(d.mesh.Triangles), d.mesh.Triangle)
		}); err != nil {
			return err
		}
		fmt.Fprintf(out, "%s: %d triangles\n", path, len(d.mesh.Triangles))
	}
	return nil
}
