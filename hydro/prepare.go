package hydro

import "millpond/mesh"

// Prepare says that about so many cuts of the whole hull lie ahead, so that its
// solids can build the index that makes a cut cheap, each once, where it pays:
// see [mesh.Solid.Prepare]. A rest takes some 5 cuts, a mass to first wet some
// 60, a righting curve 400 and each jump on it 110, all attitudes 2,000.
func (h *Hull) Prepare(cuts int) {
	uses := map[*mesh.Solid]int{}
	for _, t := range h.terms {
		uses[t.Solid]++
	}
	for _, t := range h.terms {
		if n := uses[t.Solid]; n > 0 {
			t.Solid.Prepare(cuts * n)
			uses[t.Solid] = 0
		}
	}
}
