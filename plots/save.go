package plots

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	imgdraw "image/draw"
	"io"
	"path/filepath"
	"strings"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
	"gonum.org/v1/plot/vg/vgpdf"
	"gonum.org/v1/plot/vg/vgsvg"
)

// DPI is the resolution of PNG files, in dots per inch.
const DPI = 150

// maxSide keeps a slip in a size (meters for centimeters) from asking for
// gigabytes of pixels.
const maxSide = 200 * vg.Centimeter

func init() {
	// The backend stamps files with the time of writing and lists parts in
	// the order of a map; both would make equal figures differ.
	day := time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
	fpdf.SetDefaultCreationDate(day)
	fpdf.SetDefaultModificationDate(day)
	fpdf.SetDefaultCatalogSort(true)
}

// FormatOf returns the format that the ending of path asks for: "png", "svg"
// or "pdf". Upper case counts too.
func FormatOf(path string) (string, error) {
	ext := strings.ToLower(strings.TrimPrefix(filepath.Ext(path), "."))
	switch ext {
	case "png", "svg", "pdf":
		return ext, nil
	case "":
		return "", fmt.Errorf("plot file %q has no ending to tell its format: end it in .png, .svg or .pdf", path)
	}
	return "", fmt.Errorf("plot file %q: cannot draw .%s, only .png, .svg and .pdf", path, ext)
}

// Write draws a figure of the given size and writes it to w as "png" (at
// [DPI]), "svg" or "pdf". The same figure gives the same bytes at any time.
// Nothing is written before the figure is complete.
func Write(w io.Writer, format string, width, height vg.Length, fig func(draw.Canvas)) error {
	if !(width > 0 && height > 0 && width <= maxSide && height <= maxSide) {
		return fmt.Errorf("figure of %.4g x %.4g cm: each side must be above 0 and at most %.0f cm",
			width/vg.Centimeter, height/vg.Centimeter, maxSide/vg.Centimeter)
	}
	var c vg.CanvasWriterTo
	switch format {
	case "png":
		c = vgimg.PngCanvas{Canvas: vgimg.NewWith(vgimg.UseWH(width, height), vgimg.UseDPI(DPI))}
	case "svg":
		c = vgsvg.New(width, height)
	case "pdf":
		c = pdfCanvas{vgpdf.New(width, height)}
	default:
		return fmt.Errorf("cannot draw a figure as %q, only as png, svg or pdf", format)
	}
	dc := draw.New(c)
	fillRect(dc, dc.Rectangle, Paper)
	fig(dc)
	var buf bytes.Buffer
	if _, err := c.WriteTo(&buf); err != nil {
		return fmt.Errorf("draw figure as %s: %w", format, err)
	}
	n, err := w.Write(buf.Bytes())
	if err == nil && n < buf.Len() {
		err = errors.New("short write")
	}
	if err != nil {
		return fmt.Errorf("write figure: %w", err)
	}
	return nil
}

// pdfCanvas mends two faults of the PDF backend: it draws images upside down,
// since its canvas is flipped, and takes premultiplied colors for straight
// ones, which darkens translucent fills.
type pdfCanvas struct{ *vgpdf.Canvas }

func (c pdfCanvas) DrawImage(r vg.Rectangle, img image.Image) {
	b := img.Bounds()
	flip := image.NewNRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
	for y := range b.Dy() {
		row := image.Rect(0, b.Dy()-1-y, b.Dx(), b.Dy()-y)
		imgdraw.Draw(flip, row, img, image.Pt(b.Min.X, b.Min.Y+y), imgdraw.Src)
	}
	c.Canvas.DrawImage(r, flip)
}

func (c pdfCanvas) SetColor(clr color.Color) {
	if clr == nil {
		clr = color.Black
	}
	c.Canvas.SetColor(straight{color.NRGBAModel.Convert(clr).(color.NRGBA)})
}

// straight is a color whose RGBA gives straight components, against the rule
// of color.Color, because that is what the PDF backend passes on.
type straight struct{ color.NRGBA }

func (s straight) RGBA() (r, g, b, a uint32) {
	return uint32(s.R) * 0x101, uint32(s.G) * 0x101, uint32(s.B) * 0x101, uint32(s.A) * 0x101
}
