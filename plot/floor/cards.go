package floor

import (
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/courses"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/sheet"
)

// cardWidth is how wide the tile of a card is drawn, and cardHigh how high at most, mm.
const cardWidth, cardHigh unit.Length = 42, 42

// block of a card: its tile drawn, beside it what to do.
func (s Sheet) block(c card) sheet.Block {
	say := s.says()
	text := []sheet.Block{sheet.Paragraph{Words: say.Kind(c.Card), Height: draw.FigureHeight, Bold: true, Keep: true}}
	for _, m := range say.Marks(c.cuts, s.Figures) {
		text = append(text, sheet.Paragraph{Words: m, Keep: true})
	}
	if care := say.Care(c.Card); care != "" {
		text = append(text, sheet.Paragraph{Words: care, Bold: true, Keep: true})
	}
	const most = 40 // names
	names := joined(c.Tiles[:min(most, len(c.Tiles))])
	if len(c.Tiles) > most {
		names += " …"
	}
	text = append(text, sheet.Paragraph{Words: names})
	figure := sheet.Figure{Alt: say.Kind(c.Card) + ".", Draw: func(unit.Length, draw.Ruler) (draw.Drawing, unit.Length) { return s.cardFigure(c) }}
	return sheet.Beside{Stacks: [][]sheet.Block{{figure}, text}, Shares: []float64{float64(cardWidth) + 8, 130}, Gutter: 4}
}

// cardFigure is the tile with the piece that is kept hatched.
func (s Sheet) cardFigure(c card) (d draw.Drawing, high unit.Length) {
	scale := min(float64(cardWidth/c.tile.X), float64(cardHigh/c.tile.Y))
	high = c.tile.Y*unit.Length(scale) + 6
	at := func(p geom.Point) geom.Point { return p.Times(scale).Plus(geom.Point{X: 2, Y: -high + 3}) }
	frame := geom.Rect{Min: at(geom.Point{}), Max: at(c.tile)}
	corners := frame.Corners()
	d = append(d, draw.Polyline{Points: corners[:], Closed: true, Pen: draw.Hidden, On: draw.Notes})
	ring := moved(c.ring, at)
	d = append(d, hatched(ring, each(c.holes, at))...)
	d = append(d, edges(ring, c.cuts, draw.Notes)...)
	for _, h := range each(c.holes, at) {
		d = append(d, draw.Polyline{Points: h, Closed: true, Pen: draw.Narrow, On: draw.Notes})
	}
	return append(d, arrow(geom.Point{X: frame.Max.X + 3, Y: frame.Min.Y}, 8)...), high
}

func moved(ring geom.Polygon, at func(geom.Point) geom.Point) geom.Polygon {
	out := make(geom.Polygon, len(ring))
	for i, p := range ring {
		out[i] = at(p)
	}
	return out
}

func each(rings []geom.Polygon, at func(geom.Point) geom.Point) (all []geom.Polygon) {
	for _, r := range rings {
		all = append(all, moved(r, at))
	}
	return all
}

// edges of a piece: thick the factory's, thin what is cut.
func edges(ring geom.Polygon, cuts []courses.Cut, on draw.Layer) (d draw.Drawing) {
	for i := range ring {
		pen := draw.Wide
		if slices.ContainsFunc(cuts, func(c courses.Cut) bool { return c.Edge == i }) {
			pen = draw.Narrow
		}
		d = append(d, draw.Line{Line: ring.Edge(i), Pen: pen, On: on})
	}
	return d
}

// arrow points up from a place: the way in which it is laid.
func arrow(from geom.Point, long unit.Length) draw.Drawing {
	tip := from.Plus(geom.Point{Y: long})
	return draw.Drawing{
		draw.Line{Line: geom.Line{From: from, To: tip}, Pen: draw.Narrow, On: draw.Notes},
		draw.Polyline{Points: []geom.Point{tip, tip.Plus(geom.Point{X: -1, Y: -2.6}), tip.Plus(geom.Point{X: 1, Y: -2.6})}, Closed: true, Solid: true, On: draw.Notes},
	}
}

// hatched are lines at 45° in a ring, clear of its openings.
func hatched(ring geom.Polygon, holes []geom.Polygon) (d draw.Drawing) {
	const step = 2.4
	b := ring.Bounds()
	low, high := float64(b.Min.Y-b.Max.X), float64(b.Max.Y-b.Min.X)
	for c := math.Ceil(low/step) * step; c < high; c += step { // y = x + c
		var at []float64
		for _, r := range append([]geom.Polygon{ring}, holes...) {
			for i := range r {
				e := r.Edge(i)
				p, q := float64(e.From.Y-e.From.X)-c, float64(e.To.Y-e.To.X)-c
				if (p > 0) != (q > 0) {
					at = append(at, float64(e.From.X)+float64(e.To.X-e.From.X)*p/(p-q))
				}
			}
		}
		slices.Sort(at)
		for i := 0; i+1 < len(at); i += 2 {
			if at[i+1]-at[i] > 0.3 {
				d = append(d, draw.Line{Line: geom.Line{From: geom.Point{X: unit.Length(at[i]), Y: unit.Length(at[i] + c)}, To: geom.Point{X: unit.Length(at[i+1]), Y: unit.Length(at[i+1] + c)}}, Pen: draw.Fine, On: draw.Notes})
			}
		}
	}
	return d
}
