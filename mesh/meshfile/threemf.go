package meshfile

import (
	"archive/zip"
	"encoding/xml"
	"fmt"
	"io"
	"net/url"
	"path"
	"strings"

	"github.com/hpinc/go3mf"

	"millpond/mesh"
)

// A 3MF file is a zip archive. One part of it, named by the package's
// relationships, is the root model: XML with objects, each a mesh or a set of
// other objects, and the build, which places some of them. Objects may stand in
// further models of the archive.
//
// The library decodes the models, one by one from memory. Finding them is done
// here: the library would unpack everything in the archive, however large, and
// decode models in goroutines whose panics nobody can catch.

const (
	// maxUnpacked is how much larger the models may be unpacked than the file
	// is, with spareUnpacked on top for small files. Meshes pack to a fifth
	// or a tenth, the most regular ones to a thirtieth.
	maxUnpacked   = 50
	spareUnpacked = 1 << 20
	// maxRelations bounds the package's relationships.
	maxRelations = 1 << 20
)

// units3MF are the units by their name in a model.
var units3MF = map[go3mf.Units]float64{
	go3mf.UnitMicrometer: 1e-6,
	go3mf.UnitMillimeter: 0.001,
	go3mf.UnitCentimeter: 0.01,
	go3mf.UnitInch:       0.0254,
	go3mf.UnitFoot:       0.3048,
	go3mf.UnitMeter:      1,
}

// pack is a 3MF file being read.
type pack struct {
	in     *input
	zip    *zip.Reader
	left   int64             // bytes that may still be unpacked
	models map[string]*model // by name of the part in lower case

	facets, vertices int // in all models so far
}

// model is a model of the archive.
type model struct {
	name    string
	meters  float64
	build   []*go3mf.Item
	objects map[uint32]*go3mf.Object
}

// isZip reports whether the file begins like a zip archive.
func isZip(in *input) bool { return strings.HasPrefix(string(in.head), "PK\x03\x04") }

// is3MF reports whether the file is a zip archive with a model in it, or one
// too damaged to tell that looks like it.
func is3MF(in *input) bool {
	if !isZip(in) {
		return false
	}
	z, err := zip.NewReader(in, in.size)
	if err != nil {
		head := string(in.head)
		return strings.Contains(head, "3D/") || strings.Contains(head, "[Content_Types].xml")
	}
	for _, f := range z.File {
		if isModel(f) {
			return true
		}
	}
	return false
}

func isModel(f *zip.File) bool { return strings.EqualFold(path.Ext(f.Name), ".model") }

// read3MF reads all that the build of a 3MF file places, as one mesh.
func read3MF(in *input, m *mesh.Mesh) (*File, error) {
	z, err := zip.NewReader(in, in.size)
	if err != nil {
		return nil, in.fail("a 3MF file that cannot be unpacked ("+words3MF(err)+"): damaged, or cut short", "copy or export it again")
	}
	p := &pack{in: in, zip: z, left: maxUnpacked*in.size + spareUnpacked, models: make(map[string]*model)}
	name, err := p.rootName()
	if err != nil {
		return nil, err
	}
	root, err := p.model(name)
	if err != nil {
		return nil, err
	}
	m.Unit = root.meters
	b := &placer{pack: p, mesh: m, root: root}
	if err := b.build(); err != nil {
		return nil, err
	}
	f := &File{Mesh: m, Format: ThreeMF, Solids: b.solids}
	f.Warnings = append(joined(b.solids, b.counts), b.warnings()...)
	return f, nil
}

// relations is a part that lists relationships.
type relations struct {
	List []struct {
		Type   string `xml:"Type,attr"`
		Target string `xml:"Target,attr"`
	} `xml:"Relationship"`
}

// rootName returns the name of the part with the root model.
func (p *pack) rootName() (string, error) {
	const hint = "export it again"
	rels := p.find("_rels/.rels")
	if rels == nil {
		if p.find("3D/3dmodel.model") == nil {
			return "", p.in.fail("the 3MF file does not say which of its parts is the model", hint)
		}
		return "3D/3dmodel.model", nil // where it is by custom
	}
	data, err := p.unpack(rels, maxRelations)
	if err != nil {
		return "", err
	}
	var list relations
	if err := xml.Unmarshal(data, &list); err != nil {
		return "", p.in.fail("the 3MF file's relationships cannot be read: "+words3MF(err), hint)
	}
	for _, r := range list.List {
		if r.Type == go3mf.RelType3DModel {
			return r.Target, nil
		}
	}
	return "", p.in.fail("the 3MF file does not say which of its parts is the model", hint)
}

