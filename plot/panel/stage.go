package panel

import (
	"fmt"
	"math"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// Pens of a panel.
var (
	fresh = draw.Pen{Width: 0.7}  // what is new
	stood = draw.Pen{Width: 0.18} // what stands
	tool  = draw.Pen{Width: 0.35} // an instrument
	tick  = draw.Pen{Width: 0.18}
)

// stage is where a step is shown: mm of the piece become mm of the picture.
type stage struct {
	wide, high unit.Length
	letters    unit.Length
	r          draw.Ruler
	scale      float64
	shift      geom.Vector
	rough      bool // letters stand where they belong, whatever is there
	ops        draw.Drawing
}

// f is how much larger letters and instruments are than on a sheet for hands.
func (s *stage) f() float64 { return float64(s.letters / draw.FigureHeight) }

// at is a place of the piece on the picture.
func (s *stage) at(p geom.Vector) geom.Vector { return p.Times(s.scale).Plus(s.shift) }

func (s *stage) line(p, q geom.Vector, pen draw.Pen) {
	s.ops = append(s.ops, draw.Line{Line: geom.Line{From: p.Point(), To: q.Point()}, Pen: pen, On: draw.Outline})
}

func (s *stage) arc(centre geom.Vector, radius, start, sweep float64, pen draw.Pen) {
	s.ops = append(s.ops, draw.Arc{Arc: geom.Arc{Centre: centre.Point(), Radius: unit.Length(radius), Start: unit.Angle(start), Sweep: unit.Angle(sweep)}, Pen: pen, On: draw.Outline})
}

func (s *stage) poly(pen draw.Pen, closed bool, at ...geom.Vector) {
	points := make([]geom.Point, len(at))
	for i, p := range at {
		points[i] = p.Point()
	}
	s.ops = append(s.ops, draw.Polyline{Points: points, Closed: closed, Pen: pen, On: draw.Outline})
}

func (s *stage) solid(at ...geom.Vector) {
	s.poly(tool, true, at...)
	last := s.ops[len(s.ops)-1].(draw.Polyline)
	last.Solid = true
	s.ops[len(s.ops)-1] = last
}

// lettered is how words stand.
type lettered struct {
	height float64 // mm of a sheet for hands
	bold   bool
	turn   float64
}

// words about a place, which is their middle.
func (s *stage) words(text string, middle geom.Vector, w lettered) {
	s.ops = append(s.ops, s.lettered(text, middle, w))
}

func (s *stage) lettered(text string, middle geom.Vector, w lettered) draw.Text {
	h := w.height * s.f()
	up := geom.Vector{X: -math.Sin(w.turn), Y: math.Cos(w.turn)}
	return draw.Text{At: middle.Minus(up.Times(h / 2)).Point(), Height: unit.Length(h), Bold: w.bold, Turn: unit.Angle(w.turn), Align: draw.Middle, Words: text, On: draw.Notes}
}

// ringed words.
func (s *stage) ringed(text string, middle geom.Vector, w lettered, pen draw.Pen) {
	s.words(text, middle, w)
	radius := math.Max(1.9*s.f(), float64(s.r.Width(text, unit.Length(w.height*s.f()), w.bold))/2+0.6*s.f())
	s.arc(middle, radius, 0, 2*math.Pi, pen)
}

// segment of the piece, with a pen.
func (s *stage) segment(g geom.Segment, pen draw.Pen) {
	switch g := g.(type) {
	case geom.Line:
		s.line(s.at(geom.VectorOf(g.From)), s.at(geom.VectorOf(g.To)), pen)
	case geom.Arc:
		s.arc(s.at(geom.VectorOf(g.Centre)), float64(g.Radius)*s.scale, float64(g.Start), float64(g.Sweep), pen)
	}
}

// show draws a move over those before it.
func (s *stage) show(before []move, m move) {
	s.ops = nil
	for _, b := range before {
		for _, g := range b.lines {
			s.segment(g, stood)
		}
	}
	if m.outline != nil {
		for _, g := range m.outline {
			s.segment(g, fresh)
		}
	}
	for _, g := range m.lines {
		s.segment(g, fresh)
	}
	if m.tool != nil {
		m.tool(s)
	}
	middle := geom.Vector{}
	all := append(append([]move{}, before...), m)
	n := 0
	for _, b := range all {
		for _, p := range b.points {
			middle = middle.Plus(p.at)
			n++
		}
	}
	middle = middle.Times(1 / math.Max(1, float64(n)))
	for _, b := range all {
		for _, p := range b.points {
			out := p.at.Minus(middle)
			if out.Size() < 1e-9 {
				out = geom.Vector{Y: 1}
			}
			if p.out.Size() > 1e-9 {
				out = p.out
			}
			s.words(p.name, s.free(s.at(p.at), out, p.name), lettered{height: 3.5, bold: true})
		}
	}
}

// nice is the step of a rule's figures, in mm of the piece, so that they have room.
func (s *stage) nice(most float64) float64 {
	for _, step := range []float64{10, 20, 50, 100, 200, 500, 1000, 2000, 5000} {
		if step*s.scale >= max(6.2*s.f(), s.figure(most, 1.8)+2*s.f()) {
			return step
		}
	}
	return 10000
}

func plain(x float64) string { return fmt.Sprintf("%.4g", math.Round(x*10)/10) }
