package plan

import (
	"math"
	"strconv"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// Sizes of a ring on paper.
const (
	ring      unit.Length = 2.3
	ringClear unit.Length = 0.8
)

// rings draws lines with numbers on them, each where no other line runs through its ring.
func drawRings(v *view) {
	type on struct {
		geom.Line
		number int
	}
	var all []on
	for _, x := range v.Rings {
		from, ok := v.at[x.From]
		to, also := v.at[x.To]
		if ok && also {
			all = append(all, on{geom.Line{From: from, To: to}, x.Number})
		}
	}
	var taken []geom.Point
	for _, x := range all {
		best, most := x.At(0.5), unit.Length(-1)
		for _, t := range ringAt() {
			at := x.At(t)
			clear := unit.Length(math.Inf(1))
			for _, y := range all {
				if y.number != x.number {
					clear = min(clear, y.Line.Distance(at))
				}
			}
			for _, p := range v.shown {
				clear = min(clear, p.At.Distance(at))
			}
			for _, p := range taken {
				clear = min(clear, p.Distance(at)-ring-ringClear)
			}
			if clear = min(clear, ring+ringClear); clear > most+1e-9 {
				best, most = at, clear
			}
		}
		v.crammed = v.crammed || most < ring+0.3
		taken = append(taken, best)
		way, half := x.Direction(), ring
		v.line(x.From, best.Toward(way, -half), draw.Wide, draw.Dimension)
		v.line(best.Toward(way, half), x.To, draw.Wide, draw.Dimension)
		v.ring(best, x.number)
	}
}

// ringAt is where along its line a ring is tried, the middle first.
func ringAt() (all []float64) {
	for d := 0.0; d <= 0.4; d += 0.04 {
		all = append(all, 0.5-d, 0.5+d)
	}
	return all
}

// ring draws a number in its ring, which labels keep clear of.
func (c *scene) ring(at geom.Point, number int) {
	c.circle(at, ring, draw.Narrow, draw.Dimension)
	c.add(draw.Text{At: geom.Point{X: at.X, Y: at.Y - draw.NoteHeight/2}, Height: draw.NoteHeight, Align: draw.Middle, Words: strconv.Itoa(number), On: draw.Dimension})
	c.Block(geom.Polygon{{X: at.X - ring, Y: at.Y - ring}, {X: at.X + ring, Y: at.Y - ring}, {X: at.X + ring, Y: at.Y + ring}, {X: at.X - ring, Y: at.Y + ring}})
}
