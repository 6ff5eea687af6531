package plots

import (
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Growth shows side by side what several causes do to the same results: mass
// that a build gains, a CG that moves fore and aft. Charts in one row share
// their y axis.
type Growth struct {
	Title string // may be empty
	// Causes are the columns, each with the same charts in the same order.
	Causes []Swept
	Note   string // small, under everything; may be empty
}

// ShareRanges fixes the y axes of figures with the same charts, so that they
// can be compared side by side.
func ShareRanges(figs []Swept) {
	if len(figs) == 0 {
		return
	}
	for i := range figs[0].Charts {
		lo, hi := math.Inf(1), math.Inf(-1)
		for k := range figs {
			p := figs[k].plot(i, false)
			lo, hi = math.Min(lo, p.Y.Min), math.Max(hi, p.Y.Max)
		}
		for k := range figs {
			figs[k].Charts[i].Range = &Interval{lo, hi}
		}
	}
}

// shared returns the causes with shared ranges, the charts their own copies.
func (g *Growth) shared() []Swept {
	out := append([]Swept(nil), g.Causes...)
	for i := range out {
		out[i].Charts = append([]Chart(nil), out[i].Charts...)
	}
	ShareRanges(out)
	return out
}

// Size returns the size that suits the figure.
func (g *Growth) Size() (w, h vg.Length) {
	w = 9 * vg.Centimeter * vg.Length(max(len(g.Causes), 1))
	whole := g.whole()
	return w, whole.HeightFor(w)
}

// whole is a figure with the charts of one cause and the key of all of them.
func (g *Growth) whole() *Swept {
	s := &Swept{Title: g.Title, Note: g.Note}
	for _, c := range g.Causes {
		s.Charts = c.Charts
		if s.Over.Ticks == nil || c.axis() > s.axis() {
			s.Over.Ticks = c.Over.Ticks
		}
		if c.Over.Holds != nil {
			s.Over.Holds = append(append([]Interval{}, s.Over.Holds...), c.Over.Holds...)
		}
		s.Over.Gaps = append(s.Over.Gaps, c.Over.Gaps...)
	}
	return s
}

// Draw draws the figure on c.
func (g *Growth) Draw(c draw.Canvas) {
	l := Layout{Title: g.Title, Note: g.Note, Gap: layoutGap}
	for range g.Causes {
		l.Widths = append(l.Widths, 1)
	}
	g.whole().draw(c, l, g.shared())
}
