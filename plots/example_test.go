package plots_test

import (
	"bytes"
	"fmt"

	"gonum.org/v1/plot/vg"

	"millpond/plots"
)

// A curve with its bound, written as PDF.
func Example() {
	p := plots.New("Clearance of the propeller")
	p.X.Label.Text = plots.Label("Mass", "kg")
	p.Y.Label.Text = plots.Label("Clearance", "mm")
	c := plots.NewCurve([]float64{2.0, 2.2, 2.4, 2.6}, []float64{61, 52, 41, 28}, 0)
	p.Add(c)
	notes := &plots.Notes{
		HLines: []plots.HLine{{Y: 30, Label: "at least 30 mm", Miss: plots.Below, Style: plots.BoundStyle()}},
		Curves: []*plots.Curve{c},
	}
	notes.AddTo(p)
	plots.Headroom(p, 0, 0.08)
	page := plots.Layout{Note: plots.Caution, Panels: []plots.Panel{{Plot: p}}}

	format, err := plots.FormatOf("clearance.pdf")
	if err != nil {
		fmt.Println(err)
		return
	}
	var out bytes.Buffer
	if err := plots.Write(&out, format, 12*vg.Centimeter, 8*vg.Centimeter, page.Draw); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s\n", out.Bytes()[:5])
	// Output: %PDF-
}
