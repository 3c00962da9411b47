package template

import (
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/legible"
	"trammel/plot/place"
)

// put puts down the best of the candidates.
func (f *face) put(say string, parcels ...legible.Try) {
	if !f.scene.Cheapest(parcels) {
		f.missed = append(f.missed, say)
	}
}

// putNear puts down words or, where they have no room, others that say themselves what
// they belong to.
func (f *face) putNear(w legible.Label, near geom.Point, parcels ...legible.Try) {
	f.put(w.Say, append(parcels, w.Named(near))...)
}

// letterCorners writes the names outside their corners, on the bisectors.
func (f *face) letterCorners() {
	for i, p := range f.outline {
		others := slices.Concat(f.outline[:i], f.outline[i+1:])
		from := legible.Anchor{Point: p, Best: f.inward(i) + unit.Turn/2, Clear: prick}
		w := legible.Label{Say: string(f.corners.Names[i]), Height: f.style.sized(draw.CornerHeight), Bold: true}
		cost := func(at geom.Point, turn unit.Angle) float64 {
			if p.Distance(at)+1 > nearest(others, at) {
				return place.Never // it would be taken for another corner's
			}
			cost := turn.Degrees() * turn.Degrees() / 1200
			if max(turn, -turn) > unit.Turn/4 {
				cost += 10 // beside or inside the piece
			}
			return cost
		}
		led, small := f.scene.Led(w, from, 40), legible.Label{Say: w.Say, Height: f.style.sized(draw.FigureHeight), Bold: true}
		f.put(w.Say, w.Ring(from, 4, 5, legible.Fan[:], cost), w.Ring(from, 6, 9, legible.Fan[:], cost), w.Ring(from, 10, 30, legible.Fan[:], cost), led,
			led.Crossing(legible.FineLines, legible.Crowded), small.Ring(from, 4, 30, legible.Fan[:], cost).Crossing(legible.Nothing, legible.Crowded*3/2),
			f.scene.Led(small, from, 0).Crossing(legible.Anything, 2*legible.Crowded))
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
		said := f.style.figure(figure)
		if len(f.plan.Cells) > 1 { // beside running distances it would be taken for one
			said.Say = f.corners.Side(i) + " " + figure
		}
		var places []legible.Try
		if !f.piece.shaped() {
			places = f.alongLine(side, said, draw.Wide.Width, []float64{0, 12})
		} else { // outside of both lines, or inside of both
			const never = 1e6
			out, in := 0.0, 12.0
			if f.piece.Shape.Sides[i].Allow < 0 { // beside the line that is cut, which it is of
				out, in = in, out
			}
			places = f.alongLine(f.sideLine(i, outer), said, draw.Wide.Width, []float64{out})
			places = append(places, f.alongLine(f.sideLine(i, inner), said, draw.Wide.Width, []float64{never, in})...)
		}
		f.putNear(f.style.figure(f.corners.Side(i)+" "+figure), side.At(0.5), places...)
		if o, ok := f.scene.Drawing[len(f.scene.Drawing)-1].(draw.Text); ok {
			f.figured[i] = o.At
		}
	}
}

// figure and note are words in their sizes.
func (s Style) figure(say string) legible.Label {
	return legible.Label{Say: say, Height: s.sized(draw.FigureHeight), Bold: false}
}

func (s Style) note(say string) legible.Label {
	return legible.Label{Say: say, Height: s.sized(draw.NoteHeight), Bold: false}
}

