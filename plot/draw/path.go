package draw

import "trammel/geom"

// Path is a run of lines and arcs drawn with one pen, each from where the one
// before it ends, with mitred corners; closed, the last ends where the first
// starts.
type Path struct {
	Segments []geom.Segment
	Closed   bool
	Pen      Pen
	On       Layer
	Of       *Tag
}

func (Path) op() {}

func (o Path) Layer() Layer { return o.On }

func (o Path) Bounds(Ruler) geom.Rect { return geom.Contour(o.Segments).Bounds() }

// Parts are the segments as operations of their own. Dashes go on from one to the
// next.
func (o Path) Parts() []Op {
	parts := make([]Op, len(o.Segments))
	pen := o.Pen
	for i, s := range o.Segments {
		switch s := s.(type) {
		case geom.Line:
			parts[i] = Line{Line: s, Pen: pen, On: o.On, Of: o.Of}
		case geom.Arc:
			parts[i] = Arc{Arc: s, Pen: pen, On: o.On, Of: o.Of}
		}
		if pen.Dash != Continuous {
			pen.Phase += s.Length()
		}
	}
	return parts
}

// Stroked is an operation as a path; of a solid shape its edge; false for words.
func Stroked(op Op) (p Path, ok bool) {
	switch o := op.(type) {
	case Line:
		return Path{[]geom.Segment{o.Line}, false, o.Pen, o.On, o.Of}, true
	case Arc:
		return Path{[]geom.Segment{o.Arc}, Whole(o.Arc), o.Pen, o.On, o.Of}, true
	case Polyline:
		p = Path{geom.Polygon(o.Points).Contour(), o.Closed || o.Solid, o.Pen, o.On, o.Of}
		if !p.Closed && len(p.Segments) > 0 {
			p.Segments = p.Segments[:len(p.Segments)-1]
		}
		return p, true
	case Path:
		return o, true
	}
	return p, false
}

// Solid says whether an operation is a filled shape.
func Solid(op Op) bool {
	o, ok := op.(Polyline)
	return ok && o.Solid
}
