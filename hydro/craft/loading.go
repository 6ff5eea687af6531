package craft

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// Loading is a way in which the craft goes out: items left at home, put
// elsewhere or changed for others, and items of its own. It is a record of
// absolute values against the craft as its file has it.
type Loading struct {
	Name    string
	Without []int    // indices of items left out
	Change  []Change // of items that go along
	With    []Item   // items that only this loading has
}

// Change gives an item another place or another mass. What is nil stays.
type Change struct {
	Item int // index in the craft's Items
	Mass *float64
	At   *r3.Vec
}

// Under returns the craft in a loading. Items keep their indices: one left out
// stays, without mass. The craft itself is not changed. A craft whose mass is
// stated outright is the same in every loading.
func (c *Craft) Under(l *Loading) *Craft {
	out := *c
	out.Loading = l.Name
	out.Items = slices.Clone(c.Items)
	for _, i := range l.Without {
		out.Items[i].Mass = 0
	}
	for _, ch := range l.Change {
		it := &out.Items[ch.Item]
		if ch.Mass != nil {
			it.Mass = *ch.Mass
		}
		if ch.At != nil {
			it.At = *ch.At
		}
	}
	out.Items = append(out.Items, l.With...)
	return &out
}
