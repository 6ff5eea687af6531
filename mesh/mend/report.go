package mend

import (
	"millpond/mesh"

	"gonum.org/v1/gonum/spatial/r3"
)

// Options says how far mending may go. The zero value welds equal vertices
// only, splits facets at vertices that lie on their edge to within rounding,
// and closes planar holes of at most 1 % of their shell's area.
type Options struct {
	// Weld is the distance within which vertices on open edges are merged,
	// in file units. Zero merges equal vertices only. Vertices whose facets
	// all have neighbors already are left alone, so that fine detail stays.
	Weld float64
	// Junction is the distance from an open edge within which a vertex
	// counts as lying on it, in file units. Zero means 1e-6 of the box's
	// diagonal, or four float32 rounding errors of the largest coordinate, or
	// Weld, whichever is most. Negative: never.
	Junction float64
	// MaxHole is the largest hole that is closed, as a share of the area of
	// the shell it is in, and the most that all of them may be of the whole
	// surface. Zero means 0.01. Negative: none is closed.
	MaxHole float64
	// Planar is how far the edge of a hole may lie off its mean plane, as a
	// share of the hole's size, for it to count as planar. Zero means 1e-3.
	Planar float64
	// NonPlanar also closes holes that are not planar. What volume that may
	// add or take is in Report.VolumeDoubt; more than a tenth of all is
	// refused.
	NonPlanar bool
	// Unit is what to call the file's unit in messages, such as "mm".
	Unit string
}

// Result is what came of a mesh. Everything is in the file's coordinates.
type Result struct {
	// Solid is what displaces water: all outer shells in one, each facing
	// outward. It is nil when Close returns an error.
	Solid *mesh.Solid
	Report
}

// Report says what was found and what was done. Counts are of the mesh as read
// unless said otherwise.
type Report struct {
	Triangles int    // as read
	Kept      int    // in the Solid
	Vertices  int    // different points, after exact welding
	Box       r3.Box // of all that was read

	Degenerate int // facets with two equal corners, dropped
	Slivers    int // facets of three different corners in line
	Loose      int // of these, dropped because no neighbor needs them
	Duplicates int // facets dropped because another is the same
	Fins       int // pairs of facets back to back, both dropped
	Coincident int // facets there twice of which both are needed: bodies share a face

	OpenEdges    int // sides of facets that meet no other, before mending
	SharedEdges  int // edges with more than two facets, before mending
	Inconsistent int // edges whose two facets face opposite ways, before mending
	Flipped      int // facets turned to agree with their shell

	Merged    int     // vertices merged with a near one
	MergeMove float64 // how far a vertex was moved by that at most
	Junctions int     // vertices at which a facet's open edge was split
	Holes     []Hole  // holes met, closed or not

	// VolumeDoubt is how much volume the closing of holes may have added or
	// taken at most: the sum of what the holes say.
	VolumeDoubt float64

	Shells []Shell // the longest box diagonal first
	Pairs  []Pair  // shells that touch, cross, nest or coincide

	// Crossing counts facets of outer shells that others pass through or lie
	// on. Extra is the volume that was enclosed more than once by them and
	// counts once now; what was enclosed inside out, and is left out, counts
	// against it.
	Crossing int
	Extra    float64

	// Shut is the volume of the spaces that outer shells which cross or touch
	// shut in between them. Water does not reach it. Spaces of any account
	// are in Shells too, as cavities without a parent.
	Shut float64

	Volume, Area float64 // of the Solid: what displaces
	// Material is the volume of what the shells bound with their cavities
	// taken out: what is printed or cast.
	Material float64

	Mended   []string // what was changed, in plain words
	Warnings []string // what may mislead
}

// Shell is one connected part of the surface. In messages shells are numbered
// from one in the order of Report.Shells.
type Shell struct {
	Triangles int
	Box       r3.Box
	Area      float64
	// Volume and Centroid are of the enclosed space, Volume positive whatever
	// way the shell faces. Both are zero for an open shell.
	Volume   float64
	Centroid r3.Vec

	OpenEdges   int  // sides left open; zero in a closed shell
	SharedEdges int  // edges of this shell with more than two facets on them
	Flipped     int  // facets turned to agree with the rest
	Inverted    bool // the whole shell was inside out and was turned

	Kind Kind
	// Depth is the number of shells around this one, Parent the index of the
	// innermost of them in Report.Shells, -1 without.
	Depth, Parent int
	// Euler is vertices - edges + facets: 2 for a ball, 0 for a ring.
	Euler int

	// Solid is the space enclosed by an inner shell, facing outward, for
	// callers that want to flood a cavity; nil for outer shells, which are
	// in Result.Solid.
	Solid *mesh.Solid
}

// Kind tells what a shell bounds.
type Kind int

// The kinds of shell. Only an Outer one is part of Result.Solid.
const (
	Outer   Kind = iota // bounds what displaces
	Cavity              // an empty space within another shell
	Inner               // a solid within another shell
	Double              // the same as another shell, which is kept
	Nothing             // closed but without volume
	Open                // not closed
)

var kindNames = [...]string{"outer", "cavity", "inner", "double", "nothing", "open"}

// String returns the kind as a word.
func (k Kind) String() string { return kindNames[k] }

// Hole is a loop of open edges.
type Hole struct {
	Edges  int
	Size   float64 // the diagonal of its box
	Center r3.Vec  // the mean of its corners
	Area   float64 // of the plane figure, or of the facets that close it
	Share  float64 // Area over the area of its shell
	// OffPlane is how far its corners lie off the mean plane at most.
	OffPlane float64
	Closed   bool
	Why      string // why it was not closed; empty when it was
	// Doubt is how much volume closing it may have added or taken at most, by
	// how far its corners are off the plane and by how the facets around it
	// slope toward it.
	Doubt float64
}

// Pair is two things that meet: shells by index in Report.Shells, or whatever
// was given to [Pairs].
type Pair struct {
	A, B     int
	Relation Relation
}
