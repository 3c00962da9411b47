package plan

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// onLine is how near a mark is drawn to a line that it lies on, on paper.
const onLine = 0.01

// Sizes on paper.
const (
	cornerPeg unit.Length = 1.3 // radius of the circle round a corner
	markPeg   unit.Length = 0.9 // and of other pegs
	tick      unit.Length = 1.6 // half of a tick across a side at its middle
	arcReach  unit.Length = 9   // of an arc to each side of the crossing
	pastFoot  unit.Length = 4   // of an extended baseline beyond the last foot
	signed    unit.Length = 8   // a line this long has room for the sign of a right angle
	signSize              = 2.2
	boardHalf unit.Length = 0.5 // half of a profile board's thickness as drawn
	stakeHalf unit.Length = 0.7 // and of its stakes
)

// linework is what is drawn from mark to mark: of a detail, what lies within its circle.
type linework struct {
	*scene
	in    *disc           // what is seen of a detail; nil: all
	level unit.Angle      // direction of the baseline
	lines []drawnLine     // what runs from peg to peg, and the baseline
	drawn map[[4]int]bool // the ends of these
}

// drawnLine is a line between two marks and the operation that draws it alone; else −1.
type drawnLine struct {
	geom.Line
	op, number int
}

// mark draws a peg.
func (w *linework) mark(peg Peg) {
	at := peg.At
	switch {
	case w.in != nil && !w.in.has(at):
		return
	case peg.Role == Midpoint:
		across := w.lineAt(at) + unit.Turn/4
		w.seen(at.Toward(across, tick), at.Toward(across, -tick), draw.Narrow)
	case peg.Role == Corner:
		w.circle(at, cornerPeg, draw.Narrow, draw.Construction)
	default:
		w.circle(at, markPeg, draw.Narrow, draw.Construction)
	}
	if peg.Also {
		along, _ := w.along(at)
		w.seen(w.place(along, tick), w.place(along, -tick), draw.Narrow)
	}
}

func (w *linework) stroke(kind Kind, from, to geom.Point) {
	l := geom.Line{From: from, To: to}
	dir, length := l.Direction(), l.Length()
	switch kind {
	case ArcTo:
		if length > 0 {
			half := min(15*unit.Degree, unit.Angle(arcReach/length))
			w.swing(geom.Arc{Centre: from, Radius: length, Start: dir - half, Sweep: 2 * half})
		}
	case SightTo, SquareLeg:
		w.between(from, to, draw.Narrow)
	case StringLine:
		w.seen(from, to, draw.Behind)
	case Board:
		across := dir + unit.Turn/4
		for _, d := range []unit.Length{boardHalf, -boardHalf} {
			w.seen(from.Toward(across, d), to.Toward(across, d), draw.Narrow)
		}
		for _, end := range []geom.Point{from, to} {
			if w.in == nil || w.in.has(end) {
				w.solid(geom.Polygon{
					end.Toward(dir, -stakeHalf).Toward(across, -stakeHalf), end.Toward(dir, stakeHalf).Toward(across, -stakeHalf),
					end.Toward(dir, stakeHalf).Toward(across, stakeHalf), end.Toward(dir, -stakeHalf).Toward(across, stakeHalf),
				}, draw.Construction)
			}
		}
	case RightAngle:
		x, y := w.along(from)
		toX, toY := w.along(to)
		if max(toY-y, y-toY) > signed {
			outX, outY := x+unit.Length(math.Copysign(signSize, float64(toX-x))), y+unit.Length(math.Copysign(signSize, float64(toY-y)))
			w.seen(w.place(outX, y), w.place(outX, outY), draw.Narrow)
			w.seen(w.place(outX, outY), w.place(x, outY), draw.Narrow)
		}
	}
}

// between draws a line between two marks unless there is one.
func (w *linework) between(a, b geom.Point, pen draw.Pen) {
	if !w.drawn[ends(a, b)] {
		w.seen(a, b, pen)
		w.remember(geom.Line{From: a, To: b}, len(w.ops)-1, w.last)
	}
}

