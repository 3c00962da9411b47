package app

import (
	"math"

	"trammel/cmd/internal/lines"
	"trammel/geom"
	"trammel/geom/net"
	"trammel/geom/unit"
	"trammel/plot/words"
)

// agrees says whether nothing is doubtful in what was measured more than once.
func agrees(a net.Adjusted) bool { return a.Global.Passed && len(a.Suspects) == 0 }

// findings are what is said of an adjustment: what is good to know, and what to take
// care of.
func (w Work) findings(a net.Adjusted) (info, cares []string) {
	n := w.says().Nets()
	info, cares = remarks(n.Findings(a, w.Figures)), remarks(n.Doubts(a))
	if !agrees(a) {
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

// agreement is what is good to know of an adjustment.
func (w Work) agreement(a net.Adjusted) []string {
	info, _ := w.findings(a)
	if s, ok := rectangle(a); ok {
		info = append(info, string(w.says().Nets().Rectangle(s, w.Figures)))
	}
	for i, s := range info {
		info[i] = lines.Sentence(s)
	}
	return info
}

// nearlySquare is how far the angles of four corners may be from right ones for the
// question to arise whether they are a rectangle.
const nearlySquare = 5 * unit.Degree

// rectangle says whether four corners are a rectangle, where they look like one or
// all of them was measured.
func rectangle(a net.Adjusted) (net.Squareness, bool) {
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
