package overlap

import "fmt"

// budget bounds the work, so that no file can make it endless.
type budget struct {
	pairs, cuts, points, stabs int
}

// TooManyError says that facets lie over one another in so many ways that they
// are not all looked at.
type TooManyError struct {
	What string // of which there are too many
	Most int
}

func (e *TooManyError) Error() string {
	return fmt.Sprintf("more than %d %s: join the bodies in the CAD program and export one", e.Most, e.What)
}

// newBudget returns what solids of so many facets in all may cost. A mesh of
// 100,000 facets that lies flush on its own copy takes a tenth of it.
func newBudget(facets int) budget {
	return budget{
		pairs:  100_000_000 + 500*facets,
		cuts:   1_000_000 + 50*facets,
		points: 100_000 + 20*facets,
		stabs:  100_000_000 + 500*facets,
	}
}
