package main

import (
	"math"
	"runtime"
	"sync"

	"millpond/hydro/craft"
	"millpond/hydro/craftfile"
	"millpond/hydro/design"
)

// bandPlaces is at how many values of a variable the scatter of results is
// worked out. It changes slowly; between them it is interpolated.
const bandPlaces = 9

// scatterOver returns the standard deviation of each result at each of some
// values in rising order, from the tolerances of the craft file: nil where
// there are none. The craft is asked for at some of the values.
func scatterOver(f *craftfile.File, show []design.Asked, values []float64, at func(float64) (*craft.Craft, error)) [][]float64 {
	if len(f.Tolerances) == 0 || len(values) == 0 {
		return nil
	}
	var picks []int
	for i := range min(bandPlaces, len(values)) {
		picks = append(picks, i*(len(values)-1)/max(min(bandPlaces, len(values))-1, 1))
	}
	known := make([][]float64, len(picks))
	var wait sync.WaitGroup
	places := make(chan struct{}, runtime.GOMAXPROCS(0))
	for p, i := range picks {
		wait.Go(func() {
			places <- struct{}{}
			defer func() { <-places }()
			c, err := at(values[i])
			if err != nil {
				return
			}
			d := design.Doubt{Craft: c, Tolerances: f.Tolerances, Show: show}
			known[p] = d.Sigmas()
		})
	}
	wait.Wait()
	out := make([][]float64, len(show))
	for k := range show {
		out[k] = make([]float64, len(values))
		p := 0
		for i, v := range values {
			for p+2 < len(picks) && i > picks[p+1] {
				p++
			}
			out[k][i] = between(values, picks, known, p, k, v)
		}
	}
	return out
}

// between interpolates result k at v between picks p and p+1, NaN where either
// has none.
func between(values []float64, picks []int, known [][]float64, p, k int, v float64) float64 {
	sigma := func(p int) float64 {
		if known[p] == nil {
			return math.NaN()
		}
		return known[p][k]
	}
	if p+1 >= len(picks) {
		return sigma(p)
	}
	a, b := values[picks[p]], values[picks[p+1]]
	if a == b {
		return sigma(p)
	}
	t := (v - a) / (b - a)
	switch t { // an end counts alone
	case 0:
		return sigma(p)
	case 1:
		return sigma(p + 1)
	}
	return sigma(p) + t*(sigma(p+1)-sigma(p))
}
