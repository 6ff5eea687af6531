package overlap

import (
	"math"
	"slices"

	"millpond/mesh"

	"gonum.org/v1/gonum/spatial/r3"
)

// flushness is how far two faces meant to be flush may be apart, as a share of
// their coordinates: each file rounds to float32, by 2^-24 at most, and twice
// that is left for what came before.
const flushness = 0x1p-22

// settle moves the level faces of a solid that is another's neighbor onto the
// other's, where they are apart by no more than the rounding of files: a float
// drawn 74.1 high and set under a bridge at 74.1 + 10 then lies flush under it,
// and neither face is wet. Faces are level that lie across an axis. All corners
// at that coordinate move alike, so that faces stay flat; the volume changes by
// less than the files have rounded it by.
//
// Nothing moves where the map leaves the files' coordinates as they are.
func settle(s *soup, place mesh.Affine, onto *soup) {
	if place.T == (r3.Vec{}) && isPermutation(place) {
		return
	}
	for axis := range 3 {
		t := coordinate(place.T, axis)
		moves := matches(levels(s, axis), levels(onto, axis), t)
		if len(moves) == 0 {
			continue
		}
		for i := range s.vertices {
			if to, ok := moves[coordinate(s.vertices[i], axis)]; ok {
				setCoordinate(&s.vertices[i], axis, to)
			}
		}
	}
}

// isPermutation reports whether a map's linear part only swaps and mirrors
// axes.
func isPermutation(m mesh.Affine) bool {
	for _, row := range m.M {
		for _, x := range row {
			if x != 0 && x != 1 && x != -1 {
				return false
			}
		}
	}
	return true
}

func coordinate(v r3.Vec, axis int) float64 { return [3]float64{v.X, v.Y, v.Z}[axis] }

func setCoordinate(v *r3.Vec, axis int, x float64) {
	switch axis {
	case 0:
		v.X = x
	case 1:
		v.Y = x
	default:
		v.Z = x
	}
}

// levels returns the coordinates along an axis of the faces across it, in
// order.
func levels(s *soup, axis int) []float64 {
	var out []float64
	for _, t := range s.triangles {
		x := coordinate(s.vertices[t[0]], axis)
		if x == coordinate(s.vertices[t[1]], axis) && x == coordinate(s.vertices[t[2]], axis) {
			if n := len(out); n == 0 || out[n-1] != x {
				out = append(out, x)
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// matches returns for each level that nearly is one of others which it nearly
// is, where the one was shifted by t before.
func matches(levels, others []float64, t float64) map[float64]float64 {
	var out map[float64]float64
	j := 0
	for _, x := range levels {
		for j < len(others)-1 && math.Abs(others[j+1]-x) <= math.Abs(others[j]-x) {
			j++
		}
		if len(others) == 0 || x == others[j] {
			continue
		}
		if math.Abs(x-others[j]) <= flushness*max(math.Abs(x), math.Abs(x-t)) {
			if out == nil {
				out = make(map[float64]float64)
			}
			out[x] = others[j]
		}
	}
	return out
}
