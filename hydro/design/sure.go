package design

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"sync"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"

	"millpond/hydro/craft"
)

// Doubt is a craft with tolerances, to be built many times over.
type Doubt struct {
	Craft        *craft.Craft
	Tolerances   []Tolerance
	Show         []Asked
	Requirements []Requirement
	Samples      int    // how many are built
	Seed         uint64 // of the random numbers: the same seed gives the same answer
}

// Sureness is how sure results and requirements are.
type Sureness struct {
	Bands   []Band   // of what was asked to be shown
	Chances []Chance // of the requirements
	Samples int
	NoRest  int // samples that sink or have no answer at all
	Fallen  int // samples that do not stay upright; they hold no requirement
	// Ranged is how many samples the bands are of: those that stay upright,
	// as numbers of a craft on its back would only widen them; all that rest,
	// if none does.
	Ranged int
}

// Band is how a result scatters.
type Band struct {
	Asked
	Today     float64
	Mean      float64
	Sigma     float64
	Low, High float64 // hold 95 % of the samples that are ranged, 2.5 % beyond each
	// Linear is the standard deviation by the derivatives at today's design.
	Linear float64
	// Shares is how much of Linear's square each tolerance accounts for, in
	// their order; they add up to one.
	Shares []float64
	// Slopes are the derivatives, per unit of each variable.
	Slopes []float64
	// Exact says, for each tolerance, that its derivative comes from the
	// waterplane and not from differences.
	Exact []bool
}

// Chance is how likely a requirement holds.
type Chance struct {
	Requirement
	Holds float64 // share of the samples
	Error float64 // its standard error, from the number of samples
	// Linear is the chance by the derivatives and a normal distribution.
	Linear float64
}

// Work builds the samples on all processors and returns how sure the results
// are. The answer does not depend on the number of processors. It fails when
// today's design itself has no answer, or ctx ends.
func (d *Doubt) Work(ctx context.Context) (*Sureness, error) {
	today, err := New(d.Craft)
	if err != nil {
		return nil, err
	}
	if _, err := today.Rest(); err != nil {
		return nil, err
	}
	now := make([]float64, len(d.Tolerances))
	for i, t := range d.Tolerances {
		if now[i], err = t.Now(d.Craft); err != nil {
			return nil, err
		}
	}
	const perSample = 80 // cuts: a rest, and the search for the first wet place
	d.Craft.Prepare(perSample * d.Samples)
	out := &Sureness{Samples: d.Samples}
	shown, held, err := d.sample(ctx, now)
	if err != nil {
		return nil, err
	}
	var upright [][]float64
	for i, row := range shown {
		switch {
		case row == nil:
			out.NoRest++
		case held[i] == nil:
			out.Fallen++
		default:
			upright = append(upright, row)
		}
	}
	if len(upright) == 0 {
		upright = slices.DeleteFunc(shown, func(row []float64) bool { return row == nil })
	}
	out.Ranged = len(upright)
	for k, a := range d.Show {
		b, err := d.band(today, now, a)
		if err != nil {
			continue // today's design has no such result
		}
		b.scatter(upright, k)
		out.Bands = append(out.Bands, b)
	}
	for k, q := range d.Requirements {
		c := Chance{Requirement: q}
		n := 0
		for i := range held {
			if held[i] != nil && held[i][k] {
				n++
			}
		}
		c.Holds = float64(n) / float64(d.Samples)
		c.Error = math.Sqrt(c.Holds * (1 - c.Holds) / float64(d.Samples))
		c.Linear = d.linearChance(today, now, q)
		out.Chances = append(out.Chances, c)
	}
	return out, nil
}

// sample builds every sample and returns its results and which requirements
// held; nil for one without an answer, and no requirements for one that does not
// stay upright.
func (d *Doubt) sample(ctx context.Context, now []float64) (shown [][]float64, held [][]bool, err error) {
	shown, held = make([][]float64, d.Samples), make([][]bool, d.Samples)
	var wg sync.WaitGroup
	next := make(chan int)
	for range runtime.GOMAXPROCS(0) {
		wg.Go(func() {
			for i := range next {
				// Each sample has random numbers of its own, whoever
				// builds it.
				r := rand.New(rand.NewPCG(d.Seed, uint64(i)))
				shown[i], held[i] = d.build(r, now)
			}
		})
	}
	for i := range d.Samples {
		if ctx.Err() != nil {
			break
		}
		next <- i
	}
	close(next)
	wg.Wait()
	return shown, held, ctx.Err()
}

