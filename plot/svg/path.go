package svg

import (
	"trammel/geom"
	"trammel/plot/draw"
	"trammel/plot/internal/decimal"
)

// path writes a run of lines and arcs as one path, stroked or filled.
func (s *page) path(o draw.Path, solid bool) {
	if len(o.Segments) == 0 {
		return
	}
	s.text(`<path d="`)
	first := o.Segments[0].At(0)
	s.to('M', first)
	for i, g := range o.Segments {
		closing := o.Closed && i == len(o.Segments)-1
		switch g := g.(type) {
		case geom.Line:
			if !closing { // else Z draws it
				s.to('L', g.To)
			}
		case geom.Arc:
			if !decimal.Finite(g.Sweep.Radians()) {
				s.fail(errStray)
				return
			}
			last := g.At(1)
			if closing { // in the very point, so that nothing is left to close
				last = first
			}
			s.curveTo(g, last)
		}
	}
	if o.Closed {
		s.text("Z")
	}
	if solid {
		s.text("\" fill=\"#000\" stroke=\"none\"/>\n")
		return
	}
	s.pen(o.Pen)
}

// curveTo goes on along an arc to its end, which last is to the bit: as arcs, or
// on a page made for a printer as curves.
func (s *page) curveTo(a geom.Arc, last geom.Point) {
	if s.warp == (draw.Matrix{}) {
		s.arcTo(a, last)
		return
	}
	curves := draw.Cubics(a)
	curves[len(curves)-1].To = last
	for _, q := range curves {
		s.to('C', q.Control1)
		s.to(' ', q.Control2)
		s.to(' ', q.To)
	}
}

// arcTo goes on from where the arc begins to its end, which last is to the bit. Up is
// down in SVG: what turns counter-clockwise on paper has the sweep flag 0.
func (s *page) arcTo(a geom.Arc, last geom.Point) {
	flag := byte('0')
	if a.Sweep < 0 {
		flag = '1'
	}
	n := draw.Pieces(a)
	for i := range n {
		to := a.At(float64(i+1) / float64(n))
		if i == n-1 {
			to = last
		}
		s.text("A")
		s.num(a.Radius.MM())
		s.text(" ")
		s.num(a.Radius.MM())
		s.text(" 0 0 ")
		s.b = append(s.b, flag)
		s.to(' ', to)
	}
}
