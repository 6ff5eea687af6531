package design

import "millpond/hydro/craft"

// Moves says in words what a plug moves and what stays where it is; it is empty
// for other variables. See [craft.Plug].
func (v Varied) Moves() string {
	switch {
	case !v.plug:
		return ""
	case v.cut == craft.AlongZ:
		return "its keel stays, its deck and what is set on it above the cut rise; the other parts stay, so that struts get shorter"
	case v.At < 0:
		return "what lies behind the cut moves back with what is set on it; the other parts stay"
	}
	return "what lies ahead of the cut moves forward with what is set on it; the other parts stay"
}
