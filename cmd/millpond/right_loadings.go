package main

import (
	"fmt"
	"io"
	"strings"

	"millpond/hydro/design"
)

// rightLoadings is what `right` has to say about several loadings: what a
// righting curve is asked for, side by side.
type rightLoadings struct {
	trials []*design.Trial
}

// rightKeys are the results shown.
var rightKeys = []string{"mass", "gm transverse", "gz max", "gz max heel", "vanishing heel", "wet heel of *"}

// upright reports whether the craft rests upright in all loadings.
func (r *rightLoadings) upright() bool { return stands(r.trials...) }

func (r *rightLoadings) text(w io.Writer) {
	c, style := r.trials[0].Craft, styleOf(r.trials[0])
	fmt.Fprintf(w, "%s heeled in %s%s\n\n", c.Name, c.Water.Name, marginNote(r.trials[0]))
	tab := newSideBySide(r.trials)
	tab.results(style, rightKeys...)
	tab.print(w)
	fmt.Fprintf(w, "for the whole curve: millpond right CRAFT --loading %q\n", loadingName(r.trials[len(r.trials)-1].Craft))
}

func (r *rightLoadings) json() object {
	return object{{"name", r.trials[0].Craft.Name}, {"loadings", resultsJSON(r.trials, rightKeys)}}
}

// resultsJSON lists results for each trial. What has no answer is left out.
func resultsJSON(trials []*design.Trial, keys []string) []object {
	list := []object{}
	for _, t := range trials {
		o := object{{"loading", loadingName(t.Craft)}}
		for _, key := range keys {
			of := []object{}
			for _, a := range design.Each(t.Craft, key) {
				v, err := a.Value(t)
				switch {
				case err != nil:
				case a.Of == design.OfCraft:
					o.add(a.JSONKey(), a.Kind.ToEdge(v))
				default:
					of = append(of, object{{"name", a.Name}, {a.JSONKey(), a.Kind.ToEdge(v)}})
				}
			}
			if len(of) > 0 {
				o.add(jsonWords(strings.TrimSuffix(key, " *")), of)
			}
		}
		list = append(list, o)
	}
	return list
}
