package template

import (
	"cmp"
	"math"
	"slices"

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

// support is how far the box of the words reaches back from their middle, in a direction.
func (w label) support(width unit.Length, a unit.Angle) unit.Length {
	s, c := math.Sincos(float64(a))
	return width/2*unit.Length(math.Abs(c)) + w.height*0.85*unit.Length(math.Abs(s))
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

// anchor is what words belong to, and where they stand best from it.
type anchor struct {
	geom.Point
	best  unit.Angle
	clear unit.Length // of what is drawn about the point itself: a leader begins there
}

// try is a parcel of candidates, and what its cheapest costs at least. They are made only
// when all that are cheaper found no room: a piece has thousands, and takes one of the
// first.
type try struct {
	least float64
	make  func(all []candidate) []candidate // adds them
}

// made is candidates that are made already.
func made(ready []candidate) try {
	return try{0, func(all []candidate) []candidate { return append(all, ready...) }}
}

// cheapest puts down the best candidate of some parcels, those with a lower least first.
func (s *scene) cheapest(parcels []try) bool {
	slices.SortStableFunc(parcels, func(a, b try) int { return cmp.Compare(a.least, b.least) })
	all := s.spare[:0] // the memory of the last ones
	defer func() { s.spare = all }()
	for i, t := range parcels {
		most := place.Never
		if i+1 < len(parcels) {
			most = parcels[i+1].least
		}
		if all = t.make(all); s.placeFor(all, most) {
			return true
		}
	}
	return false
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

// ring is words about a point, from near to far off, turned from the best direction; cost
// is what a place costs besides its distance.
func (w label) ring(a anchor, near, far unit.Length, turns []unit.Angle, cost func(at geom.Point, turn unit.Angle) float64) try {
	return try{float64(near), func(all []candidate) []candidate {
		for d := near; d <= far; d++ {
			for _, turn := range turns {
				at := a.Toward(a.best+turn, d+w.height/2)
				all = append(all, candidate{text: w.at(at, 0), cost: float64(d) + cost(at, turn)})
			}
		}
		return all
	}}
}

// nearestLed is the shortest leader.
const nearestLed = 6

// led is words away from an anchor at the end of a leader, in all directions.
func (s *scene) led(w label, from anchor, cost float64) try {
	return try{cost + nearestLed, func(all []candidate) []candidate {
		width := s.width(w)
		reach := [...]unit.Length{nearestLed, 8, 10, 13, 16, 20, 25, 31, 38, 46}
		for _, d := range reach {
			for _, turn := range fan {
				a := from.best + turn
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
				all = append(all, candidate{text: text, leader: geom.Line{From: from.Toward(a, from.clear), To: end}, cost: cost})
			}
		}
		return all
	}}
}

// crossing lets leaders cross lines, for what that costs, which is right for other words too.
func (t try) crossing(what crosses, cost float64) try {
	return t.each(t.least+cost, func(c *candidate) {
		c.over = what
		c.cost += cost
	})
}

// marked puts marks to all candidates.
func (t try) marked(marks ...draw.Op) try {
	return t.each(t.least, func(c *candidate) { c.marks = marks })
}

// surely keeps words from where another sheet may lie over them.
func (t try) surely() try {
	return t.each(t.least, func(c *candidate) { c.sure = true })
}

// each is the same candidates with something changed.
func (t try) each(least float64, change func(*candidate)) try {
	return try{least, func(all []candidate) []candidate {
		from := len(all)
		all = t.make(all)
		for k := range all[from:] {
			change(&all[from+k])
		}
		return all
	}}
}

// named are words that say themselves what they belong to, near it but without a
// leader: the last resort where lines close in what is to be named.
func (w label) named(near geom.Point) try {
	return try{200, func(all []candidate) []candidate {
		for d := unit.Length(8); d < 250; d += 4 {
			n := 8 + int(d/8)
			for k := range n {
				a := unit.Turn * unit.Angle(k) / unit.Angle(n)
				all = append(all, candidate{text: w.at(near.Toward(a, d), 0), cost: 192 + float64(d)})
			}
		}
		return all
	}}
}

// alongArc is words that touch a tangent of the arc with their middle, on its
// outer side; or on its inner side, where the ends of the words are what comes
// nearest to it. Empty where the arc is too small for that.
func alongArc(a geom.Arc, t float64, outer bool, w label, width unit.Length) draw.Text {
	radial := a.Start + unit.Angle(t)*a.Sweep
	turn := place.Readable(steep, radial+unit.Turn/4)
	above := math.Cos(float64(radial-turn-unit.Turn/4)) > 0 // the words' up is away from the centre
	clear := gap + draw.Thin.Width/2 + place.Sag
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
