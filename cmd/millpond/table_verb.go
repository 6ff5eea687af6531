package main

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"strconv"

	"github.com/spf13/cobra"
	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/hydro/design"
	"millpond/hydro/unit"
	"millpond/plots"
)

func newTable(t terminal) *cobra.Command {
	var src source
	var asJSON bool
	var csvPath string
	var trims []string
	from, to, step := lengthFlag(""), lengthFlag(""), lengthFlag("")
	var plot plotFlags
	c := &cobra.Command{
		Use:   "table CRAFT",
		Short: "Hydrostatic table: what the hull carries and where, over a range of drafts",
		Long: `Sets the hull to drafts one after another, at one trim or several, and lists the
displaced mass, the centers, the waterplane, KM both ways, the mass per mm of
sinkage, the moment per degree of trim, wetted area and form coefficients. Draft
is the depth of the hull's lowest point. The craft's own mass does not enter; its
CG does, in the moments. Breadth is each hull's own, added up.`,
		Example: `  millpond table craft.toml
  millpond table craft.toml --from 20mm --to 70mm --step 10mm --trim 0deg --trim 3deg
  millpond table hull.stl --unit mm --mass 1.2kg --cg 10mm,0mm,35mm --csv table.csv`,
		Args: oneCraft,
		RunE: func(c *cobra.Command, args []string) error {
			if err := plot.check(); err != nil {
				return err
			}
			f, trial, err := src.trial(c, args[0])
			if err != nil {
				return err
			}
			r := tableReport{trial: trial}
			if len(trims) == 0 {
				trims = []string{"0 deg"}
			}
			for _, text := range trims {
				trim, err := unit.Parse(unit.Angle, text)
				if err != nil {
					return fmt.Errorf("--trim: %w", err)
				}
				drafts, err := draftRange(floatDepth(trial, trim), from, to, step)
				if err != nil {
					return err
				}
				rows, err := trial.Body.Table(trim, drafts)
				if err != nil {
					return err
				}
				r.rows = append(r.rows, rows...)
			}
			if csvPath != "" {
				if err := writeTo(csvPath, plot.force, r.csv); err != nil {
					return err
				}
			}
			if plot.path != "" {
				fig, err := r.figure()
				if err != nil {
					return err
				}
				w, h := fig.Size()
				if err := plot.write(w, h, fig.Draw); err != nil {
					return err
				}
			}
			return t.show(reply{warnings: f.Warnings, text: r.text, json: r.json()}, asJSON)
		},
	}
	src.flags(c)
	plot.flags(c, "the curves, and the section areas at rest,")
	c.Flags().Var(&from, "from", "least `draft` (default a tenth of the floats' depth)")
	c.Flags().Var(&to, "to", "largest `draft` (default the floats' depth)")
	c.Flags().Var(&step, "step", "`step` between drafts (default a tenth of the floats' depth)")
	c.Flags().StringArrayVar(&trims, "trim", nil, "`trim` to set it to, nose up; may be repeated (default 0 deg)")
	c.Flags().StringVar(&csvPath, "csv", "", "also write the table to `FILE` as CSV, SI units")
	c.Flags().BoolVar(&asJSON, "json", false, "print one JSON object, SI units, full precision")
	return c
}

// lengthFlag is a flag that takes a length with its unit; empty when not
// given.
type lengthFlag string

func (l *lengthFlag) String() string { return string(*l) }
func (l *lengthFlag) Type() string   { return "length" }
func (l *lengthFlag) Set(text string) error {
	v, err := unit.Parse(unit.Length, text)
	if err != nil {
		return err
	}
	if !(v > 0) {
		return fmt.Errorf("%s must be over zero", text)
	}
	*l = lengthFlag(text)
	return nil
}

// or returns the length given, or another one.
func (l *lengthFlag) or(other float64) float64 {
	if *l == "" {
		return other
	}
	v, err := unit.Parse(unit.Length, string(*l))
	if err != nil {
		panic(err) // Set has parsed it
	}
	return v
}

// floatDepth returns the height of the flotation from its lowest to its highest
// point at a trim; of all that displaces where nothing is marked as flotation.
func floatDepth(t *design.Trial, trim float64) float64 {
	floats := hydro.Surface(t.Craft.Flotation())
	if len(floats) == 0 {
		return t.Body.Hull.Depth(trim)
	}
	up := hydro.UpVector(trim, 0)
	low, _ := floats.Clearance(hydro.Attitude{Up: up})
	high, _ := floats.Clearance(hydro.Attitude{Up: r3.Scale(-1, up)})
	return -high - low
}

// mostDrafts keeps a slip in a step from asking for a million rows.
const mostDrafts = 1000

