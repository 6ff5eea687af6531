package overlap

import (
	"runtime"
	"sync"
	"sync/atomic"

	"gonum.org/v1/gonum/spatial/r3"
)

// Crossings says how a surface passes through itself.
type Crossings struct {
	Facets int     // that another facet passes through or lies flat on
	Extra  float64 // the volume that was enclosed more than once, or inside out
}

// Once returns the surface of all that a closed surface winds around at least
// once, outward: the surface itself where it does not pass through itself or
// lie flat on itself, and no shell of it lies within another.
//
// The triangles run anticlockwise seen from outside and form a closed chain. A
// caller who knows that all of them hang together over edges of two, so that
// there is but one shell, says so with single; then it is enough that nothing
// crosses. The slices are not changed; they are returned when all is well.
func Once(vertices []r3.Vec, triangles [][3]uint32, single bool) ([]r3.Vec, [][3]uint32, Crossings, error) {
	s := soup{vertices, triangles}
	out, c, err := once(s, single, fine)
	if isWrong(err) {
		out, c, err = once(s, single, coarse)
	}
	return out.vertices, out.triangles, c, err
}

func once(s soup, single bool, bits int) (soup, Crossings, error) {
	var c Crossings
	a, err := newArrangement([]soup{s}, bits)
	if err != nil {
		return s, c, err
	}
	err = a.meetOwn()
	if c.Facets = len(a.head) + 2*a.doubled; err != nil || c.Facets == 0 && single {
		return s, c, err
	}
	all := make([]uint32, len(a.facets))
	for i := range all {
		all[i] = uint32(i)
	}
	list, err := a.pieces(all)
	if err != nil {
		return s, c, err
	}
	if _, patches := a.patches(list); patches == 1 {
		return s, c, nil
	}
	whole := a.volumeOf(0)
	only := []int{0}
	keep, err := a.judge(list, func(*piece) []int { return only }, func(p *piece, v *view) bool {
		front := v.front(0)
		if !v.up {
			front-- // the piece itself was not counted
		}
		back := front + 1
		for _, l := range v.level {
			if l.up == v.up {
				back++
			} else {
				back--
			}
		}
		return front <= 0 && back > 0 && !v.same(func(l *layer) bool { return l.facet < p.facet })
	})
	if err != nil {
		return s, c, err
	}
	kept := list[:0]
	for i, p := range list {
		if keep[i] {
			kept = append(kept, p)
		}
	}
	if kept, err = a.zip(kept); err != nil {
		return s, c, err
	}
	if err := a.checkOnce(kept); err != nil {
		return s, c, err
	}
	c.Extra = (whole - a.volume(kept, &a.bodies[0].box)) * a.lattice.step * a.lattice.step * a.lattice.step
	return a.chain(kept), c, nil
}

// meetOwn cuts all facets of one solid that meet. Most pairs are neighbors and
// quickly told to have no more in common, in patches or pair by pair; that is done on all processors.
func (a *arrangement) meetOwn() error {
	t := a.treeOf(0)
	a.smoothAt = a.smooth(a.bodies[0].torn)
	list := t.chores(0, 7, nil)
	pairs := make([][][2]uint32, len(list))
	var next, seen atomic.Int64
	var all sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		all.Go(func() {
			patch := newPatcher(a)
			for {
				i := int(next.Add(1)) - 1
				if i >= len(list) {
					return
				}
				n := 0
				t.do(list[i], patch.clear, func(f, g uint32) bool {
					if n++; n%1000 == 0 && int(seen.Add(1000)) > a.limit.pairs {
						return false
					}
					if !a.apart(f, g) {
						pairs[i] = append(pairs[i], [2]uint32{f, g})
					}
					return true
				})
			}
		})
	}
	all.Wait()
	if int(seen.Load()) > a.limit.pairs {
		return &TooManyError{What: "pairs of facets near each other", Most: a.limit.pairs}
	}
	for _, part := range pairs {
		for _, p := range part {
			if err := a.meet(p[0], p[1]); err != nil {
				return err
			}
		}
	}
	return nil
}
