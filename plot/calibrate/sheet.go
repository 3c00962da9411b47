// Package calibrate draws the sheet that a printer is measured by, and makes of
// what was measured on it the distortion of that printer.
//
// The sheet has a rectangle with the corners A, B, C, D, counter-clockwise from the
// lower left; four lengths are read: AB, AD and the diagonals AC, BD.
//
// Files, from the top floor to the ground: pages.go, marks.go, readings.go, sheet.go.
package calibrate

import (
	"fmt"
	"math"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/words"
)

// Sheet is a calibration sheet before it is drawn.
type Sheet struct {
	Printer       string
	Paper         string
	Width, Height unit.Length // of the paper
	Inset         unit.Length // of the rectangle from the paper's edge
	Margin        string      // as it has to be typed; empty where nothing need be
	Number        int         // 1 for the first sheet; later ones are corrected
	Corrected     geom.Distortion
	Says          unit.Says      // how it is said what was found; nil: as a job would say it
	Language      words.Language // nil: English at the bench
}

// Sizes, in mm.
const (
	arm       unit.Length = 5 // of a cross
	tickPitch unit.Length = 1.1
	leastSide unit.Length = 120  // of the rectangle
	mostSide  unit.Length = 2000 // longer than that no steel rule is
	textWide  unit.Length = 165  // longer lines are not read
)

// MostEdge is as far as the rulers at the edges go.
const MostEdge unit.Length = 20

// Rectangle that is measured. On a corrected sheet the lengths come out nearly as
// they are meant, and to read a tenth that was met before says nothing new; there it
// is a little smaller, so that each of them ends midway between two readings.
func (s Sheet) Rectangle() geom.Rect {
	r := geom.Rect{Max: geom.Point{X: s.Width, Y: s.Height}}.Grow(-s.Inset)
	if s.Number < 2 {
		return r
	}
	const step, mid = FineStep, FineStep / 2
	w0, h0 := floorTo(r.Width()-mid, step)+mid, floorTo(r.Height()-mid, step)+mid
	best, least := geom.Point{X: w0, Y: h0}, math.Inf(1)
	for i := range 16 {
		for j := range 16 {
			p := geom.Point{X: w0 - step*unit.Length(i), Y: h0 - step*unit.Length(j)}
			d := p.Distance(geom.Point{})
			// As near midway as a fifth of a step, then as large as can be.
			off := math.Abs((d - floorTo(d, step) - mid).MM())
			if cost := math.Max(off-step.MM()/5, 0)*1000 + float64(i+j); cost < least {
				best, least = p, cost
			}
		}
	}
	cut := geom.Point{X: (r.Width() - best.X) / 2, Y: (r.Height() - best.Y) / 2}
	return geom.Rect{Min: r.Min.Plus(cut), Max: r.Max.Minus(cut)}
}

func floorTo(l, step unit.Length) unit.Length {
	return step * unit.Length(math.Floor(float64(l/step)))
}

// Blank is readings of the sheet with nothing read yet. A corrected sheet is read by
// its ticks. A first one has none: at a scale that is 1 % off, some lengths would
// meet no tick.
func (s Sheet) Blank() Readings {
	r := s.Rectangle()
	q := Readings{Width: r.Width(), Height: r.Height()}
	if s.Number > 1 {
		q.Corrected, q.Fine = s.Corrected, true
	}
	return q
}

// Warp is where marks of a page lie in the file so that a printer with that
// distortion puts them where they belong: the inverse, about the middle of the page.
func Warp(d geom.Distortion, width, height unit.Length) draw.Matrix {
	back, _ := d.Affine().Inverse()
	return draw.Matrix(back.About(geom.Point{X: width / 2, Y: height / 2}))
}

// Spread is how far the warp of a page moves anything beyond the edges of a window.
func Spread(warp draw.Matrix, window geom.Rect) (left, top, right, bottom unit.Length) {
	m := geom.Affine(warp)
	r := geom.RectOf(m.Apply(window.Min), m.Apply(window.Max),
		m.Apply(geom.Point{X: window.Min.X, Y: window.Max.Y}), m.Apply(geom.Point{X: window.Max.X, Y: window.Min.Y}))
	return max(0, window.Min.X-r.Min.X), max(0, r.Max.Y-window.Max.Y), max(0, r.Max.X-window.Max.X), max(0, window.Min.Y-r.Min.Y)
}

// check refuses a paper that is too small or too large for a sheet.
func (s Sheet) check() error {
	if r := s.Rectangle(); r.Width() < leastSide || r.Height() < leastSide {
		return &unit.Fault{Subject: unit.Paper, Of: s.Paper, What: fmt.Sprintf("the rectangle would be %.0f by %.0f mm, and %.0f mm a side is the least that is worth measuring", r.Width(), r.Height(), leastSide), Advice: unit.Advice{Code: unit.TooSmall}}
	}
	if s.Width > mostSide || s.Height > mostSide {
		return &unit.Fault{Subject: unit.Paper, Of: s.Paper, What: fmt.Sprintf("a sheet %.0f mm long is longer than any steel rule", max(s.Width, s.Height)), Hint: "of a roll, name a length: 914x1500"}
	}
	return nil
}

// tickStart is how far before its second corner the ticks of a length begin, going
// away from it, in whole millimetres: those of a side just clear of the cross, those
// of a diagonal where they are clear of the sides'.
func tickStart(width, height unit.Length, diagonal bool) unit.Length {
	if !diagonal {
		return arm + 3
	}
	sine := min(width, height).MM() / math.Hypot(width.MM(), height.MM())
	return unit.Length(math.Ceil(math.Min(60, 10/sine)))
}
