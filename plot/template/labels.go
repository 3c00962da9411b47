package template

import (
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/place"
)

// words are a label on its way to a place.
type words struct {
	say    string
	height unit.Length
	bold   bool
}

func (f *face) width(w words) unit.Length {
	return f.scene.ruler.Width(w.say, w.height, w.bold)
}

// at centres the letters (not their box, which reaches lower) on a point.
func (w words) at(centre geom.Point, turn unit.Angle) draw.Text {
	return draw.Text{
		At: centre.Toward(turn-unit.Turn/4, w.height/2), Height: w.height, Turn: turn,
		Align: draw.Middle, Bold: w.bold, Words: w.say, On: draw.Dimension,
	}
}

// descends is how far the box of words reaches below their base line, in capital
// heights (draw.Text.Box).
const descends = 0.35

// readable turns a direction so that words along it read from below or from the
// right of the sheet (ISO 129): from 80° falling to 100° rising.
func readable(a unit.Angle) unit.Angle {
	a = unit.Angle(math.Remainder(float64(a), float64(unit.Turn/2)))
	if a <= -80*unit.Degree {
		a += unit.Turn / 2
	}
	return a
}

// gap from the ink of a line to the box of the words beside it.
const gap = toLine + 0.05

// besideLine is words along a line, a share of the way along and off to the side
// of its left hand (side +1) or right hand (−1).
func besideLine(l geom.Line, t float64, side int, pen unit.Length, w words) draw.Text {
	dir := l.Direction()
	turn := readable(dir)
	off := gap + pen/2 + w.height/2
	normal := dir + unit.Angle(side)*unit.Turn/4
	if math.Cos(float64(normal-turn-unit.Turn/4)) > 0 { // the line lies below the words
		off += descends * w.height
	} else {
		off += 0.6 // figures have nothing below: keeps both sides alike to the eye
	}
	return w.at(l.At(t).Toward(normal, off), turn)
}

// heights of lettering to try, the wanted one first.
func (f *face) heights(wanted unit.Length) []unit.Length {
	if wanted <= draw.NoteHeight {
		return []unit.Length{draw.NoteHeight}
	}
	return []unit.Length{wanted, draw.NoteHeight}
}

const smaller = 8 // what it costs to write smaller

// led adds words away from an anchor at the end of a leader, in all directions, best
// towards the given one.
func (f *face) led(all []candidate, w words, anchor geom.Point, toward unit.Angle, cost float64) []candidate {
	width := f.width(w)
	away := []unit.Length{6, 8, 10, 13, 16, 20, 25, 31, 38, 46}
	const ways = 24
	all = slices.Grow(all, len(away)*ways)
	leaders := make([]geom.Line, 0, len(away)*ways)
	for _, d := range away {
		for k := range ways {
			turn := unit.Angle((k+1)/2) * 15 * unit.Degree
			if k%2 == 1 {
				turn = -turn
			}
			a := toward + turn
			end := anchor.Toward(a, d)
			// The words go on from the end of the leader, at half their height.
			text := draw.Text{Height: w.height, Bold: w.bold, Words: w.say, On: draw.Dimension, Align: draw.Left}
			text.At = geom.Point{X: end.X + 1, Y: end.Y - w.height/2}
			if c := math.Cos(float64(a)); c < -0.3 {
				text.At.X, text.Align = end.X-1, draw.Right
			} else if c < 0.3 { // steep: above or below the end
				text.Align, text.At.X = draw.Middle, end.X
				if text.At.Y = end.Y + 1 + descends*w.height; math.Sin(float64(a)) < 0 {
					text.At.Y = end.Y - 1 - w.height
				}
			}
			leaders = append(leaders, geom.Line{From: anchor, To: end})
			all = append(all, candidate{text: text, leader: &leaders[len(leaders)-1], cost: cost + float64(d) + math.Abs(turn.Degrees())/15 + float64(width)/100})
		}
	}
	return all
}

