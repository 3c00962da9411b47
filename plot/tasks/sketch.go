package tasks

import (
	"math"

	"trammel/geom"
	"trammel/geom/task"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// sketch is drawn in a rectangle of a leaf: the triangle, its letters and what is given of it.
type sketch struct {
	*leaf
	set     Set
	task    task.Task
	a, b, c geom.Point
	height  unit.Length // of its letters
	tag     *draw.Tag
}

// room is where a sketch may lie: its top left corner, and how large.
type room struct{ x, y, wide, high unit.Length }

// sketched draws the sketch of a task, with letters of a height.
func (s Set) sketched(l *leaf, t task.Task, in room, letters unit.Length) {
	k := t.Sketch()
	left, right := math.Min(0, k.X), math.Max(1, k.X)
	scale := min(in.wide/unit.Length(right-left), in.high/unit.Length(k.Y))
	from := l.at(in.x+(in.wide-scale*unit.Length(right-left))/2-scale*unit.Length(left), in.y+in.high)
	place := func(u, v float64) geom.Point {
		return geom.Point{X: from.X + scale*unit.Length(u), Y: from.Y + scale*unit.Length(v)}
	}
	d := sketch{l, s, t, place(0, 0), place(1, 0), place(k.X, k.Y), letters, &draw.Tag{Role: draw.AsFigure, Alt: s.says().SketchAlt()}}
	d.stroke(d.a, d.b)
	d.stroke(d.b, d.c)
	d.stroke(d.c, d.a)
	d.corners()
	for i, q := range t.Kind.Given() {
		d.given(q, t.Given[i])
	}
	d.words(s.says().NotToScale(), geom.Point{X: from.X + scale*unit.Length(left+right)/2, Y: from.Y - 2.4*letters - 4.2 - draw.NoteHeight}, 0, note.to(draw.Middle))
}

func (d sketch) stroke(p, q geom.Point) {
	d.add(draw.Line{Line: geom.Line{From: p, To: q}, Pen: draw.Pen{Width: rulePen}, On: draw.Notes, Of: d.tag})
}

func (d sketch) words(text string, at geom.Point, turn unit.Angle, s style) {
	d.add(draw.Text{At: at, Height: s.height, Bold: s.bold, Align: s.align, Turn: turn, Words: text, On: draw.Notes})
}

// corners get their letters, outside.
func (d sketch) corners() {
	h := d.height
	s := style{height: h, bold: true, align: draw.Middle}
	left, right := geom.Point{X: d.a.X - 1.1*h, Y: d.a.Y - 0.6*h}, geom.Point{X: d.b.X + 1.1*h, Y: d.b.Y - 0.6*h}
	if d.c.X < d.a.X { // the side leans out there
		left = geom.Point{X: d.a.X, Y: d.a.Y - 1.5*h}
	}
	if d.c.X > d.b.X {
		right = geom.Point{X: d.b.X, Y: d.b.Y - 1.5*h}
	}
	d.words("A", left, 0, s)
	d.words("B", right, 0, s)
	d.words("C", geom.Point{X: d.c.X, Y: d.c.Y + 0.5*h}, 0, s)
}

// given writes what is given where it is.
func (d sketch) given(q task.Quantity, x int) {
	says := d.set.says().OnSketch(q, x)
	switch q {
	case task.AB:
		d.words(says, geom.Point{X: (d.a.X + d.b.X) / 2, Y: d.a.Y - 1.5*d.height}, 0, style{height: d.height, align: draw.Middle})
	case task.BC:
		d.along(d.b, d.c, says)
	case task.CA:
		d.along(d.c, d.a, says)
	case task.A:
		d.angle(d.a, d.b, d.c, says, x == 90)
	case task.B:
		d.angle(d.b, d.c, d.a, says, false)
	case task.C:
		d.angle(d.c, d.a, d.b, says, false)
	case task.Height:
		d.upright(says)
	case task.CA2:
	}
}

// along a side, outside of the triangle, the letters upright for who reads from below.
func (d sketch) along(p, q geom.Point, says string) {
	v := q.Minus(p)
	length := math.Hypot(float64(v.X), float64(v.Y))
	out := geom.Point{X: v.Y / unit.Length(length), Y: -v.X / unit.Length(length)} // to the right of the way round
	turn := math.Atan2(float64(v.Y), float64(v.X))
	gap := 0.45 * d.height
	if turn > math.Pi/2 || turn <= -math.Pi/2 {
		turn += math.Pi
	} else {
		gap += d.height
	}
	if turn > math.Pi {
		turn -= 2 * math.Pi
	}
	at := geom.Point{X: (p.X+q.X)/2 + out.X*gap, Y: (p.Y+q.Y)/2 + out.Y*gap}
	d.words(says, at, unit.Angle(turn), style{height: d.height, align: draw.Middle})
}

// angle with its arc at a corner, from one arm to the other, counter-clockwise.
func (d sketch) angle(at, from, to geom.Point, says string, square bool) {
	v, w := from.Minus(at), to.Minus(at)
	begin, end := math.Atan2(float64(v.Y), float64(v.X)), math.Atan2(float64(w.Y), float64(w.X))
	for end < begin {
		end += 2 * math.Pi
	}
	r := 2 * d.height
	if square {
		k := d.height
		p := func(x, y unit.Length) geom.Point { return geom.Point{X: at.X + x, Y: at.Y + y} }
		d.add(draw.Polyline{Points: []geom.Point{p(k, 0), p(k, k), p(0, k)}, Pen: draw.Thin, On: draw.Notes, Of: d.tag})
		return
	}
	d.add(draw.Arc{Arc: geom.Arc{Centre: at, Radius: r, Start: unit.Angle(begin), Sweep: unit.Angle(end - begin)}, Pen: draw.Thin, On: draw.Notes, Of: d.tag})
	// Where the words have room between the arms, or past the arc.
	half := (end - begin) / 2
	wide := d.r.Width(says, d.height, false)
	mid := (begin + end) / 2
	reach := r + 0.5*d.height + unit.Length(math.Abs(math.Cos(mid)))*wide/2 + unit.Length(math.Abs(math.Sin(mid)))*d.height/2
	if need := unit.Length(float64(wide+d.height) / 2 / math.Sin(math.Min(half, math.Pi/2))); need > reach {
		reach = need
	}
	c := geom.Point{X: at.X + reach*unit.Length(math.Cos(mid)), Y: at.Y + reach*unit.Length(math.Sin(mid))}
	d.words(says, geom.Point{X: c.X, Y: c.Y - d.height/2}, 0, style{height: d.height, align: draw.Middle})
}

// upright is the height, dashed, from C down to AB or to AB carried on.
func (d sketch) upright(says string) {
	foot := geom.Point{X: d.c.X, Y: d.a.Y}
	d.add(draw.Line{Line: geom.Line{From: d.c, To: foot}, Pen: draw.Hidden, On: draw.Notes, Of: d.tag})
	if foot.X < d.a.X {
		d.add(draw.Line{Line: geom.Line{From: foot, To: d.a}, Pen: draw.Thin, On: draw.Notes, Of: d.tag})
	}
	beside := -0.5 * d.height
	if d.c.X < (d.a.X+d.b.X)/2 { // the angle at A stands on the left
		beside = 1.5 * d.height
	}
	d.words(says, geom.Point{X: foot.X + beside, Y: (d.c.Y + foot.Y) / 2}, unit.Turn/4, style{height: d.height, align: draw.Middle})
}
