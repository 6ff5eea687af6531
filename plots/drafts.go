package plots

import (
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Drafts is a hydrostatic table as curves over the draft, and the area of the
// sections along the craft at rest. Lengths are meters, masses kilograms, areas
// m2; slices of one row each run over Draft, or over Station.
type Drafts struct {
	Title string

	Draft                        []float64
	Mass                         []float64
	KB, KMTransverse, KMLongwise []float64
	Waterplane, Wetted           []float64
	Today                        float64 // the craft's own draft at this trim; NaN marks none
	Station, Section             []float64
	SectionTitle                 string
	BuoyancyAt, GravityAt        float64 // stations of CB and CG at rest; NaN leaves one out
}

// Size returns the size that the page is made for.
func (d *Drafts) Size() (w, h vg.Length) { return 24 * vg.Centimeter, 17 * vg.Centimeter }

// Draw draws the page.
func (d *Drafts) Draw(c draw.Canvas) {
	mm := scaled(d.Draft, 1000)
	var today []VLine
	if !math.IsNaN(d.Today) {
		today = []VLine{{X: d.Today * 1000, Label: "today", Style: NoteStyle()}}
	}
	type named struct {
		name string
		y    []float64
	}
	overDraft := func(title, unit string, curves ...named) *plot.Plot {
		p := New("")
		p.X.Label.Text = Label("Draft", "mm")
		p.Y.Label.Text = Label(title, unit)
		notes := &Notes{VLines: today, Legend: &Legend{}}
		for i, n := range curves {
			k := NewCurve(mm, n.y, i)
			p.Add(k)
			notes.Curves = append(notes.Curves, k)
			if len(curves) > 1 {
				notes.Legend.Add(n.name, k)
			}
		}
		notes.AddTo(p)
		p.Y.Min = min(p.Y.Min, 0)
		Headroom(p, 0, 0.08)
		p.Y.Min = max(p.Y.Min, 0)
		return p
	}
	Layout{
		Title: d.Title, Note: Caution,
		Widths: []float64{1, 1}, Heights: []float64{1, 1},
		Panels: []Panel{
			{Row: 0, Col: 0, Plot: overDraft("Displaced mass", "kg", named{"", d.Mass})},
			{Row: 0, Col: 1, Plot: overDraft("Area", "cm²", named{"waterplane", scaled(d.Waterplane, 1e4)}, named{"wetted", scaled(d.Wetted, 1e4)})},
			{Row: 1, Col: 0, Plot: overDraft("Height over the lowest point", "mm",
				named{"KM, longitudinal", scaled(d.KMLongwise, 1000)}, named{"KM, transverse", scaled(d.KMTransverse, 1000)}, named{"KB", scaled(d.KB, 1000)})},
			{Row: 1, Col: 1, Plot: d.sections()},
		},
	}.Draw(c)
}

// sections draws the area of the sections below water along the craft.
func (d *Drafts) sections() *plot.Plot {
	p := New("")
	p.X.Label.Text = Label("Ahead of the origin", "mm")
	p.Y.Label.Text = Label(d.SectionTitle, "cm²")
	k := NewCurve(scaled(d.Station, 1000), scaled(d.Section, 1e4), 0)
	p.Add(k)
	notes := &Notes{Curves: []*Curve{k}}
	for _, m := range []struct {
		at   float64
		name string
	}{{d.BuoyancyAt, "CB"}, {d.GravityAt, "CG"}} {
		if !math.IsNaN(m.at) {
			notes.VLines = append(notes.VLines, VLine{X: m.at * 1000, Label: m.name, Style: NoteStyle()})
		}
	}
	notes.AddTo(p)
	Headroom(p, 0.02, 0.08)
	p.Y.Min = 0
	return p
}

// scaled returns v times k.
func scaled(v []float64, k float64) []float64 {
	out := make([]float64, len(v))
	for i := range v {
		out[i] = k * v[i]
	}
	return out
}
