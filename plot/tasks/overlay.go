package tasks

import (
	"fmt"
	"iter"
	"math"

	"trammel/geom"
	"trammel/geom/task"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/paging"
)

// OverlayPages are films for each pupil's tasks, two a page, true to scale; last comes one film
// for all. A film is laid on pencil, so that its lines are narrow.
func (s Set) OverlayPages(on paging.Sheet, r draw.Ruler) (iter.Seq[draw.Page], error) {
	if on.Width < 2*margin+185 || on.Height < 279 {
		return nil, tooSmall(on)
	}
	return func(yield func(draw.Page) bool) {
		if !yield(s.polar(lying(on), r)) {
			return
		}
		for _, p := range s.Pupils {
			for n := 0; n < len(p.Tasks); n += 2 {
				l := newLeaf(on, r)
				s.filmHead(l, s.marking().OverlayTitle(), s.marking().OverlayUse())
				half := (l.high - 26 - 18) / 2
				for i := n; i < min(n+2, len(p.Tasks)); i++ {
					s.film(l, p, i, 26+half*unit.Length(i-n), half)
				}
				if !yield(l.page(draw.Overlay, s.marking().Pupil(p.Number, p.Name))) {
					return
				}
			}
		}
	}, nil
}

// filmHead is the words of a film and the two bars that it is proved by.
func (s Set) filmHead(l *leaf, heading, use string) {
	l.words(heading, margin, 15.5, bold)
	l.words(use, margin, 21, note)
	l.bar(margin, l.high-11, 1, 0)
	l.bar(l.wide-9, l.high-16, 0, 1)
}

// bar of 100 mm with a tick every 10, across or up, from a corner.
func (l *leaf) bar(x, y, right, up unit.Length) {
	at := func(along, across unit.Length) geom.Point {
		return l.at(x+along*right+across*up, y-along*up-across*right)
	}
	put := func(p, q geom.Point, pen draw.Pen) {
		l.add(draw.Line{Line: geom.Line{From: p, To: q}, Pen: pen, On: draw.Furniture, Of: ornament})
	}
	put(at(0, 0), at(100, 0), draw.Narrow)
	for i := unit.Length(0); i <= 100; i += 10 {
		h := unit.Length(1.2)
		if i == 0 || i == 50 || i == 100 {
			h = 2.4
		}
		put(at(i, 0), at(i, h), draw.Thin)
	}
	turn := unit.Angle(0)
	if up > 0 {
		turn = unit.Turn / 4
	}
	l.add(draw.Text{At: at(103, 0), Height: draw.NoteHeight, Turn: turn, Words: "100 mm", On: draw.Furniture})
}

// film of one task in its half of a page.
type film struct {
	*leaf
	a   geom.Point
	tag *draw.Tag
}

func (f film) at(x, y float64) geom.Point {
	return geom.Point{X: f.a.X + unit.Length(x), Y: f.a.Y + unit.Length(y)}
}

func (f film) stroke(p, q geom.Point, pen draw.Pen) {
	f.add(draw.Line{Line: geom.Line{From: p, To: q}, Pen: pen, On: draw.Outline, Of: f.tag})
}

func (f film) ring(p geom.Point, r unit.Length) {
	f.add(draw.Arc{Arc: geom.Arc{Centre: p, Radius: r, Sweep: unit.Turn}, Pen: draw.Thin, On: draw.Marks, Of: f.tag})
}

