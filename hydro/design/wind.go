package design

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/hydro/craft"
)

// quarters are the directions from which a wind is tried, rad clockwise from
// ahead.
var quarters = []float64{0, math.Pi / 4, math.Pi / 2, 3 * math.Pi / 4, math.Pi, 5 * math.Pi / 4, 3 * math.Pi / 2, 7 * math.Pi / 4}

// Quarters returns the directions from which a wind is tried: eight, or the
// five of one side where the craft is alike on both.
func (t *Trial) Quarters() ([]float64, error) {
	alike, err := t.Alike()
	if alike {
		return quarters[:5], err
	}
	return quarters, err
}

// Alike reports whether a wind from port does what one from starboard does,
// mirrored: whether the craft rests level, and floats, wets what is watched and
// shows itself to the wind alike at opposite heels. It is tried at a few and
// not proved.
func (t *Trial) Alike() (bool, error) {
	rest, err := t.Rest()
	if err != nil {
		return false, err
	}
	const same = 1e-6
	size := t.Body.Hull.Size()
	if math.Abs(rest.Heel()) > same || math.Abs(t.Body.CG.Y) > same*size {
		return false, nil
	}
	for _, heel := range []float64{0.05, 0.2, 0.5} {
		var s [2]hydro.State
		for i, side := range [2]float64{1, -1} {
			if s[i], err = t.Body.Level(hydro.UpVector(rest.Trim()+heel/3, side*heel)); err != nil {
				return false, err
			}
		}
		a, b := s[0], s[1]
		away := r3.Vec{X: a.CB.X - b.CB.X, Y: a.CB.Y + b.CB.Y, Z: a.CB.Z - b.CB.Z}
		if math.Abs(a.Height-b.Height)+r3.Norm(away) > same*size {
			return false, nil
		}
		for _, w := range t.Watched() {
			ha, _ := w.Clearance(a.Attitude)
			hb, _ := w.Clearance(b.Attitude)
			if math.Abs(ha-hb) > same*size {
				return false, nil
			}
		}
	}
	from := math.Pi / 3
	area, height := hydro.Seen(t.open(), &rest.State, from)
	area2, height2 := hydro.Seen(t.open(), &rest.State, -from)
	return math.Abs(area-area2) <= same*size*size && math.Abs(height-height2) <= same*size, nil
}

// open returns what the wind takes hold of.
func (t *Trial) open() hydro.Exposed {
	if t.exposed == nil {
		t.exposed = t.Craft.Exposed(t.Body.Hull.Center())
	}
	return t.exposed
}

// Gale returns what a growing wind from a direction does, rad clockwise from
// ahead.
func (t *Trial) Gale(from float64) (*hydro.Gale, error) {
	rest, err := t.Rest()
	if err != nil {
		return nil, err
	}
	if t.gales == nil {
		t.gales = map[float64]*hydro.Gale{}
	}
	if g := t.gales[from]; g != nil {
		return g, nil
	}
	wing := t.Craft.Lift()
	g, err := rest.Gale(t.open(), from, func(w *hydro.Wind) {
		w.Coefficient, w.Wing = t.Craft.Wind.Drag(), wing
	})
	if err == nil {
		t.gales[from] = g
	}
	return g, err
}

// Floats returns every float that there is more than one of, as a place that
// goes under when all of it does. A lone hull goes under only by sinking.
func (t *Trial) Floats() []Watched {
	var out []Watched
	for i := range t.Craft.Parts {
		p := &t.Craft.Parts[i]
		if p.Role != craft.Flotation {
			continue
		}
		for _, s := range p.Placed() {
			name := p.Name
			if y := s.Centroid().Y; p.Mirrored && y > 0 {
				name = "port " + name
			} else if p.Mirrored {
				name = "starboard " + name
			}
			out = append(out, Watched{Name: name, KeepDry: true, Place: hydro.Top(s)})
		}
	}
	if len(out) < 2 {
		return nil
	}
	return out
}

// Drenching is a place that a wind puts under.
type Drenching struct {
	Watched
	Whole  bool    // all of a float, by its highest point
	Steady float64 // speed at which a steady wind does it, m/s; +Inf where none does
	Gust   float64 // the same for a gust
}

