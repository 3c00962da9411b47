package template

import (
	"math"

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
			bare := f.named(string(f.corners.Names[i]), figure, f.outline[i])
			last := make([]candidate, 0, 2*len(bare))
			for _, c := range bare {
				c.marks = []draw.Op{sign}
				last = append(last, c)
			}
			for _, c := range bare {
				c.cost += 1000
				last = append(last, c)
			}
			return last
		})
	}
}

// atCorner are the places for an angle at corner i, and the sign for it alone: the
// small arc or square that stands in the corner.
func (f *face) atCorner(i int, figure string) ([]candidate, draw.Op) {
	p, angle := f.outline[i], f.corners.Angles[i]
	start := f.outline.Edge(i).Direction()
	shorter := min(f.outline.Edge(i).Length(), f.outline.Edge(f.corners.Before(i)).Length())
	right := math.Abs(float64(angle-unit.Turn/4)) < float64(rightWithin)
	least := min(10, shorter*0.3) // radius of the small arc
	lost := f.lost(i)
	if lost > 0 {
		least = min(least+lost, shorter*0.4)
	}
	arc := func(r unit.Length, from, sweep unit.Angle) draw.Op {
		return draw.Arc{Arc: geom.Arc{Centre: p, Radius: r, Start: from, Sweep: sweep}, Pen: draw.Narrow, On: draw.Dimension}
	}
	sign := func(r unit.Length) draw.Op {
		if !right {
			return arc(r, start, angle)
		}
		r = min(square, least)
		return draw.Polyline{Points: []geom.Point{
			p.Toward(start, r), p.Toward(start, r).Toward(start+angle, r), p.Toward(start+angle, r),
		}, Pen: draw.Narrow, On: draw.Dimension}
	}
	all := f.spare[:0]
	for _, h := range f.heights(f.style.lettering()) {
		w := words{figure, h, false}
		less := 0.0
		if h < f.style.lettering() {
			less = smaller
		}
		width := f.width(w)
		// support is how far the box of the words reaches back towards the corner.
		support := func(a unit.Angle) unit.Length {
			s, c := math.Sincos(float64(a))
			return width/2*unit.Length(math.Abs(c)) + h*0.85*unit.Length(math.Abs(s))
		}
		for _, lean := range []float64{0, 0.12, -0.12, 0.22, -0.22, 0.3, -0.3} {
			a := start + angle/2 + unit.Angle(lean)*angle
			first := least + support(a) + gap + 0.2
			for d := first; d < min(70+lost, shorter*0.7); d++ {
				r := d - support(a) - gap - 0.2
				if r > 45+lost {
					break
				}
				all = append(all, candidate{
					text: w.at(p.Toward(a, d), 0), marks: []draw.Op{sign(r)},
					cost: less + float64(d-first)*0.7 + math.Abs(lean)*20,
				})
			}
		}
		for _, r := range []unit.Length{8, 11, 14, 18, 23, 29, 36} {
			if r < least || r > shorter*0.9 {
				continue
			}
			for _, over := range []unit.Length{4, 6, 9, 13} {
				more := unit.Angle(over / r)
				cost := less + 12 + float64(over) + float64(r)*0.3
				// Over the side to the left hand of the bisector, then over the other.
				end := start + angle + more
				along := end + unit.Turn/4
				all = append(all, candidate{
					text:  w.at(p.Toward(end, r).Toward(along, support(along)+gap+0.3), 0),
					marks: []draw.Op{arc(r, start, angle+more)}, cost: cost,
				})
				end = start - more
				along = end - unit.Turn/4
				all = append(all, candidate{
					text:  w.at(p.Toward(end, r).Toward(along, support(along)+gap+0.3), 0),
					marks: []draw.Op{arc(r, start+angle, -angle-more)}, cost: cost,
				})
			}
		}
	}
	return f.led(all, words{figure, draw.NoteHeight, false}, p, start+angle/2+unit.Turn/2, 45), sign(least)
}