func (w *linework) remember(l geom.Line, op, number int) {
	w.lines = append(w.lines, drawnLine{l, op, number})
	w.drawn[ends(l.From, l.To)], w.drawn[ends(l.To, l.From)] = true, true
}

// ends of a line, to tell two lines apart.
func ends(a, b geom.Point) [4]int {
	at := func(l unit.Length) int { return int(math.Round(float64(l) / onLine)) }
	return [4]int{at(a.X), at(a.Y), at(b.X), at(b.Y)}
}

// lineAt is the direction of the line that a mark lies on, else of the baseline.
func (w *linework) lineAt(at geom.Point) unit.Angle {
	for _, l := range w.lines {
		if l.Line.Distance(at) < onLine {
			return l.Direction()
		}
	}
	return w.level
}

// seen draws what is seen of a line.
func (w *linework) seen(a, b geom.Point, pen draw.Pen) {
	l, ok := geom.Line{From: a, To: b}, true
	if w.in != nil {
		l, ok = w.in.clip(l)
	}
	if ok {
		w.line(l.From, l.To, pen, draw.Construction)
	}
}

// swing draws what is seen of an arc of less than half a turn.
func (w *linework) swing(a geom.Arc) {
	if w.in != nil {
		toward := geom.Line{From: a.Centre, To: w.in.centre}
		d, r, in := float64(toward.Length()), float64(a.Radius), float64(w.in.radius)
		cos := (r*r + d*d - in*in) / (2 * r * d)
		if d == 0 || cos >= 1 {
			return
		}
		half := math.Acos(max(-1, cos))
		middle := float64(a.Start) + math.Remainder(float64(toward.Direction()-a.Start), 2*math.Pi)
		from, to := max(float64(a.Start), middle-half), min(float64(a.Start+a.Sweep), middle+half)
		if from >= to {
			return
		}
		a.Start, a.Sweep = unit.Angle(from), unit.Angle(to-from)
	}
	w.ink(draw.Arc{Arc: a, Pen: draw.Narrow, On: draw.Construction})
}

// closed draws what is seen of a closed shape.
func (w *linework) closed(p geom.Polygon, pen draw.Pen, on draw.Layer) {
	if w.in == nil {
		w.polygon(p, pen, on)
		return
	}
	var runs [][]geom.Point
	whole := true
	for i := range p {
		l, ok := w.in.clip(p.Edge(i))
		if !ok {
			whole = false
			continue
		}
		whole = whole && l == p.Edge(i)
		if n := len(runs); n > 0 && runs[n-1][len(runs[n-1])-1] == l.From {
			runs[n-1] = append(runs[n-1], l.To)
		} else {
			runs = append(runs, []geom.Point{l.From, l.To})
		}
	}
	if whole {
		w.polygon(p, pen, on)
		return
	}
	// What runs through the first corner is one run.
	if n := len(runs); n > 1 && runs[n-1][len(runs[n-1])-1] == runs[0][0] {
		runs[0] = append(runs[n-1], runs[0][1:]...)
		runs = runs[:n-1]
	}
	for _, run := range runs {
		w.ink(draw.Polyline{Points: run, Pen: pen, On: on})
	}
}

// disc is the part of the plane that a detail shows.
type disc struct {
	centre geom.Point
	radius unit.Length
}

func (d disc) has(p geom.Point) bool { return d.centre.Distance(p) <= d.radius }

// clip is the part of a line within the disc.
func (d disc) clip(l geom.Line) (geom.Line, bool) {
	dx, dy := float64(l.To.X-l.From.X), float64(l.To.Y-l.From.Y)
	fx, fy := float64(l.From.X-d.centre.X), float64(l.From.Y-d.centre.Y)
	a, b, c := dx*dx+dy*dy, fx*dx+fy*dy, fx*fx+fy*fy-float64(d.radius)*float64(d.radius)
	if b*b-a*c <= 0 {
		return geom.Line{}, false
	}
	root := math.Sqrt(b*b - a*c)
	t, u := max(0, (-b-root)/a), min(1, (-b+root)/a)
	if t >= u {
		return geom.Line{}, false
	}
	out := l
	if t > 0 {
		out.From = l.At(t)
	}
	if u < 1 {
		out.To = l.At(u)
	}
	return out, true
}
