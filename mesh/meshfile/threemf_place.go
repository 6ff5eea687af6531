package meshfile

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/hpinc/go3mf"
	"github.com/hpinc/go3mf/spec"
	"gonum.org/v1/gonum/spatial/r3"

	"millpond/mesh"
)

const (
	// maxNested bounds how deep objects are made of objects.
	maxNested = 32
	// maxPlaced bounds how often objects are placed, maxCopies how many facets
	// there are for each in the file, with spareFacets for small files: a file
	// of a few lines can name itself a billion times over.
	maxPlaced   = 100_000
	maxCopies   = 16
	spareFacets = 1_000_000
)

// placer puts the objects that the build names where it says.
type placer struct {
	pack   *pack
	mesh   *mesh.Mesh
	root   *model
	open   []*go3mf.Object // from the build down to the one being placed
	placed int

	solids []string
	counts []int    // facets of each solid
	others []string // names of what is there for other ends than the solid
}

// build places all items of the build.
func (b *placer) build() error {
	if len(b.root.build) == 0 {
		return b.fail("its build places nothing", "put the parts on the plate and export again")
	}
	for i, item := range b.root.build {
		first := len(b.mesh.Triangles)
		m, o, err := b.object(b.root, pathOf(item.AnyAttr), item.ObjectID, fmt.Sprintf("build item %d", i+1))
		if err != nil {
			return err
		}
		if o.Type != go3mf.ObjectTypeModel {
			b.others = append(b.others, nameOf(o))
			continue
		}
		where, err := b.affine(item.Transform, fmt.Sprintf("build item %d", i+1))
		if err != nil {
			return err
		}
		if err := b.place(m, o, where); err != nil {
			return err
		}
		if n := len(b.mesh.Triangles) - first; n > 0 {
			b.solids, b.counts = append(b.solids, nameOf(o)), append(b.counts, n)
		}
	}
	switch {
	case len(b.mesh.Triangles) > 0:
		return nil
	case len(b.others) > 0:
		return b.fail("its build places only what is marked as a support, a surface or the like", "mark the solid as a model, or export it as STL")
	}
	return b.fail("the mesh has no facets", hintAgain)
}

func (b *placer) fail(reason, hint string) error {
	return b.pack.in.fail(reason, hint)
}

// nameOf returns what an object is called.
func nameOf(o *go3mf.Object) string {
	for _, name := range []string{o.Name, o.PartNumber} {
		if name = clean([]byte(name)); name != "" {
			return name
		}
	}
	return fmt.Sprintf("object %d", o.ID)
}

// pathOf returns the part in which the object stands that is meant, empty for
// the same one. The attribute belongs to an extension, whose own decoder fails
// on attributes where it expects none, so that it is left unregistered.
func pathOf(attrs spec.AnyAttr) string {
	for _, group := range attrs {
		if u, ok := group.(*spec.UnknownAttrs); ok && strings.Contains(u.Space, "production") {
			for _, a := range u.Attr {
				if a.Name.Local == "path" {
					return a.Value
				}
			}
		}
	}
	return ""
}

// object finds the object that something in a model names.
func (b *placer) object(in *model, path string, id uint32, what string) (*model, *go3mf.Object, error) {
	if path != "" {
		m, err := b.pack.model(path)
		if err != nil {
			return nil, nil, err
		}
		if m.meters != b.root.meters {
			return nil, nil, b.fail(fmt.Sprintf("its model %s has another unit than its root", quote([]byte(m.name))), "export it again, or as STL")
		}
		in = m
	}
	o := in.objects[id]
	if o == nil {
		return nil, nil, b.fail(fmt.Sprintf("%s is object %d, which is not in the file", what, id), hintAgain)
	}
	return in, o, nil
}

// affine returns the map that a transform is. One that is not there is all
// zero; its rows are the columns of ours.
func (b *placer) affine(t go3mf.Matrix, what string) (mesh.Affine, error) {
	if t == (go3mf.Matrix{}) {
		return mesh.Identity(), nil
	}
	var a mesh.Affine
	for i := range 3 {
		for j := range 3 {
			a.M[j][i] = float64(t[4*i+j])
		}
	}
	a.T = r3.Vec{X: float64(t[12]), Y: float64(t[13]), Z: float64(t[14])}
	if det := a.Det(); det == 0 || math.IsNaN(det) || math.IsInf(det, 0) {
		return a, b.fail("the transform of "+what+" flattens it", hintAgain)
	}
	return a, nil
}

