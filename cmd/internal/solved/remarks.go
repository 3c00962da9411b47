package solved

import (
	"math"

	"trammel/cmd/internal/lines"
	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/net"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/words"
)

// Agrees says whether nothing is doubtful in what was measured more than once.
func Agrees(a net.Adjusted) bool { return a.Global.Passed && len(a.Suspects) == 0 }

// Findings are what is said of an adjustment: what is good to know, and what to take
// care of.
func (w Work) Findings(a net.Adjusted) (info, cares []string) {
	n := w.Words().Nets()
	info, cares = remarks(n.Findings(a, w.Figures)), remarks(n.Doubts(a))
	if !Agrees(a) {
		return nil, append(info, cares...)
	}
	return info, cares
}

func remarks(all []words.Remark) (said []string) {
	for _, r := range all {
		said = append(said, string(r))
	}
	return said
}

// Agreement is what is good to know of an adjustment.
func (w Work) Agreement(a net.Adjusted) []string {
	info, _ := w.Findings(a)
	if s, ok := Rectangle(a); ok {
		info = append(info, string(w.Words().Nets().Rectangle(s, w.Figures)))
	}
	for i, s := range info {
		info[i] = lines.Sentence(s)
	}
	return info
}

// nearlySquare is how far the angles of four corners may be from right ones for the
// question to arise whether they are a rectangle.
const nearlySquare = 5 * unit.Degree

// Rectangle says whether four corners are a rectangle, where they look like one or
// all of them was measured.
func Rectangle(a net.Adjusted) (net.Squareness, bool) {
	if len(a.Outline) != 4 {
		return net.Squareness{}, false
	}
	s := a.Rectangle([4]geom.Name(a.Outline))
	for _, angle := range geom.OutlineOf(a.Outline, a.Polygon()).Angles {
		if math.Abs(float64(angle-unit.Turn/4)) > float64(nearlySquare) {
			return s, s.Measured && s.Diagonals.Alike // that alone would mislead
		}
	}
	return s, true
}

// Figure of a measurement in mm or degrees.
func Figure(k triangle.Kind, f adjust.Figure) float64 {
	if k == triangle.Angle {
		return f.Angle.Degrees()
	}
	return f.Length.MM()
}
