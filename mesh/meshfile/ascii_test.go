package meshfile

import (
	"fmt"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

func TestReadASCII(t *testing.T) {
	plain := asciiSTL("float", tetrahedron)
	nameless := "solid\n" + strings.SplitN(plain, "\n", 2)[1]
	one := []string{"float"}
	half := asciiSTL("Left float", tetrahedron[:2])
	rest := asciiSTL("Right float", tetrahedron[2:])
	for _, c := range []readCase{
		{"plain", plain, ASCIISTL, one, nil, tetrahedron},
		{"no name", nameless, ASCIISTL, []string{""}, nil, tetrahedron},
		{"upper case", strings.ToUpper(plain), ASCIISTL, []string{"FLOAT"}, nil, tetrahedron},
		{"mixed case", strings.NewReplacer("facet", "Facet", "endfacet", "EndFacet", "solid", "Solid").Replace(plain), ASCIISTL, one, nil, tetrahedron},
		{"CRLF", strings.ReplaceAll(plain, "\n", "\r\n"), ASCIISTL, one, nil, tetrahedron},
		{"CR", strings.ReplaceAll(plain, "\n", "\r"), ASCIISTL, one, nil, tetrahedron},
		{"leading blank lines", "\n \t\r\n\n" + plain, ASCIISTL, one, nil, tetrahedron},
		{"BOM", "\xef\xbb\xbf" + plain, ASCIISTL, one, nil, tetrahedron},
		{"blank lines between", strings.ReplaceAll(plain, "\n", "\n\n\n"), ASCIISTL, one, nil, tetrahedron},
		{"no last line end", strings.TrimSpace(plain), ASCIISTL, one, nil, tetrahedron},
		{"one line", strings.ReplaceAll(plain, "\n", " "), ASCIISTL, one, nil, tetrahedron},
		{"normal not a number", strings.ReplaceAll(plain, "normal 0 0 0", "normal -nan(ind) 1.#QNAN nan"), ASCIISTL, one, nil, tetrahedron},
		{"name with keywords", strings.ReplaceAll(plain, "solid float", "solid my facet of solid gold"), ASCIISTL, []string{"my facet of solid gold"}, nil, tetrahedron},
		{"name in UTF-8", strings.ReplaceAll(plain, "float", "Flügel"), ASCIISTL, []string{"Flügel"}, nil, tetrahedron},
		{"name in Latin-1", strings.ReplaceAll(plain, "float", "Fl\xfcgel"), ASCIISTL, []string{"Flgel"}, nil, tetrahedron},
		{"end mark", plain + "\x1a", ASCIISTL, one, nil, tetrahedron},
		{"padded by zeros", plain + strings.Repeat("\x00", 9000), ASCIISTL, one, []string{"9000 zero bytes at the end of the file were ignored"}, tetrahedron},
		{"two solids", half + rest, ASCIISTL, []string{"Left float", "Right float"},
			[]string{`2 solids in one file, all read as one mesh: "Left float" (2 facets), "Right float" (2 facets)`}, tetrahedron},
		{"two solids apart", half + "\n\n" + rest, ASCIISTL, []string{"Left float", "Right float"}, []string{"2 solids"}, tetrahedron},
		{"empty solid too", "solid a\nendsolid a\n" + plain, ASCIISTL, []string{"a", "float"}, []string{`2 solids in one file, all read as one mesh: "a" (0 facets), "float" (4 facets)`}, tetrahedron},
	} {
		t.Run(c.name, c.run)
	}
}

// TestManySolids has more facets than a batch, in solids that straddle batches.
func TestManySolids(t *testing.T) {
	const n, each = 3*batchFacets + 5, 1000
	var text strings.Builder
	facets := make([]r3.Triangle, n)
	var names []string
	for i := range facets {
		// A multiple of 1/8 is exact in float32 and in few digits.
		x := float64(i) / 8
		facets[i] = r3.Triangle{{X: x}, {X: x + 0.125}, {X: x, Y: 1}}
	}
	for i := 0; i < n; i += each {
		names = append(names, fmt.Sprintf("part %d", i/each))
		text.WriteString(asciiSTL(names[len(names)-1], facets[i:min(i+each, n)]))
	}
	c := readCase{"", text.String(), ASCIISTL, names, []string{"13 solids in one file"}, facets}
	c.run(t)
	f, err := read([]byte(text.String()))
	if err != nil || !strings.HasSuffix(f.Warnings[0], `"part 7" (1000 facets) and 5 more`) {
		t.Errorf("read: warnings %q, %v", f.Warnings, err)
	}
}

func TestBadASCII(t *testing.T) {
	plain := asciiSTL("float", tetrahedron)
	facets := func(n int) string { return asciiSTL("float", tetrahedron[:n]) }
	lines := strings.SplitAfter(plain, "\n")
	// swap puts text in the place of a line, counted from one.
	swap := func(line int, text string) string {
		return strings.Join(lines[:line-1], "") + text + strings.Join(lines[line:], "")
	}
	cut := func(line int) string { return strings.Join(lines[:line], "") }
	for _, c := range []errorCase{
		{"NaN", swap(12, "vertex 0 nan 0\n"), "facet 1 (line 12): y is NaN; export the mesh again"},
		{"infinite", swap(12, "vertex 0 0 -inf\n"), "facet 1 (line 12): z is infinite; export the mesh again"},
		{"absurd", swap(12, "vertex 1e30 0 0\n"), "facet 1 (line 12): x is 1e+30, beyond any sensible size (1e+09); export the mesh again"},
		{"beyond float32", swap(12, "vertex 1e39 0 0\n"), "facet 1 (line 12): x is 1e39, beyond any sensible size (1e+09); export the mesh again"},
		{"not a number", swap(12, "vertex 0 1.2.3 0\n"), `facet 1 (line 12): y is "1.2.3", not a number; export the mesh again`},
		{"escapes", swap(12, "vertex 0 \x1b[2J 0\n"), `facet 1 (line 12): y is "\x1b[2J", not a number; export the mesh again`},
		{"decimal comma", swap(12, "vertex 0,5 0 0\n"), `facet 1 (line 12): x is "0,5", not a number; export the mesh again, with decimal points`},
		{"first error first", strings.Replace(swap(12, "vertex 0 x 0\n"), "endsolid", "endsolit", 1), `facet 1 (line 12): y is "x", not a number; export the mesh again`},
		{"CR counts lines", strings.ReplaceAll(swap(12, "vertex 0 x 0\n"), "\n", "\r"), `facet 1 (line 12): y is "x", not a number; export the mesh again`},
		{"CRLF counts lines once", strings.ReplaceAll(swap(12, "vertex 0 x 0\n"), "\n", "\r\n"), `facet 1 (line 12): y is "x", not a number; export the mesh again`},
		{"two coordinates", swap(12, "vertex 0 0\n"), "facet 1 (line 13): a vertex has 2 coordinates, not three; export the mesh again"},
		{"four coordinates", swap(12, "vertex 0 0 0 1\n"), `facet 1 (line 12): "1" stands where vertex or endloop should be; export the mesh again`},
		{"two vertices", swap(12, ""), "facet 1 (line 13): has 2 vertices, not three; export the mesh again, as triangles"},
		{"four vertices", swap(12, lines[11]+lines[11]), "facet 1 (line 15): has 4 vertices, not three; export the mesh again, as triangles"},
		{"short normal", swap(9, "facet normal 0 0\n"), "facet 1 (line 10): the normal has fewer than three numbers; export the mesh again"},
		{"no loop", swap(10, ""), `facet 1 (line 10): "vertex" stands where outer should be; export the mesh again`},
		{"no endfacet", swap(15, ""), `facet 1 (line 15): "facet" stands where endfacet should be; export the mesh again`},
		{"unknown word", swap(16, "color 1 0 0\n"), `line 16: "color" stands where facet or endsolid should be; export the mesh again`},
		{"missing endsolid", cut(29), "line 29: the file ends after 4 facets without endsolid for the solid of line 1: it was cut short; copy or export it again"},
		{"missing endsolid of the first", cut(8) + facets(1), `line 9: "solid" stands where facet or endsolid should be; export the mesh again`},
		{"cut inside a facet", cut(12), "facet 1 (line 12): the file ends inside this facet: it was cut short; copy or export it again"},
		{"cut inside a number", plain[:strings.LastIndex(plain, "e+")], "facet 3 (line 27): the file ends inside this facet: it was cut short; copy or export it again"},
		{"cut inside a normal", plain[:strings.LastIndex(plain, "normal")+8], "facet 3 (line 23): the file ends inside this facet: it was cut short; copy or export it again"},
		{"only solid", "solid", "line 1: the file ends after 0 facets without endsolid for the solid of line 1: it was cut short; copy or export it again"},
		{"no facets", "solid float\nendsolid float\n", "the mesh has no facets; export the mesh again"},
		{"prose", "solid advice\nfor builders\n", `line 2: "for" stands where facet or endsolid should be; export the mesh again`},
		{"facets behind endsolid", plain + strings.Join(lines[1:8], ""), `line 31: "facet" stands where solid should be; export the mesh again`},
		{"facets on the line of endsolid", strings.ReplaceAll(facets(1), "\n", " ") + strings.ReplaceAll(facets(2), "\n", " "),
			"line 1: a facet stands on the line of an endsolid, outside of any solid; export the mesh again"},
		{"hole of zeros", swap(12, strings.Repeat("\x00", 100)), "facet 1 (line 12): " + `"` + strings.Repeat(`\x00`, 40) + `"... stands where vertex or endloop should be; export the mesh again`},
		{"binary behind", plain + "\x01\x02", `line 31: "\x01\x02" stands where solid should be; export the mesh again`},
		{"endless word", plain + strings.Repeat("x", maxWord+1), "line 31: a word of more than 4096 letters: damaged, or not STL; export the mesh again"},
	} {
		t.Run(c.name, c.run)
	}
}

// TestWordsAcrossBlocks moves words over the end of the reader's block.
func TestWordsAcrossBlocks(t *testing.T) {
	plain := asciiSTL("float", tetrahedron)
	for shift := range 64 {
		pad := strings.Repeat(" ", 1<<16-len("solid a\n")-shift)
		c := readCase{"", "solid a\n" + pad + strings.SplitN(plain, "\n", 2)[1], ASCIISTL, []string{"a"}, nil, tetrahedron}
		c.run(t)
	}
}
