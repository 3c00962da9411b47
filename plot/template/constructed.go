package template

import (
	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/place"
)

// constructed is the small figure beside the construction by hand: the piece as it lies on
// its baseline, where its arcs cross, and of the figures those that were given.
func (x index) constructed(width unit.Length, r draw.Ruler) (draw.Drawing, unit.Length) {
	const most, rim unit.Length = 44, 7
	o := x.piece.Outline
	b := o.Points.Bounds()
	k := min(float64((width-2*rim)/b.Width()), float64((most-2*rim)/b.Height()))
	high := unit.Length(k)*b.Height() + 2*rim
	m := chart{scale: k, from: b.Min, to: geom.Point{X: (width - unit.Length(k)*b.Width()) / 2, Y: rim - high}, scene: newScene(nil, nil, r)}
	m.scene.add(draw.Polyline{Points: m.corners(o.Points), Closed: true, Pen: draw.Narrow, On: draw.Notes})
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
			m.scene.add(draw.Arc{Arc: part, Pen: draw.Thin, On: draw.Notes})
		}
	}
	m.scene.panes = place.NewIndex[pane](about)
	m.scene.panes.Put(room, pane{room, room})
	shape := m.corners(o.Points)
	for i, at := range shape {
		out := geom.Line{From: shape.Edge(o.Before(i)).At(0.5).Plus(shape.Edge(i).At(0.5)).Times(0.5), To: at}.Direction()
		w := label{string(o.Names[i]), draw.FigureHeight, true}
		m.scene.place(onNotes(w.ring(anchor{Point: at, best: out}, 1.5, 5, fan[:], func(_ geom.Point, turn unit.Angle) float64 {
			return turn.Degrees() * turn.Degrees() / 2000
		}).make(nil)))
	}
	for i := range shape {
		if !x.piece.measured(triangle.Distance, o.Names[i], o.Names[o.Next(i)]) {
			continue
		}
		w := label{x.style.Figures.Length(o.Sides[i]), draw.NoteHeight, false}
		var all []candidate
		for k := range 9 {
			all = append(all, candidate{text: besideLine(shape.Edge(i), 0.5+0.08*eitherSide(k), -1, draw.Narrow.Width, w), cost: float64(k)})
		}
		m.scene.place(onNotes(all))
	}
	return m.scene.drawing, high
}

// corners of an outline on the chart.
func (m chart) corners(outline geom.Polygon) geom.Polygon {
	small := make(geom.Polygon, len(outline))
	for i, p := range outline {
		small[i] = m.at(p)
	}
	return small
}

func onNotes(all []candidate) []candidate {
	for k := range all {
		all[k].text.On = draw.Notes
	}
	return all
}
