package plots

import (
	"image/color"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// axisStyle is the style of reference lines: center lines and axes.
var axisStyle = draw.LineStyle{Color: Muted, Width: 0.5, Dashes: []vg.Length{8, 2, 1.5, 2}}

// levelStyle is the style of the level line of an angle.
var levelStyle = draw.LineStyle{Color: Muted, Width: 0.5}

// above tells paper from water by height.
func above(y float64) color.RGBA {
	if y < 0 {
		return waterColor
	}
	return Paper
}

// elevation draws the water and the craft seen from a side.
func (p *Profile) elevation(c draw.Canvas, pr projection, scale float64, box r2.Box, rm margins, name string) *View {
	v := NewViewAt(c, scale, box.Min, vg.Point{
		X: c.Min.X + rm.left + (c.Max.X-c.Min.X-rm.left-rm.right-vg.Length(box.Size().X*scale))/2,
		Y: c.Min.Y + rm.bottom,
	})
	surface := v.At(r2.Vec{}).Y
	water := c.Rectangle
	water.Max.Y = surface
	fillRect(c, water, waterColor)
	p.picture(v, pr, box, false, above)
	sty := draw.LineStyle{Color: Blue, Width: 1}
	c.StrokeLine2(sty, c.Min.X, surface, c.Max.X, surface)
	v.place.avoid(vg.Point{X: c.Min.X, Y: surface}, vg.Point{X: c.Max.X, Y: surface})
	levelSign(c, vg.Point{X: c.Min.X + 14, Y: surface})
	v.place.keep(vg.Rectangle{
		Min: vg.Point{X: c.Min.X + 8, Y: surface - 8}, Max: vg.Point{X: c.Min.X + 20, Y: surface + 8},
	})
	viewName(v, name)
	return v
}

// levelSign draws the sign for a water level: a triangle standing on it.
func levelSign(c draw.Canvas, at vg.Point) {
	c.SetLineStyle(draw.LineStyle{Color: Blue, Width: 0.8})
	c.Stroke(polygon(at, at.Add(vg.Point{X: 4, Y: 6.5}), at.Add(vg.Point{X: -4, Y: 6.5})))
	for i := 1; i <= 2; i++ {
		w, y := vg.Length(6-2*i), at.Y-vg.Length(2*i)
		c.StrokeLine2(draw.LineStyle{Color: Blue, Width: 0.6}, at.X-w, y, at.X+w, y)
	}
}

// viewName writes the name of a view into its upper left corner.
func viewName(v *View, name string) {
	sty := textStyle(TickSize, Muted, true)
	sty.YAlign = draw.YTop
	at := vg.Point{X: v.Canvas.Min.X, Y: v.Canvas.Max.Y - 4}
	v.Canvas.FillText(sty, at, name)
	v.place.keep(vg.Rectangle{
		Min: at.Sub(vg.Point{Y: TickSize + 4}), Max: at.Add(vg.Point{X: sty.Width(name) + 4, Y: 4}),
	})
}

// drawSide draws the view from starboard, nose to the right.
func (p *Profile) drawSide(c draw.Canvas, scale float64, b r3.Box) {
	pr := p.side()
	box := r2.NewBox(b.Min.X, b.Min.Z, b.Max.X, b.Max.Z)
	v := p.elevation(c, pr, scale, box, sideMargins, p.noseWord("Side, from starboard"))
	long := b.Size().X
	p.drawTrim(v, pr, box)
	p.drawChord(v, pr)
	for _, l := range p.Lines {
		v.Line(draw.LineStyle{Color: Ink, Width: 0.8, Dashes: []vg.Length{4, 2}}, pr.flat(l.Aft), pr.flat(l.Fore))
		mid := r2.Scale(0.5, r2.Add(pr.flat(l.Aft), pr.flat(l.Fore)))
		v.Label(v.At(mid), 2, Ink, false, l.Name+" "+degrees(l.Angle))
	}
	p.drawCenters(v, pr, false)
	used := p.drawPoints(v, pr, long, func(ProfilePoint) bool { return true })
	p.drawDrafts(v, pr, long, used)
	v.ScaleBar(vg.Point{X: c.Min.X + 4, Y: c.Min.Y + 6}, 0.3*(c.Max.X-c.Min.X))
	v.Finish()
}

// drawFront draws the view from ahead; port is to the right.
func (p *Profile) drawFront(c draw.Canvas, scale float64, b r3.Box) {
	pr := p.front()
	box := r2.NewBox(b.Min.Y, b.Min.Z, b.Max.Y, b.Max.Z)
	v := p.elevation(c, pr, scale, box, frontMargins, "Front, from ahead (port at the right)")
	p.drawCenters(v, pr, true)
	wide := b.Size().Y
	mid := pr.flat(p.CG).X
	p.drawPoints(v, pr, b.Size().X, func(q ProfilePoint) bool {
		return math.Abs(pr.flat(q.At).X-mid) > 0.05*wide
	})
	v.ScaleBar(vg.Point{X: c.Min.X + 4, Y: c.Min.Y + 6}, 0.3*(c.Max.X-c.Min.X))
	v.Finish()
}

// drawPlan draws the view from above, nose to the right.
func (p *Profile) drawPlan(c draw.Canvas, scale float64, b r3.Box) {
	pr := p.plan()
	box := r2.NewBox(b.Min.X, b.Min.Y, b.Max.X, b.Max.Y)
	v := NewViewAt(c, scale, box.Center(), vg.Point{
		X: (c.Min.X + planMargins.left + c.Max.X - planMargins.right) / 2,
		Y: (c.Min.Y + planMargins.bottom + c.Max.Y - planMargins.top) / 2,
	})
	p.picture(v, pr, box, true, func(float64) color.RGBA { return Paper })
	viewName(v, p.noseWord("Plan, from above"))
	if cg, cb := pr.flat(p.CG), pr.flat(p.CB); hypot(v.At(cg).Sub(v.At(cb))) < 4 {
		v.Mark(CGMark, cg, "CG over CB") // as it is at rest
	} else {
		v.Mark(CBMark, cb, "CB")
		v.Mark(CGMark, cg, "CG")
	}
	groups := p.groups(v, pr, b.Size().X, func(ProfilePoint) bool { return true })
	for _, g := range groups {
		g.symbol().Draw(c, g.at)
		v.place.keep(around(g.at, 3, 3))
	}
	if len(groups) <= 12 {
		for _, g := range groups {
			v.Label(g.at, 3, Ink, false, g.names)
		}
	}
	v.ScaleBar(vg.Point{X: c.Min.X + 4, Y: c.Min.Y + 6}, 0.3*(c.Max.X-c.Min.X))
	v.Finish()
}

// drawTrim draws the body's x axis through CG against the level, aft.
func (p *Profile) drawTrim(v *View, pr projection, box r2.Box) {
	dir := pr.flat(r3.Vec{X: 1})
	dir = r2.Sub(dir, pr.flat(r3.Vec{}))
	if math.IsNaN(p.Trim) || dir.X < 0.5 {
		return
	}
	a := math.Atan2(dir.Y, dir.X)
	cg := pr.flat(p.CG)
	radius := v.At(cg).X - v.At(box.Min).X + 14
	reach := float64(radius+8) / v.scale
	ahead := (box.Max.X - cg.X) + 10/v.scale
	v.Line(levelStyle, cg, r2.Add(cg, r2.Vec{X: -reach}))
	v.Line(axisStyle, r2.Add(cg, r2.Scale(ahead, dir)), r2.Sub(cg, r2.Scale(reach, dir)))
	if math.Abs(a)*float64(radius) > 1 {
		v.Angle(cg, math.Pi, math.Pi+a, radius, Ink)
	}
	mid := v.At(cg).Add(vg.Point{X: -radius, Y: -radius * vg.Length(math.Sin(a)/2)})
	v.Label(mid, 3, Ink, false, "trim "+degrees(p.Trim))
}

// drawChord draws the chord, carried on ahead, against the level.
func (p *Profile) drawChord(v *View, pr projection) {
	if p.Chord == nil {
		return
	}
	aft, fore := pr.flat(p.Chord.Aft), pr.flat(p.Chord.Fore)
	d := r2.Sub(fore, aft)
	if !(d.X > 0) || math.Abs(d.Y) > 2*d.X {
		return // the drawing of a stalled wing's chord would say nothing
	}
	a := math.Atan2(d.Y, d.X)
	chord := vg.Length(r2.Norm(d) * v.scale)
	radius := max(2.4*chord, 90)
	radius = min(radius, (v.Canvas.Max.X-v.At(aft).X-8)/vg.Length(math.Cos(a)))
	reach := float64(radius+6) / v.scale
	sin, cos := math.Sincos(a)
	v.Line(levelStyle, aft, r2.Add(aft, r2.Vec{X: reach}))
	v.Line(axisStyle, aft, r2.Add(aft, r2.Vec{X: reach * cos, Y: reach * sin}))
	v.Canvas.StrokeLines(draw.LineStyle{Color: Ink, Width: 1.1}, []vg.Point{v.At(aft), v.At(fore)})
	if math.Abs(a)*float64(radius) > 1 {
		v.Angle(aft, 0, a, radius, Ink)
	}
	mid := v.At(aft).Add(vg.Point{X: radius, Y: radius * vg.Length(sin/2)})
	v.Label(mid, 3, Ink, false, "angle of attack "+degrees(p.AngleOfAttack))
}

// drawCenters draws CB and CG, and the metacenter above them: the transverse
// one from ahead, the longitudinal one from the side.
func (p *Profile) drawCenters(v *View, pr projection, fromAhead bool) {
	cb, cg := pr.flat(p.CB), pr.flat(p.CG)
	gm, name := math.NaN(), "longitudinal M"
	if p.GM != nil {
		gm = p.GM.Longitudinal
		if fromAhead {
			gm, name = p.GM.Transverse, "M"
		}
	}
	if math.IsNaN(gm) {
		v.Line(axisStyle, cb, cg)
	} else {
		m := r2.Add(cg, r2.Vec{Y: gm})
		q := v.At(m)
		top, bottom := v.Canvas.Max.Y-12, v.Canvas.Min.Y+12
		txt := "GM " + Number(gm*1000, 0) + " mm"
		switch {
		case q.Y > top || q.Y < bottom:
			// Beyond the view: an arrow that points at it.
			end := v.World(vg.Point{X: q.X, Y: min(max(q.Y, bottom), top)})
			v.Line(axisStyle, cb, end)
			tip := v.At(end)
			sense := vg.Point{Y: 1}
			if gm < 0 {
				sense.Y = -1
			}
			head(v.Canvas, tip, sense, Ink)
			v.Label(tip.Sub(sense.Scale(3)), 3, Ink, false, name+", "+Number(math.Abs(gm)*1000, 0)+" mm "+overUnder(gm)+" CG")
		default:
			v.Line(axisStyle, cb, m)
			MMark.Draw(v.Canvas, q)
			v.place.keep(around(q, 5, 5))
			v.Label(q, 5, Ink, false, "M, "+txt)
		}
	}
	v.Mark(CBMark, cb, "CB")
	v.Mark(CGMark, cg, "CG")
}

func overUnder(gm float64) string {
	if gm < 0 {
		return "below"
	}
	return "above"
}

// noseWord adds to the name of a view where the nose is, unless it points to
// the sky or the ground.
func (p *Profile) noseWord(view string) string {
	if math.Abs(r3.Unit(p.Up).X) > 0.9 {
		return view
	}
	return view + " (nose at the right)"
}
