// Package legible puts words where they can be read: beside what they belong to, clear of
// lines and other words, on one sheet or on whichever lies on top. Lengths are mm on paper.
//
// Files, from the top floor to the ground: places.go, scene.go.
package legible

import (
	"cmp"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/place"
)

// Label is words on their way to a place.
type Label struct {
	Say    string
	Height unit.Length
	Bold   bool
}

// Width is the length of words in a line.
func (s *Scene) Width(w Label) unit.Length { return s.Ruler.Width(w.Say, w.Height, w.Bold) }

// At centres the letters (not their box, which reaches lower) on a point.
func (w Label) At(centre geom.Point, turn unit.Angle) draw.Text {
	return draw.Text{
		At: centre.Toward(turn-unit.Turn/4, w.Height/2), Height: w.Height, Turn: turn,
		Align: draw.Middle, Bold: w.Bold, Words: w.Say, On: draw.Dimension,
	}
}

// Support is how far the box of the words reaches back from their middle, in a direction.
func (w Label) Support(width unit.Length, a unit.Angle) unit.Length {
	s, c := math.Sincos(float64(a))
	return width/2*unit.Length(math.Abs(c)) + w.Height*0.85*unit.Length(math.Abs(s))
}

// descends is how far the box of words reaches below their base line, in capital
// heights (draw.Text.Box).
const descends = 0.35

// Gap from the ink of a line to the box of the words beside it.
const Gap = toLine + 0.05

// BesideLine is words along a line, a share of the way along and off to the side
// of its left hand (side +1) or right hand (−1).
func BesideLine(l geom.Line, t float64, side int, pen unit.Length, w Label) draw.Text {
	dir := l.Direction()
	turn := place.Readable(Steep, dir)
	off := Gap + pen/2 + w.Height/2
	normal := dir + unit.Angle(side)*unit.Turn/4
	if math.Cos(float64(normal-turn-unit.Turn/4)) > 0 { // the line lies below the words
		off += descends * w.Height
	} else {
		off += 0.6 // figures have nothing below: keeps both sides alike to the eye
	}
	return w.At(l.At(t).Toward(normal, off), turn)
}

// Anchor is what words belong to, and where they stand best from it.
type Anchor struct {
	geom.Point
	Best  unit.Angle
	Clear unit.Length // of what is drawn about the point itself: a leader begins there
}

// Try is a parcel of candidates, and what its cheapest costs at least. They are made only
// when all that are cheaper found no room: a piece has thousands, and takes one of the
// first.
type Try struct {
	Least float64
	Make  func(all []Candidate) []Candidate // adds them
}

// Made is candidates that are made already.
func Made(ready []Candidate) Try {
	return Try{0, func(all []Candidate) []Candidate { return append(all, ready...) }}
}

// Cheapest puts down the best candidate of some parcels, those with a lower least first.
func (s *Scene) Cheapest(parcels []Try) bool {
	slices.SortStableFunc(parcels, func(a, b Try) int { return cmp.Compare(a.Least, b.Least) })
	all := s.spare[:0] // the memory of the last ones
	defer func() { s.spare = all }()
	for i, t := range parcels {
		most := place.Never
		if i+1 < len(parcels) {
			most = parcels[i+1].Least
		}
		if all = t.Make(all); s.placeFor(all, most) {
			return true
		}
	}
	return false
}

// EitherSide is 0, −1, 1, −2, 2 and so on.
func EitherSide(k int) float64 { return float64((k+1)/2) * float64(1-2*(k%2)) }

// Directions from the best one to all sides of it, and all round from one.
var Fan, Round = func() (fan [24]unit.Angle, round [16]unit.Angle) {
	for k := range fan {
		fan[k] = unit.Angle(EitherSide(k)) * 15 * unit.Degree
	}
	for k := range round {
		round[k] = unit.Turn / 16 * unit.Angle(k)
	}
	return fan, round
}()

// Ring is words about a point, from near to far off, turned from the best direction; cost
// is what a place costs besides its distance.
func (w Label) Ring(a Anchor, near, far unit.Length, turns []unit.Angle, cost func(at geom.Point, turn unit.Angle) float64) Try {
	return Try{float64(near), func(all []Candidate) []Candidate {
		for d := near; d <= far; d++ {
			for _, turn := range turns {
				at := a.Toward(a.Best+turn, d+w.Height/2)
				all = append(all, Candidate{Text: w.At(at, 0), Cost: float64(d) + cost(at, turn)})
			}
		}
		return all
	}}
}

