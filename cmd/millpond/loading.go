package main

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"millpond/hydro"
	"millpond/hydro/craft"
	"millpond/hydro/craftfile"
	"millpond/hydro/design"
	"millpond/hydro/unit"
)

// The words that stand for loadings on the command line. A craft file can give
// none of its loadings such a name.
const (
	baseLoading = "base" // the craft as its file has it
	allLoadings = "all"  // base and every named one
)

// loadingFlag is the flag of verbs that run over loadings.
type loadingFlag struct {
	names []string
}

func (l *loadingFlag) flags(c *cobra.Command) {
	c.Flags().StringArrayVar(&l.names, "loading", nil,
		"the `NAME` of a loading of the craft file; more than one, or \"all\", are shown side by side;\n\"base\" is the craft without any")
}

// trials returns the trials of the loadings asked for, of which there is one at
// least: that of the craft as it is when none is.
func (l *loadingFlag) trials(t *design.Trial) ([]*design.Trial, error) {
	if len(l.names) == 0 {
		return []*design.Trial{t}, nil
	}
	c := t.Craft
	var known []string
	for _, one := range c.Loadings {
		known = append(known, one.Name)
	}
	var out []*design.Trial
	seen := map[string]bool{}
	add := func(name string, under func() *craft.Craft) error {
		if seen[name] {
			return nil
		}
		seen[name] = true
		trial, err := design.New(under())
		if err != nil {
			return fmt.Errorf("loading %q: %w", name, err)
		}
		out = append(out, trial)
		return nil
	}
	named := func(name string) (int, bool) {
		for i, k := range known {
			if strings.EqualFold(k, name) {
				return i, true
			}
		}
		return 0, false
	}
	base := func() *craft.Craft { return c }
	for _, name := range l.names {
		i, ok := named(name)
		var err error
		switch {
		case strings.EqualFold(name, baseLoading):
			err = add(baseLoading, base)
		case len(known) == 0:
			err = fmt.Errorf("--loading %s: the craft has no loadings: name some in the craft file, for example\n\n  [[loading]]\n  name = \"camera out\"\n  without = [\"camera\"]", name)
		case strings.EqualFold(name, allLoadings):
			err = add(baseLoading, base)
			for k := range known {
				err = errors.Join(err, add(known[k], func() *craft.Craft { return c.Under(&c.Loadings[k]) }))
			}
		case ok:
			err = add(known[i], func() *craft.Craft { return c.Under(&c.Loadings[i]) })
		default:
			err = fmt.Errorf("--loading: no loading is called %q; %s", name, design.Offer(name, append([]string{baseLoading, allLoadings}, known...)))
		}
		if err != nil {
			return nil, err
		}
	}
	return out, nil
}

// loadingName names what a craft goes out with.
func loadingName(c *craft.Craft) string {
	if c.Loading == "" {
		return baseLoading
	}
	return c.Loading
}

// craftTitle names a craft and its loading, where it has one.
func craftTitle(c *craft.Craft) string {
	if c.Loading == "" {
		return c.Name
	}
	return fmt.Sprintf("%s, loading %q,", c.Name, c.Loading)
}

// inLoadings names each loading before the lines that are about it, when there
// are several.
func inLoadings(trials []*design.Trial, lines func(*design.Trial) []string) []string {
	var out []string
	for _, t := range trials {
		for _, line := range lines(t) {
			if len(trials) > 1 {
				line = fmt.Sprintf("loading %q: %s", loadingName(t.Craft), line)
			}
			out = append(out, line)
		}
	}
	return out
}

// sideBySide is the table of results against loadings.
type sideBySide struct {
	trials []*design.Trial
	tab    table
}

// newSideBySide returns the table with its heading.
func newSideBySide(trials []*design.Trial) *sideBySide {
	s := &sideBySide{trials: trials}
	s.row("loading", func(t *design.Trial) string { return loadingName(t.Craft) })
	return s
}

// row adds a row of one cell for each loading. A row without any is left out.
func (s *sideBySide) row(title string, cell func(*design.Trial) string) {
	cells, some := []string{title}, false
	for _, t := range s.trials {
		text := cell(t)
		some = some || text != ""
		cells = append(cells, text)
	}
	if some {
		s.tab.row(cells...)
	}
}

// results adds a row for each result of the craft's that a key gives; of places,
// for points and the parts that are to stay dry.
func (s *sideBySide) results(style unit.Style, keys ...string) {
	c := s.trials[0].Craft
	watched := map[string]bool{}
	for _, p := range c.Points {
		watched[p.Name] = true
	}
	for i := range c.Parts {
		watched[c.Parts[i].Name] = c.Parts[i].KeepDry
	}
	for _, key := range keys {
		for _, a := range design.Each(c, key) {
			if a.Of == design.OfPlace && !watched[a.Name] {
				continue
			}
			s.row(a.Title(), func(t *design.Trial) string {
				v, err := a.Value(t)
				switch {
				case errors.As(err, new(*hydro.SinksError)):
					return "sinks"
				case err != nil:
					return ""
				}
				return style.Format(a.Kind, v)
			})
		}
	}
}

// print writes the table.
func (s *sideBySide) print(w io.Writer) { s.tab.print(w, "") }

// stands reports whether the craft rests upright in each of the trials.
func stands(trials ...*design.Trial) bool {
	for _, t := range trials {
		if rest, err := t.Rest(); err != nil || !design.Upright(&rest.State) {
			return false
		}
	}
	return true
}

// one returns the trial of the one loading asked for, for a verb that takes no
// more, and has the file's craft be under it.
func (l *loadingFlag) one(verb string, f *craftfile.File, t *design.Trial) (*design.Trial, error) {
	trials, err := l.trials(t)
	if err != nil {
		return nil, err
	}
	if len(trials) > 1 {
		return nil, fmt.Errorf("%s takes one loading at a time: name one with --loading", verb)
	}
	f.Craft = trials[0].Craft
	return trials[0], nil
}
