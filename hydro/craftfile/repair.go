package craftfile

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"millpond/hydro/unit"
	"millpond/mesh/mend"
)

// Repair says how far a mesh may be mended. The zero value leaves it to what
// package mend does by itself.
type Repair struct {
	Weld        float64 // distance within which vertices on open edges are merged, m
	CloseHoles  float64 // largest hole closed, as a share of its shell's surface; negative: none
	CurvedHoles bool    // close holes that are not planar too

	onCommand bool // asked for by flags, not keys
}

// holeShare says what is wrong with the largest share of a hole.
func holeShare(v float64) string {
	if v < 0 || v > 1 {
		return "must be from 0 % to 100 %"
	}
	return ""
}

// holes sets how large holes may be. Zero means none.
func (r *Repair) holes(share float64) {
	r.CloseHoles = share
	if share == 0 {
		r.CloseHoles = -1
	}
}

// repair reads how far a part's mesh may be mended.
func (t *table) repair() Repair {
	var r Repair
	r.Weld, _ = t.quantity("weld", unit.Length, overZero)
	if v, ok := t.quantity("close_holes", unit.Share, holeShare); ok {
		r.holes(v)
	}
	r.CurvedHoles = t.flag("close_curved_holes")
	return r
}

// quickRepair is repair for the quick form.
func quickRepair(o QuickOptions) (Repair, error) {
	r := Repair{CurvedHoles: o.CurvedHoles, onCommand: true}
	for _, f := range []struct {
		flag, text string
		kind       unit.Kind
		demand     demand
		set        func(v float64)
	}{
		{"--weld", o.Weld, unit.Length, overZero, func(v float64) { r.Weld = v }},
		{"--close-holes", o.CloseHoles, unit.Share, holeShare, r.holes},
	} {
		if f.text == "" {
			continue
		}
		v, err := unit.Parse(f.kind, f.text)
		switch {
		case err != nil:
			return r, fmt.Errorf("%s: %w", f.flag, err)
		case v > reach[f.kind]:
			return r, fmt.Errorf("%s: %q is beyond all measure; is the unit right?", f.flag, f.text)
		case f.demand(v) != "":
			return r, fmt.Errorf("%s: %q %s", f.flag, f.text, f.demand(v))
		}
		f.set(v)
	}
	return r, nil
}

// options returns how far to mend a mesh of so many meters to its unit, whose
// name is for messages.
func (r Repair) options(meters float64, name string) mend.Options {
	opt := mend.Options{Unit: name, MaxHole: r.CloseHoles, NonPlanar: r.CurvedHoles}
	if meters > 0 {
		opt.Weld = r.Weld / meters
	}
	return opt
}

// cure tells in an error about holes with which keys or flags the mesh would be
// closed.
func (r Repair) cure(err error) {
	var e *mend.HolesError
	if !errors.As(err, &e) {
		return
	}
	write := func(key, value string) string {
		if r.onCommand {
			flag := "--" + strings.ReplaceAll(key, "_", "-")
			return strings.TrimSpace(flag + " " + strings.ReplaceAll(value, " ", ""))
		}
		if value == "" {
			return key + " = true"
		}
		return fmt.Sprintf("%s = %q", key, value)
	}
	verb := "write"
	if r.onCommand {
		verb = "add"
	}
	var ways []string
	if e.WeldAt > 0 && e.Unit != "" {
		ways = append(ways, write("weld", fmt.Sprintf("%.4g %s", e.WeldAt, e.Unit))+" to merge vertices that near each other, which closes it")
	}
	if e.CloseAt > 0 {
		way := write("close_holes", fmt.Sprintf("%.4g %%", 100*e.CloseAt))
		if e.CloseCurved {
			way += " and " + write("close_curved_holes", "")
		}
		way += " to have it closed"
		if e.CloseDoubt > 1e-4 {
			way += fmt.Sprintf(", which leaves its volume uncertain by up to %.2g %%", 100*e.CloseDoubt)
		}
		ways = append(ways, way)
	}
	e.Cure = "close it in the CAD program and export again"
	if len(ways) > 0 {
		e.Cure += ", or " + verb + " " + strings.Join(ways, ", or ")
	}
}

// metersOf returns the meters in a unit of a file: as named by the user, else as
// the file states it.
func metersOf(name string, stated float64) float64 {
	if u, err := unit.Lookup(unit.Length, name); err == nil && name != "" {
		return u.Factor
	}
	return stated
}

// sameUnit reports whether two units, in meters, are the same but for rounding.
func sameUnit(a, b float64) bool { return math.Abs(a-b) <= 1e-9*a }

// kindOf names a format with its article, dialects apart: "an STL file".
func kindOf(format string) string {
	kind := format[strings.LastIndex(format, " ")+1:]
	article := "a"
	if strings.HasPrefix(kind, "STL") || strings.HasPrefix(kind, "OBJ") {
		article = "an"
	}
	return article + " " + kind + " file"
}
