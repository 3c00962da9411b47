package calibrate

import (
	"fmt"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

func line(from, to geom.Point, p draw.Pen) draw.Line {
	return draw.Line{Line: geom.Line{From: from, To: to}, Pen: p, On: draw.Outline}
}

func word(words string, at geom.Point, h unit.Length, a draw.Align) draw.Text {
	return draw.Text{At: at, Height: h, Align: a, Words: words, On: draw.Notes}
}

// marks are the crosses, the lines to lay the rule along and the ticks.
func marks(r geom.Rect, fine bool) draw.Drawing {
	c := r.Corners() // A, B, C, D
	var d draw.Drawing
	for i, p := range c {
		d = append(d,
			line(geom.Point{X: p.X - arm, Y: p.Y}, geom.Point{X: p.X + arm, Y: p.Y}, draw.Fine),
			line(geom.Point{X: p.X, Y: p.Y - arm}, geom.Point{X: p.X, Y: p.Y + arm}, draw.Fine))
		d = append(d, letter(r, i))
	}
	for i, l := range []struct {
		from, to int
		left     bool // the ticks are on the left as one looks from the first corner to the second
	}{{0, 1, true}, {0, 3, false}, {0, 2, true}, {1, 3, false}} {
		d = append(d, guides(geom.Line{From: c[l.from], To: c[l.to]}, tickStart(r.Width(), r.Height(), i >= 2), l.left, fine)...)
	}
	return d
}

// letter of a corner, beside the cross: above the line from A to B, else on one of
// the two sides that nobody measures.
func letter(r geom.Rect, i int) draw.Text {
	const h, beside = draw.CornerHeight, arm + 1
	t := draw.Text{Height: h, Bold: true, Words: "ABCD"[i : i+1], On: draw.Outline}
	t.Align = [...]draw.Align{draw.Left, draw.Middle, draw.Right, draw.Left}[i]
	t.At = r.Corners()[i].Plus([...]geom.Point{{X: beside, Y: 1.2}, {Y: beside}, {X: -beside, Y: -h / 2}, {X: beside, Y: -h / 2}}[i])
	return t
}

// guides are short lines along a length near both its ends, and, to read tenths, at
// its second end ten ticks 1.1 mm apart, going back from it: the one that meets a whole
// millimetre of the rule has the tenths that the length is over.
func guides(l geom.Line, start unit.Length, left, fine bool) draw.Drawing {
	a := l.Direction()
	side := a + unit.Turn/4
	if !left {
		side = a - unit.Turn/4
	}
	back := func(d unit.Length) geom.Point { return l.To.Toward(a, -d) }
	d := draw.Drawing{
		line(l.From.Toward(a, 15), l.From.Toward(a, 30), draw.Fine),
		line(back(start-1), back(start+15), draw.Fine),
	}
	if !fine {
		return d
	}
	for k := range 10 {
		p := back(start + unit.Length(k)*tickPitch)
		long := unit.Length(2.2)
		if k%5 == 0 {
			long = 3.6
			// The figure reads along the rule, or from the right where that stands up.
			t := draw.Text{Height: draw.NoteHeight, Align: draw.Middle, Words: fmt.Sprint(k), On: draw.Notes, Turn: a}
			away := long + 0.8
			if a.Degrees() > 90 {
				t.Turn = a - unit.Turn/2
			}
			if (side-t.Turn).Degrees() < 0 || (side-t.Turn).Degrees() > 180 {
				away += draw.NoteHeight // the letters hang from there
			}
			t.At = p.Toward(side, away)
			d = append(d, t)
		}
		d = append(d, line(p, p.Toward(side, long), draw.Fine))
	}
	return d
}

// rulers run in from the middle of all four edges; what is missing of them is what
// the printer does not print on.
func rulers(w, h unit.Length) draw.Drawing {
	var d draw.Drawing
	for _, e := range []struct {
		at       geom.Point
		in, side unit.Angle // the way in, and from there to the figures
		level    bool
	}{
		{geom.Point{X: 0, Y: h / 2}, 0, unit.Turn / 4, true}, {geom.Point{X: w / 2, Y: h}, -unit.Turn / 4, -unit.Turn / 2, false},
		{geom.Point{X: w, Y: h / 2}, unit.Turn / 2, unit.Turn / 4, true}, {geom.Point{X: w / 2, Y: 0}, unit.Turn / 4, unit.Turn / 2, false},
	} {
		d = append(d, line(e.at, e.at.Toward(e.in, MostEdge), draw.Fine))
		for k := 1; k <= int(MostEdge); k++ {
			p := e.at.Toward(e.in, unit.Length(k))
			long := unit.Length(2)
			if k%5 == 0 {
				long = 4
				t := word(fmt.Sprint(k), p.Toward(e.side, long+1), draw.NoteHeight, draw.Middle)
				if !e.level {
					t.Align, t.At.Y = draw.Left, t.At.Y-draw.NoteHeight/2
					if t.At.X < p.X {
						t.Align = draw.Right
					}
				} else if t.At.Y < p.Y {
					t.At.Y -= draw.NoteHeight
				}
				d = append(d, t)
			}
			d = append(d, line(p, p.Toward(e.side, long), draw.Fine))
		}
	}
	return d
}
