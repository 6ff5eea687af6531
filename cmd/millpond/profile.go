package main

import (
	"iter"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/hydro/craft"
	"millpond/hydro/design"
	"millpond/hydro/unit"
	"millpond/plots"
)

// profile draws the craft at rest to the file that the flag names, if any.
func (p *plotFlags) profile(t *design.Trial) error {
	if p.path == "" {
		return nil
	}
	rest, err := t.Rest()
	if err != nil {
		return err
	}
	fig := profileAt(t, &rest.State)
	w, h := fig.Size()
	return p.write(w, h, fig.Draw)
}

// profileAt returns the picture of the craft at a state.
func profileAt(t *design.Trial, s *hydro.State) *plots.Profile {
	c := t.Craft
	style := styleOf(t)
	fig := &plots.Profile{
		Title:  craftTitle(c) + " at rest in " + c.Water.Name,
		Up:     s.Up,
		Height: s.Height,
		CG:     t.Body.CG,
		CB:     s.CB,
		GM:     &plots.MetacentricHeights{Transverse: s.GMTransverse(), Longitudinal: s.GMLongitudinal()},
		Trim:   s.Trim(),
		Heel:   s.Heel(),
	}
	if !design.Upright(s) {
		fig.Lies = lies(s.Up)
	}
	if math.Abs(s.Up.X) > 0.999 {
		fig.Trim, fig.Heel = math.NaN(), math.NaN()
	}
	for i := range c.Parts {
		fig.Parts = append(fig.Parts, plots.ProfilePart{
			Name: c.Parts[i].Name, Kind: partKinds[c.Parts[i].Role], Triangles: surface(&c.Parts[i]),
		})
	}
	if chord, ok := c.Chord(); ok {
		angle := s.Slope(chord.Direction())
		fig.Chord = &plots.ProfileLine{Name: chord.Name, Aft: chord.From, Fore: chord.To, Angle: angle}
		fig.AngleOfAttack = angle
	}
	for i := range c.Lines {
		if l := c.LineNow(i); !l.Chord {
			fig.Lines = append(fig.Lines, plots.ProfileLine{Name: l.Name, Aft: l.From, Fore: l.To, Angle: s.Slope(l.Direction())})
		}
	}
	for i, p := range c.Points {
		h, at := t.Place(i).Clearance(s.Attitude)
		fig.Points = append(fig.Points, plots.ProfilePoint{Name: p.Name, At: at, Clearance: h})
	}
	for i, st := range c.Stations {
		h, at := t.Station(i).Clearance(s.Attitude)
		fig.Drafts = append(fig.Drafts, plots.ProfilePoint{Name: st.Name, At: at, Clearance: -h})
	}
	fig.Facts = profileFacts(t, style)
	return fig
}

var partKinds = map[craft.Role]plots.PartKind{
	craft.Flotation: plots.Flotation, craft.Buoyant: plots.Buoyant, craft.NonBuoyant: plots.NonBuoyant,
}

// surface yields the triangles of a part as set on the craft.
func surface(p *craft.Part) iter.Seq[r3.Triangle] {
	return func(yield func(r3.Triangle) bool) {
		for _, s := range p.Placed() {
			for i := range s.Solid.Surface() {
				if !yield(s.Triangle(i)) {
					return
				}
			}
		}
	}
}

// profileFacts are the numbers that a review asks for first.
func profileFacts(t *design.Trial, style unit.Style) []plots.Fact {
	var out []plots.Fact
	for _, key := range []string{"mass", "draft", "reserve buoyancy", "whole reserve buoyancy", "mass to first wet", "gm transverse", "gm longitudinal"} {
		a, err := design.Find(t.Craft, key)
		if err != nil {
			panic(err) // a key of our own that is no row
		}
		if v, err := a.Value(t); err == nil {
			out = append(out, plots.Fact{Name: a.Title(), Value: style.Format(a.Kind, v)})
		}
	}
	return out
}
