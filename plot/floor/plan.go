package floor

import (
	"fmt"
	"math"

	"trammel/geom"
	"trammel/geom/courses"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/sheet"
)

// scales of a plan, 1 to so many.
var scales = []unit.Length{5, 10, 15, 20, 25, 30, 40, 50, 75, 100, 150, 200, 500}

// edge of the plan for the names of corners, mm.
const edge unit.Length = 7

// onPlan is the sheet as its plan draws it.
type onPlan struct{ Sheet }

// scaleFor is the largest scale at which the plan has room.
func (s onPlan) scaleFor(width, height unit.Length) unit.Length {
	b := s.Outline.Points.Bounds()
	for _, n := range scales {
		if b.Width()/n <= width-2*edge && b.Height()/n <= height-2*edge {
			return n
		}
	}
	return max(b.Width()/(width-2*edge), b.Height()/(height-2*edge))
}

// planFigure is the plan no higher than height.
func (s onPlan) planFigure(height unit.Length) sheet.Figure {
	return sheet.Figure{Alt: s.says().Tile(s.laid()), Draw: func(width unit.Length, r draw.Ruler) (draw.Drawing, unit.Length) {
		n := s.scaleFor(width, height)
		b := s.Outline.Points.Bounds()
		high := b.Height()/n + 2*edge
		left := (width - b.Width()/n) / 2
		at := func(p geom.Point) geom.Point {
			return p.Minus(b.Min).Times(1 / float64(n)).Plus(geom.Point{X: left, Y: edge - high})
		}
		d := s.planDrawing(at, float64(1/n), r)
		d = append(d, sheet.Note(fmt.Sprintf("1 : %.0f", float64(n)), width, -high, draw.Right))
		return d, high
	}}
}

func (s onPlan) planDrawing(at func(geom.Point) geom.Point, scale float64, r draw.Ruler) (d draw.Drawing) {
	g, c := s.Plan.Grid, s.drawn()
	back := geom.Placement{Turn: g.Angle}
	turned := func(p geom.Point) geom.Point { return at(back.Apply(p)) }
	ring := func(p geom.Polygon, pen draw.Pen) {
		d = append(d, draw.Polyline{Points: p, Closed: true, Pen: pen, On: draw.Notes})
	}
	n := c.Numbers()
	label := labeller{scale: scale, turn: g.Angle, r: r}
	if start, ok := s.start(); ok {
		label.lines = &geom.Point{X: start.Cross.At, Y: start.Rows.At}
	}
	for _, spot := range c.Whole {
		box := g.Tile(spot, c.Shift)
		corners := box.Corners()
		ring(moved(corners[:], turned), draw.Fine)
		d = append(d, label.at(turned(label.clear(box, box.Centre(), n.Spot(spot))), n.Spot(spot), box.Width(), box.Height(), false)...)
	}
	narrowest, _ := c.Narrowest()
	for i, p := range c.Pieces {
		outer, holes := p.Rings()
		ring(moved(outer, turned), draw.Thin)
		for _, h := range holes {
			ring(moved(h, turned), draw.Thin)
		}
		place := inmost(outer, holes)
		size := outer.Bounds()
		if moved := label.clear(size, place, n.Piece(i)); clearance(outer, holes, moved) > 0 {
			place = moved
		}
		d = append(d, label.at(turned(place), n.Piece(i), size.Width(), size.Height(), true)...)
		if i == narrowest {
			d = append(d, draw.Arc{Arc: geom.Arc{Centre: turned(place), Radius: 3, Sweep: unit.Turn}, Pen: draw.Narrow, On: draw.Notes})
		}
	}
	ring(moved(s.Outline.Points, at), draw.Wide)
	for _, o := range s.Openings {
		hole := moved(o.Ring, at)
		ring(hole, draw.Wide)
		d = append(d, hatched(hole, nil)...)
	}
	return append(append(d, s.cornerNames(at)...), s.startDrawing(at)...)
}

// cornerNames stand outside their corners.
func (s onPlan) cornerNames(at func(geom.Point) geom.Point) (d draw.Drawing) {
	o := s.Outline
	for i, p := range o.Points {
		in, out := geom.VectorOf(at(o.Points[o.Before(i)]).Minus(at(p))).Unit(), geom.VectorOf(at(o.Points[o.Next(i)]).Minus(at(p))).Unit()
		way := in.Plus(out)
		if way.Size() < 1e-6 {
			way = out.Left()
		}
		sign := -1.0
		if o.Angles[i] > unit.Turn/2 {
			sign = 1
		}
		place := geom.VectorOf(at(p)).Plus(way.Unit().Times(sign * 4))
		d = append(d, draw.Text{At: geom.Point{X: unit.Length(place.X), Y: unit.Length(place.Y) - 1.7}, Height: draw.FigureHeight, Bold: true, Align: draw.Middle, Words: string(o.Names[i]), On: draw.Notes})
	}
	return d
}