// clearName makes names of parts that mean the same the same.
func clearName(name string) string {
	if plain, err := url.PathUnescape(name); err == nil {
		name = plain
	}
	return strings.ToLower(strings.TrimPrefix(path.Clean("/"+strings.ReplaceAll(name, `\`, "/")), "/"))
}

// find returns the part of that name, nil if there is none.
func (p *pack) find(name string) *zip.File {
	name = clearName(name)
	for _, f := range p.zip.File {
		if clearName(f.Name) == name {
			return f
		}
	}
	return nil
}

// unpack returns a part's content, if it is no larger than most bytes.
func (p *pack) unpack(f *zip.File, most int64) ([]byte, error) {
	// The sum in 64 bits cannot run over: most is far below.
	if f.UncompressedSize64 > uint64(most) {
		return nil, p.in.fail(fmt.Sprintf("its part %s would unpack to %d bytes from a file of %d: far more than a mesh does",
			quote([]byte(f.Name)), f.UncompressedSize64, p.in.size), "export it again, or as STL")
	}
	r, err := f.Open()
	if err == nil {
		defer r.Close()
		data := make([]byte, f.UncompressedSize64)
		if _, err = io.ReadFull(r, data); err == nil {
			// Only at its end is the sum checked.
			if _, err = r.Read(make([]byte, 1)); err == io.EOF {
				return data, nil
			}
		}
	}
	reason := "it goes on behind its end"
	if err != nil {
		reason = words3MF(err)
	}
	return nil, p.in.fail(fmt.Sprintf("its part %s cannot be unpacked: %s", quote([]byte(f.Name)), reason), "copy or export it again")
}

// model returns the model in the part of that name.
func (p *pack) model(name string) (*model, error) {
	key := clearName(name)
	if m := p.models[key]; m != nil {
		return m, nil
	}
	f := p.find(name)
	if f == nil {
		return nil, p.in.fail("its model "+quote([]byte(name))+" is not in the 3MF file", "export it again")
	}
	data, err := p.unpack(f, p.left)
	if err != nil {
		return nil, err
	}
	p.left -= int64(len(data))
	fail := func(reason string) error {
		return p.in.fail("its model "+quote([]byte(f.Name))+": "+reason, "export it again, or as STL")
	}
	facets, vertices, reason := screen3MF(data)
	if reason != "" {
		return nil, fail(reason)
	}
	p.facets += facets
	p.vertices += vertices
	if p.facets > MaxFacets {
		return nil, p.in.fail(fmt.Sprintf("has more than the %d facets that are read", MaxFacets), "export it coarser")
	}
	decoded, err := decode3MF(data)
	if err != nil {
		return nil, fail("it cannot be decoded: " + words3MF(err))
	}
	m := &model{name: f.Name, meters: units3MF[decoded.Units], build: decoded.Build.Items, objects: make(map[uint32]*go3mf.Object)}
	if reason := m.take(decoded); reason != "" {
		return nil, fail(reason)
	}
	p.models[key] = m
	return m, nil
}

// decode3MF lets the library decode a model. It trusts what it is given; what
// gets past the screen must not end the program.
func decode3MF(data []byte) (m *go3mf.Model, err error) {
	defer func() {
		if trouble := recover(); trouble != nil {
			err = fmt.Errorf("%v", trouble)
		}
	}()
	m = new(go3mf.Model)
	return m, go3mf.UnmarshalModel(data, m)
}

// take takes the objects of a decoded model, and returns what is wrong.
func (m *model) take(decoded *go3mf.Model) (reason string) {
	for _, e := range decoded.Extensions {
		if e.IsRequired && !safe3MF[e.Namespace] {
			return "it needs an extension of 3MF that is not read: " + quote([]byte(e.Namespace))
		}
	}
	for _, o := range decoded.Resources.Objects {
		if m.objects[o.ID] != nil {
			return fmt.Sprintf("it has two objects with the number %d", o.ID)
		}
		m.objects[o.ID] = o
	}
	return ""
}

// safe3MF are the extensions that leave meshes what they are: materials,
// colors, and objects in further models.
var safe3MF = map[string]bool{
	go3mf.Namespace: true,
	"http://schemas.microsoft.com/3dmanufacturing/material/2015/02":     true,
	"http://schemas.microsoft.com/3dmanufacturing/production/2015/06":   true,
	"http://schemas.3mf.io/3dmanufacturing/trianglesets/2021/07":        true,
	"http://schemas.microsoft.com/3dmanufacturing/trianglesets/2021/07": true,
}

// words3MF is an error of the libraries on one line.
func words3MF(err error) string {
	text := strings.Join(strings.Fields(err.Error()), " ")
	for _, prefix := range []string{"zip: ", "go3mf: ", "XPath: "} {
		text = strings.TrimPrefix(text, prefix)
	}
	return clean([]byte(text))
}
