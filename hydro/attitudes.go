package hydro

import "slices"

// Attitudes is every way in which a body can float.
type Attitudes struct {
	// List holds the stable attitudes, least energy first.
	List []Standing
	// Upright is the index in List of the one reached from level by always
	// falling.
	Upright int
	// Lows, Passes and Tops count the energy's stationary directions, shallow
	// ones merged and rings of equal passes and tops left out. Lows that are
	// isolated, less passes, plus tops make 2, the Euler number of the sphere
	// of directions; Complete reports that they do.
	Lows, Passes, Tops int
	Complete           bool
	Cuts               int // how many times the hull was cut
}

// Standing is one stable attitude.
type Standing struct {
	State
	// Neutral reports that the body lies anywhere along a ring, or all
	// around, with the same energy.
	Neutral bool
	// Pass is the energy that must be put in to get from here to upright by
	// the easiest way, J, and Rise the same as a height of the CG, m; Tip and
	// TipRise are what takes upright to here by that way. All are zero for
	// upright itself. At is the state on the pass, nil where no way was found:
	// then the four are NaN.
	Pass, Rise   float64
	Tip, TipRise float64
	At           *State
}

// shallow is the rise of the CG below which two rests are one: facets of a
// round hull make false ones.
const shallow = 1e-5 // m

// sampleLevels are the icosphere levels tried in turn: 642 and 2,562
// directions, 8 and 4 deg apart.
var sampleLevels = [...]int{3, 4}

// attitudesCuts is about how many cuts all attitudes take.
const attitudesCuts = 2000

// Attitudes returns every stable attitude. It fails with a *SinksError when
// the hull cannot carry the mass.
func (b *Body) Attitudes() (Attitudes, error) {
	if err := b.check(); err != nil {
		return Attitudes{}, err
	}
	b.Hull.Prepare(attitudesCuts)
	rest, err := b.Rest()
	if err != nil {
		return Attitudes{}, err
	}
	cuts := rest.Cuts
	l := landscape{body: b, cuts: &cuts, shallow: shallow / b.Hull.size}
	l.addLow(rest.at)
	var out Attitudes
	for _, level := range sampleLevels {
		s := b.sample(level, &cuts)
		if slices.Max(s.energy)-slices.Min(s.energy) < l.shallow {
			// A ball: no direction is better than another.
			out = Attitudes{List: []Standing{{State: rest.State, Neutral: true}}, Lows: 1, Complete: true}
			break
		}
		l.explore(s)
		l.climb()
		if out = l.attitudes(); out.Complete {
			break
		}
		l.follow()
		if out = l.attitudes(); out.Complete || l.spent() {
			break
		}
	}
	out.Cuts = cuts
	return out, nil
}
