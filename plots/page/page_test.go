package page

import (
	"bytes"
	"html"
	"regexp"
	"strings"
	"testing"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// nasty is a text that is markup, a quote and a style at once.
const nasty = `<script>alert(1)</script>"'><img src=x onerror=alert(2)>&amp;</style></svg>`

// full is a page that says something nasty everywhere.
func full(t *testing.T, text string) *Page {
	t.Helper()
	fig, err := Draw(Half, 5*vg.Centimeter, func(c draw.Canvas) {
		c.StrokeLine2(draw.LineStyle{Color: nil, Width: 1}, c.Min.X, c.Min.Y, c.Max.X, c.Max.Y)
	}, text)
	if err != nil {
		t.Fatal(err)
	}
	table := Table{Caption: text, Columns: []Column{{Title: text}, {Title: text, Number: true}}, Rows: []Row{
		{Cells: []string{text, "1"}}, {Cells: []string{text, "2"}, Look: Bad}, {Cells: []string{text, "3", "one too many"}},
	}}
	return &Page{
		Title: text, Subtitle: text, Lead: Verdict{Words: text, Reasons: []string{text}}, Foot: []string{text},
		Sections: []Section{{Title: text, Blocks: []Block{
			Text(text), List{text}, Facts{{text, text, text}}, table, Tables{table, table}, Figures{fig, fig},
		}}},
	}
}

func write(t *testing.T, p *Page) string {
	t.Helper()
	var b bytes.Buffer
	if err := p.Write(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// Whatever the words are, the page has the same elements: the words stay words.
func TestWordsStayWords(t *testing.T) {
	tags := regexp.MustCompile(`<[^>]*>`)
	names := func(page string) []string {
		var out []string
		for _, tag := range tags.FindAllString(page, -1) {
			out = append(out, strings.Fields(strings.Trim(tag, "</>"))[0])
		}
		return out
	}
	plain, got := write(t, full(t, "plain")), write(t, full(t, nasty))
	want, have := names(plain), names(got)
	if strings.Join(want, " ") != strings.Join(have, " ") {
		t.Errorf("words change the elements of the page:\n%v\nwant\n%v", have, want)
	}
	if n := strings.Count(got, html.EscapeString(nasty)); n < 15 {
		t.Errorf("the words are on the page %d times, want each time", n)
	}
	if strings.Contains(got, "<script") || strings.Contains(got, "onerror=alert(2)>&amp;") {
		t.Error("the page has markup from the words")
	}
}

// The page refers to nothing outside itself.
func TestNothingOutside(t *testing.T) {
	got := write(t, full(t, "plain"))
	for _, m := range regexp.MustCompile(`(?i)(?:src|href|url|action)\s*[=(]\s*["']?([^"')\s>]*)`).FindAllStringSubmatch(got, -1) {
		if !strings.HasPrefix(m[1], "#") && !strings.HasPrefix(m[1], "data:image/") {
			t.Errorf("the page refers to %q", m[1])
		}
	}
	if !strings.Contains(got, `content="default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'"`) {
		t.Error("the page has no policy that forbids loading")
	}
}

func TestSameBytes(t *testing.T) {
	first, again := write(t, full(t, "a")), write(t, full(t, "a"))
	if first != again {
		t.Error("two pages of one content differ")
	}
}

// A line drawing is kept as lines; what is shaded all over as pixels.
func TestDrawPicks(t *testing.T) {
	line, err := Draw(Half, 100, func(c draw.Canvas) {
		c.SetLineWidth(1)
		c.StrokeLine2(draw.LineStyle{Width: 1}, 0, 0, 90, 90)
	}, "a line")
	if err != nil {
		t.Fatal(err)
	}
	if !strings.HasPrefix(string(line.Image), `<svg role="img" aria-label="a line" width="249.45pt"`) {
		t.Errorf("a line is drawn as %.80s", line.Image)
	}
	dots, err := Draw(Whole, 200, func(c draw.Canvas) {
		for i := range 20000 {
			x, y := vg.Length(i%200), vg.Length(i/200)
			c.StrokeLine2(draw.LineStyle{Width: 1}, x, y, x+1, y)
		}
	}, "dots")
	if err != nil {
		t.Fatal(err)
	}
	if !strings.HasPrefix(string(dots.Image), `<img alt="dots" width="680" height="267" src="data:image/png;base64,`) {
		t.Errorf("many dots are drawn as %.80s", dots.Image)
	}
	if line.Wide || !dots.Wide {
		t.Errorf("wide: %v for half a page, %v for a whole one", line.Wide, dots.Wide)
	}
	if _, err := Draw(Whole, Tallest+1, func(draw.Canvas) {}, ""); err == nil || !strings.Contains(err.Error(), "does not fit on a sheet") {
		t.Errorf("a figure taller than a sheet: %v", err)
	}
}

// What is not there leaves no trace.
func TestEmptyPage(t *testing.T) {
	got := write(t, &Page{Title: "Bare", Subtitle: "review", Lead: Verdict{Good: true, Words: "floats"}})
	for _, tag := range []string{"<nav", "<section", "<footer", "<figure", "<table"} {
		if strings.Contains(got, tag) {
			t.Errorf("an empty page has %s", tag)
		}
	}
	if !strings.Contains(got, "<h1>Bare</h1>") || !strings.Contains(got, `class="verdict good"`) {
		t.Errorf("the page lacks its title or verdict:\n%s", got[strings.Index(got, "<body>"):])
	}
}
