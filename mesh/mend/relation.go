package mend

// Relation is how two solids lie to each other.
type Relation int

// The relations. Solids that are [Apart] or [Touching] share no volume.
const (
	Apart    Relation = iota // not within the tolerance of each other
	Touching                 // flush or within the tolerance, no common volume
	Crossing                 // a common volume, and each has some of its own
	Inside                   // the first lies in the second
	Contains                 // the second lies in the first
	Same                     // they coincide
)

var relationNames = [...]string{"apart", "touching", "crossing", "inside", "contains", "same"}

// String returns the relation as a word.
func (r Relation) String() string { return relationNames[r] }

// Overlap reports whether the two share a volume, which would count twice if
// both were simply added.
func (r Relation) Overlap() bool { return r >= Crossing }

// Swapped returns the relation of the second to the first.
func (r Relation) Swapped() Relation {
	switch r {
	case Inside:
		return Contains
	case Contains:
		return Inside
	}
	return r
}