func (s Set) film(l *leaf, p Pupil, n int, y, high unit.Length) {
	d, m := p.Tasks[n], s.marking()
	head := fmt.Sprintf("%s, task %d, %s: %s = %s", m.Pupil(p.Number, p.Name), n+1, d.Kind, givenHead(d.Kind), givenOf(d.Task))
	l.words(draw.Shorten(head, " ", func(t string) bool { return l.r.Width(t, draw.NoteHeight, false) <= l.wide-2*margin }), margin, y+2, note)
	shapes := d.Solve()
	c := float64(d.Given[0])
	left := 0.0
	for _, t := range shapes {
		left = math.Min(left, t.X)
	}
	f := film{l, l.at(margin+10-unit.Length(left), y+high-8), &draw.Tag{Role: draw.AsFigure, Alt: m.FilmAlt()}}
	f.base(c, s.Accept.MM)
	if d.Kind == task.SSA0 {
		f.short(d.Task)
	}
	for i, t := range shapes {
		f.exact(t, c)
		if i == 0 && d.Kind != task.SSS && d.Kind != task.ISO && d.Kind != task.BHS {
			for _, off := range []float64{-s.Accept.Deg, 0, s.Accept.Deg} {
				f.ray(t.Deg[0]+off, t.Side[1]+8)
			}
		}
	}
	for _, z := range d.Zones(s.Accept.MM, s.Accept.Deg) {
		f.zone(z)
	}
	if x, yy, of, ok := d.Ghost(); ok {
		at := f.at(x, yy)
		if room := l.at(0, y+6).Y; at.X > margin+4 && at.X < l.wide-margin-14 && at.Y < room {
			f.ring(at, 2)
			l.add(draw.Text{At: geom.Point{X: at.X + 3, Y: at.Y - 1.2}, Height: draw.NoteHeight, Words: m.Ghost(of), On: draw.Notes})
		}
	}
}

// base is A with a cross and a ring, B with a tick to each side of how far it may be off.
func (f film) base(c, off float64) {
	f.stroke(f.at(0, 0), f.at(c, 0), draw.Pen{Width: 0.25, Dash: draw.Dashed})
	f.stroke(f.at(-4, 0), f.at(4, 0), draw.Thin)
	f.stroke(f.at(0, -4), f.at(0, 4), draw.Thin)
	f.ring(f.a, 2)
	for _, x := range []float64{c - off, c, c + off} {
		f.stroke(f.at(x, -2), f.at(x, 2), draw.Thin)
	}
	f.words("A", f.a.X-4.5, f.high-f.a.Y+5.5, style{height: draw.NoteHeight, bold: true, align: draw.Middle})
	f.words("B", f.a.X+unit.Length(c), f.high-f.a.Y+5.5, style{height: draw.NoteHeight, bold: true, align: draw.Middle})
}

func (f film) exact(t task.Shape, c float64) {
	pen := draw.Pen{Width: 0.25, Dash: draw.Dashed}
	f.stroke(f.at(0, 0), f.at(t.X, t.Y), pen)
	f.stroke(f.at(c, 0), f.at(t.X, t.Y), pen)
}

func (f film) ray(deg, to float64) {
	v, w := math.Sincos(deg * math.Pi / 180)
	f.stroke(f.at(w*12, v*12), f.at(w*to, v*to), draw.Thin)
}

// short is the arc that falls short of the arm.
func (f film) short(t task.Task) {
	c, deg, a := float64(t.Given[0]), float64(t.Given[1]), unit.Length(t.Given[2])
	f.ray(deg, c*math.Cos(deg*math.Pi/180)+40)
	f.add(draw.Arc{Arc: geom.Arc{Centre: f.at(c, 0), Radius: a, Start: unit.Turn/2 - unit.Angle(deg*math.Pi/180) - 0.6, Sweep: 1.2}, Pen: draw.Thin, On: draw.Outline, Of: f.tag})
}

// zone in which C is accepted: its four edges are arcs and straight lines, true to the file's
// last digit.
func (f film) zone(z task.Zone) {
	var path []geom.Segment
	for i, along := range z.Along {
		p, q := z.Corner[i], z.Corner[(i+1)%4]
		if along.Radius == 0 {
			path = append(path, geom.Line{From: f.at(p[0], p[1]), To: f.at(q[0], q[1])})
			continue
		}
		begin, end := math.Atan2(p[1]-along.Y, p[0]-along.X), math.Atan2(q[1]-along.Y, q[0]-along.X)
		path = append(path, geom.Arc{Centre: f.at(along.X, along.Y), Radius: unit.Length(along.Radius), Start: unit.Angle(begin), Sweep: unit.Angle(math.Remainder(end-begin, 2*math.Pi))})
	}
	f.add(draw.Path{Segments: path, Closed: true, Pen: draw.Narrow, On: draw.Outline, Of: f.tag})
}