// named are words that say themselves what they belong to, near it but without a
// leader: the last resort where lines close in what is to be named.
func (f *face) named(what, figure string, near geom.Point) []candidate {
	var all []candidate
	w := words{what + " " + figure, draw.NoteHeight, false}
	for d := unit.Length(8); d < 250; d += 4 {
		n := 8 + int(d/8)
		for k := range n {
			a := unit.Turn * unit.Angle(k) / unit.Angle(n)
			all = append(all, candidate{text: w.at(near.Toward(a, d), 0), cost: 100 + float64(d)})
		}
	}
	return all
}

// put puts down the best of the candidates, or else the last resorts, which are
// made only when they are needed.
func (f *face) put(all []candidate, last func() []candidate) {
	f.spare = all
	if f.scene.place(all) {
		return
	}
	if others := last(); !f.scene.place(others) {
		if all = append(all, others...); len(all) > 0 {
			f.missed = append(f.missed, all[0].text.Words)
		}
	}
}

// inward is the direction of the bisector into corner i.
func (f *face) inward(i int) unit.Angle {
	return f.outline.Edge(i).Direction() + f.corners.Angles[i]/2
}

// others are the corners but for corner i.
func (f *face) others(i int) []geom.Point {
	return append(append([]geom.Point{}, f.outline[:i]...), f.outline[i+1:]...)
}

// letterCorners writes the names outside their corners, on the bisectors.
func (f *face) letterCorners() {
	for i, p := range f.outline {
		all := f.spare[:0]
		others := f.others(i)
		out := f.inward(i) + unit.Turn/2
		placed := false
		for _, h := range []unit.Length{draw.CornerHeight, draw.TitleHeight, draw.FigureHeight} {
			w := words{string(f.corners.Names[i]), h, true}
			less := float64(draw.CornerHeight-h) * 4
			const close unit.Length = 4
			// Smaller letters are made only where larger ones cost as much.
			if placed = f.scene.placeFor(all, less+float64(close)); placed {
				break
			}
			for d := close; d <= 30; d++ {
				for k := range 24 {
					turn := unit.Angle((k+1)/2) * 15 * unit.Degree
					if k%2 == 1 {
						turn = -turn
					}
					cost := less + float64(d) + turn.Degrees()*turn.Degrees()/1200
					if math.Abs(float64(turn)) > float64(unit.Turn/4) {
						cost += 10 // beside or inside the piece
					}
					at := p.Toward(out+turn, d+h/2)
					if p.Distance(at)+1 > nearest(others, at) {
						continue // it would be taken for another corner's
					}
					all = append(all, candidate{text: w.at(at, 0), cost: cost})
				}
			}
		}
		if placed {
			f.spare = all
			continue
		}
		all = f.led(all, words{string(f.corners.Names[i]), draw.TitleHeight, true}, p, out, 40)
		f.put(all, func() []candidate {
			last := f.led(nil, words{string(f.corners.Names[i]), draw.FigureHeight, true}, p, out, 0)
			for k := range last {
				last[k].over = true
			}
			return last
		})
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
			said = f.sideName(i) + " " + figure
		}
		places := f.alongLine(f.spare[:0], side, said, draw.Wide.Width, []float64{0, 12})
		if f.piece.shaped() { // outside of both lines, or inside of both
			const never = 1e6
			out, in := 0.0, 12.0
			if f.piece.Shape.Sides[i].Allow < 0 { // beside the line that is cut, which it is of
				out, in = in, out
			}
			places = f.alongLine(places[:0], f.outerLine(i), said, draw.Wide.Width, []float64{out})
			places = f.alongLine(places, f.innerLine(i), said, draw.Wide.Width, []float64{never, in})
		}
		f.put(places,
			func() []candidate { return f.named(f.sideName(i), figure, side.At(0.5)) })
		if o, ok := f.scene.drawing[len(f.scene.drawing)-1].(draw.Text); ok {
			f.figured[i] = o.At
		}
	}
}

// sideName is the names of the corners that side i runs between.
func (f *face) sideName(i int) string { return f.corners.Side(i) }

