package meshfile

import (
	"bytes"
	"fmt"
	"regexp"
	"strings"
)

// A lookalike is a kind of file that is not read and that people may take for
// one that is, told by how it begins.
type lookalike struct {
	is   func(head []byte) bool
	what string
	hint string
}

const (
	// readable lists what is read.
	readable   = "STL, 3MF, OBJ or PLY"
	hintExport = "export the mesh as " + readable

	hintSolid    = "it holds surfaces, not triangles: export it as 3MF or STL from the program that made it"
	hintProgram  = "open it in the program that made it and export the mesh as 3MF or STL"
	hintDownload = "probably the page shown instead of the download: download the file itself"
	hintUnpack   = "unpack it and name the mesh file inside"
	hintMachine  = "name the mesh that it was made from"
	hintWhole    = "name the 3MF file itself"
)

// lookalikes are asked in order.
var lookalikes = []lookalike{
	{prefix("PK\x03\x04", "PK\x05\x06"), "a zip archive", hintUnpack},
	{prefix("\x1f\x8b", "7z\xbc\xaf\x27\x1c", "\xfd7zXZ", "BZh", "Rar!", "\x28\xb5\x2f\xfd"), "a compressed archive", hintUnpack},
	{prefix("\xff\xfe", "\xfe\xff"), "text in UTF-16", "save it as plain ASCII or UTF-8 text"},
	{prefix("\x89PNG", "\xff\xd8\xff", "GIF8", "%PDF", "RIFF"), "a picture or a document", hintExport},
	{prefix("glTF"), "a binary glTF file", hintExport},
	{prefix("Kaydara FBX Binary"), "an FBX file", hintExport},
	{prefix("3D Geometry File Format"), "a 3DM file", hintSolid},
	{match(`^AC10\d\d`), "a DWG drawing", hintSolid},
	{prefix("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"), "a program's own document", hintProgram},
	{prefix("BLENDER"), "a program's own document", hintProgram},
	{prefix("ISO-10303-21;"), "a STEP file", hintSolid},
	{match(`^.{72}S {0,6}0*1\s`), "an IGES file", hintSolid},
	{prefix("DBRep_DrawableShape"), "a BREP file", hintSolid},
	{match(`(?i)^\s*<(!doctype html|html|head|body)\b`), "a web page (HTML)", hintDownload},
	{match(`(?is)^\s*<(\?xml.*<)?amf\b`), "an AMF file", hintExport},
	{match(`(?is)^\s*<.*3dmanufacturing`), "the inside of a 3MF file", hintWhole},
	{match(`(?is)^\s*<.*<(collada|x3d)\b`), "a scene in XML (COLLADA or X3D)", hintExport},
	{match(`(?i)^\s*<(\?xml|[a-z])`), "an XML file", hintExport},
	{match(`^(ST|C|N|4)*OFF\s`), "an OFF file", hintExport},
	{match(`^\s*0\s*\n\s*SECTION\s`), "a DXF drawing", hintExport},
	{prefix("#VRML", "#X3D"), "a VRML scene", hintExport},
	{prefix("# vtk DataFile"), "a VTK file", hintExport},
	{match(`(?s)^\s*\{.*"asset"`), "a glTF file", hintExport},
	{match(`^\s*[{\[]`), "a JSON file", hintExport},
	{match(`(?m)^(G0?[01]|G2[018]|G9[01]|M10[49])\b`), "a program for a machine (G-code)", hintMachine},
}

// prefix is for files that begin with certain bytes.
func prefix(any ...string) func([]byte) bool {
	return func(head []byte) bool {
		for _, p := range any {
			if strings.HasPrefix(string(head), p) {
				return true
			}
		}
		return false
	}
}

// match is for files that begin with certain text.
func match(pattern string) func([]byte) bool { return regexp.MustCompile(pattern).Match }

// lookalike returns what the file seems to be, nil if nothing known.
func (in *input) lookalike() *lookalike {
	head := bytes.TrimPrefix(in.head, utf8BOM)
	for i := range lookalikes {
		if lookalikes[i].is(head) {
			return &lookalikes[i]
		}
	}
	return nil
}

// refuse returns the error for a file of no format that can be read.
func (in *input) refuse() *Error {
	if in.size == 0 {
		return in.fail("the file is empty", hintAgain)
	}
	if l := in.lookalike(); l != nil {
		return in.fail("it looks like "+l.what+", which is not read", l.hint)
	}
	if !in.isText() {
		return in.fail(fmt.Sprintf("not %s: it has %d bytes, and a binary STL file at least %d", readable, in.size, binaryHeader), hintAgain)
	}
	text := bytes.TrimSpace(bytes.TrimPrefix(in.head, utf8BOM))
	if len(text) == 0 {
		return in.fail("the file holds nothing but blanks", hintAgain)
	}
	line, _, _ := bytes.Cut(text, []byte("\n"))
	line, _, _ = bytes.Cut(line, []byte("\r"))
	return in.fail("not "+readable+": it begins with "+quote(line), hintExport)
}
