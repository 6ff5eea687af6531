package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"
	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro/craftfile"
	"millpond/hydro/unit"
	"millpond/mesh/mend"
)

func newInspect(t terminal) *cobra.Command {
	var src source
	var out repaired
	var asJSON bool
	c := &cobra.Command{
		Use:   "inspect CRAFT",
		Short: "The health of the meshes: size, volume, shells, holes, what was mended",
		Long: `Reads the meshes of a craft file, or one mesh with --unit, and shows for each its
format, size, volume and area (compare them with CAD), its shells, what is wrong
with it and what was mended. Parts that cross or coincide are named, with
the volume that both fill.

Mending by itself goes as far as loses nothing: equal vertices, doubled and
flipped facets, vertices on the edge of a facet, flat holes of 1 % of the
surface. Farther it goes when told: --weld, --close-holes, --close-curved-holes,
or the keys weld, close_holes and close_curved_holes of a part. With --repaired
the mended mesh is written as STL, its cavities with it.`,
		Example: `  millpond inspect craft.toml
  millpond inspect hull.stl --unit mm
  millpond inspect hull.3mf
  millpond inspect torn.stl --unit mm --weld 0.02mm --repaired whole.stl`,
		Args: oneCraft,
		RunE: func(c *cobra.Command, args []string) error {
			if err := out.check(args[0]); err != nil {
				return err
			}
			f, err := src.meshes(c, args[0])
			if err != nil {
				return err
			}
			if out.path != "" {
				if err := out.write(&f.Meshes[0]); err != nil {
					return err
				}
			}
			r := inspectReport{f, out}
			return t.show(reply{warnings: f.Warnings, text: r.text, json: r.json()}, asJSON)
		},
	}
	src.meshFlags(c)
	out.flags(c)
	c.Flags().BoolVar(&asJSON, "json", false, "print one JSON object, SI units, full precision")
	return c
}

// inspectReport is what `inspect` has to say.
type inspectReport struct {
	file *craftfile.File
	out  repaired
}

// meters returns the length of a mesh's unit, m.
func meters(m *craftfile.Mesh) float64 {
	u, err := unit.Lookup(unit.Length, m.Unit)
	if err != nil {
		panic(err) // the reader has looked it up before
	}
	return u.Factor
}

func (r *inspectReport) text(w io.Writer) {
	for i := range r.file.Meshes {
		m := &r.file.Meshes[i]
		fmt.Fprintf(w, "%s\n", m.Path)
		var tab table
		tab.row("format", fmt.Sprintf("%s, drawn in %s", m.Format, m.Unit))
		if len(m.Parts) > 0 {
			tab.row("used for", strings.Join(m.Parts, ", "))
		}
		r.mesh(&tab, m)
		if r.out.path != "" {
			tab.row("written", fmt.Sprintf("%s, %d triangles, in %s", r.out.path, r.out.triangles, m.Unit))
		}
		tab.row("sha256", m.SHA256)
		tab.print(w, "")
		if len(m.Report.Shells) > 1 {
			shells(m).print(w, "  Shells")
		}
	}
	overlaps(r.file.Craft).print(w, "Filled by two parts, counted once")
	floatSheetText(w, r.file.Craft)
}

// mesh adds the rows about what was read.
func (r *inspectReport) mesh(tab *table, m *craftfile.Mesh) {
	rep, k := m.Report, meters(m)
	size := r3.Sub(rep.Box.Max, rep.Box.Min)
	style := unit.StyleFor(k * max(size.X, size.Y, size.Z))
	tab.row("triangles", fmt.Sprintf("%d read, %d kept, %d vertices", rep.Triangles, rep.Kept, rep.Vertices))
	tab.row("shells", fmt.Sprintf("%d", len(rep.Shells)))
	tab.row("size", fmt.Sprintf("%s long (x), %s wide (y), %s high (z) as drawn",
		style.Format(unit.Length, k*size.X), style.Format(unit.Length, k*size.Y), style.Format(unit.Length, k*size.Z)))
	tab.row("from", pointText(r3.Scale(k, rep.Box.Min), style))
	tab.row("to", pointText(r3.Scale(k, rep.Box.Max), style))
	tab.row("volume", style.Format(unit.Volume, k*k*k*rep.Volume)+" displaced, compare with CAD")
	if rep.Material < rep.Volume*(1-1e-9) {
		tab.row("material", style.Format(unit.Volume, k*k*k*rep.Material)+" with its cavities left out")
	}
	if rep.VolumeDoubt > 1e-4*rep.Volume {
		tab.row("uncertain", fmt.Sprintf("%s of the volume at most, %.2g %%, where holes were closed", style.Format(unit.Volume, k*k*k*rep.VolumeDoubt), 100*rep.VolumeDoubt/rep.Volume))
	}
	tab.row("area", style.Format(unit.Area, k*k*rep.Area))
	tab.row("health", health(rep))
	for _, line := range rep.Mended {
		tab.row("mended", line)
	}
	for _, line := range append(append([]string{}, m.Warnings...), rep.Warnings...) {
		tab.row("note", line)
	}
}