// Drenched returns which of the watched places and of the floats a growing
// wind puts under before the craft goes over, first ones first.
func (t *Trial) Drenched(g *hydro.Gale) []Drenching {
	var out []Drenching
	add := func(w Watched, whole bool) {
		steady, gust, byWind, byGust := g.Under(w.Place)
		if !byWind && !byGust {
			return
		}
		if !byWind {
			steady = math.Inf(1)
		}
		out = append(out, Drenching{w, whole, steady, gust})
	}
	for _, w := range t.minded() {
		add(w, false)
	}
	for _, f := range t.Floats() {
		add(f, true)
	}
	slices.SortStableFunc(out, func(a, b Drenching) int {
		return cmp.Compare(min(a.Steady, a.Gust), min(b.Steady, b.Gust))
	})
	return out
}

func sortSoaked(all []Soaking) {
	slices.SortStableFunc(all, func(a, b Soaking) int { return cmp.Compare(a.Share, b.Share) })
}

// overAll makes a getter of the least of a speed over all quarters.
func overAll(f func(*Trial, *hydro.Gale) float64) func(*Trial, int) (float64, error) {
	return func(t *Trial, _ int) (float64, error) {
		least := hydro.Hurricane
		all, err := t.Quarters()
		if err != nil {
			return 0, err
		}
		for _, from := range all {
			g, err := t.Gale(from)
			if err != nil {
				return 0, err
			}
			least = min(least, f(t, g))
		}
		return least, nil
	}
}

func windLimit(_ *Trial, g *hydro.Gale) float64 {
	if speed, _, lost := g.Over(); lost {
		return speed
	}
	return hydro.Hurricane
}

func gustLimit(_ *Trial, g *hydro.Gale) float64 {
	if speed, _, lost := g.GustOver(); lost {
		return speed
	}
	return hydro.Hurricane
}

// firstDrenched makes a getter of the speed at which the first place to keep
// dry, or the first float, goes under or the craft goes over.
func firstDrenched(of func(Drenching) float64, over func(*Trial, *hydro.Gale) float64) func(*Trial, *hydro.Gale) float64 {
	return func(t *Trial, g *hydro.Gale) float64 {
		least := over(t, g)
		for _, d := range t.Drenched(g) {
			if d.KeepDry {
				least = min(least, of(d))
			}
		}
		return least
	}
}

// Beam is the direction of a wind in words.
func Beam(from float64) string {
	deg := math.Mod(from*180/math.Pi+360, 360)
	names := []string{"ahead", "the starboard bow", "starboard", "the starboard quarter", "astern", "the port quarter", "port", "the port bow"}
	i := int(math.Round(deg/45)) % 8
	if math.Abs(deg-45*math.Round(deg/45)) < 1e-9 {
		return names[i]
	}
	return fmt.Sprintf("%g deg, near %s", math.Round(deg*10)/10, names[i])
}

// WindSource says what the wind takes hold of, and how far that is to be
// trusted.
func (t *Trial) WindSource() (what string, ignoresWing bool) {
	what = "the outline of all parts above the water, from the meshes"
	if t.Craft.Wind.Stated() {
		what = "the areas stated in the craft file"
	}
	return what, t.Craft.Wing == nil
}

// WindArm returns the heeling arm of a beam wind of a speed where it acts, as a
// function of the attitude: from port where the craft is heeled to starboard,
// and from starboard where it is heeled to port, so that it always works
// against the righting arm.
func (t *Trial) WindArm(speed float64) (func(hydro.Attitude) float64, error) {
	rest, err := t.Rest()
	if err != nil {
		return nil, err
	}
	const starboard, port = math.Pi / 2, 3 * math.Pi / 2
	from := func(way float64) *hydro.Wind {
		w := hydro.NewWind(rest, t.open(), speed, way)
		w.Coefficient, w.Wing = t.Craft.Wind.Drag(), t.Craft.Lift()
		return w
	}
	fromPort, fromStarboard := from(port), from(starboard)
	return func(a hydro.Attitude) float64 {
		if a.Heel() >= rest.Heel() {
			return fromPort.Arm(a)
		}
		return fromStarboard.Arm(a)
	}, nil
}
