package template

import (
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/place"
)

// put puts down the best of the candidates, or else the last resorts, which are
// made only when they are needed.
func (f *face) put(all []candidate, last func() []candidate) {
	if f.scene.place(all) {
		return
	}
	if others := last(); !f.scene.place(others) {
		if all = append(all, others...); len(all) > 0 {
			f.missed = append(f.missed, all[0].text.Words)
		}
	}
}

// putNear puts down words or, where they have no room, others that say themselves what
// they belong to.
func (f *face) putNear(all []candidate, say string, near geom.Point) {
	f.put(all, func() []candidate { return named(say, near) })
}

// putName puts down a name or, where it has no room, a smaller one whose leader may
// cross lines.
func (f *face) putName(all []candidate, name string, from anchor) {
	f.put(all, func() []candidate {
		return crossing(f.scene.led(nil, label{name, draw.FigureHeight, true}, from, 0), 0)
	})
}

// letterCorners writes the names outside their corners, on the bisectors.
func (f *face) letterCorners() {
	for i, p := range f.outline {
		all := f.scene.spare[:0]
		others := slices.Concat(f.outline[:i], f.outline[i+1:])
		from := anchor{p, f.inward(i) + unit.Turn/2}
		name, placed := string(f.corners.Names[i]), false
		for _, h := range []unit.Length{draw.CornerHeight, draw.TitleHeight, draw.FigureHeight} {
			w := label{name, h, true}
			less := float64(draw.CornerHeight-h) * 4
			const close unit.Length = 4
			// Smaller letters are made only where larger ones cost as much.
			if placed = f.scene.placeFor(all, less+float64(close)); placed {
				break
			}
			all = append(all, w.ring(from, close, 30, fan[:], func(at geom.Point, d unit.Length, turn unit.Angle) float64 {
				if p.Distance(at)+1 > nearest(others, at) {
					return place.Never // it would be taken for another corner's
				}
				cost := less + float64(d) + turn.Degrees()*turn.Degrees()/1200
				if max(turn, -turn) > unit.Turn/4 {
					cost += 10 // beside or inside the piece
				}
				return cost
			})...)
		}
		if !placed {
			f.putName(f.scene.led(all, label{name, draw.TitleHeight, true}, from, 40), name, from)
		}
	}
}

// figureSides writes each length beside the middle of its side, outside.
func (f *face) figureSides() {
	if !f.style.Lengths {
		return
	}
	for i := range f.outline {
		side := f.outline.Edge(i)
		figure := f.piece.edgeFigure(i, f.style)
		said := figure
		if len(f.plan.Cells) > 1 { // beside running distances it would be taken for one
			said = f.corners.Side(i) + " " + figure
		}
		var places []candidate
		if !f.piece.shaped() {
			places = f.alongLine(f.scene.spare[:0], side, said, draw.Wide.Width, []float64{0, 12})
		} else { // outside of both lines, or inside of both
			const never = 1e6
			out, in := 0.0, 12.0
			if f.piece.Shape.Sides[i].Allow < 0 { // beside the line that is cut, which it is of
				out, in = in, out
			}
			places = f.alongLine(f.scene.spare[:0], f.sideLine(i, outer), said, draw.Wide.Width, []float64{out})
			places = f.alongLine(places, f.sideLine(i, inner), said, draw.Wide.Width, []float64{never, in})
		}
		f.putNear(places, f.corners.Side(i)+" "+figure, side.At(0.5))
		if o, ok := f.scene.drawing[len(f.scene.drawing)-1].(draw.Text); ok {
			f.figured[i] = o.At
		}
	}
}

// alongLine adds the places for a figure along a line: beside its middle on the
// right hand of it and on the left hand, for what each costs; moved along; smaller;
// and out by a leader.
func (f *face) alongLine(all []candidate, l geom.Line, figure string, pen unit.Length, sides []float64) []candidate {
	length := l.Length()
	for _, w := range f.style.sized(figure) {
		width := f.scene.width(w.label)
		if width <= 1.1*length {
			// Far along too, since pages may be left out; in steps that miss none.
			reach := min(max(length-width, 0)/2+2, length*0.45)
			for s := unit.Length(0); s <= reach; s += min(max(3, s/16), 30) {
				for _, shift := range []unit.Length{s, -s} {
					for k, cost := range sides {
						t := 0.5 + float64(shift/length)
						all = append(all, candidate{text: besideLine(l, t, 2*k-1, pen, w.label), cost: cost + w.cost + float64(s)*0.25})
					}
				}
			}
		}
	}
	w := label{figure, draw.NoteHeight, false}
	for _, t := range []float64{0.5, 0.35, 0.65} {
		all = f.scene.led(all, w, anchor{l.At(t), l.Direction() - unit.Turn/4}, 25+20*math.Abs(t-0.5))
	}
	return all
}

// figureHeight writes the height beside its line.
func (f *face) figureHeight() {
	if f.height == (geom.Line{}) {
		return
	}
	all := f.alongLine(f.scene.spare[:0], f.height, f.heightFigure, draw.Centre.Width, []float64{0, 0})
	w := label{f.heightFigure, draw.NoteHeight, false}
	all = f.scene.led(all, w, anchor{f.height.To, f.height.Direction()}, 25)
	f.putNear(all, string(f.corners.Names[2])+"–"+f.corners.Side(0)+" "+f.heightFigure, f.outline[2])
}

// figureArcs writes centre and radius along each arc.
func (f *face) figureArcs() {
	for _, step := range f.piece.Construction.Steps {
		s, swings := step.(construct.Swing)
		if !swings || !f.style.Arcs || !f.pricks(s.About) {
			continue
		}
		a := f.plan.Place.Arc(swing(s))
		w := label{f.style.says().Steps().Radius(f.piece.byHand(f.style), s), draw.NoteHeight, false}
		width := f.scene.width(w)
		half := float64(a.Sweep) / 2
		all := f.scene.spare[:0]
		n := max(8, int(math.Ceil(half*float64(a.Radius)/3)))
		for k := -n; k <= n; k++ {
			t := 0.5 + float64(k)/float64(2*n)
			from := math.Abs(float64(k)/float64(n)) * half * float64(a.Radius) // the crossing, along the arc
			cost := math.Abs(from-math.Min(half/2*float64(a.Radius), 25)) * 0.2
			all = append(all, candidate{text: alongArc(a, t, true, w, width), cost: cost})
			if in := alongArc(a, t, false, w, width); in.Words != "" {
				all = append(all, candidate{text: in, cost: cost + 1})
			}
		}
		for _, t := range []float64{0, 1, 0.1, 0.9} {
			out := unit.Turn / 4
			if t < 0.5 {
				out = -out
			}
			all = f.scene.led(all, w, anchor{a.At(t), a.Start + unit.Angle(t)*a.Sweep + out}, 20)
		}
		f.putNear(all, "arc "+w.say, a.At(0.5))
	}
}

// letterInner writes the names of the inner points beside their prick points.
func (f *face) letterInner() {
	for _, s := range f.innerPoints() {
		w, from := label{string(s.Name), draw.TitleHeight, true}, anchor{s.At, unit.Turn / 8}
		all := w.ring(from, 3, 12, round[:], func(_ geom.Point, d unit.Length, turn unit.Angle) float64 {
			return float64(d) + float64(turn/unit.Turn)
		})
		f.putName(f.scene.led(all, w, from, 30), w.say, from)
	}
}
