package plots

import (
	"math"
	"strings"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
)

// Outlines is a text handler that measures like text.Plain, but draws text by
// filling the outlines of its glyphs. So PNG, SVG and PDF show the same text
// whatever fonts the viewer has, and signs outside Latin-1 (−, θ, ρ) come out
// right in PDF, where the backend writes UTF-8 as if it were cp1252. The price
// is text that cannot be selected.
//
// Init makes it the default handler of gonum/plot.
type Outlines struct{ text.Plain }

var _ text.Handler = Outlines{}

// handler is the one handler behind every style of the theme.
var handler = Outlines{text.Plain{Fonts: font.DefaultCache}}

// face is the typeface of the theme, embedded in the program.
var face = font.Font{Typeface: "Liberation", Variant: "Sans"}

func init() {
	plot.DefaultFont = face
	plot.DefaultTextHandler = handler
}

// Draw fills txt at pt on c. It turns the outlines itself and leaves the
// transform of c alone, since the PDF backend loses colors across Push and
// Pop.
func (o Outlines) Draw(c vg.Canvas, txt string, sty text.Style, pt vg.Point) {
	c.SetColor(sty.Color)
	if p := o.path(txt, sty, pt); len(p) > 0 {
		c.Fill(p)
	}
}

// halo draws txt over whatever is there, with a thin rim of the color rim
// around it so that it stays readable.
func halo(c vg.Canvas, txt string, sty text.Style, pt vg.Point, rim colorer) {
	p := handler.path(txt, sty, pt)
	if len(p) == 0 {
		return
	}
	c.SetColor(rim)
	c.SetLineWidth(2.2)
	c.SetLineDash(nil, 0)
	c.Stroke(p)
	c.SetColor(sty.Color)
	c.Fill(p)
}

// path returns the outlines of txt as text.Plain would place it.
func (o Outlines) path(txt string, sty text.Style, pt vg.Point) vg.Path {
	txt = strings.TrimRight(txt, "\n")
	if txt == "" || sty.Font.Size <= 0 {
		return nil
	}
	f := o.Fonts.Lookup(sty.Font, sty.Font.Size)
	sin, cos := math.Sincos(sty.Rotation)
	lines := o.Lines(txt)
	top := sty.Height(txt)*vg.Length(sty.YAlign) - f.Extents().Ascent
	var p vg.Path
	for i, line := range lines {
		off := vg.Point{
			X: vg.Length(sty.XAlign) * f.Width(line),
			Y: top + vg.Length(len(lines)-i)*sty.Font.Size,
		}
		p = outline(p, f, line, func(x, y float64) vg.Point {
			x += float64(off.X)
			y += float64(off.Y)
			return vg.Point{X: pt.X + vg.Length(x*cos-y*sin), Y: pt.Y + vg.Length(y*cos+x*sin)}
		})
	}
	return p
}

// outline appends the outlines of one line of text, which starts at the
// origin of the frame that at maps to the canvas; lengths in points, y up.
func outline(p vg.Path, f font.Face, line string, at func(x, y float64) vg.Point) vg.Path {
	var (
		buf   sfnt.Buffer
		ppem  = fixed.Int26_6(f.Face.UnitsPerEm())
		scale = f.Font.Size.Points() / float64(ppem)
		pen   fixed.Int26_6
		prev  sfnt.GlyphIndex
	)
	for i, r := range line {
		idx, err := f.Face.GlyphIndex(&buf, r)
		if err != nil {
			continue
		}
		if i > 0 {
			// Most pairs have no kerning, which is an error to sfnt only.
			if k, err := f.Face.Kern(&buf, prev, idx, ppem, 0); err == nil {
				pen += k
			}
		}
		prev = idx
		segs, err := f.Face.LoadGlyph(&buf, idx, ppem, nil)
		if err != nil {
			continue
		}
		pos := func(q fixed.Point26_6) vg.Point {
			return at(float64(pen+q.X)*scale, -float64(q.Y)*scale)
		}
		open := false
		for _, s := range segs {
			switch s.Op {
			case sfnt.SegmentOpMoveTo:
				if open {
					p.Close()
				}
				open = true
				p.Move(pos(s.Args[0]))
			case sfnt.SegmentOpLineTo:
				p.Line(pos(s.Args[0]))
			case sfnt.SegmentOpQuadTo:
				p.QuadTo(pos(s.Args[0]), pos(s.Args[1]))
			case sfnt.SegmentOpCubeTo:
				p.CubeTo(pos(s.Args[0]), pos(s.Args[1]), pos(s.Args[2]))
			}
		}
		if open {
			p.Close()
		}
		if adv, err := f.Face.GlyphAdvance(&buf, idx, ppem, 0); err == nil {
			pen += adv
		}
	}
	return p
}

// Missing returns the runes of text that the theme's font has no glyph for, in
// the order they appear, each once. They would be drawn as an empty box or not
// at all, so a label with any is a mistake. Line breaks are no runes to draw.
func Missing(text string) []rune {
	var (
		buf  sfnt.Buffer
		f    = handler.Fonts.Lookup(face, 10)
		seen = map[rune]bool{'\n': true}
		miss []rune
	)
	for _, r := range text {
		if seen[r] {
			continue
		}
		seen[r] = true
		if idx, err := f.Face.GlyphIndex(&buf, r); err != nil || idx == 0 {
			miss = append(miss, r)
		}
	}
	return miss
}

// wrap breaks text at spaces into lines of at most a width. A word that is
// wider by itself is cut at its letters. There is always one line at least.
func wrap(txt string, sty text.Style, width vg.Length) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(txt) {
		for sty.Width(word) > width {
			n := len([]rune(word)) - 1
			for n > 1 && sty.Width(string([]rune(word)[:n])) > width {
				n--
			}
			if n < 1 {
				break
			}
			if line != "" {
				lines, line = append(lines, line), ""
			}
			lines = append(lines, string([]rune(word)[:n]))
			word = string([]rune(word)[n:])
		}
		joined := strings.TrimSpace(line + " " + word)
		if line != "" && sty.Width(joined) > width {
			lines, joined = append(lines, line), word
		}
		line = joined
	}
	return append(lines, line)
}
