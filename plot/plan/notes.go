package plan

import (
	"fmt"
	"math"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/place"
)

// north draws the reference arrow at the right of all that is drawn so far, or at its left.
func (v *view) north() {
	if v.North.Name == "" || v.in != nil {
		return
	}
	b := v.bounds
	const half = 8
	for _, centre := range []geom.Point{{X: b.Max.X - half, Y: b.Max.Y - half}, {X: b.Min.X + half, Y: b.Max.Y - half}, {X: b.Max.X + half + 4, Y: b.Max.Y - half}} {
		tail, tip := centre.Toward(v.North.Turn, -half), centre.Toward(v.North.Turn, half)
		sin, cos := math.Sincos(float64(v.North.Turn))
		reach := 2 + draw.FigureHeight/2*unit.Length(1+math.Abs(sin)) + v.r.Width(v.North.Name, draw.FigureHeight, false)/2*unit.Length(math.Abs(cos))
		name := label{words: v.North.Name, height: draw.FigureHeight, on: draw.Notes}.at(spot{at: tip.Toward(v.North.Turn, reach)}, v.r)
		d := v.North.Turn
		wedge := geom.Polygon{tip, tip.Toward(d, -5).Toward(d+unit.Turn/4, 1.5), tip.Toward(d, -5).Toward(d-unit.Turn/4, 1.5)}
		if l := (geom.Line{From: tail, To: tip}); v.overLines(l) > 0 || v.overLabels(l, 0) > 0 || !v.Free(name.box, gaps, place.NoLine) {
			continue
		}
		v.line(tail, tip.Toward(d, -4), draw.Narrow, draw.Notes)
		v.solid(wedge, draw.Notes)
		v.put(name)
		return
	}
}

// notes say under the plan what the ellipses are and what is left out.
func (v *view) notes() {
	if v.in != nil {
		return
	}
	var words []string
	if v.enlarged > 0 {
		words = append(words, ellipseWords(v.enlarged))
	}
	if n := len(v.Sides) - len(v.drawnSides()); n > 0 {
		words = append(words, fmt.Sprintf("%d lines between pegs are left out: they are in the tables.", n))
	}
	words = append(words, v.Notes...)
	at := v.bounds.Min
	for _, line := range words {
		at.Y -= labelGap + draw.NoteHeight
		v.text(draw.Text{At: at, Height: draw.NoteHeight, Words: line, On: draw.Notes})
		at.Y -= 0.35 * draw.NoteHeight
	}
}