// alongLine is the places for a figure along a line: beside its middle on the right
// hand of it and on the left hand, for what each costs; moved along; and out by a leader.
func (f *face) alongLine(l geom.Line, w legible.Label, pen unit.Length, sides []float64) []legible.Try {
	beside := legible.Try{Least: slices.Min(sides), Make: func(all []legible.Candidate) []legible.Candidate {
		length, width := l.Length(), f.scene.Width(w)
		if width > 1.1*length {
			return all
		}
		// Far along too, since pages may be left out; in steps that miss none.
		reach := min(max(length-width, 0)/2+2, length*0.45)
		for s := unit.Length(0); s <= reach; s += min(max(3, s/16), 30) {
			for _, shift := range []unit.Length{s, -s} {
				for k, cost := range sides {
					t := 0.5 + float64(shift/length)
					all = append(all, legible.Candidate{Text: legible.BesideLine(l, t, 2*k-1, pen, w), Cost: cost + float64(s)*0.5})
				}
			}
		}
		return all
	}}
	all := []legible.Try{beside}
	for _, t := range []float64{0.5, 0.35, 0.65} {
		led := f.scene.Led(w, legible.Anchor{Point: l.At(t), Best: l.Direction() - unit.Turn/4}, 25+20*math.Abs(t-0.5))
		all = append(all, led, led.Crossing(legible.FineLines, legible.Crowded))
	}
	return all
}

// figureHeight writes the height beside its line.
func (f *face) figureHeight() {
	if f.height == (geom.Line{}) {
		return
	}
	w := f.style.figure(f.heightFigure)
	led := f.scene.Led(w, legible.Anchor{Point: f.height.To, Best: f.height.Direction()}, 25)
	places := append(f.alongLine(f.height, w, draw.Centre.Width, []float64{0, 0}), led, led.Crossing(legible.FineLines, legible.Crowded))
	k := f.piece.Apex()
	w.Say = string(f.corners.Names[k]) + "–" + f.corners.Side((k+1)%3) + " " + w.Say
	f.putNear(w, f.outline[k], places...)
}

// figureArcs writes centre and radius along each arc.
func (f *face) figureArcs() {
	for _, step := range f.piece.Construction.Steps {
		s, swings := step.(construct.Swing)
		if !swings || !f.style.Arcs || !f.pricks(s.About) {
			continue
		}
		a := f.plan.Place.Arc(swing(s))
		w := f.style.note(f.style.says().Steps().Radius(f.piece.ByHand(f.style), s))
		places := []legible.Try{f.along(a, w)}
		for _, t := range []float64{0, 1, 0.1, 0.9} {
			out := unit.Turn / 4
			if t < 0.5 {
				out = -out
			}
			led := f.scene.Led(w, legible.Anchor{Point: a.At(t), Best: a.Start + unit.Angle(t)*a.Sweep + out}, 20)
			places = append(places, led, led.Crossing(legible.FineLines, legible.Crowded))
		}
		w.Say = "arc " + w.Say
		f.putNear(w, a.At(0.5), places...)
	}
}

// along is the places for words along an arc, outside or inside of it.
func (f *face) along(a geom.Arc, w legible.Label) legible.Try {
	return legible.Try{Least: 0, Make: func(all []legible.Candidate) []legible.Candidate {
		width := f.scene.Width(w)
		half := float64(a.Sweep) / 2
		n := max(8, int(math.Ceil(half*float64(a.Radius)/3)))
		for k := -n; k <= n; k++ {
			t := 0.5 + float64(k)/float64(2*n)
			from := math.Abs(float64(k)/float64(n)) * half * float64(a.Radius) // the crossing, along the arc
			cost := math.Abs(from-math.Min(half/2*float64(a.Radius), 25)) * 0.2
			all = append(all, legible.Candidate{Text: legible.AlongArc(a, t, true, w, width), Cost: cost})
			if in := legible.AlongArc(a, t, false, w, width); in.Words != "" {
				all = append(all, legible.Candidate{Text: in, Cost: cost + 1})
			}
		}
		return all
	}}
}

// letterInner writes the names of the inner points beside their prick points.
func (f *face) letterInner() {
	for _, s := range f.innerPoints() {
		w, from := legible.Label{Say: string(s.Name), Height: f.style.sized(draw.TitleHeight), Bold: true}, legible.Anchor{Point: s.At, Best: unit.Turn / 8, Clear: prick}
		near := w.Ring(from, 3, 12, legible.Round[:], func(_ geom.Point, turn unit.Angle) float64 { return float64(turn / unit.Turn) })
		led := f.scene.Led(w, from, 30)
		f.put(w.Say, near, led, led.Crossing(legible.FineLines, legible.Crowded), led.Crossing(legible.Anything, 2*legible.Crowded))
	}
}
