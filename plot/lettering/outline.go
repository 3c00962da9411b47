package lettering

import (
	"github.com/tdewolff/font"

	"trammel/geom"
	"trammel/geom/unit"
)

// Contour is one closed curve of a letter, in mm. The inside of a letter is where
// its contours wind round a point (non-zero rule).
type Contour struct {
	Start    geom.Point
	Segments []Segment
}

// Segment leads from the end of the one before to To: straight, or where Curved
// as a quadratic Bézier curve drawn by Control (the Go fonts are TrueType, which
// has no other curves).
type Segment struct {
	Curved      bool
	Control, To geom.Point
}

// Outline gives the contours of a line of words at a capital height, y up, from
// the start of the base line at the origin. It is exact to the font's own grid
// (capitals are 1480 units high).
func (f Font) Outline(words string, height unit.Length, bold bool) []Contour {
	c := f.face(bold)
	p := pen{scale: float64(height / c.capital)}
	x := 0
	for _, r := range words {
		g := c.glyph(r)
		// The only error is that of a damaged font, and these are embedded.
		_ = c.sfnt.GlyphPath(&p, g.id, 0, float64(x)*p.scale, 0, p.scale, font.NoHinting)
		x += int(g.advance)
	}
	return p.contours
}

// pen collects what the font library draws.
type pen struct {
	scale    float64
	contours []Contour
}

func point(x, y float64) geom.Point { return geom.Point{X: unit.Length(x), Y: unit.Length(y)} }

func (p *pen) add(s Segment) {
	c := &p.contours[len(p.contours)-1]
	c.Segments = append(c.Segments, s)
}

func (p *pen) MoveTo(x, y float64) { p.contours = append(p.contours, Contour{Start: point(x, y)}) }
func (p *pen) LineTo(x, y float64) { p.add(Segment{To: point(x, y)}) }
func (p *pen) QuadTo(cx, cy, x, y float64) {
	p.add(Segment{Curved: true, Control: point(cx, cy), To: point(x, y)})
}

// CubeTo is of the library's interface; a TrueType font never calls it.
func (p *pen) CubeTo(_, _, _, _, x, y float64) { p.LineTo(x, y) }
func (p *pen) Close()                          {}