// draftRange returns the drafts that the flags ask for.
func draftRange(depth float64, from, to, step lengthFlag) ([]float64, error) {
	lo, hi, by := from.or(depth/10), to.or(depth), step.or(depth/10)
	if lo > hi {
		return nil, fmt.Errorf("drafts from %s to %s: the range is empty", unit.Format(unit.Length, lo), unit.Format(unit.Length, hi))
	}
	n := math.Floor((hi-lo)/by+1e-9) + 1
	if n > mostDrafts {
		return nil, fmt.Errorf("a step of %s makes %.0f drafts, more than %d: take a larger one", unit.Style{Fine: true}.Format(unit.Length, by), n, mostDrafts)
	}
	var out []float64
	for i := range int(n) {
		out = append(out, lo+by*float64(i))
	}
	return out, nil
}

// tableReport is what `table` has to say.
type tableReport struct {
	trial *design.Trial
	rows  []hydro.TableRow
}

// tableColumns are the columns in JSON and CSV: key, kind, value.
var tableColumns = []struct {
	key  string
	kind unit.Kind
	get  func(*hydro.TableRow) float64
}{
	{"trim", unit.Angle, func(r *hydro.TableRow) float64 { return r.Trim }},
	{"draft", unit.Length, func(r *hydro.TableRow) float64 { return r.Draft }},
	{"displaced_mass", unit.Mass, func(r *hydro.TableRow) float64 { return r.Mass }},
	{"displaced_volume", unit.Volume, func(r *hydro.TableRow) float64 { return r.Volume }},
	{"cb_x", unit.Length, func(r *hydro.TableRow) float64 { return r.CB.X }},
	{"cb_y", unit.Length, func(r *hydro.TableRow) float64 { return r.CB.Y }},
	{"cb_z", unit.Length, func(r *hydro.TableRow) float64 { return r.CB.Z }},
	{"cf_x", unit.Length, func(r *hydro.TableRow) float64 { return r.CF.X }},
	{"cf_y", unit.Length, func(r *hydro.TableRow) float64 { return r.CF.Y }},
	{"waterplane_area", unit.Area, func(r *hydro.TableRow) float64 { return r.Area }},
	{"wetted_area", unit.Area, func(r *hydro.TableRow) float64 { return r.Wetted }},
	{"kb", unit.Length, func(r *hydro.TableRow) float64 { return r.KB }},
	{"bm_transverse", unit.Length, func(r *hydro.TableRow) float64 { return r.BMTransverse }},
	{"bm_longitudinal", unit.Length, func(r *hydro.TableRow) float64 { return r.BMLongitudinal }},
	{"km_transverse", unit.Length, func(r *hydro.TableRow) float64 { return r.KMTransverse }},
	{"km_longitudinal", unit.Length, func(r *hydro.TableRow) float64 { return r.KMLongitudinal }},
	{"gm_transverse", unit.Length, func(r *hydro.TableRow) float64 { return r.GMTransverse }},
	{"gm_longitudinal", unit.Length, func(r *hydro.TableRow) float64 { return r.GMLongitudinal }},
	{"mass_per_sinkage", unit.MassPerLength, func(r *hydro.TableRow) float64 { return r.MassPerSinkage }},
	{"moment_per_trim", unit.MomentPerAngle, func(r *hydro.TableRow) float64 { return r.MomentPerTrim }},
	{"waterline_length", unit.Length, func(r *hydro.TableRow) float64 { return r.Length }},
	{"waterline_breadth", unit.Length, func(r *hydro.TableRow) float64 { return r.Breadth }},
	{"midship_section", unit.Area, func(r *hydro.TableRow) float64 { return r.Midship }},
	{"block_coefficient", unit.None, func(r *hydro.TableRow) float64 { return r.Block }},
	{"waterplane_coefficient", unit.None, func(r *hydro.TableRow) float64 { return r.Waterplane }},
	{"midship_coefficient", unit.None, func(r *hydro.TableRow) float64 { return r.MidshipForm }},
	{"prismatic_coefficient", unit.None, func(r *hydro.TableRow) float64 { return r.Prismatic }},
}