// build works one sample through.
func (d *Doubt) build(r *rand.Rand, now []float64) ([]float64, []bool) {
	c := d.Craft.Copy()
	draws := make([]float64, len(d.Tolerances))
	for i, t := range d.Tolerances {
		draws[i] = t.draw(r, now[i])
	}
	for i, t := range d.Tolerances {
		if t.Set(c, draws[i]) != nil {
			return nil, nil
		}
	}
	t, err := New(c)
	if err != nil {
		return nil, nil
	}
	rest, err := t.Rest()
	if err != nil {
		return nil, nil
	}
	shown := make([]float64, len(d.Show))
	for k, a := range d.Show {
		v, err := a.Value(t)
		if err != nil {
			v = math.NaN()
		}
		shown[k] = v
	}
	if !Upright(&rest.State) {
		return shown, nil
	}
	held := make([]bool, len(d.Requirements))
	for k, q := range d.Requirements {
		held[k] = q.Judge(t).Pass
	}
	return shown, held
}

// scatter takes result k of the samples.
func (b *Band) scatter(samples [][]float64, k int) {
	var values []float64
	for _, row := range samples {
		if !math.IsNaN(row[k]) {
			values = append(values, row[k])
		}
	}
	if len(values) < 2 {
		b.Mean, b.Sigma, b.Low, b.High = math.NaN(), math.NaN(), math.NaN(), math.NaN()
		return
	}
	slices.Sort(values)
	b.Mean, b.Sigma = stat.MeanStdDev(values, nil)
	b.Low = stat.Quantile(0.025, stat.LinInterp, values, nil)
	b.High = stat.Quantile(0.975, stat.LinInterp, values, nil)
}

// band works out the linear part of a result's band.
func (d *Doubt) band(today *Trial, now []float64, a Asked) (Band, error) {
	b := Band{Asked: a}
	var err error
	if b.Today, err = a.Value(today); err != nil {
		return b, err
	}
	sum := 0.0
	for i, t := range d.Tolerances {
		slope, exact, err := slopeOf(today, t, now[i], a)
		if err != nil {
			slope = math.NaN()
		}
		b.Slopes = append(b.Slopes, slope)
		b.Exact = append(b.Exact, exact)
		part := slope * t.sigma()
		b.Shares = append(b.Shares, part*part)
		sum += part * part
	}
	b.Linear = math.Sqrt(sum)
	for i := range b.Shares {
		if sum > 0 {
			b.Shares[i] /= sum
		}
	}
	return b, nil
}

// linearChance is the chance that a requirement holds by the linear theory: a
// normal distribution about today's value, moved by what the tolerances' means
// are off today's.
func (d *Doubt) linearChance(today *Trial, now []float64, q Requirement) float64 {
	b, err := d.band(today, now, q.Asked)
	if err != nil || math.IsNaN(b.Linear) {
		return math.NaN()
	}
	if rest, err := today.Rest(); err == nil && !Upright(&rest.State) {
		return 0
	}
	mean, sigma := b.Today, b.Linear
	for i, t := range d.Tolerances {
		mean += b.Slopes[i] * (t.middle(now[i]) - now[i])
	}
	if q.Percent {
		whole, err := q.Share(today)
		if err != nil {
			return math.NaN()
		}
		mean, sigma = mean/whole, sigma/whole
	}
	if sigma == 0 {
		if q.margin(mean) >= 0 {
			return 1
		}
		return 0
	}
	n := distuv.Normal{Mu: mean, Sigma: sigma}
	p := 1.0
	if q.AtMost != nil {
		p = n.CDF(*q.AtMost)
	}
	if q.AtLeast != nil {
		p -= n.CDF(*q.AtLeast)
	}
	return max(p, 0)
}

// errNoSlope says that a result has no derivative by a variable.
var errNoSlope = errors.New("no derivative")

// Usual returns the results whose scatter a builder asks for first: how the
// craft sits, what is left, and every draft and clearance that is watched.
func Usual(c *craft.Craft) []Asked {
	var out []Asked
	for _, a := range All(c) {
		switch a.Key {
		case "mass", "trim", "angle of attack", "draft", "reserve buoyancy", "draft at *":
			out = append(out, a)
		case "clearance of *":
			if n := len(c.Points); a.index < n || c.Parts[a.index-n].KeepDry {
				out = append(out, a)
			}
		}
	}
	return out
}
