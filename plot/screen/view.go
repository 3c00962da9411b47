package screen

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
)

// view is how a piece lies on the screen: its baseline level, y down.
type view struct {
	turn          unit.Angle
	scale         float64
	from          geom.Point // of the turned piece: the middle of its bounds
	to            geom.Point // on the screen
	width, height unit.Length
}

// frame is the room that a shape may take.
type frame struct {
	width, highest unit.Length
	about          unit.Length // white round the shape, for letters and tags
}

func frameOf(width unit.Length) frame {
	width = min(max(width, Narrowest), Widest)
	f := frame{width: width, about: 64}
	if width < 480 {
		f.about = 44
	}
	if width < 300 {
		f.about = 34
	}
	f.highest = min(max(width*0.92, 240), 540)
	return f
}

// viewOf fits points into a frame, with a line of them level.
func viewOf(points []geom.Point, level unit.Angle, f frame) view {
	v := view{turn: -level, scale: 1, width: f.width}
	b := geom.RectOf(v.turned(points[0]))
	for _, p := range points {
		b = b.Join(geom.RectOf(v.turned(p)))
	}
	wide, high := f.width-2*f.about, f.highest-2*f.about
	v.scale = math.Inf(1)
	if b.Width() > 0 {
		v.scale = float64(wide / b.Width())
	}
	if b.Height() > 0 {
		v.scale = min(v.scale, float64(high/b.Height()))
	}
	if math.IsInf(v.scale, 1) {
		v.scale = 1
	}
	v.from = b.Centre()
	v.height = max(b.Height()*unit.Length(v.scale)+2*f.about, min(170, f.highest))
	v.to = geom.Point{X: f.width / 2, Y: v.height / 2}
	return v
}

func (v view) turned(p geom.Point) geom.Point {
	return geom.Placement{Turn: v.turn}.Apply(p)
}

// at is where a point of the piece lies on the screen.
func (v view) at(p geom.Point) geom.Point {
	q := v.turned(p).Minus(v.from)
	return geom.Point{X: v.to.X + q.X*unit.Length(v.scale), Y: v.to.Y - q.Y*unit.Length(v.scale)}
}

func (v view) line(l geom.Line) geom.Line { return geom.Line{From: v.at(l.From), To: v.at(l.To)} }

// arc is an arc on the screen, where it runs the other way round.
func (v view) arc(a geom.Arc) geom.Arc {
	return geom.Arc{Centre: v.at(a.Centre), Radius: a.Radius * unit.Length(v.scale), Start: -(a.Start + v.turn), Sweep: -a.Sweep}
}

// segment is either.
func (v view) segment(s geom.Segment) geom.Segment {
	switch k := s.(type) {
	case geom.Line:
		return v.line(k)
	case geom.Arc:
		return v.arc(k)
	}
	return s
}