// place adds the object, moved, to the mesh.
func (b *placer) place(m *model, o *go3mf.Object, where mesh.Affine) error {
	what := "object " + fmt.Sprint(o.ID)
	if o.Name != "" {
		what += " (" + quote([]byte(o.Name)) + ")"
	}
	hasParts := o.Components != nil && len(o.Components.Component) > 0
	b.placed++
	switch {
	case slices.Contains(b.open, o):
		return b.fail(what+" is a component of itself", hintAgain)
	case len(b.open) >= maxNested:
		return b.fail(fmt.Sprintf("its objects are nested more than %d deep", maxNested), "export it as one mesh")
	case b.placed > maxPlaced:
		return b.fail(fmt.Sprintf("it places objects more than %d times", maxPlaced), "export it as one mesh")
	case o.Mesh != nil && hasParts:
		return b.fail(what+" has a mesh and components", hintAgain)
	case o.Mesh != nil:
		return b.add(o.Mesh, where, what)
	case !hasParts:
		return b.fail(what+" has neither a mesh nor components", "export it again, or as STL")
	}
	b.open = append(b.open, o)
	defer func() { b.open = b.open[:len(b.open)-1] }()
	for _, c := range o.Components.Component {
		inner, part, err := b.object(m, pathOf(c.AnyAttr), c.ObjectID, "a component of "+what)
		if err != nil {
			return err
		}
		if part.Type != go3mf.ObjectTypeModel {
			b.others = append(b.others, nameOf(part))
			continue
		}
		to, err := b.affine(c.Transform, "a component of "+what)
		if err != nil {
			return err
		}
		if err := b.place(inner, part, to.Then(where)); err != nil {
			return err
		}
	}
	return nil
}

// limitPlaced returns how many facets or vertices may come of so many in the
// file.
func limitPlaced(stored, most int) int { return min(most, max(spareFacets, maxCopies*stored)) }

// add adds a mesh, moved. Under a mirror its facets are turned, so that they
// keep facing outward.
func (b *placer) add(from *go3mf.Mesh, where mesh.Affine, what string) error {
	for _, extra := range from.Any {
		if tokens, ok := extra.(*spec.UnknownTokens); ok && strings.Contains(tokens.XMLName().Space, "beamlattice") {
			return b.fail(what+" has a lattice of beams, which is not read", "export it as a plain mesh")
		}
	}
	to := b.mesh
	facets := len(from.Triangles.Triangle)
	if most := limitPlaced(b.pack.facets, MaxFacets); len(to.Triangles)+facets > most {
		return b.fail(fmt.Sprintf("its objects are placed so often that it has more than %d facets", most), "export it as one mesh")
	}
	if most := limitPlaced(b.pack.vertices, maxVertices); len(to.Vertices)+len(from.Vertices.Vertex) > most {
		return b.fail(fmt.Sprintf("its objects are placed so often that it has more than %d vertices", most), "export it as one mesh")
	}
	first := uint32(len(to.Vertices))
	to.Vertices = slices.Grow(to.Vertices, len(from.Vertices.Vertex))
	for i, v := range from.Vertices.Vertex {
		p := where.Point(r3.Vec{X: float64(v[0]), Y: float64(v[1]), Z: float64(v[2])})
		for axis, x := range [3]float64{p.X, p.Y, p.Z} {
			if !(math.Abs(x) <= MaxCoordinate) {
				bad := badCoordinate{axis: axis, value: x}
				return b.fail(fmt.Sprintf("%s: vertex %d: %s", what, i, bad.reason()), hintAgain)
			}
		}
		to.Vertices = append(to.Vertices, p)
	}
	to.Triangles = slices.Grow(to.Triangles, facets)
	mirrored := where.Det() < 0
	for i, t := range from.Triangles.Triangle {
		if most := max(t.V1, t.V2, t.V3); most >= uint32(len(from.Vertices.Vertex)) {
			return b.fail(fmt.Sprintf("%s: facet %d names vertex %d, and there are %d", what, i, most, len(from.Vertices.Vertex)), hintAgain)
		}
		if mirrored {
			t.V2, t.V3 = t.V3, t.V2
		}
		to.Triangles = append(to.Triangles, [3]uint32{first + t.V1, first + t.V2, first + t.V3})
	}
	return nil
}

// warnings says what was left out.
func (b *placer) warnings() []string {
	if len(b.others) == 0 {
		return nil
	}
	names := make([]string, 0, 8)
	for _, n := range b.others[:min(len(b.others), cap(names))] {
		names = append(names, fmt.Sprintf("%q", n))
	}
	text := fmt.Sprintf("objects that are marked as supports, surfaces or the like were left out: %d (%s", len(b.others), strings.Join(names, ", "))
	if more := len(b.others) - len(names); more > 0 {
		text += fmt.Sprintf(" and %d more", more)
	}
	return []string{text + ")"}
}
