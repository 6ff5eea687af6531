package main

import (
	"fmt"
	"math"
)

// ratios prints what issues and commit messages quote.
func (p *printer) ratios() {
	cut := p.time(cutIndex)
	p.heading("ratios")
	p.row("index, planes in turn / clip floor", "%.3g", over(cut, p.time(floorClip)))
	p.row("index, each plane 16 times / clip floor", "%.3g", over(p.time(cutAgain), p.time(floorClip)))
	p.row("straight pass / index", "%.3g", over(p.time(cutStraight), cut))
	p.row("read floor / straight pass: share of memory bandwidth", "%.3g", over(p.time(floorStream), p.time(cutStraight)))
	for _, name := range p.peers {
		p.row(name+" / index", "%.3g", over(p.time(name+"/%s"), cut))
	}
	p.row("cuts after which the index, on one core, has paid", "%.0f", func(size string) float64 {
		return p.time(indexOne)(size) / (p.time(cutStraight)(size) - cut(size))
	})
	p.row("one rest of a new mesh: as the command does it / straight pass", "%.3g",
		over(p.time(oneRest+"rule"), p.time(oneRest+"straight")))
}

// growth prints how the cost of a cut grows.
func (p *printer) growth() {
	fmt.Fprintln(p.out)
	for _, by := range []struct{ unit, text string }{{"visited", "triangles visited"}, {leastTime, "time"}} {
		fmt.Fprintf(p.out, "A cut by the index grows as the triangle count to the power of %.2f by %s.\n",
			exponent(p.of(cutIndex, "triangles"), p.of(cutIndex, by.unit)), by.text)
	}
}

// target is a bound on a value at 1e6 triangles.
type target struct {
	text     string
	measured value
	bound    float64
	atLeast  bool // what is measured should be over the bound, and not under it
}

// targets prints what was set out for, and what was reached.
func (p *printer) targets() {
	cut := p.time(cutIndex)
	list := []target{
		{"a cut within 2 times the floor of clipping the straddling triangles, planes in turn", over(cut, p.time(floorClip)), 2, false},
		{"a cut 25 times faster than the straight pass", over(p.time(cutStraight), cut), 25, true},
	}
	for _, name := range p.peers {
		times, kind := 400., "general-purpose library"
		if name == "CGAL" || name == "manifold" {
			times, kind = 5000, "mesh boolean"
		}
		list = append(list, target{fmt.Sprintf("a cut %.0f times faster than %s, a %s", times, name, kind), over(p.time(name+"/%s"), cut), times, true})
	}
	list = append(list,
		target{"rest from a level cold start within 1 ms", scaled(1e-6, p.time(restLevel)), 1, false},
		target{"rest from a level cold start in at most 6 cuts, worst case", p.of(restLevel, "most-cuts"), 6, false},
		target{"at most 3 cuts a step of a righting curve", p.of(warm+"righting-180", "cuts/step"), 3, false},
		target{"at most 3 cuts a step of a load curve", p.of(warm+"load", "cuts/step"), 3, false},
		target{"at most 3 cuts a step of a trim sweep", p.of(warm+"trim", "cuts/step"), 3, false},
		target{"the index built within 0.4 s on one core", scaled(1e-9, p.time(indexOne)), 0.4, false},
		target{"at most 120 bytes a triangle beside the mesh", p.of("Index/tris=%s", "B/triangle"), 120, false},
		target{"one rest no slower than by the straight pass, but for 5 % of noise", over(p.time(oneRest+"rule"), p.time(oneRest+"straight")), 1.05, false},
		target{"reading and welding within 3 times the bare read by the STL library", over(p.readAndWeld(), p.time(load+"library")), 3, false},
	)
	fmt.Fprint(p.out, "\n| target, at 1e6 | measured | |\n| --- | --- | --- |\n")
	for _, t := range list {
		fmt.Fprintln(p.out, t.row(t.measured("1e6")))
	}
}

func (t *target) row(x float64) string {
	verdict := "missed"
	switch {
	case math.IsNaN(x):
		return "| " + t.text + " | | not measured |"
	case t.atLeast && x >= t.bound, !t.atLeast && x <= t.bound:
		verdict = "met"
	}
	return fmt.Sprintf("| %s | %.3g | %s |", t.text, x, verdict)
}
