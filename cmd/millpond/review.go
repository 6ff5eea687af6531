package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"

	"github.com/spf13/cobra"

	"millpond/hydro/craftfile"
	"millpond/hydro/design"
	"millpond/hydro/unit"
	"millpond/plots/page"
)

func newReview(t terminal) *cobra.Command {
	var src source
	var asJSON, force bool
	var out, date string
	c := &cobra.Command{
		Use:   "review CRAFT",
		Short: "One page for a design review: the verdict, how it sits, what growth does",
		Long: `Works the craft through and writes one HTML page that a design review reads from
the top: the verdict and the requirement that binds, what was read and by which
version, the craft at rest, and all that follows from it. The page needs no
network and prints well. The same input gives the same bytes.

Exits 1 when it sinks or a requirement is missed; the page is written all the
same.`,
		Example: `  millpond review craft.toml -o review.html
  millpond review craft.toml -o review.html --force --date 2026-05-04`,
		Args: oneCraft,
		RunE: func(c *cobra.Command, args []string) error {
			f, trial, err := src.trial(c, args[0])
			if err != nil {
				return err
			}
			if err := refuseInput(out, f); err != nil {
				return err
			}
			if _, err := os.Lstat(out); err == nil && !force {
				return keptError(out)
			}
			r, err := newReviewed(c.Context(), f, trial, date)
			if err != nil {
				return err
			}
			p, err := r.page()
			if err != nil {
				return err
			}
			var html bytes.Buffer
			if err := p.Write(&html); err != nil {
				return err
			}
			if err := writeWhole(out, force, html.Bytes()); err != nil {
				return err
			}
			return t.show(reply{
				warnings: r.warnings, no: !p.Lead.Good,
				text: func(w io.Writer) { fmt.Fprintf(w, "%s: %s %s\n", out, f.Craft.Name, p.Lead.Words) },
				json: object{{"name", f.Craft.Name}, {"pass", p.Lead.Good}, {"verdict", p.Lead.Words}, {"page", out}},
			}, asJSON)
		},
	}
	src.flags(c)
	c.Flags().StringVarP(&out, "out", "o", "review.html", "`FILE` to write the page to")
	c.Flags().BoolVar(&force, "force", false, "write over a file that exists")
	c.Flags().StringVar(&date, "date", "", "`date` to print on the page (default none, so that the same input gives the same page)")
	c.Flags().BoolVar(&asJSON, "json", false, "print one JSON object")
	if err := c.MarkFlagFilename("out", "html"); err != nil {
		panic(err) // a flag of our own
	}
	return c
}

// refuseInput returns an error when the page would be written over something
// that was read.
func refuseInput(out string, f *craftfile.File) error {
	to, err := os.Stat(out)
	if err != nil {
		return nil // nothing there, or writing will say what is wrong
	}
	paths := []string{f.Path}
	if f.Base != "" {
		paths = append(paths, f.Base)
	}
	for i := range f.Meshes {
		paths = append(paths, f.Meshes[i].Path)
	}
	for _, p := range paths {
		if in, err := os.Stat(p); err == nil && os.SameFile(in, to) {
			return fmt.Errorf("--out %s is an input of the review: choose another name", out)
		}
	}
	return nil
}

// reviewed is a craft under review and what all sections draw on.
type reviewed struct {
	ctx      context.Context // of the call that the review is for
	file     *craftfile.File
	trial    *design.Trial
	rest     *restReport     // nil when it has no rest
	restErr  error           // why
	check    *checkReport    // nil without requirements
	trials   []*design.Trial // as it is and under its loadings; nil without any
	reports  []*checkReport  // of those, where there are requirements
	style    unit.Style
	warnings []string
	date     string
}

func newReviewed(ctx context.Context, f *craftfile.File, t *design.Trial, date string) (*reviewed, error) {
	r := &reviewed{ctx: ctx, file: f, trial: t, style: styleOf(t), date: date}
	r.warnings = append(r.warnings, f.Warnings...)
	if _, r.restErr = t.Rest(); r.restErr == nil {
		r.rest = &restReport{trial: t}
		r.warnings = append(r.warnings, design.Doubts(t)...)
	}
	if len(f.Requirements) > 0 {
		r.check = newCheckReport(t, f.Requirements)
	}
	return r, r.judgeLoadings()
}

// reviewSection is a section of the review. Its build returns nothing where
// the craft has nothing to say there, and the section is absent.
type reviewSection struct {
	title string
	build func(*reviewed) ([]page.Block, error)
}

// reviewSections are the sections in order. Each has a file of its own.
var reviewSections = []reviewSection{
	{"Before trusting this", reviewWarnings},
	{"Requirements", reviewRequirements},
	{"What was read", reviewInputs},
	{"At rest", reviewRest},
	{"What small changes move", reviewMoves},
	{"What mass growth and a CG shift do", reviewGrowth},
	{"What larger floats would do", reviewFloats},
	{"Loadings", reviewLoadings},
	{"How sure, and what matters most", reviewSure},
	{"Under throttle", reviewThrottle},
	{"Righting", reviewRighting},
	{"In the wind", reviewWind},
	{"Flooding", reviewFlood},
	{"Float geometry", reviewLines},
	{"Mass build-up", reviewMass},
	{"What counts as buoyant", reviewBuoyant},
	{"Mesh health", reviewMeshes},
	{"Cautions", reviewCautions},
}

// page builds the page.
func (r *reviewed) page() (*page.Page, error) {
	p := &page.Page{Title: r.file.Craft.Name, Subtitle: r.subtitle(), Lead: r.verdict(), Note: leadCaution, Foot: r.foot()}
	for _, s := range reviewSections {
		blocks, err := s.build(r)
		if err != nil {
			return nil, fmt.Errorf("review, %s: %w", s.title, err)
		}
		if len(blocks) > 0 {
			p.Sections = append(p.Sections, page.Section{Title: s.title, Blocks: blocks})
		}
	}
	return p, nil
}

func (r *reviewed) subtitle() string {
	s := "Design review: how it sits on the water"
	if r.date != "" {
		s += ", " + r.date
	}
	return s
}

func (r *reviewed) foot() []string {
	return []string{fmt.Sprintf("Made by millpond %s from the files listed under \"What was read\".", version())}
}

// upright reports whether the craft rests upright.
func (r *reviewed) upright() bool {
	if r.rest == nil {
		return false
	}
	rest := r.rest.rest()
	return design.Upright(&rest.State)
}

func reviewWarnings(r *reviewed) ([]page.Block, error) {
	if len(r.warnings) == 0 {
		return nil, nil
	}
	return []page.Block{page.List(r.warnings)}, nil
}

func reviewCautions(*reviewed) ([]page.Block, error) {
	return []page.Block{page.Text(cautionText())}, nil
}