// startDrawing is the two lines, their numbers at their ends, and the ring round the start tile's corner.
func (s onPlan) startDrawing(at func(geom.Point) geom.Point) (d draw.Drawing) {
	start, ok := s.start()
	if !ok {
		return nil
	}
	for i, l := range []courses.Line{start.Rows, start.Cross} {
		run := geom.Line{From: at(l.Run.From), To: at(l.Run.To)}
		d = append(d, draw.Line{Line: run, Pen: draw.Pen{Width: 0.35, Dash: draw.LongDashDotted}, On: draw.Notes})
		way := geom.VectorOf(run.To.Minus(run.From)).Unit()
		end := geom.VectorOf(run.To).Plus(way.Times(3))
		d = append(d, draw.Text{At: geom.Point{X: unit.Length(end.X), Y: unit.Length(end.Y) - 1.2}, Height: draw.NoteHeight, Bold: true, Align: draw.Middle, Words: fmt.Sprint(i + 1), On: draw.Notes})
	}
	return append(d, draw.Arc{Arc: geom.Arc{Centre: at(start.Square.At[0]), Radius: 1.6, Sweep: unit.Turn}, Pen: draw.Narrow, On: draw.Notes})
}

// labeller writes the numbers of tiles where they have room.
type labeller struct {
	scale float64
	turn  unit.Angle
	r     draw.Ruler
	lines *geom.Point // where the two start lines run in the frame of the grid; nil: nowhere
}

// clear is the place in a tile, or the one beside a start line that would run through the words there.
func (l labeller) clear(box geom.Rect, at geom.Point, words string) geom.Point {
	if l.lines == nil {
		return at
	}
	beside := func(x, low, high, line, half unit.Length) unit.Length {
		if line <= low+1 || line >= high-1 || x-half > line || x+half < line {
			return x
		}
		if line-low > high-line {
			return (low + line) / 2
		}
		return (line + high) / 2
	}
	half := (l.r.Width(words, draw.NoteHeight, true)/2 + 0.5) / unit.Length(l.scale)
	return geom.Point{X: beside(at.X, box.Min.X, box.Max.X, l.lines.X, half), Y: beside(at.Y, box.Min.Y, box.Max.Y, l.lines.Y, draw.NoteHeight/unit.Length(l.scale))}
}

// leastNumber is the least height of a number on the plan, mm.
const leastNumber unit.Length = 1.2

func (l labeller) at(p geom.Point, words string, w, h unit.Length, bold bool) draw.Drawing {
	turn := unit.Angle(math.Remainder(float64(l.turn), math.Pi))
	room := w * unit.Length(l.scale)
	if h > w*2 {
		turn, room, h = turn+unit.Turn/4, h*unit.Length(l.scale), w
	}
	height := draw.NoteHeight
	if wide := l.r.Width(words, height, bold); wide > room*0.9 {
		height *= room * 0.9 / wide
	}
	height = max(min(height, h*unit.Length(l.scale)*0.6), leastNumber)
	down := geom.Point{X: unit.Length(math.Sin(float64(turn))), Y: -unit.Length(math.Cos(float64(turn)))}.Times(float64(height) / 2)
	return draw.Drawing{draw.Text{At: p.Plus(down), Height: height, Turn: turn, Align: draw.Middle, Bold: bold, Words: words, On: draw.Notes}}
}

// inmost is about the place of a piece that is furthest from its edges.
func inmost(outer geom.Polygon, holes []geom.Polygon) geom.Point {
	b := outer.Bounds()
	best, far := b.Centre(), unit.Length(-1)
	const n = 12
	for i := range n {
		for j := range n {
			p := b.Min.Plus(geom.Point{X: b.Width() * (unit.Length(i) + 0.5) / n, Y: b.Height() * (unit.Length(j) + 0.5) / n})
			d := clearance(outer, holes, p)
			if d > 0 { // of places alike the one nearest to the middle, where words have room on both sides
				d = max(d-p.Distance(b.Centre())/20, d/2)
			}
			if d > far+1e-6 {
				best, far = p, d
			}
		}
	}
	return best
}

// clearance is how far a place of a piece is from its edges; below zero outside.
func clearance(outer geom.Polygon, holes []geom.Polygon, p geom.Point) unit.Length {
	if !outer.Has(p) {
		return -1
	}
	least := outer.Contour().Distance(p)
	for _, h := range holes {
		if h.Has(p) {
			return -1
		}
		least = min(least, h.Contour().Distance(p))
	}
	return least
}
