package tasks

import (
	"math"
	"slices"

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
	lie     *[]geom.Rect // boxes of the words that stand
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
	d := sketch{l, s, t, place(0, 0), place(1, 0), place(k.X, k.Y), letters, &draw.Tag{Role: draw.AsFigure, Alt: s.says().SketchAlt()}, new([]geom.Rect)}
	d.stroke(d.a, d.b)
	d.stroke(d.b, d.c)
	d.stroke(d.c, d.a)
	d.corners()
	for i, q := range t.Kind.Given() {
		d.given(q, t.Given[i])
	}
	d.words(s.says().NotToScale(), 0, note.to(draw.Middle), geom.Point{X: from.X + scale*unit.Length(left+right)/2, Y: from.Y - 2.4*letters - 4.2 - draw.NoteHeight})
}

func (d sketch) stroke(p, q geom.Point) {
	d.add(draw.Line{Line: geom.Line{From: p, To: q}, Pen: draw.Pen{Width: rulePen}, On: draw.Notes, Of: d.tag})
}

// words stand at the first place where they lie on no others, else at the last.
func (d sketch) words(text string, turn unit.Angle, s style, places ...geom.Point) {
	const apart = 0.6
	for i, at := range places {
		t := draw.Text{At: at, Height: s.height, Bold: s.bold, Align: s.align, Turn: turn, Words: text, On: draw.Notes}
		b := t.Bounds(d.r).Grow(apart)
		if i == len(places)-1 || !slices.ContainsFunc(*d.lie, func(o geom.Rect) bool { return o.Meets(b) }) {
			d.add(t)
			*d.lie = append(*d.lie, t.Bounds(d.r))
			return
		}
	}
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
	d.words("A", 0, s, left)
	d.words("B", 0, s, right)
	d.words("C", 0, s, geom.Point{X: d.c.X, Y: d.c.Y + 0.5*h})
}

// given writes what is given where it is.
func (d sketch) given(q task.Quantity, x int) {
	says := d.set.says().OnSketch(q, x)
	switch q {
	case task.AB:
		d.words(says, 0, style{height: d.height, align: draw.Middle}, geom.Point{X: (d.a.X + d.b.X) / 2, Y: d.a.Y - 1.5*d.height})
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
	var places []geom.Point
	for _, k := range []unit.Length{0.5, 0.6, 0.4, 0.7, 0.3} {
		places = append(places, geom.Point{X: p.X + k*v.X + out.X*gap, Y: p.Y + k*v.Y + out.Y*gap})
	}
	d.words(says, unit.Angle(turn), style{height: d.height, align: draw.Middle}, places...)
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
	// Else outside, behind the corner's letter.
	var places []geom.Point
	for _, k := range []unit.Length{1, 0.85, 1.15, 1.3} {
		places = append(places, geom.Point{X: at.X + k*reach*unit.Length(math.Cos(mid)), Y: at.Y + k*reach*unit.Length(math.Sin(mid)) - d.height/2})
	}
	for _, k := range []unit.Length{3, 4, 5} {
		places = append(places, geom.Point{X: at.X - (k*d.height+wide/2)*unit.Length(math.Cos(mid)), Y: at.Y - (k*d.height)*unit.Length(math.Sin(mid)) - d.height/2})
	}
	d.words(says, 0, style{height: d.height, align: draw.Middle}, places...)
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
	var places []geom.Point
	for _, k := range []unit.Length{0.5, 0.6, 0.7, 0.4} {
		places = append(places, geom.Point{X: foot.X + beside, Y: foot.Y + k*(d.c.Y-foot.Y)}, geom.Point{X: foot.X + d.height - beside, Y: foot.Y + k*(d.c.Y-foot.Y)})
	}
	d.words(says, unit.Turn/4, style{height: d.height, align: draw.Middle}, places...)
}
