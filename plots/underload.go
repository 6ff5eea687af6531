package plots

import (
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// UnderLoad is the picture of a craft under a growing load: its angles against
// the load, and below them the heights of what is watched. Angles are in
// degrees.
type UnderLoad struct {
	Title string
	Note  string // replaces Caution if set
	Load  string // name of the load with its unit: "Thrust (N)"
	Unit  string // of heights: "mm"

	Angles  []LoadCurve
	Heights []LoadCurve
	Band    *LoadBand   // drawn behind the angles
	Limits  []LoadLimit // across both panels
}

// LoadCurve is a value against the load.
type LoadCurve struct {
	Name         string
	Loads, Value []float64 // equally many; NaN where there is none
}

// LoadBand is a range of values against the load.
type LoadBand struct {
	Name             string
	Loads, Low, High []float64
}

// LoadLimit is a load worth a line across the picture. A bound is one beyond
// which nothing holds.
type LoadLimit struct {
	Load  float64
	Label string
	Bound bool
}

// Size returns the size that the figure is made for.
func (u *UnderLoad) Size() (w, h vg.Length) { return 20 * vg.Centimeter, 15 * vg.Centimeter }

// Draw draws the figure.
func (u *UnderLoad) Draw(c draw.Canvas) {
	note := u.Note
	if note == "" {
		note = Caution
	}
	panels := []Panel{{Plot: u.angles()}}
	heights := []float64{1}
	if len(u.Heights) > 0 {
		panels = append(panels, Panel{Row: 1, Plot: u.heights()})
		heights = []float64{1, 1.1}
	}
	Layout{Title: u.Title, Note: note, Heights: heights, Panels: panels}.Draw(c)
}

// angles returns the upper panel.
func (u *UnderLoad) angles() *plot.Plot {
	p := New("")
	p.Y.Label.Text = Label("Angle", "°")
	p.Y.Tick.Marker = DegreeTicks{Want: 6}
	if len(u.Heights) == 0 {
		p.X.Label.Text = u.Load
	}
	legend := &Legend{}
	notes := &Notes{Legend: legend}
	if b := u.Band; b != nil {
		band := NewBand(b.Loads, b.Low, b.High, 0)
		p.Add(band)
		legend.Add(b.Name, band)
	}
	p.Add(zeroLine{})
	for i, k := range u.Angles {
		curve := NewCurve(k.Loads, k.Value, i)
		p.Add(curve)
		legend.Add(k.Name, curve)
		notes.Curves = append(notes.Curves, curve)
	}
	u.limits(notes, true)
	notes.AddTo(p)
	u.across(p)
	return p
}

// heights returns the lower panel.
func (u *UnderLoad) heights() *plot.Plot {
	p := New("")
	p.X.Label.Text = u.Load
	p.Y.Label.Text = Label("Height above the water", u.Unit)
	notes := &Notes{HLines: []HLine{{Y: 0, Label: "water surface", Miss: Below, Style: BoundStyle()}}}
	ends := &EndLabels{}
	for i, k := range u.Heights {
		curve := NewCurve(k.Loads, k.Value, i)
		p.Add(curve)
		notes.Curves = append(notes.Curves, curve)
		ends.Labels = append(ends.Labels, EndLabel{curve, k.Name})
	}
	p.Add(ends)
	u.limits(notes, false)
	notes.AddTo(p)
	u.across(p)
	return p
}

// limits marks the limits; only one panel names them.
func (u *UnderLoad) limits(n *Notes, named bool) {
	for _, l := range u.Limits {
		line := VLine{X: l.Load, Style: NoteStyle()}
		if named {
			line.Label = l.Label
		}
		if l.Bound {
			line.Style, line.Miss = BoundStyle(), Above
		}
		n.VLines = append(n.VLines, line)
	}
}

// across sets the axes: the same loads in both panels.
func (u *UnderLoad) across(p *plot.Plot) {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, set := range [][]LoadCurve{u.Angles, u.Heights} {
		for _, k := range set {
			for _, x := range k.Loads {
				lo, hi = math.Min(lo, x), math.Max(hi, x)
			}
		}
	}
	for _, l := range u.Limits {
		// Room to see on which side of it nothing holds.
		if l.Bound {
			hi = math.Max(hi, l.Load+0.02*(l.Load-lo))
		}
	}
	Headroom(p, 0, 0.08)
	if hi > lo {
		Range(&p.X, lo, hi)
	}
}
