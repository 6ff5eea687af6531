package plots

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
	"gonum.org/v1/plot/vg"
)

// margins is the room around the craft in a view, for labels.
type margins struct{ left, right, bottom, top vg.Length }

func (m margins) across() vg.Length  { return m.left + m.right }
func (m margins) upright() vg.Length { return m.bottom + m.top }

var (
	sideMargins  = margins{70, 70, 34, 44}
	frontMargins = margins{62, 62, 30, 40}
	planMargins  = margins{46, 46, 30, 26}
)

const (
	profileWidth = 24 * vg.Centimeter
	sideMost     = 9.5 * vg.Centimeter // of the craft's height in the side view
	planMost     = 8.5 * vg.Centimeter // of its breadth in the plan
	titleHeight  = TitleSize + 6       // of the title, where there is one
	angleHeight  = vg.Length(20)       // of the line of angles
	factHeight   = vg.Length(12)
	columnGap    = vg.Length(14)
)

// sheet is where the views are on the page, from its lower left corner, and
// at which scales, in points per meter.
type sheet struct {
	sideScale, lowScale      float64 // lowScale is of plan and front
	side, plan, front, facts vg.Rectangle
	height                   vg.Length // of the whole page
}

// shape is what the layout needs to know of a figure.
type shape struct {
	long, wide, tall    float64   // of the craft with the water surface, in meters
	facts               int       // lines of the table
	factsWidth, footing vg.Length // of the table; of key and note
	heading             vg.Length // of title and angles
}

func (p *Profile) shape(b r3.Box, width vg.Length) shape {
	size := b.Size()
	return shape{
		long: math.Max(size.X, 1e-6), wide: math.Max(size.Y, 1e-6), tall: math.Max(size.Z, 1e-6),
		facts: len(p.Facts), factsWidth: p.factsWidth(), footing: p.footHeight(width),
		heading: p.headHeight(),
	}
}

// Size returns the size that suits the craft's shape: 24 cm wide, as high as
// the views need.
func (p *Profile) Size() (w, h vg.Length) { return profileWidth, p.HeightFor(profileWidth) }

// HeightFor returns the height that the views need on a page of another width.
func (p *Profile) HeightFor(width vg.Length) vg.Length {
	return p.shape(p.bounds(), width).sheet(width, 1).height
}

// fit returns the largest layout within a page, and false if the page is too
// small for anything readable.
func (f shape) fit(width, height vg.Length) (sheet, bool) {
	const least = 0.25
	s := f.sheet(width, 1)
	if s.height > height {
		lo, hi := least, 1.0
		for range 30 {
			mid := (lo + hi) / 2
			if f.sheet(width, mid).height > height {
				hi = mid
			} else {
				lo = mid
			}
		}
		s = f.sheet(width, lo)
	}
	// Center what is less high than the page on its top.
	up := height - s.height
	for _, r := range []*vg.Rectangle{&s.side, &s.plan, &s.front, &s.facts} {
		r.Min.Y += up
		r.Max.Y += up
	}
	return s, up > -0.5 && s.sideScale > 0 && s.lowScale > 0
}

// sheet lays out a page of a width, the scales shrunk by a factor. The side
// view comes first and largest; plan, front and facts share the row under it.
func (f shape) sheet(width vg.Length, shrink float64) sheet {
	inner := width - 2*pageMargin
	var s sheet
	s.sideScale = shrink * math.Min(float64(inner-sideMargins.across())/f.long, float64(sideMost)/f.tall)
	low := func(extra vg.Length) float64 {
		free := float64(inner - extra - planMargins.across() - frontMargins.across())
		most := math.Min(float64(planMost)/math.Max(f.wide, f.tall), s.sideScale/shrink)
		return shrink * math.Min(free/(f.long+f.wide), most)
	}
	table := factHeight * vg.Length(f.facts)
	if f.facts > 0 {
		table += factHeight
	}
	// The table stands under the front view if it fits there, else beside it.
	s.lowScale = low(0)
	planWide := vg.Length(f.long*s.lowScale) + planMargins.across()
	row := max(vg.Length(f.wide*s.lowScale)+planMargins.upright(), vg.Length(f.tall*s.lowScale)+frontMargins.upright())
	front := vg.Length(f.tall*s.lowScale) + frontMargins.upright()
	under := front+table <= max(row, planMost) && inner-planWide-columnGap >= f.factsWidth
	if under {
		row = max(row, front+table)
	} else if f.facts > 0 {
		s.lowScale = low(f.factsWidth + columnGap)
		planWide = vg.Length(f.long*s.lowScale) + planMargins.across()
		front = vg.Length(f.tall*s.lowScale) + frontMargins.upright()
		row = max(vg.Length(f.wide*s.lowScale)+planMargins.upright(), front, table)
	}
	side := vg.Length(f.tall*s.sideScale) + sideMargins.upright()
	s.height = side + row + f.heading + f.footing + 2*pageMargin

	left, right, top := pageMargin, width-pageMargin, s.height-pageMargin-f.heading
	box := func(x0, x1, y0, y1 vg.Length) vg.Rectangle {
		return vg.Rectangle{Min: vg.Point{X: x0, Y: y0}, Max: vg.Point{X: x1, Y: y1}}
	}
	s.side = box(left, right, top-side, top)
	top -= side
	s.plan = box(left, left+planWide, top-row, top)
	s.front = box(left+planWide, right, top-front, top)
	s.facts = box(left+planWide+columnGap, right, top-row, top-front)
	if !under && f.facts > 0 {
		s.front.Max.X = right - f.factsWidth - columnGap
		s.facts = box(right-f.factsWidth, right, top-row, top)
	}
	return s
}
