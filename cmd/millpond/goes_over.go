package main

import (
	"fmt"
	"strings"

	"millpond/hydro"
	"millpond/hydro/design"
	"millpond/hydro/unit"
)

// goesOver says in words to which attitude a craft leaps.
func goesOver(to *hydro.State) string {
	if on, ok := strings.CutPrefix(lies(to.Up), "on "); ok {
		return "goes over onto " + on
	}
	return "leaps to lie " + lies(to.Up)
}

// goesOverFully is goesOver with the angles.
func goesOverFully(to *hydro.State, style unit.Style) string {
	return fmt.Sprintf("%s (trim %s, heel %s)", goesOver(to), style.Format(unit.Angle, to.Trim()), style.Format(unit.Angle, to.Heel()))
}

// roomsOver says where the growth of a craft ends whose requirements hold until
// it leaps to another attitude; empty where none does.
func roomsOver(rooms []design.Room, style unit.Style) string {
	for _, room := range rooms {
		if room.Over != nil {
			return fmt.Sprintf("with +%s at the CG its attitude ends: it %s", style.Format(unit.Mass, room.Mass), goesOverFully(room.Over, style))
		}
	}
	return ""
}

// goesOverJSON is the attitude to which a craft leaps.
func goesOverJSON(to *hydro.State) object {
	return append(object{{"lies", lies(to.Up)}}, attitudeJSON(to)...)
}
