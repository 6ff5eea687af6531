package mesh

// payingCuts is how many cuts it takes for the index to win back the time that
// it takes to build: about that many from 10,000 to 1,000,000 triangles, on one
// core.
const payingCuts = 64

// fewTriangles is where a straight pass is so short that an index hardly
// gains anything.
const fewTriangles = 1000

// Prepare says that about so many cuts of s lie ahead: calls of [Placed.Below],
// [Placed.WetArea], [Placed.Lowest] and [Placed.Grazes], under whatever
// placements. Where it pays, Prepare builds an index over the triangles, which
// all of these use from then on. One rest takes too few cuts to pay; a curve, a
// sweep or a search for all attitudes does.
//
// An index is built once, and kept as long as s. It takes some 60 bytes a
// triangle. With an index the results may differ by rounding from those
// without one, so prepare before the first cut, not between cuts that are to be
// compared to the last bit. Prepare may be called at any time from any
// goroutine.
func (s *Solid) Prepare(cuts int) {
	if cuts >= payingCuts && len(s.triangles) >= fewTriangles {
		s.prepare.Do(func() { s.index.Store(newIndex(s)) })
	}
}
