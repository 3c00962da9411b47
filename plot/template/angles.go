package template

import (
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// rightWithin is how near to 90° an angle gets a square instead of an arc: the last
// bits of three sides that are 3-4-5, at 10 m still far under a micrometre.
const rightWithin = 1e-9 * unit.Radian

// figureAngles writes each angle inside its corner on the bisector, with a small
// arc, or a square for a right angle. In a sharp corner the arc runs out over a
// side and carries the figure there.
func (f *face) figureAngles() {
	if !f.style.Angles {
		return
	}
	for i := range f.outline {
		figure := f.piece.angle(i, f.style)
		all, sign := f.atCorner(i, figure)
		f.put(all, func() []candidate {
			// The sign in the corner stays, where no words stand on it already.
			bare := named(string(f.corners.Names[i])+" "+figure, f.outline[i])
			signed := slices.Clone(bare)
			for k := range signed {
				signed[k].marks = []draw.Op{sign}
				bare[k].cost += 1000
			}
			return append(signed, bare...)
		})
	}
}

// atCorner are the places for an angle at corner i, and the sign for it alone: the
// small arc or square that stands in the corner.
func (f *face) atCorner(i int, figure string) ([]candidate, draw.Op) {
	c := f.inside(i)
	all := f.scene.spare[:0]
	for _, w := range f.style.sized(figure) {
		width := f.scene.width(w.label)
		all = c.over(c.between(all, w, width), w, width)
	}
	return f.scene.led(all, label{figure, draw.NoteHeight, false}, anchor{c.at, c.start + c.angle/2 + unit.Turn/2}, 45), c.sign(c.least)
}

// inside is the room in a corner, and what its sign needs.
type inside struct {
	at           geom.Point
	start, angle unit.Angle  // from the side that begins there, inward
	shorter      unit.Length // of its two sides
	least        unit.Length // radius of the small arc
	lost         unit.Length // see onSheets.lost
}

func (f onSheets) inside(i int) inside {
	c := inside{
		at: f.outline[i], start: f.outline.Edge(i).Direction(), angle: f.corners.Angles[i], lost: f.lost(i),
		shorter: min(f.outline.Edge(i).Length(), f.outline.Edge(f.corners.Before(i)).Length()),
	}
	if c.least = min(10, c.shorter*0.3); c.lost > 0 {
		c.least = min(c.least+c.lost, c.shorter*0.4)
	}
	return c
}

// between adds the places on the bisector and a little off it.
func (c inside) between(all []candidate, w costly, width unit.Length) []candidate {
	for _, lean := range []float64{0, 0.12, -0.12, 0.22, -0.22, 0.3, -0.3} {
		a := c.start + c.angle/2 + unit.Angle(lean)*c.angle
		first := c.least + w.support(width, a) + gap + 0.2
		for d := first; d < min(70+c.lost, c.shorter*0.7); d++ {
			r := d - w.support(width, a) - gap - 0.2
			if r > 45+c.lost {
				break
			}
			all = append(all, candidate{
				text: w.at(c.at.Toward(a, d), 0), marks: []draw.Op{c.sign(r)},
				cost: w.cost + float64(d-first)*0.7 + math.Abs(lean)*20,
			})
		}
	}
	return all
}

// over adds the places for which the arc runs out over a side.
func (c inside) over(all []candidate, w costly, width unit.Length) []candidate {
	for _, r := range []unit.Length{8, 11, 14, 18, 23, 29, 36} {
		if r < c.least || r > c.shorter*0.9 {
			continue
		}
		for _, over := range []unit.Length{4, 6, 9, 13} {
			more := unit.Angle(over / r)
			cost := w.cost + 12 + float64(over) + float64(r)*0.3
			// Over the side to the left hand of the bisector, then over the other.
			for _, arc := range []struct{ from, sweep, on unit.Angle }{{c.start, c.angle + more, unit.Turn / 4}, {c.start + c.angle, -c.angle - more, -unit.Turn / 4}} {
				end := arc.from + arc.sweep
				out := w.support(width, end+arc.on) + gap + 0.3
				all = append(all, candidate{
					text:  w.at(c.at.Toward(end, r).Toward(end+arc.on, out), 0),
					marks: []draw.Op{c.arc(r, arc.from, arc.sweep)}, cost: cost,
				})
			}
		}
	}
	return all
}

// sign is the small arc, of that radius, or the square.
func (c inside) sign(r unit.Length) draw.Op {
	if math.Abs(float64(c.angle-unit.Turn/4)) >= float64(rightWithin) {
		return c.arc(r, c.start, c.angle)
	}
	r = min(square, c.least)
	return draw.Polyline{Points: []geom.Point{
		c.at.Toward(c.start, r), c.at.Toward(c.start, r).Toward(c.start+c.angle, r), c.at.Toward(c.start+c.angle, r),
	}, Pen: draw.Narrow, On: draw.Dimension}
}

func (c inside) arc(r unit.Length, from, sweep unit.Angle) draw.Op {
	return draw.Arc{Arc: geom.Arc{Centre: c.at, Radius: r, Start: from, Sweep: sweep}, Pen: draw.Narrow, On: draw.Dimension}
}

// support is how far the box of the words reaches back from their middle, in a direction.
func (w label) support(width unit.Length, a unit.Angle) unit.Length {
	s, c := math.Sincos(float64(a))
	return width/2*unit.Length(math.Abs(c)) + w.height*0.85*unit.Length(math.Abs(s))
}
