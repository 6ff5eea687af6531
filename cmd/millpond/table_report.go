package main

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/hydro/craft"
	"millpond/hydro/design"
	"millpond/hydro/unit"
	"millpond/plots"
)

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
	load.row("trim", "draft", "displaces", "CB x", "CB z", "CF x", "waterplane", "KM trans.", "KM long.", "per mm", "per deg of trim")
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
	load.print(w, "Displacement and centers (K is the hull's lowest point)")
	form.print(w, "Form (breadth is each hull's own, added up)")
	t := r.trial
	fmt.Fprintf(w, "hull: all that displaces, %s\n", strings.Join(displacing(t.Craft), ", "))
	fmt.Fprintf(w, "midship: the section that is largest under water at the deepest draft here, at the same place in every row\n")
	fmt.Fprintf(w, "N m per deg of trim: about the CG at %s\n", pointText(t.Body.CG, style))
}

// displacing names the parts that displace.
func displacing(c *craft.Craft) []string {
	var out []string
	for i := range c.Parts {
		if p := &c.Parts[i]; p.Role != craft.NonBuoyant {
			out = append(out, partTitle(p))
		}
	}
	return out
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
	o.vector("cg_m", r.trial.Body.CG)
	o.add("hull", displacing(r.trial.Craft))
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
		Title: fmt.Sprintf("%s in %s: hydrostatic curves at a trim of %s", r.trial.Craft.Name, r.trial.Craft.Water.Name, strings.Replace(unit.Format(unit.Angle, r.rows[0].Trim), " deg", "°", 1)),
		Today: nan, BuoyancyAt: nan, GravityAt: nan, SectionTitle: "Section area under water, at rest",
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
