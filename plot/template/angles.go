package template

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/legible"
)

// rightWithin is how near to 90° an angle gets a square instead of an arc: the last
// bits of three sides that are 3-4-5, at 10 m still far under a micrometre.
const rightWithin = 1e-9 * unit.Radian

// figureAngles writes each angle inside its corner on the bisector, with a small
// arc, or a square for a right angle. In a sharp corner a leader takes the figure out,
// from an end of the arc or from the corner.
func (f *face) figureAngles() {
	if !f.style.Angles {
		return
	}
	for i := range f.outline {
		w := f.style.figure(f.piece.angle(i, f.style))
		places := f.atCorner(i, w)
		w.Say = string(f.corners.Names[i]) + " " + w.Say
		// The sign in the corner stays, where no words stand on it already.
		last, c := w.Named(f.outline[i]), f.inside(i)
		f.put(w.Say, append(places, last.Marked(c.sign(c.least)...), last.Crossing(legible.Nothing, 1000))...)
	}
}

// atCorner are the places for an angle at corner i.
func (f *face) atCorner(i int, w legible.Label) []legible.Try {
	c := f.inside(i)
	all := c.between(w, f.scene.Width(w))
	out := func(from legible.Anchor, cost float64) {
		led := f.scene.Led(w, from, cost).Marked(c.sign(c.least)...)
		all = append(all, led, led.Crossing(legible.FineLines, legible.Crowded))
	}
	if c.least > 2*prick {
		out(legible.Anchor{Point: c.at.Toward(c.start, c.least), Best: c.start - unit.Turn/4}, 20)
		out(legible.Anchor{Point: c.at.Toward(c.start+c.angle, c.least), Best: c.start + c.angle + unit.Turn/4}, 20)
	}
	out(legible.Anchor{Point: c.at, Best: c.start + c.angle/2 + unit.Turn/2, Clear: prick}, 45)
	return all
}

// inside is the room in a corner, and what its sign needs.
type inside struct {
	at           geom.Point
	start, angle unit.Angle  // from the side that begins there, inward
	arms         unit.Length // how far an arc about the corner runs in the piece, from side to side
	least        unit.Length // radius of the small arc
	lost         unit.Length // see onSheets.lost
}

func (f onSheets) inside(i int) inside {
	before := f.corners.Before(i)
	c := inside{
		at: f.outline[i], start: f.outline.Edge(i).Direction(), angle: f.corners.Angles[i], lost: f.lost(i),
		arms: min(f.outline.Edge(i).Length(), f.outline.Edge(before).Length()),
	}
	for k := range f.outline {
		if k != i && k != before {
			c.arms = min(c.arms, f.outline.Edge(k).Distance(c.at))
		}
	}
	// In a needle it is farther out, where it is seen.
	const seen, farthest unit.Length = 3, 30
	c.least = min(10, c.arms*0.4)
	c.least = max(c.least, min(seen/unit.Length(c.angle), farthest, c.arms*0.5))
	if c.lost > 0 {
		c.least = min(c.least+c.lost, c.arms*0.5)
	}
	return c
}

// between is the places on the bisector and then a little off it.
func (c inside) between(w legible.Label, width unit.Length) []legible.Try {
	var all []legible.Try
	for _, leans := range [][]float64{{0}, {0.12, -0.12}, {0.22, -0.22, 0.3, -0.3}} {
		all = append(all, legible.Try{Least: 20 * leans[0], Make: func(all []legible.Candidate) []legible.Candidate {
			for _, lean := range leans {
				all = c.leaning(all, w, width, lean)
			}
			return all
		}})
	}
	return all
}

func (c inside) leaning(all []legible.Candidate, w legible.Label, width unit.Length, lean float64) []legible.Candidate {
	a := c.start + c.angle/2 + unit.Angle(lean)*c.angle
	back := w.Support(width, a) + legible.Gap + 0.2
	for d := c.least + back; d < min(70+c.lost, c.arms); d++ {
		r := d - back
		if r > min(45+c.lost, c.arms*0.7) {
			break
		}
		all = append(all, legible.Candidate{
			Text: w.At(c.at.Toward(a, d), 0), Marks: c.sign(r),
			Cost: float64(r-c.least)*0.7 + math.Abs(lean)*20,
		})
	}
	return all
}

// leastSign is the radius of the smallest sign: a smaller one is lost in the prick point.
const leastSign = prick + 0.5

// sign is the small arc, of that radius, or the square; none where it would not be seen.
func (c inside) sign(r unit.Length) []draw.Op {
	if math.Abs(float64(c.angle-unit.Turn/4)) < float64(rightWithin) {
		r = min(square, c.least)
	}
	if r < leastSign {
		return nil
	}
	if math.Abs(float64(c.angle-unit.Turn/4)) >= float64(rightWithin) {
		return []draw.Op{draw.Arc{Arc: geom.Arc{Centre: c.at, Radius: r, Start: c.start, Sweep: c.angle}, Pen: draw.Narrow, On: draw.Dimension}}
	}
	return []draw.Op{draw.Polyline{Points: []geom.Point{
		c.at.Toward(c.start, r), c.at.Toward(c.start, r).Toward(c.start+c.angle, r), c.at.Toward(c.start+c.angle, r),
	}, Pen: draw.Narrow, On: draw.Dimension}}
}
