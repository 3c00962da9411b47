package template

import (
	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/legible"
)

// constructed is the small figure beside the construction by hand: the piece as it lies on
// its baseline, where its arcs cross, and of the figures those that were given.
func (x index) constructed(width unit.Length, r draw.Ruler) (draw.Drawing, unit.Length) {
	const most unit.Length = 44
	rim := 2 * x.style.sized(draw.FigureHeight)
	o := x.piece.Outline
	b := o.Points.Bounds()
	k := min(float64((width-2*rim)/b.Width()), float64((most-2*rim)/b.Height()))
	high := unit.Length(k)*b.Height() + 2*rim
	made := mapOf{nil, width, k}
	if d, ok := x.maps[made]; ok {
		return d, high
	}
	m := chart{scale: k, from: b.Min, to: geom.Point{X: (width - unit.Length(k)*b.Width()) / 2, Y: rim - high}, scene: legible.NewScene(nil, nil, r), style: x.style}
	m.scene.Add(draw.Polyline{Points: m.corners(o.Points), Closed: true, Pen: draw.Narrow, On: draw.Notes})
	room := geom.Rect{Min: geom.Point{Y: -high}, Max: geom.Point{X: width}}
	for _, step := range x.piece.Construction.Steps {
		s, swings := step.(construct.Swing)
		if !swings {
			continue
		}
		const beside unit.Length = 5
		arc := m.small(swing(s)).(geom.Arc)
		side := min(toEachSide, unit.Angle(beside/arc.Radius))
		arc.Start, arc.Sweep = arc.Start+arc.Sweep/2-side, 2*side
		for _, part := range geom.ClipArc(arc, room) {
			m.scene.Add(draw.Arc{Arc: part, Pen: draw.Thin, On: draw.Notes})
		}
	}
	m.scene.Only(room)
	shape := m.corners(o.Points)
	for i, at := range shape {
		out := geom.Line{From: shape.Edge(o.Before(i)).At(0.5).Plus(shape.Edge(i).At(0.5)).Times(0.5), To: at}.Direction()
		w := legible.Label{Say: string(o.Names[i]), Height: x.style.sized(draw.FigureHeight), Bold: true}
		m.scene.Place(onNotes(w.Ring(legible.Anchor{Point: at, Best: out}, 1.5, 5, legible.Fan[:], func(_ geom.Point, turn unit.Angle) float64 {
			return turn.Degrees() * turn.Degrees() / 2000
		}).Make(nil)))
	}
	for i := range shape {
		if !x.piece.measured(triangle.Distance, o.Names[i], o.Names[o.Next(i)]) {
			continue
		}
		w := legible.Label{Say: x.style.Figures.Length(o.Sides[i]), Height: x.style.sized(draw.NoteHeight), Bold: false}
		var all []legible.Candidate
		for k := range 9 {
			all = append(all, legible.Candidate{Text: legible.BesideLine(shape.Edge(i), 0.5+0.08*legible.EitherSide(k), -1, draw.Narrow.Width, w), Cost: float64(k)})
		}
		m.scene.Place(onNotes(all))
	}
	x.maps[made] = m.scene.Drawing
	return m.scene.Drawing, high
}

// corners of an outline on the chart.
func (m chart) corners(outline geom.Polygon) geom.Polygon {
	small := make(geom.Polygon, len(outline))
	for i, p := range outline {
		small[i] = m.at(p)
	}
	return small
}

func onNotes(all []legible.Candidate) []legible.Candidate {
	for k := range all {
		all[k].Text.On = draw.Notes
	}
	return all
}
