package setout

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// How far labels keep from each other and from strokes, on paper. Two
// millimetres between labels is the house's rule; a stroke may come nearer, but
// not touch.
const (
	labelGap  unit.Length = 2
	strokeGap unit.Length = 0.9
)

// scene is a drawing in which labels look for a free place.
type scene struct {
	ops     draw.Drawing
	strokes []geom.Line    // what is drawn, arcs as chords
	boxes   []geom.Polygon // of the labels
	r       draw.Ruler
}

func (c *scene) line(a, b geom.Point, pen draw.Pen, on draw.Layer) {
	l := geom.Line{From: a, To: b}
	c.ops = append(c.ops, draw.Line{Line: l, Pen: pen, On: on})
	c.strokes = append(c.strokes, l)
}

func (c *scene) arc(a geom.Arc, pen draw.Pen, on draw.Layer) {
	c.ops = append(c.ops, draw.Arc{Arc: a, Pen: pen, On: on})
	const n = 12
	for i := range n {
		c.strokes = append(c.strokes, geom.Line{From: a.At(float64(i) / n), To: a.At(float64(i+1) / n)})
	}
}

func (c *scene) circle(at geom.Point, radius unit.Length, pen draw.Pen, on draw.Layer) {
	c.arc(geom.Arc{Centre: at, Radius: radius, Sweep: unit.Turn}, pen, on)
}

func (c *scene) polygon(p geom.Polygon, pen draw.Pen, on draw.Layer) {
	c.ops = append(c.ops, draw.Polyline{Points: p, Closed: true, Pen: pen, On: on})
	for i := range p {
		c.strokes = append(c.strokes, p.Edge(i))
	}
}

func (c *scene) text(t draw.Text) {
	c.ops = append(c.ops, t)
	b := t.Box(c.r)
	c.boxes = append(c.boxes, b[:])
}

// free says whether a text may stand where it is.
func (c *scene) free(t draw.Text) bool {
	b := t.Box(c.r)
	box := geom.Polygon(b[:])
	near := box.Bounds().Grow(labelGap)
	for _, l := range c.strokes {
		if near.Meets(geom.RectOf(l.From, l.To)) && apart(box, geom.Polygon{l.From, l.To}) < strokeGap {
			return false
		}
	}
	for _, o := range c.boxes {
		if near.Meets(o.Bounds()) && apart(box, o) < labelGap {
			return false
		}
	}
	return true
}

// label puts words at the first free one of the places. Where none is free it
// puts them on a leader from the anchor, as near and across as little as can be;
// it reports whether it could.
func (c *scene) label(l label, places []spot) bool {
	for _, s := range places {
		if t := l.at(s); c.free(t) {
			c.text(t)
			return true
		}
	}
	if l.optional {
		return false
	}
	best, found := led{cost: math.Inf(1)}, false
	w := c.r.Width(l.words, l.height, l.bold)
	for d := l.height; d < leaderReach && float64(d) < best.cost; d += 1.5 {
		for i := range 36 {
			dir := unit.Turn * unit.Angle(i) / 36
			// The box is wider than high.
			t := l.at(spot{l.anchor.Toward(dir, d+w/2*unit.Length(math.Abs(math.Cos(float64(dir))))), 0})
			box := t.Box(c.r)
			end := nearestOn(box[:], l.anchor)
			if float64(d) >= best.cost || l.anchor.Distance(end) < leaderStart+1 || !c.free(t) {
				continue
			}
			to := geom.Line{From: l.anchor, To: end}.Direction()
			// The leader begins outside a peg's circle and stops short of the letters.
			line := geom.Line{From: l.anchor.Toward(to, leaderStart), To: end.Toward(to, -0.6)}
			strokes, labels := c.crossed(line)
			// A leader over letters is the last resort, but better than no label.
			if cost := float64(d) + 6*float64(strokes) + 60*float64(labels); cost < best.cost {
				best, found = led{t, line, cost}, true
			}
		}
	}
	if found {
		c.line(best.leader.From, best.leader.To, draw.Narrow, l.on)
		c.text(best.text)
	}
	return found
}

