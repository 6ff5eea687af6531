package plots

import (
	"bytes"
	"image/color"
	"math"
	"testing"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/recorder"
	"gonum.org/v1/plot/vg/vgimg"
	"rsc.io/pdf"
)

func TestMissing(t *testing.T) {
	for _, tc := range []struct{ text, want string }{
		{"", ""},
		{"two\nlines", ""},
		{"0123456789 −+±×÷·°′″%,.;:()[]/–—…", ""},
		{"Δ∂ρθασφμω ≤≥≈→² ³ ∞", ""},
		{"äöüßéñçøåÅ", ""},
		{"∇p and ∇q, 水", "∇水"},
	} {
		if got := string(Missing(tc.text)); got != tc.want {
			t.Errorf("Missing(%q) = %q, want %q", tc.text, got, tc.want)
		}
	}
}

func TestHandlerIsDefault(t *testing.T) {
	if _, ok := plot.New().TextHandler.(Outlines); !ok {
		t.Errorf("plot.New has handler %T, want Outlines", plot.New().TextHandler)
	}
}

// The PNG backend of gonum/plot draws text by itself: our outlines must lie
// where it puts them.
func TestOutlinesLikeBackend(t *testing.T) {
	plain := text.Plain{Fonts: handler.Fonts}
	for _, tc := range []struct {
		name string
		sty  func(*text.Style)
		text string
	}{
		{"left", func(*text.Style) {}, "Angle of attack 4.6° AVAW"},
		{"centered", func(s *text.Style) { s.XAlign, s.YAlign = draw.XCenter, draw.YCenter }, "Reserve\n96 %"},
		{"turned", func(s *text.Style) { s.Rotation, s.XAlign = math.Pi/2, draw.XCenter }, "GZ (mm)"},
		{"slanting", func(s *text.Style) { s.Rotation, s.YAlign = 0.5, draw.YTop }, "Heel, °"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			ink := func(h text.Handler) []float64 {
				c := vgimg.NewWith(vgimg.UseWH(160, 160), vgimg.UseDPI(144))
				sty := textStyle(12, color.Black, false)
				tc.sty(&sty)
				sty.Handler = h
				h.Draw(c, tc.text, sty, vg.Point{X: 30, Y: 60})
				// Sums over blocks of 4 x 4 pixels, since antialiasing differs.
				b := c.Image().Bounds()
				sums := make([]float64, (b.Dx()/4+1)*(b.Dy()/4+1))
				for y := range b.Dy() {
					for x := range b.Dx() {
						r, _, _, _ := c.Image().At(x, y).RGBA()
						sums[y/4*(b.Dx()/4+1)+x/4] += 1 - float64(r)/0xffff
					}
				}
				return sums
			}
			got, want := ink(handler), ink(plain)
			var diff, total float64
			for i := range got {
				diff += math.Abs(got[i] - want[i])
				total += want[i]
			}
			if total < 50 {
				t.Fatalf("backend drew only %.0f pixels of ink", total)
			}
			// The backend places glyphs on whole pixels, which moves each by up
			// to half a pixel.
			if diff/total > 0.25 {
				t.Errorf("ink differs by %.0f %% from the backend's, want at most 25 %%", 100*diff/total)
			}
		})
	}
}

// Text in PDF must be shapes: the backend's own text is wrong outside cp1252.
func TestPDFHasNoText(t *testing.T) {
	var b bytes.Buffer
	err := Write(&b, "pdf", 100, 50, func(c draw.Canvas) {
		c.FillText(textStyle(9, Ink, false), vg.Point{X: 10, Y: 10}, "θ = −4.6°")
	})
	if err != nil {
		t.Fatal(err)
	}
	r, err := pdf.NewReader(bytes.NewReader(b.Bytes()), int64(b.Len()))
	if err != nil {
		t.Fatal(err)
	}
	if n := len(r.Page(1).Content().Text); n != 0 {
		t.Errorf("PDF has %d pieces of text, want 0", n)
	}
}

// Nothing that a figure draws may leave its page: a label would be clipped.
func TestNothingClipped(t *testing.T) {
	for _, f := range samples() {
		if shapes := clipped(t, f); shapes < 50 {
			t.Errorf("%s: drew %d shapes only", f.name, shapes)
		}
	}
}

// clipped fails the test if a figure draws beyond its page, and returns how
// many shapes it drew.
func clipped(t *testing.T, f figure) (shapes int) {
	t.Helper()
	var rec recorder.Canvas
	f.draw(draw.NewCanvas(&rec, f.w, f.h))
	page := vg.Rectangle{Max: vg.Point{X: f.w, Y: f.h}}
	check := func(p vg.Path) {
		shapes++
		for _, q := range p {
			if q.Type == vg.CloseComp {
				continue
			}
			if at := around(q.Pos, 0, 0); !within(at, page) {
				t.Errorf("%s: draws at (%.1f, %.1f) outside its %.0f x %.0f points", f.name, q.Pos.X, q.Pos.Y, f.w, f.h)
				return
			}
		}
	}
	for _, a := range rec.Actions {
		switch a := a.(type) {
		case *recorder.Fill:
			check(a.Path)
		case *recorder.Stroke:
			check(a.Path)
		case *recorder.FillString:
			t.Errorf("%s: leaves the text %q to the backend", f.name, a.String)
		}
	}
	return shapes
}
