package screen

import (
	"slices"

	"trammel/geom"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// Asked is what is measured of a piece that is not known yet, or that nothing fits.
type Asked struct {
	Measured []triangle.Measurement
	Outline  []geom.Name // once round, counter-clockwise; fewer than three: a triangle
	Figures  unit.Style
	Doubtful []string
}

// Sketch is a rough shape of it, from the first value on and before: each side and angle
// can be tapped, known or not. Where a side is too short to meet another the gap is drawn
// to scale.
func Sketch(a Asked, width float64) Picture {
	outline, others := a.points()
	var g gap
	var at map[geom.Name]geom.Point
	if len(outline) == 3 && len(others) == 0 {
		g, at = falling(a.Measured, [3]geom.Name(outline))
	}
	if at == nil {
		at = roughly(outline, others, a.Measured)
	} else {
		at[g.nowhere] = g.across.To
	}
	level := geom.Line{From: at[outline[0]], To: at[outline[1]]}.Direction()
	points := listed(at)
	if g.size > 0 {
		level = 0
		points = slices.Concat(points, g.reach())
	}
	v := viewOf(points, level, frameOf(unit.Length(width)))
	k := known{measured: a.Measured, figures: a.Figures, doubtful: a.Doubtful, outline: outline, spots: map[geom.Name]geom.Point{}, rough: true}
	for n, p := range at {
		k.spots[n] = v.at(p)
	}
	k = k.with(outline)
	s := scene{view: v, known: k, things: k.things(geom.Outline{}), gap: g.on(v)}
	if g.size > 0 { // the third corner is nowhere
		s.inside, s.things = nil, s.gap.things(s.things)
		delete(s.spots, s.gap.nowhere)
	}
	return s.picture()
}

// points are the corners once round, and what else was measured.
func (a Asked) points() (outline, others []geom.Name) {
	outline = slices.Clone(a.Outline)
	var named []geom.Name
	for _, m := range a.Measured {
		for _, n := range m.Points() {
			if !slices.Contains(named, n) {
				named = append(named, n)
			}
		}
	}
	slices.SortFunc(named, geom.Before)
	for _, n := range slices.Concat(named, []geom.Name{"A", "B", "C"}) {
		if slices.Contains(outline, n) {
			continue
		}
		if len(outline) < 3 {
			outline = append(outline, n)
		} else if slices.Contains(named, n) {
			others = append(others, n)
		}
	}
	if len(a.Outline) < 3 {
		slices.SortFunc(outline, geom.Before)
	}
	return outline, others
}
