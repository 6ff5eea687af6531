package craftfile

import (
	"fmt"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
)

// axes are the directions a mesh may be drawn in.
var axes = map[string]r3.Vec{
	"+x": {X: 1}, "-x": {X: -1},
	"+y": {Y: 1}, "-y": {Y: -1},
	"+z": {Z: 1}, "-z": {Z: -1},
}

// axis reads the name of an axis: +x, x, -Y.
func axis(text string) (r3.Vec, error) {
	name := strings.ToLower(strings.ReplaceAll(text, "\u2212", "-"))
	if len(name) == 1 {
		name = "+" + name
	}
	v, ok := axes[name]
	if !ok {
		return r3.Vec{}, fmt.Errorf("%q is no axis; one of +x, -x, +y, -y, +z, -z is wanted", text)
	}
	return v, nil
}

// drawn returns the map from a mesh's numbers to the part's axes in meters,
// from the axes along which its nose and its top were drawn and the meters in
// one of its units.
//
// The part's x is along forward and its z along up; its y is then up x forward,
// to port, so that the map never mirrors.
func drawn(forward, up r3.Vec, meters float64) (mesh.Affine, error) {
	if r3.Dot(forward, up) != 0 {
		return mesh.Affine{}, fmt.Errorf("forward and up lie along the same axis; they must be at right angles")
	}
	port := r3.Cross(up, forward)
	row := func(v r3.Vec) [3]float64 { return [3]float64{meters * v.X, meters * v.Y, meters * v.Z} }
	return mesh.Affine{M: [3][3]float64{row(forward), row(port), row(up)}}, nil
}