// alongLine adds the places for a figure along a line: beside its middle on the
// right hand of it and on the left hand, for what each costs; moved along; smaller;
// and out by a leader.
func (f *face) alongLine(all []candidate, l geom.Line, figure string, pen unit.Length, sides []float64) []candidate {
	length := l.Length()
	for _, h := range f.heights(f.style.lettering()) {
		w := words{figure, h, false}
		less := 0.0
		if h < f.style.lettering() {
			less = smaller
		}
		width := f.width(w)
		if width <= 1.1*length {
			// Far along too, since pages may be left out; in steps that miss none.
			reach := min(max(length-width, 0)/2+2, length*0.45)
			for s := unit.Length(0); s <= reach; s += min(max(3, s/16), 30) {
				for _, shift := range []unit.Length{s, -s} {
					for k, cost := range sides {
						t := 0.5 + float64(shift/length)
						all = append(all, candidate{text: besideLine(l, t, 2*k-1, pen, w), cost: cost + less + float64(s)*0.25})
					}
				}
			}
		}
	}
	w := words{figure, draw.NoteHeight, false}
	for _, t := range []float64{0.5, 0.35, 0.65} {
		all = f.led(all, w, l.At(t), l.Direction()-unit.Turn/4, 25+20*math.Abs(t-0.5))
	}
	return all
}

// figureHeight writes the height beside its line.
func (f *face) figureHeight() {
	if f.height == nil {
		return
	}
	all := f.alongLine(f.spare[:0], f.height.Line, f.height.figure, draw.Centre.Width, []float64{0, 0})
	w := words{f.height.figure, draw.NoteHeight, false}
	all = f.led(all, w, f.height.To, f.height.Direction(), 25)
	f.put(all, func() []candidate {
		return f.named(string(f.corners.Names[2])+"–"+f.sideName(0), f.height.figure, f.outline[2])
	})
}

// figureArcs writes centre and radius along each arc.
func (f *face) figureArcs() {
	for _, a := range f.arcs {
		w := words{a.words, draw.NoteHeight, false}
		width := f.width(w)
		half := float64(a.Sweep) / 2
		all := f.spare[:0]
		n := max(8, int(math.Ceil(half*float64(a.Radius)/3)))
		for k := -n; k <= n; k++ {
			t := 0.5 + float64(k)/float64(2*n)
			from := math.Abs(float64(k)/float64(n)) * half * float64(a.Radius) // the crossing, along the arc
			cost := math.Abs(from-math.Min(half/2*float64(a.Radius), 25)) * 0.2
			all = append(all, candidate{text: alongArc(a.Arc, t, true, w, width), cost: cost})
			if in := alongArc(a.Arc, t, false, w, width); in.Words != "" {
				all = append(all, candidate{text: in, cost: cost + 1})
			}
		}
		for _, t := range []float64{0, 1, 0.1, 0.9} {
			out := a.Start + unit.Angle(t)*a.Sweep
			if t < 0.5 {
				out -= unit.Turn / 4
			} else {
				out += unit.Turn / 4
			}
			all = f.led(all, w, a.At(t), out, 20)
		}
		f.put(all, func() []candidate { return f.named("arc", a.words, a.At(0.5)) })
	}
}

// alongArc is words that touch a tangent of the arc with their middle, on its
// outer side; or on its inner side, where the ends of the words are what comes
// nearest to it. Empty where the arc is too small for that.
func alongArc(a geom.Arc, t float64, outer bool, w words, width unit.Length) draw.Text {
	radial := a.Start + unit.Angle(t)*a.Sweep
	turn := readable(radial + unit.Turn/4)
	above := math.Cos(float64(radial-turn-unit.Turn/4)) > 0 // the words' up is away from the centre
	clear := gap + draw.Narrow.Width/2 + place.Sag
	// From the edge of their box that is nearest to the arc to the middle of the letters.
	toMiddle := w.height / 2
	if above == outer {
		toMiddle += descends * w.height
	}
	if outer {
		return w.at(a.Centre.Toward(radial, a.Radius+clear+toMiddle), turn)
	}
	in, half := float64(a.Radius-clear), float64(width/2)
	if in <= half {
		return draw.Text{}
	}
	return w.at(a.Centre.Toward(radial, unit.Length(math.Sqrt(in*in-half*half))-toMiddle), turn)
}
