package plan

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// Sizes of an angle's arc, on paper: never past its arms.
const (
	angleArc   unit.Length = 14
	angleShare             = 0.45
	leastArc   unit.Length = 4
)

// arcOf is the arc of an angle; ok is false where it is not in the drawing or has no room.
func arcOf(v *view, a Angle) (arc geom.Arc, ok bool) {
	at, ok := v.at[a.At]
	from, also := v.at[a.From]
	to, too := v.at[a.To]
	if !ok || !also || !too || v.in != nil {
		return geom.Arc{}, false
	}
	start := geom.Line{From: at, To: from}.Direction()
	sweep := unit.Angle(math.Remainder(float64(geom.Line{From: at, To: to}.Direction()-start), 2*math.Pi))
	radius := min(angleArc, angleShare*min(at.Distance(from), at.Distance(to)))
	return geom.Arc{Centre: at, Radius: radius, Start: start, Sweep: sweep}, radius >= leastArc
}

// angleArcs draws the arcs of the angles that were measured.
func angleArcs(v *view) {
	for _, a := range v.Angles {
		if arc, ok := arcOf(v, a); ok {
			v.ink(draw.Arc{Arc: arc, Pen: draw.Narrow, On: draw.Dimension})
		}
	}
}

// angles writes the angles, each outside of its arc or inside of it.
func (v *view) angles() {
	for _, a := range v.Angles {
		arc, ok := arcOf(v, a)
		if !ok {
			continue
		}
		at, radius, start, sweep := arc.Centre, arc.Radius, arc.Start, arc.Sweep
		l := label{words: a.Words, bold: true, height: draw.FigureHeight, on: draw.Dimension, anchor: at.Toward(start+sweep/2, radius), clear: 0.3}
		var places []spot
		for d := radius - 4; d < radius+16; d += 1.5 {
			for _, part := range []unit.Angle{0.5, 0.4, 0.6, 0.3, 0.7} {
				places = append(places, spot{at.Toward(start+sweep*part, d), 0})
			}
		}
		// Outside of the arc first, then inside.
		places = append(places[10:], places[:10]...)
		if !v.label(l, places, nil) {
			v.lead(l, longReach, true)
		}
	}
}
