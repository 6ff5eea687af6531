package page

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"html/template"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"millpond/plots"
)

// Figure is a picture within the page.
type Figure struct {
	Caption string        // under it; also what a screen reader says
	Image   template.HTML // made by [Draw]
	Wide    bool          // takes the whole width of the page
}

// Widths that suit a figure: the whole page, or half of it. The whole fits
// between the margins of A4 and of US letter paper.
const (
	Whole = 18 * vg.Centimeter
	Half  = 8.8 * vg.Centimeter
)

// Tallest is the height that a figure may have so that it fits on one sheet
// with its heading and caption.
const Tallest = 22 * vg.Centimeter

// Draw draws a figure of a size. Line drawings stay sharp at any size as SVG,
// but a shaded picture is far smaller as PNG: the SVG is taken unless it is
// more than vectorWorth times larger.
func Draw(width, height vg.Length, fig func(draw.Canvas), caption string) (Figure, error) {
	const vectorWorth = 3
	f := Figure{Caption: caption, Wide: width > Half}
	if height > Tallest {
		return f, fmt.Errorf("a figure %.1f cm high does not fit on a sheet: at most %.0f cm", height/vg.Centimeter, Tallest/vg.Centimeter)
	}
	var svg, png bytes.Buffer
	if err := plots.Write(&svg, "svg", width, height, fig); err != nil {
		return f, err
	}
	if err := plots.Write(&png, "png", width, height, fig); err != nil {
		return f, err
	}
	data := base64.StdEncoding.EncodeToString(png.Bytes())
	label := template.HTMLEscapeString(caption)
	if svg.Len() <= vectorWorth*len(data) {
		f.Image = template.HTML(inline(svg.String(), label))
		return f, nil
	}
	f.Image = template.HTML(fmt.Sprintf(`<img alt="%s" width="%.0f" height="%.0f" src="data:image/png;base64,%s">`,
		label, width.Dots(96), height.Dots(96), data))
	return f, nil
}

// inline makes an element of a page of an SVG file: without its prolog, with
// a name for screen readers.
func inline(file, label string) string {
	if i := strings.Index(file, "<svg "); i >= 0 {
		file = file[i:]
	}
	return `<svg role="img" aria-label="` + label + `" ` + strings.TrimPrefix(strings.TrimSpace(file), "<svg ")
}
