package floor

import (
	"cmp"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// between is the room between two templates, mm.
const between unit.Length = 6

// templatePages are the kinds at true scale, several on a page, and the numbers of those that
// have no room on one.
func (s Sheet) templatePages(area geom.Rect, r draw.Ruler) (pages []draw.Drawing, large []int) {
	area.Min.Y += barRoom
	area.Max.X -= 8 // the upright bar
	cards := s.cards()
	type item struct {
		card
		box  geom.Rect
		turn bool
	}
	var items []item
	for _, c := range cards {
		b := c.ring.Bounds()
		w, h := b.Width(), b.Height()
		turn := w > area.Width() && h <= area.Width() && w <= area.Height()
		if turn {
			w, h = h, w
		}
		if w > area.Width() || h > area.Height() {
			large = append(large, c.Number)
			continue
		}
		items = append(items, item{c, b, turn})
	}
	high := func(i item) unit.Length {
		if i.turn {
			return i.box.Width()
		}
		return i.box.Height()
	}
	slices.SortStableFunc(items, func(a, b item) int { return cmp.Compare(high(b), high(a)) })
	x, top, shelf := area.Min.X, area.Max.Y, unit.Length(0)
	for _, i := range items {
		w, h := i.box.Width(), high(i)
		if i.turn {
			w = i.box.Height()
		}
		if x+w > area.Max.X { // the next shelf
			x, top, shelf = area.Min.X, top-shelf-between, 0
		}
		if top-h < area.Min.Y || len(pages) == 0 {
			pages = append(pages, nil)
			x, top, shelf = area.Min.X, area.Max.Y, 0
		}
		place := geom.Placement{Shift: geom.Point{X: x - i.box.Min.X, Y: top - h - i.box.Min.Y}}
		if i.turn { // its near side to the right
			place = geom.Placement{Turn: unit.Turn / 4, Shift: geom.Point{X: x + i.box.Max.Y, Y: top - h - i.box.Min.X}}
		}
		last := len(pages) - 1
		pages[last] = append(pages[last], s.template(i.card, place, r)...)
		x, shelf = x+w+between, max(shelf, h)
	}
	return pages, large
}

// template of one kind where it is placed: number and arrow inside, the wall side marked.
func (s Sheet) template(c card, place geom.Placement, r draw.Ruler) (d draw.Drawing) {
	ring := place.Polygon(c.ring)
	d = append(d, edges(ring, c.cuts, draw.Outline)...)
	var holes []geom.Polygon
	for _, h := range c.holes {
		holes = append(holes, place.Polygon(h))
		d = append(d, draw.Polyline{Points: holes[len(holes)-1], Closed: true, Pen: draw.Narrow, On: draw.Outline})
	}
	at := inmost(ring, holes)
	room := clearance(ring, holes, at)
	words := s.says().OnTemplate(c.Card)
	height := max(min(draw.FigureHeight, room*0.6), 1.2)
	if wide := r.Width(words, height, true); wide > 2*room {
		height = max(height*2*room/wide, 1.2)
	}
	d = append(d, draw.Text{At: at.Plus(geom.Point{Y: -height / 2}), Height: height, Bold: true, Align: draw.Middle, Words: words, On: draw.Notes})
	if room > 6 { // which way it lies
		long := min(room*0.7, 12)
		shaft := draw.Drawing{}
		foot := at.Plus(geom.Point{Y: height})
		if place.Turn != 0 { // it points to the left: above the words, not through them
			foot = foot.Plus(geom.Point{X: long / 2, Y: 1.5})
		}
		for _, op := range arrow(geom.Point{}, long) {
			shaft = append(shaft, draw.Shift(draw.Move(op, geom.Placement{Turn: place.Turn}), foot))
		}
		d = append(d, shaft...)
	}
	for _, cut := range c.cuts { // two short strokes across what goes to a wall or an opening
		e := ring.Edge(cut.Edge)
		way := geom.VectorOf(e.To.Minus(e.From)).Unit()
		in := way.Left()
		for _, k := range []float64{-0.8, 0.8} {
			p := geom.VectorOf(e.At(0.5)).Plus(way.Times(k))
			d = append(d, draw.Line{Line: geom.Line{From: p.Point(), To: p.Plus(in.Times(min(3, float64(room)))).Point()}, Pen: draw.Thin, On: draw.Notes})
		}
	}
	return d
}
