// Package readback is for tests alone: it reads a finished PDF back with software
// that trammel does not contain, so that a test can compare every mark with where
// exact geometry puts it. Open uses PDFium (its WebAssembly form, so nothing need
// be installed) and gives places in mm from the bottom left corner of the page, y up.
//
// Files, from the top floor to the ground: structure.go, pdfium.go, readback.go.
package readback

import (
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
)

// Page is what a reader found on a page.
type Page struct {
	Width, Height unit.Length
	Paths         []Path // in the order in which they are painted
	Words         []Words
}

// Path is one run of a pen, or one filled shape.
type Path struct {
	Start    geom.Point
	Segments []Segment // a closed path comes back to Start by a segment of its own unless Closed does it
	Closed   bool
	Filled   bool          // filled and not stroked
	Width    unit.Length   // of the pen
	Dashes   []unit.Length // mark, gap, mark, ...; empty for a continuous line
	Phase    unit.Length
	Layer    string
}

// Segment goes on to To, as a cubic Bézier curve where Curved.
type Segment struct {
	Curved             bool
	Control1, Control2 geom.Point
	To                 geom.Point
}

// Words are one line of text as it was written in one go.
type Words struct {
	Text   string      // less spaces at the end: PDFium adds some of its own
	At     geom.Point  // start of the base line
	Turn   unit.Angle  // in (−π, π]
	Em     unit.Length // size of the font
	Font   string      // as embedded
	Layer  string
	Bounds geom.Rect // smallest upright rectangle, as PDFium has it; Trace leaves it out
}

// Corners are Start and the end of every segment.
func (p Path) Corners() []geom.Point {
	c := []geom.Point{p.Start}
	for _, s := range p.Segments {
		c = append(c, s.To)
	}
	return c
}

// Straight says whether no segment is curved.
func (p Path) Straight() bool {
	return !slices.ContainsFunc(p.Segments, func(s Segment) bool { return s.Curved })
}

// Sample is points along the path: n to a segment, Start and the very end
// included, and the closing line where Closed and it has a length.
func (p Path) Sample(n int) []geom.Point {
	points := []geom.Point{p.Start}
	from := p.Start
	segments := p.Segments
	if p.Closed && len(segments) > 0 && segments[len(segments)-1].To != p.Start {
		segments = append(segments[:len(segments):len(segments)], Segment{To: p.Start})
	}
	for _, s := range segments {
		for i := 1; i <= n; i++ {
			points = append(points, s.at(from, float64(i)/float64(n)))
		}
		from = s.To
	}
	return points
}

func (s Segment) at(from geom.Point, t float64) geom.Point {
	if !s.Curved {
		return geom.Line{From: from, To: s.To}.At(t)
	}
	u := 1 - t
	return from.Times(u * u * u).Plus(s.Control1.Times(3 * u * u * t)).
		Plus(s.Control2.Times(3 * u * t * t)).Plus(s.To.Times(t * t * t))
}

// OffCircle is how far the path, sampled n times a segment, strays from a circle.
func (p Path) OffCircle(centre geom.Point, radius unit.Length, n int) unit.Length {
	var worst unit.Length
	for _, q := range p.Sample(n) {
		worst = max(worst, unit.Length(math.Abs(float64(q.Distance(centre)-radius))))
	}
	return worst
}

// MM of so many points of 1/72 inch.
func MM(points float64) unit.Length { return unit.Length(points * 25.4 / 72) }

// Map is a map to points of the page as one to mm.
func Map(m [6]float64) geom.Affine {
	for i := range m {
		m[i] *= 25.4 / 72
	}
	return m
}

// Stretch is a length in mm that a map which does not distort makes of v.
func Stretch[T ~float32 | ~float64](m geom.Affine, v T) unit.Length {
	return unit.Length(float64(v) * math.Hypot(m[0], m[1]))
}
