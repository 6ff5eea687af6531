package main

import (
	"bytes"
	"context"
	"fmt"
	"html/template"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"rsc.io/pdf"

	"millpond/plots/page"
)

// browse runs a browser without a window and returns what it prints. The test
// is skipped where there is none.
func browse(t *testing.T, args ...string) (out, log string) {
	t.Helper()
	if testing.Short() {
		t.Skip("a browser takes seconds to start")
	}
	path, err := exec.LookPath("chromium")
	if err != nil {
		t.Skip("no chromium here: the page is not opened in a browser")
	}
	ctx, stop := context.WithTimeout(context.Background(), 2*time.Minute)
	defer stop()
	c := exec.CommandContext(ctx, path, append([]string{
		"--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
		"--disable-background-networking", "--disable-component-update", "--disable-sync",
		"--enable-logging=stderr", "--user-data-dir=" + t.TempDir(),
	}, args...)...)
	var stdout, stderr bytes.Buffer
	c.Stdout, c.Stderr = &stdout, &stderr
	c.WaitDelay = 5 * time.Second
	if err := c.Run(); err != nil {
		t.Fatalf("chromium %s: %v\n%s", strings.Join(args, " "), err, stderr.String())
	}
	return stdout.String(), stderr.String()
}

// badNames is the heavy demo with names that are markup.
func badNames(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS(demo(""))); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(dir, "heavy.toml")
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for _, swap := range [][2]string{
		{`"heavy Sedgeling"`, `"<script>alert(1)</script> \"quoted\" & 'heron'"`},
		{`stern deck`, `<img src=http://elsewhere.example/deck.png>`},
		{`"water sampler"`, `"</td></table><script src=//elsewhere.example/x.js>"`},
	} {
		if !bytes.Contains(text, []byte(swap[0])) {
			t.Fatalf("the demo has no %s", swap[0])
		}
		text = bytes.ReplaceAll(text, []byte(swap[0]), []byte(swap[1]))
	}
	if err := os.WriteFile(path, text, 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// written returns the page that `review` makes of a craft.
func written(t *testing.T, craft string) []byte {
	t.Helper()
	out := filepath.Join(t.TempDir(), "review.html")
	var stdout, stderr bytes.Buffer
	if status := run(context.Background(), []string{"review", craft, "-o", out}, strings.NewReader(""), &stdout, &stderr); status == exitWrong {
		t.Fatalf("review %s exits with %d: %s", craft, status, stderr.String())
	}
	data, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// A browser opens the page without a word on its console and asks nobody for
// anything, whatever the names in the craft file are. A second page shows that
// both would be noticed.
func TestReviewInBrowser(t *testing.T) {
	t.Parallel()
	review := written(t, badNames(t))
	const control = `<!DOCTYPE html><p>control</p><img src="http://elsewhere.example/x.png"><script>no_such_function()</script>`
	var mu sync.Mutex
	var asked []string
	note := func(r *http.Request) {
		mu.Lock()
		defer mu.Unlock()
		asked = append(asked, r.Host+r.URL.Path)
	}
	site := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		switch r.URL.Path {
		case "/review":
			w.Write(review)
		case "/control":
			w.Write([]byte(control))
		default:
			note(r)
			http.NotFound(w, r)
		}
	}))
	defer site.Close()
	// All that is not on this machine goes through here, and no further.
	proxy := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		note(r)
		http.Error(w, "no way out", http.StatusBadGateway)
	}))
	defer proxy.Close()
	open := func(path string) (dom string, console []string, elsewhere []string) {
		mu.Lock()
		asked = nil
		mu.Unlock()
		dom, log := browse(t, "--proxy-server="+proxy.Listener.Addr().String(), "--dump-dom", site.URL+path)
		for _, line := range strings.Split(log, "\n") {
			if strings.Contains(line, "CONSOLE") {
				console = append(console, line)
			}
		}
		mu.Lock()
		defer mu.Unlock()
		for _, a := range asked {
			if !browsersOwn(a) {
				elsewhere = append(elsewhere, a)
			}
		}
		return dom, console, elsewhere
	}

	dom, console, elsewhere := open("/review")
	if len(console) > 0 {
		t.Errorf("the console says %q", console)
	}
	if len(elsewhere) > 0 {
		t.Errorf("the page asks for %q", elsewhere)
	}
	if want := `<h1>&lt;script&gt;alert(1)&lt;/script&gt; "quoted" &amp; 'heron'</h1>`; !strings.Contains(dom, want) {
		t.Errorf("the page has no %s", want)
	}
	if n := strings.Count(dom, "<script") + strings.Count(dom, "<img src=\"http"); n > 0 {
		t.Errorf("the page has %d elements from names", n)
	}
	if sections, figures := strings.Count(dom, "<section"), strings.Count(dom, "</figure>"); sections < 8 || figures < 1 {
		t.Errorf("the browser sees %d sections and %d figures", sections, figures)
	}

	_, console, elsewhere = open("/control")
	if len(console) == 0 {
		t.Error("a failing script is not noticed")
	}
	if !slices.Contains(elsewhere, "elsewhere.example/x.png") {
		t.Errorf("a request that leaves is not noticed, only %q", elsewhere)
	}
}

