package template

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/place"
)

// label is words on their way to a place.
type label struct {
	say    string
	height unit.Length
	bold   bool
}

func (s *scene) width(w label) unit.Length { return s.ruler.Width(w.say, w.height, w.bold) }

// at centres the letters (not their box, which reaches lower) on a point.
func (w label) at(centre geom.Point, turn unit.Angle) draw.Text {
	return draw.Text{
		At: centre.Toward(turn-unit.Turn/4, w.height/2), Height: w.height, Turn: turn,
		Align: draw.Middle, Bold: w.bold, Words: w.say, On: draw.Dimension,
	}
}

// descends is how far the box of words reaches below their base line, in capital
// heights (draw.Text.Box).
const descends = 0.35

// gap from the ink of a line to the box of the words beside it.
const gap = toLine + 0.05

// besideLine is words along a line, a share of the way along and off to the side
// of its left hand (side +1) or right hand (−1).
func besideLine(l geom.Line, t float64, side int, pen unit.Length, w label) draw.Text {
	dir := l.Direction()
	turn := place.Readable(steep, dir)
	off := gap + pen/2 + w.height/2
	normal := dir + unit.Angle(side)*unit.Turn/4
	if math.Cos(float64(normal-turn-unit.Turn/4)) > 0 { // the line lies below the words
		off += descends * w.height
	} else {
		off += 0.6 // figures have nothing below: keeps both sides alike to the eye
	}
	return w.at(l.At(t).Toward(normal, off), turn)
}

// sized are words in the lettering that is wanted and smaller, and what that costs.
func (s Style) sized(say string) []costly {
	wanted := costly{label{say, s.lettering(), false}, 0}
	if wanted.height <= draw.NoteHeight {
		return []costly{wanted}
	}
	return []costly{wanted, {label{say, draw.NoteHeight, false}, 8}}
}

type costly struct {
	label
	cost float64
}

// anchor is what words belong to, and where they stand best from it.
type anchor struct {
	geom.Point
	toward unit.Angle
}

// eitherSide is 0, −1, 1, −2, 2 and so on.
func eitherSide(k int) float64 { return float64((k+1)/2) * float64(1-2*(k%2)) }

// Directions from the best one to all sides of it, and all round from one.
var fan, round = func() (fan [24]unit.Angle, round [16]unit.Angle) {
	for k := range fan {
		fan[k] = unit.Angle(eitherSide(k)) * 15 * unit.Degree
	}
	for k := range round {
		round[k] = unit.Turn / 16 * unit.Angle(k)
	}
	return fan, round
}()

// ring is words about a point, from near to far off, turned from the best direction.
func (w label) ring(a anchor, near, far unit.Length, turns []unit.Angle, cost func(at geom.Point, d unit.Length, turn unit.Angle) float64) (all []candidate) {
	all = make([]candidate, 0, (int(far-near)+1)*len(turns))
	for d := near; d <= far; d++ {
		for _, turn := range turns {
			at := a.Toward(a.toward+turn, d+w.height/2)
			all = append(all, candidate{text: w.at(at, 0), cost: cost(at, d, turn)})
		}
	}
	return all
}

// led adds words away from an anchor at the end of a leader, in all directions; they are good
// until it is asked for other words.
func (s *scene) led(all []candidate, w label, from anchor, cost float64) []candidate {
	width, far := s.width(w), [...]unit.Length{6, 8, 10, 13, 16, 20, 25, 31, 38, 46}
	all = append(s.spare[:0], all...) // what was made for the last words is no longer needed
	for _, d := range far {
		for _, turn := range fan {
			a := from.toward + turn
			end := from.Toward(a, d)
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
			cost := cost + float64(d) + math.Abs(turn.Degrees())/15 + float64(width)/100
			all = append(all, candidate{text: text, leader: geom.Line{From: from.Point, To: end}, cost: cost})
		}
	}
	s.spare = all
	return all
}

// crossing lets leaders cross lines, for what that costs.
func crossing(all []candidate, cost float64) []candidate {
	for k := range all {
		all[k].over = true
		all[k].cost += cost
	}
	return all
}

// named are words that say themselves what they belong to, near it but without a
// leader: the last resort where lines close in what is to be named.
func named(say string, near geom.Point) (all []candidate) {
	w := label{say, draw.NoteHeight, false}
	for d := unit.Length(8); d < 250; d += 4 {
		n := 8 + int(d/8)
		for k := range n {
			a := unit.Turn * unit.Angle(k) / unit.Angle(n)
			all = append(all, candidate{text: w.at(near.Toward(a, d), 0), cost: 100 + float64(d)})
		}
	}
	return all
}

// alongArc is words that touch a tangent of the arc with their middle, on its
// outer side; or on its inner side, where the ends of the words are what comes
// nearest to it. Empty where the arc is too small for that.
func alongArc(a geom.Arc, t float64, outer bool, w label, width unit.Length) draw.Text {
	radial := a.Start + unit.Angle(t)*a.Sweep
	turn := place.Readable(steep, radial+unit.Turn/4)
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

// steep is how far words along a line fall at most, so that they read from below or from
// the right of the sheet (ISO 129).
const steep = 80 * unit.Degree