// health sums a report up in a phrase.
func health(r *mend.Report) string {
	var bad []string
	add := func(n int, what string) {
		if n > 0 {
			bad = append(bad, fmt.Sprintf("%d %s", n, what))
		}
	}
	add(r.OpenEdges, "open edges")
	add(r.SharedEdges, "edges with more than two facets")
	add(r.Inconsistent, "edges whose facets face opposite ways")
	add(r.Flipped, "facets turned")
	add(r.Degenerate, "facets without area dropped")
	add(r.Slivers, "slivers")
	add(r.Duplicates, "doubled facets dropped")
	add(2*r.Fins, "facets back to back dropped")
	add(r.Crossing, "facets crossing or on others")
	if len(bad) == 0 {
		return "closed, consistent, nothing to mend"
	}
	return "as read: " + strings.Join(bad, ", ")
}

// shells lists the shells of a mesh.
func shells(m *craftfile.Mesh) *table {
	var tab table
	k := meters(m)
	tab.row("", "kind", "triangles", "volume", "area", "size", "remarks")
	for i, s := range m.Report.Shells {
		size := r3.Scale(k, r3.Sub(s.Box.Max, s.Box.Min))
		style := unit.StyleFor(max(size.X, size.Y, size.Z))
		d := style.Display(unit.Length, size.X, size.Y, size.Z)
		var remarks []string
		if s.Inverted {
			remarks = append(remarks, "was inside out, turned")
		}
		if s.OpenEdges > 0 {
			remarks = append(remarks, fmt.Sprintf("%d open edges", s.OpenEdges))
		}
		if s.Parent >= 0 {
			remarks = append(remarks, fmt.Sprintf("inside shell %d", s.Parent+1))
		}
		tab.row(fmt.Sprintf("%d", i+1), s.Kind.String(), fmt.Sprintf("%d", s.Triangles),
			style.Format(unit.Volume, k*k*k*s.Volume), style.Format(unit.Area, k*k*s.Area),
			fmt.Sprintf("%s x %s x %s %s", d.Number(size.X), d.Number(size.Y), d.Number(size.Z), d.Unit.Name),
			strings.Join(remarks, ", "))
	}
	return &tab
}

func (r *inspectReport) json() object {
	list := []object{}
	for i := range r.file.Meshes {
		m := &r.file.Meshes[i]
		rep, k := m.Report, meters(m)
		var o object
		o.add("path", m.Path)
		o.add("sha256", m.SHA256)
		o.add("format", m.Format)
		o.add("unit", m.Unit)
		o.add("parts", m.Parts)
		o.add("triangles", rep.Triangles)
		o.add("triangles_kept", rep.Kept)
		o.add("vertices", rep.Vertices)
		o.vector("box_min_m", r3.Scale(k, rep.Box.Min))
		o.vector("box_max_m", r3.Scale(k, rep.Box.Max))
		o.number("volume", unit.Volume, k*k*k*rep.Volume)
		o.number("material_volume", unit.Volume, k*k*k*rep.Material)
		o.number("area", unit.Area, k*k*rep.Area)
		o.add("open_edges", rep.OpenEdges)
		o.add("shared_edges", rep.SharedEdges)
		o.add("inconsistent_edges", rep.Inconsistent)
		o.add("flipped", rep.Flipped)
		o.add("degenerate", rep.Degenerate)
		o.add("slivers", rep.Slivers)
		o.add("duplicates", rep.Duplicates)
		o.add("fins", rep.Fins)
		o.add("merged_vertices", rep.Merged)
		o.number("merge_move", unit.Length, k*rep.MergeMove)
		o.add("junctions", rep.Junctions)
		o.add("holes", len(rep.Holes))
		o.number("volume_doubt", unit.Volume, k*k*k*rep.VolumeDoubt)
		o.add("crossing", rep.Crossing)
		o.number("counted_once", unit.Volume, k*k*k*rep.Extra)
		o.add("mended", append([]string{}, rep.Mended...))
		o.add("notes", append(append([]string{}, m.Warnings...), rep.Warnings...))
		o.add("shells", shellsJSON(rep, k))
		if r.out.path != "" {
			o.add("repaired", object{{"path", r.out.path}, {"triangles", r.out.triangles}})
		}
		list = append(list, o)
	}
	return object{{"name", r.file.Craft.Name}, {"meshes", list}, {"overlaps", overlapsJSON(r.file.Craft)}, {"float_sheets", floatSheetJSON(r.file.Craft)}}
}

func shellsJSON(rep *mend.Report, k float64) []object {
	out := []object{}
	for _, s := range rep.Shells {
		var o object
		o.add("kind", s.Kind.String())
		o.add("triangles", s.Triangles)
		o.number("volume", unit.Volume, k*k*k*s.Volume)
		o.number("area", unit.Area, k*k*s.Area)
		o.vector("box_min_m", r3.Scale(k, s.Box.Min))
		o.vector("box_max_m", r3.Scale(k, s.Box.Max))
		o.add("open_edges", s.OpenEdges)
		o.add("inverted", s.Inverted)
		o.add("parent", s.Parent)
		out = append(out, o)
	}
	return out
}