// browsersOwn reports whether the browser asks for something on its own, with
// any page or none.
func browsersOwn(request string) bool {
	host, path, _ := strings.Cut(request, "/")
	host, _, _ = strings.Cut(host, ":")
	return path == "favicon.ico" || strings.HasSuffix(host, ".google.com") || strings.HasSuffix(host, ".googleapis.com") || strings.HasSuffix(host, ".gvt1.com")
}

// printed returns the text of each sheet that a page is printed on.
func printed(t *testing.T, html []byte) []string {
	t.Helper()
	dir := t.TempDir()
	in, out := filepath.Join(dir, "page.html"), filepath.Join(dir, "page.pdf")
	if err := os.WriteFile(in, html, 0o644); err != nil {
		t.Fatal(err)
	}
	browse(t, "--no-pdf-header-footer", "--print-to-pdf="+out, "file://"+in)
	r, err := pdf.Open(out)
	if err != nil {
		t.Fatal(err)
	}
	var sheets []string
	for i := range r.NumPage() {
		sheets = append(sheets, sheetText(t, r.Page(i+1)))
	}
	return sheets
}

// sheetText returns the text of a sheet. The library gives the numbers of
// glyphs, two bytes each; each font has a map of them to characters (PDF 1.7,
// 9.10.3).
func sheetText(t *testing.T, p pdf.Page) string {
	t.Helper()
	maps := map[string]map[int]rune{}
	for _, name := range p.Fonts() {
		f := p.Font(name)
		base := f.BaseFont()
		if _, after, ok := strings.Cut(base, "+"); ok { // as the library does
			base = after
		}
		data, err := io.ReadAll(f.V.Key("ToUnicode").Reader())
		if err != nil {
			t.Fatal(err)
		}
		m := map[int]rune{}
		hex := func(s string) int {
			v, err := strconv.ParseInt(s, 16, 32)
			if err != nil {
				t.Fatal(err)
			}
			return int(v)
		}
		for _, q := range regexp.MustCompile(`<(\w+)> <(\w+)> <(\w{4})>`).FindAllStringSubmatch(string(data), -1) {
			for k := hex(q[1]); k <= hex(q[2]); k++ {
				m[k] = rune(hex(q[3]) + k - hex(q[1]))
			}
		}
		for _, q := range regexp.MustCompile(`(?m)^<(\w+)> <(\w{4})>$`).FindAllStringSubmatch(string(data), -1) {
			m[hex(q[1])] = rune(hex(q[2]))
		}
		maps[base] = m
	}
	var b strings.Builder
	texts := p.Content().Text
	for i := 0; i+1 < len(texts); i += 2 {
		high, low := []rune(texts[i].S)[0], []rune(texts[i+1].S)[0]
		if r, ok := maps[texts[i].Font][int(high)<<8|int(low)]; ok {
			b.WriteRune(r)
		}
	}
	return b.String()
}

// The page prints on a few sheets, verdict first and cautions last.
func TestReviewPrints(t *testing.T) {
	t.Parallel()
	sheets := printed(t, written(t, demo("heavy.toml")))
	if n := len(sheets); n < 3 || n > 16 {
		t.Errorf("the review prints on %d sheets, want 3 to 16", n)
	}
	if !strings.Contains(sheets[0], "misses 4 of 8 requirements") {
		t.Errorf("the first sheet has no verdict: %q", sheets[0])
	}
	if last := sheets[len(sheets)-1] + sheets[len(sheets)-2]; !strings.Contains(last, "Cautions") {
		t.Error("the last sheets have no cautions")
	}
}

// No figure is cut by the end of a sheet, nor from its caption, wherever it
// comes to stand. The figures here are lines of text, which can be cut
// anywhere: without the rule some are, which shows that the test would notice.
func TestFiguresPrintWhole(t *testing.T) {
	t.Parallel()
	p := page.Page{Title: "Figures"}
	const n = 12
	for i := range n {
		var before page.List
		for k := range 2 + 5*i%17 {
			before = append(before, fmt.Sprint("line ", k))
		}
		image := fmt.Sprintf("TOP%dT", i) + strings.Repeat("<br>line of a figure", 12+3*i)
		p.Sections = append(p.Sections, page.Section{Title: "Section", Blocks: []page.Block{
			before, page.Figures{{Image: template.HTML(image), Wide: true, Caption: fmt.Sprintf("caption END%dE", i)}},
		}})
	}
	var html bytes.Buffer
	if err := p.Write(&html); err != nil {
		t.Fatal(err)
	}
	cut := func(html []byte) int {
		text := strings.Join(printed(t, html), "\f")
		cut := 0
		for i := range n {
			m := regexp.MustCompile(fmt.Sprintf(`(?s)TOP%dT(.*)END%dE`, i, i)).FindStringSubmatch(text)
			if m == nil {
				t.Fatalf("figure %d is not printed: %q", i, text)
			}
			if strings.Contains(m[1], "\f") {
				cut++
			}
		}
		return cut
	}
	if k := cut(html.Bytes()); k > 0 {
		t.Errorf("%d of %d figures are cut", k, n)
	}
	loose := bytes.ReplaceAll(html.Bytes(), []byte("break-inside: avoid"), []byte("break-inside: auto"))
	if cut(loose) == 0 {
		t.Error("no figure is cut even where it may be: the test would notice nothing")
	}
}
