package mend

import (
	"fmt"
	"math/rand/v2"
	"slices"

	"millpond/mesh"
	"millpond/mesh/overlap"

	"gonum.org/v1/gonum/spatial/r3"
)

// VentError says that a point named as one in a vented cavity is in none.
type VentError struct {
	At     r3.Vec
	Inside bool   // it is in solid material, not outside
	Hint   string // where cavities are
}

func (e *VentError) Error() string {
	where := "outside the mesh"
	if e.Inside {
		where = "in solid material"
	}
	return fmt.Sprintf("no cavity holds the point %s of the mesh's own coordinates, which lies %s; %s", place(e.At), where, e.Hint)
}

// Vent returns what displaces when water reaches the cavities that hold the
// given points, in the file's coordinates: the solid without those cavities,
// but with the solids that lie in them. The indices of the cavities in Shells
// come with it. The error is a [*VentError] when a point is in no cavity.
func (r *Result) Vent(points []r3.Vec) (*mesh.Solid, []int, error) {
	shells := make([]*surface, len(r.Shells))
	for i, s := range r.Shells {
		if s.Solid != nil {
			shells[i] = placedSurface(mesh.Placed{Solid: s.Solid, Place: mesh.Identity()})
		}
	}
	var vented []int
	for _, p := range points {
		i, err := r.cavityAt(p, shells)
		if err != nil {
			return nil, nil, err
		}
		if !slices.Contains(vented, i) {
			vented = append(vented, i)
		}
	}
	if len(vented) == 0 {
		return r.Solid, nil, nil
	}
	slices.Sort(vented)
	return r.without(vented, shells)
}

// cavityAt returns the index of the innermost shell around a point, which must
// be a cavity.
func (r *Result) cavityAt(p r3.Vec, shells []*surface) (int, error) {
	in := -1
	for i, s := range shells {
		if s != nil && s.encloses(p) && (in < 0 || r.Shells[i].Depth > r.Shells[in].Depth) {
			in = i
		}
	}
	if in >= 0 && r.Shells[in].Kind == Cavity {
		return in, nil
	}
	e := &VentError{At: p, Inside: in >= 0, Hint: "the mesh has no cavity"}
	if in < 0 {
		e.Inside = placedSurface(mesh.Placed{Solid: r.Solid, Place: mesh.Identity()}).encloses(p)
	}
	for i, s := range r.Shells {
		if s.Kind == Cavity {
			e.Hint = fmt.Sprintf("the mesh has one, shell %d, around %s: see inspect", i+1, place(s.Centroid))
			break
		}
	}
	return -1, e
}

// encloses reports whether the surface winds around a point.
func (s *surface) encloses(p r3.Vec) bool {
	if at := boxOf(p); !s.box.near(&at, 0) {
		return false
	}
	random := rand.New(rand.NewPCG(5, 6))
	for range tries {
		hits, ok := s.hits(p, tilted(r3.Vec{Z: 1}, random))
		if !ok {
			continue
		}
		winding := 0
		for _, h := range hits {
			if h.t < 0 {
				winding += h.turn
			}
		}
		return winding != 0
	}
	return false
}

// without returns the solid with some cavities open to the water.
func (r *Result) without(vented []int, shells []*surface) (*mesh.Solid, []int, error) {
	whole := placedSurface(mesh.Placed{Solid: r.Solid, Place: mesh.Identity()})
	verts, tris := whole.verts, whole.tris
	used := make([]bool, len(shells)) // beside the outer shells
	add := func(i int, inward bool) {
		used[i] = true
		base := uint32(len(verts))
		verts = append(verts, shells[i].verts...)
		for _, t := range shells[i].tris {
			t = [3]uint32{t[0] + base, t[1] + base, t[2] + base}
			if inward {
				t[1], t[2] = t[2], t[1]
			}
			tris = append(tris, t)
		}
	}
	for _, c := range vented {
		add(c, true)
		for i, s := range r.Shells {
			if s.Kind == Inner && s.Parent == c {
				add(i, false)
			}
		}
	}
	for _, p := range r.Pairs {
		if used[p.A] && used[p.B] && (p.Relation == Crossing || p.Relation == Touching) {
			var err error
			if verts, tris, _, err = overlap.Once(verts, tris, false); err != nil {
				return nil, nil, fmt.Errorf("what stands in the vented cavity passes through itself and cannot be put right: %w", err)
			}
			break
		}
	}
	s, err := mesh.NewSolid(verts, tris)
	return s, vented, err
}
