package plan

import (
	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/place"
)

// scene is a drawing in which labels look for a free place.
type scene struct {
	ops         draw.Drawing
	place.Scene           // what labels keep clear of; ink as if it had no width
	bounds      geom.Rect // of ops
	r           draw.Ruler
	last        int  // number of the last line
	over        bool // a leader runs over letters
}

// inParts is how long the parts of a line are at most, so that little is filed near each.
const inParts unit.Length = 6

func newScene(r draw.Ruler) *scene {
	return &scene{r: draw.Remembered(r), Scene: place.NewScene(inParts)}
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

// ink paints an operation; labels keep clear of it, or of what stands for it.
func (c *scene) ink(op draw.Op, standsFor ...draw.Op) {
	c.last++
	c.add(op)
	if standsFor == nil {
		standsFor = draw.Drawing{op}
	}
	for _, o := range standsFor {
		for _, k := range place.Strokes(o, inParts) {
			k.Half, k.Of = 0, c.last
			c.Draw(k)
		}
	}
}

func (c *scene) line(a, b geom.Point, pen draw.Pen, on draw.Layer) {
	c.ink(draw.Line{Line: geom.Line{From: a, To: b}, Pen: pen, On: on})
}

func (c *scene) circle(at geom.Point, radius unit.Length, pen draw.Pen, on draw.Layer) {
	c.ink(draw.Arc{Arc: geom.Arc{Centre: at, Radius: radius, Sweep: unit.Turn}, Pen: pen, On: on})
}

func (c *scene) polygon(p geom.Polygon, pen draw.Pen, on draw.Layer) {
	c.ink(draw.Polyline{Points: p, Closed: true, Pen: pen, On: on})
}

// round is a closed curve of many points: every third of them will do to keep off.
func (c *scene) round(p geom.Polygon, pen draw.Pen, on draw.Layer) {
	var third geom.Polygon
	for i := 0; i < len(p); i += 3 {
		third = append(third, p[i])
	}
	c.ink(draw.Polyline{Points: p, Closed: true, Pen: pen, On: on}, draw.Polyline{Points: third, Closed: true})
}

func (c *scene) solid(p geom.Polygon, on draw.Layer) {
	c.ink(draw.Polyline{Points: p, Closed: true, Solid: true, On: on}, draw.Polyline{Points: p, Closed: true})
}

func (c *scene) text(t draw.Text) {
	b := t.Box(c.r)
	c.put(placedLabel{ops: draw.Drawing{t}, box: b[:]})
}

func (c *scene) put(l placedLabel) {
	for _, op := range l.ops {
		c.add(op)
	}
	c.Block(l.box)
}
