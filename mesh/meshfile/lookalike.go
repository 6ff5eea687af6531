package meshfile

import (
	"bytes"
	"fmt"
	"regexp"
	"strings"
)

// A lookalike is a kind of file that people take for an STL file, told by how
// it begins.
type lookalike struct {
	is   func(head []byte) bool
	what string
	hint string
}

const (
	hintExport   = "export the mesh as STL"
	hintSolid    = "it holds surfaces, not triangles: export it as STL from the program that made it"
	hintDownload = "probably the page shown instead of the download: download the file itself"
	hintUnpack   = "unpack it and name the STL file inside"
)

// lookalikes are asked in order.
var lookalikes = []lookalike{
	{match(`^PK\x03\x04(?s:.*)(3D/|\[Content_Types\]\.xml)`), "a 3MF file", hintExport},
	{prefix("PK\x03\x04", "PK\x05\x06"), "a zip archive", hintUnpack},
	{prefix("\x1f\x8b", "7z\xbc\xaf\x27\x1c", "\xfd7zXZ", "BZh"), "a compressed archive", hintUnpack},
	{prefix("\xff\xfe", "\xfe\xff"), "text in UTF-16", "save it as plain ASCII or UTF-8 text"},
	{prefix("\x89PNG", "\xff\xd8\xff", "GIF8", "%PDF"), "a picture or a document", hintExport},
	{prefix("glTF"), "a binary glTF file", hintExport},
	{match(`^ply\s`), "a PLY file", hintExport},
	{prefix("ISO-10303-21;"), "a STEP file", hintSolid},
	{match(`^.{72}S {0,6}0*1\s`), "an IGES file", hintSolid},
	{match(`(?i)^\s*<(!doctype html|html|head|body)\b`), "a web page (HTML)", hintDownload},
	{match(`(?is)^\s*<(\?xml.*<)?amf\b`), "an AMF file", hintExport},
	{match(`(?i)^\s*<(\?xml|[a-z])`), "an XML file", hintExport},
	{match(`^(ST|C|N|4)*OFF\s`), "an OFF file", hintExport},
	{match(`^\s*0\s*\n\s*SECTION\s`), "a DXF drawing", hintExport},
	{match(`(?m)^(v|vn|vt)[ \t]+[-+.\d]`), "an OBJ file", hintExport},
	{match(`^\s*[{\[]`), "a JSON file", hintExport},
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
		return in.fail("not an STL file: it looks like "+l.what, l.hint)
	}
	if !in.isText() {
		return in.fail(fmt.Sprintf("not an STL file: it has %d bytes, and a binary STL file at least %d", in.size, binaryHeader), hintAgain)
	}
	text := bytes.TrimSpace(bytes.TrimPrefix(in.head, utf8BOM))
	if len(text) == 0 {
		return in.fail("the file holds nothing but blanks", hintAgain)
	}
	line, _, _ := bytes.Cut(text, []byte("\n"))
	line, _, _ = bytes.Cut(line, []byte("\r"))
	return in.fail("not an STL file: it begins with "+quote(line)+`, an ASCII STL file with "solid"`, hintExport)
}