// nearestLed is the shortest leader.
const nearestLed = 6

// Led is words away from an anchor at the end of a leader, in all directions.
func (s *Scene) Led(w Label, from Anchor, cost float64) Try {
	return Try{cost + nearestLed, func(all []Candidate) []Candidate {
		width := s.Width(w)
		reach := [...]unit.Length{nearestLed, 8, 10, 13, 16, 20, 25, 31, 38, 46}
		for _, d := range reach {
			for _, turn := range Fan {
				a := from.Best + turn
				end := from.Toward(a, d)
				// The words go on from the end of the leader, at half their height.
				text := draw.Text{Height: w.Height, Bold: w.Bold, Words: w.Say, On: draw.Dimension, Align: draw.Left}
				text.At = geom.Point{X: end.X + 1, Y: end.Y - w.Height/2}
				if c := math.Cos(float64(a)); c < -0.3 {
					text.At.X, text.Align = end.X-1, draw.Right
				} else if c < 0.3 { // steep: above or below the end
					text.Align, text.At.X = draw.Middle, end.X
					if text.At.Y = end.Y + 1 + descends*w.Height; math.Sin(float64(a)) < 0 {
						text.At.Y = end.Y - 1 - w.Height
					}
				}
				cost := cost + float64(d) + math.Abs(turn.Degrees())/15 + float64(width)/100
				all = append(all, Candidate{Text: text, leader: geom.Line{From: from.Toward(a, from.Clear), To: end}, Cost: cost})
			}
		}
		return all
	}}
}

// Crossing lets leaders cross lines, for what that costs, which is right for other words too.
func (t Try) Crossing(what Crosses, cost float64) Try {
	return t.each(t.Least+cost, func(c *Candidate) {
		c.over = what
		c.Cost += cost
	})
}

// Marked puts marks to all candidates.
func (t Try) Marked(marks ...draw.Op) Try {
	return t.each(t.Least, func(c *Candidate) { c.Marks = marks })
}

// Surely keeps words from where another sheet may lie over them.
func (t Try) Surely() Try {
	return t.each(t.Least, func(c *Candidate) { c.sure = true })
}

// each is the same candidates with something changed.
func (t Try) each(least float64, change func(*Candidate)) Try {
	return Try{least, func(all []Candidate) []Candidate {
		from := len(all)
		all = t.Make(all)
		for k := range all[from:] {
			change(&all[from+k])
		}
		return all
	}}
}

// Named are words that say themselves what they belong to, near it but without a
// leader: the last resort where lines close in what is to be named.
func (w Label) Named(near geom.Point) Try {
	return Try{200, func(all []Candidate) []Candidate {
		for d := unit.Length(8); d < 250; d += 4 {
			n := 8 + int(d/8)
			for k := range n {
				a := unit.Turn * unit.Angle(k) / unit.Angle(n)
				all = append(all, Candidate{Text: w.At(near.Toward(a, d), 0), Cost: 192 + float64(d)})
			}
		}
		return all
	}}
}

// AlongArc is words that touch a tangent of the arc with their middle, on its
// outer side; or on its inner side, where the ends of the words are what comes
// nearest to it. Empty where the arc is too small for that.
func AlongArc(a geom.Arc, t float64, outer bool, w Label, width unit.Length) draw.Text {
	radial := a.Start + unit.Angle(t)*a.Sweep
	turn := place.Readable(Steep, radial+unit.Turn/4)
	above := math.Cos(float64(radial-turn-unit.Turn/4)) > 0 // the words' up is away from the centre
	clear := Gap + draw.Thin.Width/2 + place.Sag
	// From the edge of their box that is nearest to the arc to the middle of the letters.
	toMiddle := w.Height / 2
	if above == outer {
		toMiddle += descends * w.Height
	}
	if outer {
		return w.At(a.Centre.Toward(radial, a.Radius+clear+toMiddle), turn)
	}
	in, half := float64(a.Radius-clear), float64(width/2)
	if in <= half {
		return draw.Text{}
	}
	return w.At(a.Centre.Toward(radial, unit.Length(math.Sqrt(in*in-half*half))-toMiddle), turn)
}

// Steep is how far words along a line fall at most, so that they read from below or from
// the right of the sheet (ISO 129).
const Steep = 80 * unit.Degree
