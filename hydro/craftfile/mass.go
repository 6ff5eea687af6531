package craftfile

import (
	"fmt"
	"strings"

	"millpond/hydro/craft"
	"millpond/hydro/unit"
)

// massed is something that says that the mass is built up.
type massed struct {
	what string // "part "float""
	at   int
}

// mass reads the table [mass], which states total mass and CG outright.
func (r *reader) mass(top *table) {
	t := top.single("mass")
	if t == nil {
		return
	}
	total, hasTotal := t.quantity("total", unit.Mass, overZero)
	cg, hasCG := t.vector("cg")
	if !t.has("total") {
		t.miss(`[mass] has no total; write total = "3.2 kg", or leave [mass] out and give the parts and items their masses`)
	}
	if !t.has("cg") {
		t.miss(`[mass] has no cg; write cg = ["12 mm", "0 mm", "95 mm"]`)
	}
	if len(r.massed) > 0 {
		t.fail(t.node.at, "the mass is stated outright here and built up by %s; keep one of the two", r.builders())
	}
	if hasTotal && hasCG {
		r.file.Craft.Stated = &craft.Mass{Mass: total, At: cg}
	}
}

// builders lists what says that the mass is built up.
func (r *reader) builders() string {
	var words []string
	for i, m := range r.massed {
		if i == 3 && len(r.massed) > 4 {
			words = append(words, fmt.Sprintf("%d more", len(r.massed)-i))
			break
		}
		words = append(words, fmt.Sprintf("%s (line %d)", m.what, r.line(m.at)))
	}
	return strings.Join(words, ", ")
}

// growth reads the table [growth], the margin for what builds gain.
func (r *reader) growth(top *table) {
	t := top.single("growth")
	if t == nil {
		return
	}
	g := &r.file.Craft.Growth
	g.Share, _ = t.quantity("share", unit.Share, notNegative)
	g.At = t.vectorPointer("at")
	if !t.has("share") {
		t.miss(`[growth] has no share; write share = "5 %%"`)
	}
}