// label is words that belong to an anchor.
type label struct {
	words    string
	height   unit.Length
	bold     bool
	on       draw.Layer
	anchor   geom.Point
	optional bool // left out where no place is free: the words stand elsewhere too
}

func (l label) at(s spot) draw.Text {
	down := geom.Point{}.Toward(s.turn-unit.Turn/4, l.height/2)
	return draw.Text{At: s.at.Plus(down), Height: l.height, Turn: s.turn, Align: draw.Middle, Bold: l.bold, Words: l.words, On: l.on}
}

// led is a label on a leader.
type led struct {
	text   draw.Text
	leader geom.Line
	cost   float64
}

// A leader begins outside a peg's circle, and is no longer than this.
const (
	leaderStart unit.Length = 1.8
	leaderReach unit.Length = 90
)

// crossed counts the strokes that a leader crosses or touches and the labels
// that it comes near.
func (c *scene) crossed(l geom.Line) (strokes, labels int) {
	p := geom.Polygon{l.From, l.To}
	box := geom.RectOf(l.From, l.To).Grow(labelGap)
	for _, o := range c.boxes {
		if box.Meets(o.Bounds()) && apart(p, o) < labelGap/2 {
			labels++
		}
	}
	for _, s := range c.strokes {
		if box.Meets(geom.RectOf(s.From, s.To)) && between(l, s) < 0.3 {
			strokes++
		}
	}
	return strokes, labels
}

// spot is a place for a label: the middle of its letters and their turn.
type spot struct {
	at   geom.Point
	turn unit.Angle
}

// apart is the distance between two convex shapes, 0 where they overlap; a shape
// of two points is a line.
func apart(p, q geom.Polygon) unit.Length {
	if inside(p, q[0]) || inside(q, p[0]) {
		return 0
	}
	d := unit.Length(math.Inf(1))
	for i := range p {
		for j := range q {
			d = min(d, between(p.Edge(i), q.Edge(j)))
		}
	}
	return d
}

func inside(p geom.Polygon, at geom.Point) bool {
	if len(p) < 3 {
		return false
	}
	for i := range p {
		if side(p.Edge(i), at) < 0 {
			return false
		}
	}
	return true
}

// side is twice the area of the triangle of a line and a place: positive on its left.
func side(l geom.Line, at geom.Point) float64 {
	return float64(l.To.X-l.From.X)*float64(at.Y-l.From.Y) - float64(l.To.Y-l.From.Y)*float64(at.X-l.From.X)
}

// between is the distance of two lines, 0 where they cross.
func between(a, b geom.Line) unit.Length {
	if side(a, b.From)*side(a, b.To) < 0 && side(b, a.From)*side(b, a.To) < 0 {
		return 0
	}
	return min(onto(a, b.From), onto(a, b.To), onto(b, a.From), onto(b, a.To))
}

// onto is the distance of a place from a line.
func onto(l geom.Line, p geom.Point) unit.Length { return nearest(l, p).Distance(p) }

func nearest(l geom.Line, p geom.Point) geom.Point {
	dx, dy := float64(l.To.X-l.From.X), float64(l.To.Y-l.From.Y)
	n := dx*dx + dy*dy
	if n == 0 {
		return l.From
	}
	t := (float64(p.X-l.From.X)*dx + float64(p.Y-l.From.Y)*dy) / n
	return l.At(min(1, max(0, t)))
}

// nearestOn is the place on a shape's edge that is nearest to p.
func nearestOn(q geom.Polygon, p geom.Point) geom.Point {
	best := q[0]
	for i := range q {
		if n := nearest(q.Edge(i), p); n.Distance(p) < best.Distance(p) {
			best = n
		}
	}
	return best
}
