package plan

import (
	"fmt"
	"math"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// Sizes of the ellipses on paper: the longest half axis is at most a part of the
// usual distance to the next peg, and between these.
const (
	leastEllipse  unit.Length = 2.5
	mostEllipse   unit.Length = 6
	ellipseShare              = 0.45
	seenEllipse   unit.Length = 0.1 // smaller ones are not drawn
	ellipsePoints             = 72  // within 0.01 mm of the curve at mostEllipse
)

// enlarge is the largest of 1, 2, 5 times powers of ten that keeps the longest half axis
// within most on paper; 1 at least, 0 where there is nothing to draw.
func enlarge(longest, most unit.Length) float64 {
	if longest <= 0 {
		return 0
	}
	best := float64(1)
	for e := 0; e <= 9; e++ {
		for _, m := range []float64{1, 2, 5} {
			if f := m * math.Pow10(e); unit.Length(f)*longest <= most {
				best = float64(f)
			}
		}
	}
	return best
}

// ellipses draws where 95 % of pegs fall, enlarged.
func (v *view) ellipses() {
	v.enlarged = 0
	if v.Enlarged == 0 {
		return
	}
	longest := unit.Length(0)
	var here []Peg
	for _, peg := range v.shown {
		if !v.member[peg.Name] && peg.Ellipse.Major > 0 {
			here = append(here, peg)
			longest = max(longest, peg.Ellipse.Major*unit.Length(v.k))
		}
	}
	if len(here) == 0 {
		return
	}
	if v.enlarged = v.Enlarged; v.Enlarged == Roundly {
		v.enlarged = enlarge(longest, min(mostEllipse, max(leastEllipse, ellipseShare*v.usualGap())))
	}
	for _, peg := range here {
		e := ellipse(peg.At, peg.Ellipse, v.enlarged*v.k)
		switch b := e.Bounds(); {
		case max(b.Width(), b.Height()) < seenEllipse:
		case v.in == nil:
			v.round(e, draw.Narrow, draw.Construction)
		default:
			v.closed(e, draw.Narrow, draw.Construction)
		}
	}
}

// ellipse about a place, k times as large as it is on the ground.
func ellipse(at geom.Point, e adjust.Ellipse, k float64) geom.Polygon {
	m := geom.Placement{Turn: e.Turn, Shift: at}
	p := make(geom.Polygon, ellipsePoints)
	for i := range p {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / ellipsePoints)
		p[i] = m.Apply(geom.Point{X: e.Major * unit.Length(k*cos), Y: e.Minor * unit.Length(k*sin)})
	}
	return p
}

// ellipseWords state the factor.
func ellipseWords(f float64) string {
	if f == 1 {
		return "Ellipses at this scale: 95 % of pegs fall inside."
	}
	return fmt.Sprintf("Ellipses %.10g times enlarged: 95 %% of pegs fall inside.", f)
}
