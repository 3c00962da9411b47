package plan

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// scene is a drawing in which labels look for a free place.
type scene struct {
	ops     draw.Drawing
	strokes filed[bit]          // what is drawn, arcs as chords
	boxes   filed[geom.Polygon] // of the labels, and of areas that no label may stand in
	bounds  geom.Rect           // of ops
	r       draw.Ruler
	last    int // number of the last stroke
}

// bit is a straight part of what is drawn; parts of one line have one number.
type bit struct {
	geom.Line
	of int
}

func newScene(r draw.Ruler) *scene {
	return &scene{r: draw.Remembered(r), strokes: filed[bit]{}, boxes: filed[geom.Polygon]{}}
}

// filed holds things by place, in squares of the plane, so that what is near is
// found without asking everything.
type filed[T any] map[[2]int][]T

const fieldSize unit.Length = 6

func (f filed[T]) put(r geom.Rect, t T) {
	f.every(r, func(at [2]int) bool { f[at] = append(f[at], t); return true })
}

func (f filed[T]) every(r geom.Rect, do func(at [2]int) bool) bool {
	n := func(l unit.Length) int { return int(math.Floor(float64(l / fieldSize))) }
	for x := n(r.Min.X); x <= n(r.Max.X); x++ {
		for y := n(r.Min.Y); y <= n(r.Max.Y); y++ {
			if !do([2]int{x, y}) {
				return false
			}
		}
	}
	return true
}

// all asks the things near r, some perhaps twice, until one does not hold.
func (f filed[T]) all(r geom.Rect, holds func(T) bool) bool {
	return f.every(r, func(at [2]int) bool {
		for _, t := range f[at] {
			if !holds(t) {
				return false
			}
		}
		return true
	})
}

// add paints an operation.
func (c *scene) add(op draw.Op) {
	b := op.Bounds(c.r)
	if len(c.ops) == 0 {
		c.bounds = b
	}
	c.bounds = c.bounds.Join(b)
	c.ops = append(c.ops, op)
}

// keepOff lets labels keep clear of a line from now on.
func (c *scene) keepOff(l geom.Line) {
	for _, part := range parts(l) {
		c.strokes.put(part.Bounds(), bit{part, c.last})
	}
}

func (c *scene) line(a, b geom.Point, pen draw.Pen, on draw.Layer) {
	c.last++
	l := geom.Line{From: a, To: b}
	c.add(draw.Line{Line: l, Pen: pen, On: on})
	c.keepOff(l)
}

func (c *scene) arc(a geom.Arc, pen draw.Pen, on draw.Layer) {
	c.last++
	c.add(draw.Arc{Arc: a, Pen: pen, On: on})
	const sag = 0.05 // of the chords
	step := 2 * math.Acos(1-math.Min(1, sag/float64(a.Radius)))
	n := math.Max(1, math.Ceil(math.Abs(float64(a.Sweep))/step))
	for i := range int(n) {
		c.keepOff(geom.Line{From: a.At(float64(i) / n), To: a.At(float64(i+1) / n)})
	}
}

func (c *scene) circle(at geom.Point, radius unit.Length, pen draw.Pen, on draw.Layer) {
	c.arc(geom.Arc{Centre: at, Radius: radius, Sweep: unit.Turn}, pen, on)
}

func (c *scene) polygon(p geom.Polygon, pen draw.Pen, on draw.Layer) {
	c.last++
	c.add(draw.Polyline{Points: p, Closed: true, Pen: pen, On: on})
	for i := range p {
		c.keepOff(p.Edge(i))
	}
}

// round is a closed curve of many points: every third of them will do to keep off.
func (c *scene) round(p geom.Polygon, pen draw.Pen, on draw.Layer) {
	c.last++
	c.add(draw.Polyline{Points: p, Closed: true, Pen: pen, On: on})
	for i := 0; i < len(p); i += 3 {
		c.keepOff(geom.Line{From: p[i], To: p[(i+3)%len(p)]})
	}
}

func (c *scene) run(p []geom.Point, pen draw.Pen, on draw.Layer) {
	c.last++
	c.add(draw.Polyline{Points: p, Pen: pen, On: on})
	for i := range p[1:] {
		c.keepOff(geom.Line{From: p[i], To: p[i+1]})
	}
}

func (c *scene) solid(p geom.Polygon, on draw.Layer) {
	c.last++
	c.add(draw.Polyline{Points: p, Closed: true, Solid: true, On: on})
	for i := range p {
		c.keepOff(p.Edge(i))
	}
}

func (c *scene) text(t draw.Text) {
	b := t.Box(c.r)
	c.put(placedLabel{ops: draw.Drawing{t}, box: b[:]})
}

func (c *scene) put(l placedLabel) {
	for _, op := range l.ops {
		c.add(op)
	}
	c.block(l.box)
}

// block keeps labels out of a convex area.
func (c *scene) block(p geom.Polygon) { c.boxes.put(p.Bounds(), p) }
