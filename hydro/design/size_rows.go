package design

import (
	"millpond/hydro/craft"
	"millpond/hydro/unit"
)

// sizeRows are the sizes of parts as varied: what a machine bed or a sheet of
// foam bounds.
var sizeRows = []Result{
	{Key: "flotation volume", Label: "volume of the flotation", Kind: unit.Volume, get: func(t *Trial, _ int) (float64, error) { return t.Craft.FlotationVolume(), nil }},
	{Key: "length of *", Label: "length of *", Kind: unit.Length, Of: OfPart, get: partSize(func(p *craft.Part) float64 { return p.Size().X })},
	{Key: "beam of *", Label: "beam of *", Kind: unit.Length, Of: OfPart, get: partSize(func(p *craft.Part) float64 { return p.Size().Y })},
	{Key: "depth of *", Label: "depth of *", Kind: unit.Length, Of: OfPart, get: partSize(func(p *craft.Part) float64 { return p.Size().Z })},
}

func partSize(f func(*craft.Part) float64) func(*Trial, int) (float64, error) {
	return func(t *Trial, i int) (float64, error) { return f(&t.Craft.Parts[i]), nil }
}