// text prints the table in two halves, since it is too wide for a terminal.
func (r *tableReport) text(w io.Writer) {
	fmt.Fprintf(w, "%s in %s: hydrostatic table\n\n", r.trial.Craft.Name, r.trial.Craft.Water.Name)
	style := styleOf(r.trial)
	mm := func(v float64) string { return style.Display(unit.Length, v).Number(v) }
	fixed := func(v float64, decimals int) string { return unit.Decimal(v, decimals) }
	var load, form table
	load.row("trim", "draft", "carries", "CB x", "CB z", "CF x", "waterplane", "KM trans.", "KM long.", "per mm", "per deg of trim")
	load.row("deg", "mm", "kg", "mm", "mm", "mm", "cm2", "mm", "mm", "g", "N m")
	form.row("trim", "draft", "wetted", "length", "breadth", "block", "waterplane", "midship", "prismatic")
	form.row("deg", "mm", "cm2", "mm", "mm", "coefficient", "coefficient", "coefficient", "coefficient")
	for i := range r.rows {
		q := &r.rows[i]
		trim := fixed(q.Trim*180/math.Pi, 1)
		load.row(trim, mm(q.Draft), fixed(q.Mass, 3), mm(q.CB.X), mm(q.CB.Z), mm(q.CF.X), fixed(q.Area*1e4, 0),
			mm(q.KMTransverse), mm(q.KMLongitudinal), fixed(q.MassPerSinkage, 1), fixed(q.MomentPerTrim*math.Pi/180, 3))
		form.row(trim, mm(q.Draft), fixed(q.Wetted*1e4, 0), mm(q.Length), mm(q.Breadth),
			fixed(q.Block, 3), fixed(q.Waterplane, 3), fixed(q.MidshipForm, 3), fixed(q.Prismatic, 3))
	}
	load.print(w, "What it carries and where (K is the hull's lowest point)")
	form.print(w, "Form (breadth is each hull's own, added up)")
}

func (r *tableReport) json() object {
	rows := []object{}
	for i := range r.rows {
		var o object
		for _, c := range tableColumns {
			o.number(c.key, c.kind, c.get(&r.rows[i]))
		}
		rows = append(rows, o)
	}
	var o object
	o.add("name", r.trial.Craft.Name)
	o.number("water_density", unit.Density, r.trial.Body.Density)
	o.add("table", rows)
	at, area := r.sections()
	sections := []object{}
	for i := range at {
		var s object
		s.number("ahead", unit.Length, at[i])
		s.number("section_area", unit.Area, area[i])
		sections = append(sections, s)
	}
	o.add("sections_at_rest", sections)
	return o
}

// csv writes the rows with the JSON keys as headings. What has no value is left
// empty.
func (r *tableReport) csv(w io.Writer) error {
	out := csv.NewWriter(w)
	var head []string
	for _, c := range tableColumns {
		head = append(head, c.kind.Key(c.key))
	}
	if err := out.Write(head); err != nil {
		return err
	}
	for i := range r.rows {
		var cells []string
		for _, c := range tableColumns {
			cell := ""
			if v := c.get(&r.rows[i]); !math.IsNaN(v) {
				cell = strconv.FormatFloat(c.kind.ToEdge(v), 'g', -1, 64)
			}
			cells = append(cells, cell)
		}
		if err := out.Write(cells); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// sections returns the section areas at rest; none for a craft that does not
// rest.
func (r *tableReport) sections() (at, area []float64) {
	rest, err := r.trial.Rest()
	if err != nil {
		return nil, nil
	}
	return r.trial.Body.Hull.SectionCurve(rest.Attitude, 81)
}

// figureRows is how many drafts the curves are drawn through.
const figureRows = 80

// figure returns the curves at the first trim, over the range of the rows.
func (r *tableReport) figure() (*plots.Drafts, error) {
	nan := math.NaN()
	lo, hi := r.rows[0].Draft, r.rows[0].Draft
	for _, q := range r.rows {
		lo, hi = min(lo, q.Draft), max(hi, q.Draft)
	}
	var drafts []float64
	for i := range figureRows {
		drafts = append(drafts, lo+(hi-lo)*float64(i)/(figureRows-1))
	}
	rows, err := r.trial.Body.Table(r.rows[0].Trim, drafts)
	if err != nil {
		return nil, err
	}
	fig := &plots.Drafts{
		Title: fmt.Sprintf("%s in %s: what it carries at a trim of %s", r.trial.Craft.Name, r.trial.Craft.Water.Name, unit.Format(unit.Angle, r.rows[0].Trim)),
		Today: nan, BuoyancyAt: nan, GravityAt: nan, SectionTitle: "Section below water at rest",
	}
	for i := range rows {
		q := &rows[i]
		fig.Draft = append(fig.Draft, q.Draft)
		fig.Mass = append(fig.Mass, q.Mass)
		fig.KB = append(fig.KB, q.KB)
		fig.KMTransverse = append(fig.KMTransverse, q.KMTransverse)
		fig.KMLongwise = append(fig.KMLongwise, q.KMLongitudinal)
		fig.Waterplane = append(fig.Waterplane, q.Area)
		fig.Wetted = append(fig.Wetted, q.Wetted)
	}
	fig.Station, fig.Section = r.sections()
	if rest, err := r.trial.Rest(); err == nil {
		ahead := r3.Unit(r3.Sub(r3.Vec{X: 1}, r3.Scale(rest.Up.X, rest.Up)))
		fig.BuoyancyAt, fig.GravityAt = r3.Dot(ahead, rest.CB), r3.Dot(ahead, r.trial.Body.CG)
		if math.Abs(rest.Trim()-r.rows[0].Trim) < 5*math.Pi/180 {
			fig.Today = rest.Draft()
		}
	}
	return fig, nil
}
