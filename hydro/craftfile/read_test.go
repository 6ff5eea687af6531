package craftfile

import (
	"os"
	"testing"

	"github.com/google/go-cmp/cmp"
	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/hydro/craft"
)

func TestReadFull(t *testing.T) {
	text, err := os.ReadFile("testdata/full.toml")
	if err != nil {
		t.Fatal(err)
	}
	f := mustRead(t, string(text))
	c := f.Craft

	density, err := hydro.WaterDensity(12, 3)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "water density", c.Water.Density, density)
	near(t, "growth", c.Growth.Share, 0.05)
	nearVec(t, "growth at", *c.Growth.At, r3.Vec{Z: 0.1})

	type part struct {
		Name                string
		Role                craft.Role
		Mirrored, KeepDry   bool
		Weighed, Core, Wall float64
		WallMade, Overlap   float64
		Skin                []craft.Cloth
		Roll, Pitch, Yaw    float64
		Triangles, Hollows  int
		Same                bool // Fit is Base
	}
	var got []part
	for _, p := range c.Parts {
		weighed := 0.0
		if p.Makeup.Weighed != nil {
			weighed = *p.Makeup.Weighed
		}
		got = append(got, part{p.Name, p.Role, p.Mirrored, p.KeepDry, weighed, p.Makeup.Core, p.Makeup.Wall, p.Makeup.WallMade,
			p.Makeup.Overlap, p.Makeup.Skin, p.Fit.Roll, p.Fit.Pitch, p.Fit.Yaw, p.Solid.Triangles(), len(p.Hollows), p.Fit == p.Base})
	}
	const deg = 3.14159265358979323846 / 180
	want := []part{
		{Name: "float", Role: craft.Flotation, Mirrored: true, Core: 30, Overlap: 0.1, Pitch: 1.5 * deg, Triangles: 12, Same: true,
			Skin: []craft.Cloth{{Name: "glass and resin", Areal: 0.16}, {Name: "paint", Areal: 0.045}}},
		{Name: "Wing", Role: craft.Buoyant, KeepDry: true, Weighed: 0.31, Roll: deg, Yaw: -2 * deg, Triangles: 12, Same: true},
		{Name: "cowl", Role: craft.NonBuoyant, Wall: 0.0008, WallMade: 1240, Triangles: 12, Hollows: 1, Same: true},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("parts (-want +got):\n%s", diff)
	}
	nearVec(t, "at of the wing", c.Parts[1].Fit.At, r3.Vec{X: 0.01, Z: 0.3048})
	nearVec(t, "cg of the wing", *c.Parts[1].Makeup.At, r3.Vec{X: 0.015, Z: 0.31})

	near(t, "mass of the battery", c.Items[0].Mass, 15*0.45359237/16)
	near(t, "mass of the receiver", c.Items[1].Mass, 0.0125)
	nearVec(t, "at of the receiver", c.Items[1].At, r3.Vec{X: 0.01, Y: -0.005, Z: 0.06})
	if c.Items[0].On != 0 || c.Items[1].On != -1 || c.Points[0].On != 1 || c.Lines[0].On != -1 || c.Stations[0].On != 0 {
		t.Errorf("on: battery %d, receiver %d, point %d, line %d, station %d; want 0, -1, 1, -1, 0",
			c.Items[0].On, c.Items[1].On, c.Points[0].On, c.Lines[0].On, c.Stations[0].On)
	}
	wantPoint := craft.Point{Name: "propeller tip", At: r3.Vec{X: 0.4, Z: 0.09}, KeepDry: true, On: 1}
	if c.Points[0] != wantPoint {
		t.Errorf("point = %+v, want %+v", c.Points[0], wantPoint)
	}
	wantLine := craft.Line{Name: "wing chord", From: r3.Vec{X: -0.1, Z: 0.3}, To: r3.Vec{X: 0.1, Z: 0.31}, Chord: true, On: -1}
	if c.Lines[0] != wantLine {
		t.Errorf("line = %+v, want %+v", c.Lines[0], wantLine)
	}

	type requirement struct {
		Line        int
		Text        string
		Least, Most float64
		Percent     bool
	}
	value := func(p *float64) float64 {
		if p == nil {
			return -99
		}
		return *p
	}
	var asked []requirement
	for _, q := range f.Requirements {
		asked = append(asked, requirement{q.Line, q.Text(), value(q.AtLeast), value(q.AtMost), q.Percent})
	}
	wantAsked := []requirement{
		{77, "clearance of propeller tip", 0.02, -99, false},
		{81, "angle of attack", 3 * deg, 6 * deg, false},
		{86, "mass to first wet", 0.25, -99, true},
		{90, "heel", 0, 0.5 * deg, false},
	}
	if diff := cmp.Diff(wantAsked, asked); diff != "" {
		t.Errorf("requirements (-want +got):\n%s", diff)
	}

	// Two boxes of 600 x 80 x 80 mm: volume 3.84 L and surface 204,800 mm2
	// each.
	entries := c.Buildup()
	near(t, "mass of the cores", entries[0].Mass.Mass, 2*3.84e-3*30)
	near(t, "mass of the first skin", entries[1].Mass.Mass, 2*0.2048*0.16*1.1)
	if _, err := c.Body(); err != nil {
		t.Errorf("Body: %v", err)
	}

	wantWarnings := []string{
		`part "cowl": vented changes nothing: the part displaces no water`,
		`part "Wing": the file goes on behind its last facet`,
		`part "cowl": took shell 2, 1152 L near (0, 0, 50), for a cavity in shell 1: unless it is vented, water does not reach it and shell 1 displaces as if full`,
	}
	if diff := cmp.Diff(wantWarnings, f.Warnings); diff != "" {
		t.Errorf("warnings (-want +got):\n%s", diff)
	}
	var paths []string
	for _, m := range f.Meshes {
		paths = append(paths, m.Path)
	}
	if diff := cmp.Diff([]string{"boats/float.stl", "boats/wing.stl", "hollow.stl"}, paths); diff != "" {
		t.Errorf("mesh paths (-want +got):\n%s", diff)
	}
}
