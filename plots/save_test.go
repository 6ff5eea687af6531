package plots

import (
	"bytes"
	"compress/zlib"
	"encoding/xml"
	"errors"
	"image"
	"image/color"
	"image/png"
	"io"
	"strings"
	"testing"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"rsc.io/pdf"
)

func TestFormatOf(t *testing.T) {
	for _, tc := range []struct{ path, want, err string }{
		{"rest.png", "png", ""},
		{"out/Rest.SVG", "svg", ""},
		{"a.b.pdf", "pdf", ""},
		{"rest.jpg", "", "only .png, .svg and .pdf"},
		{"rest", "", "has no ending"},
		{"dir.png/rest", "", "has no ending"},
		{"", "", "has no ending"},
	} {
		got, err := FormatOf(tc.path)
		if got != tc.want || (err == nil) != (tc.err == "") || err != nil && !strings.Contains(err.Error(), tc.err) {
			t.Errorf("FormatOf(%q) = %q, %v; want %q, error with %q", tc.path, got, err, tc.want, tc.err)
		}
	}
}

func TestWriteIsRepeatable(t *testing.T) {
	for _, f := range []figure{{"curves", 240, 200, curvesFigure, 0}, {"map", 240, 200, mapFigure, 0}} {
		for _, format := range []string{"png", "svg", "pdf"} {
			var a, b bytes.Buffer
			for _, w := range []*bytes.Buffer{&a, &b} {
				if err := Write(w, format, f.w, f.h, f.draw); err != nil {
					t.Fatal(err)
				}
			}
			if !bytes.Equal(a.Bytes(), b.Bytes()) {
				t.Errorf("%s as %s: two runs differ", f.name, format)
			}
		}
	}
}

func TestWriteFormats(t *testing.T) {
	// A picture of two pixels, light over dark, must not be turned over.
	img := image.NewRGBA(image.Rect(0, 0, 1, 2))
	img.Set(0, 0, color.RGBA{0xff, 0xee, 0, 0xff})
	img.Set(0, 1, color.RGBA{0, 0, 0x80, 0xff})
	fig := func(c draw.Canvas) { c.DrawImage(c.Rectangle, img) }
	var b bytes.Buffer
	if err := Write(&b, "png", 72, 72, fig); err != nil {
		t.Fatal(err)
	}
	got, err := png.Decode(&b)
	if err != nil {
		t.Fatal(err)
	}
	if got.Bounds().Dx() != DPI || got.Bounds().Dy() != DPI {
		t.Errorf("an inch is %v pixels, want %d", got.Bounds().Max, DPI)
	}
	if r, _, _, _ := got.At(75, 5).RGBA(); r < 0xf000 {
		t.Errorf("top of the picture is %v, want light", got.At(75, 5))
	}

	b.Reset()
	if err := Write(&b, "svg", 72, 72, fig); err != nil {
		t.Fatal(err)
	}
	for d := xml.NewDecoder(&b); ; {
		if _, err := d.Token(); err == io.EOF {
			break
		} else if err != nil {
			t.Fatalf("svg: %v", err)
		}
	}

	b.Reset()
	if err := Write(&b, "pdf", 72, 72, fig); err != nil {
		t.Fatal(err)
	}
	r, err := pdf.NewReader(bytes.NewReader(b.Bytes()), int64(b.Len()))
	if err != nil {
		t.Fatal(err)
	}
	if got := r.Trailer().Key("Info").Key("CreationDate").Text(); !strings.HasPrefix(got, "D:20000101") {
		t.Errorf("pdf creation date is %q, want a fixed one", got)
	}
	// Images go through the page's matrix, which turns them over; so the dark
	// lower row must be stored first. Whatever filter its first byte names, a
	// first row of one pixel is stored as it is.
	_, obj, _ := bytes.Cut(b.Bytes(), []byte("/Subtype /Image"))
	_, stream, ok := bytes.Cut(obj, []byte("stream\n"))
	if !ok {
		t.Fatal("pdf has no image")
	}
	z, err := zlib.NewReader(bytes.NewReader(stream))
	if err != nil {
		t.Fatal(err)
	}
	row := make([]byte, 4)
	if _, err := io.ReadFull(z, row); err != nil {
		t.Fatal(err)
	}
	if want := []byte{0, 0, 0x80}; !bytes.Equal(row[1:], want) {
		t.Errorf("pdf image begins with % x, want % x", row[1:], want)
	}
}

type failing struct{}

func (failing) Write([]byte) (int, error) { return 0, errors.New("disk full") }

func TestWriteErrors(t *testing.T) {
	drawn := false
	fig := func(draw.Canvas) { drawn = true }
	for _, tc := range []struct {
		w      io.Writer
		format string
		width  vg.Length
		want   string
	}{
		{io.Discard, "gif", 72, "only as png, svg or pdf"},
		{io.Discard, "png", 0, "each side"},
		{io.Discard, "png", -1, "each side"},
		{io.Discard, "png", 1e9, "each side"},
		{io.Discard, "png", vg.Length(nan()), "each side"},
		{failing{}, "svg", 72, "disk full"},
	} {
		drawn = false
		err := Write(tc.w, tc.format, tc.width, 72, fig)
		if err == nil || !strings.Contains(err.Error(), tc.want) {
			t.Errorf("Write(%T, %q, %g, 72) = %v, want an error with %q", tc.w, tc.format, tc.width, err, tc.want)
		}
		if drawn && tc.want != "disk full" {
			t.Errorf("Write(%q, %g): drew before it failed", tc.format, tc.width)
		}
	}
}
