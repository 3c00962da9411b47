package plan

import (
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/place"
)

// How far labels keep from each other and from strokes, on paper: 2 mm is the house's rule.
const (
	labelGap  unit.Length = 2
	strokeGap unit.Length = 0.9
)

// gaps are those two.
var gaps = place.Gaps{Ink: strokeGap, Words: labelGap}

// label puts words at the first place that is free and, where that is asked, right.
func (c *scene) label(l label, places []spot, right func(spot, geom.Polygon) bool) bool {
	z := l.size(c.r)
	for _, s := range places {
		if box := z.at(s); c.Free(box, gaps, place.NoLine) && (right == nil || right(s, box)) {
			c.put(l.at(s, c.r))
			return true
		}
	}
	return false
}

// lead puts words on a leader from their anchor, as near and across as little as can be,
// and says whether it could. Only the last resort goes over letters.
func (c *scene) lead(l label, reach unit.Length, lastResort bool) bool {
	if c.leadOver(l, reach, false) {
		return true
	}
	led := lastResort && c.leadOver(l, reach, true)
	c.over = c.over || led
	return led
}

// tried is a place that words may be led to, so far from their anchor, at about a cost.
type tried struct {
	s    spot
	d    unit.Length
	cost float64
}

// leads are places on rays about the anchor; where letters may not be crossed, those before
// the first of them.
func (c *scene) leads(l label, reach unit.Length, letters bool) []tried {
	const rays = 24
	all := make([]tried, 0, rays*24)
	w := l.width(c.r)
	for i := range rays {
		dir := unit.Turn * unit.Angle(i) / rays
		sin, cos := math.Sincos(float64(dir))
		wider := w / 2 * unit.Length(math.Abs(cos)) // the box is wider than high
		ray, most := geom.Line{From: l.anchor.Toward(dir, l.clear), To: l.anchor.Toward(dir, reach)}, reach
		if !letters { // behind a label there is no place that a leader comes to
			most = min(reach, l.clear+c.meets(ray)+l.height)
			ray.To = l.anchor.Toward(dir, most)
		}
		met := c.met(ray)
		for d := max(l.height, l.clear+1); d < most; d += max(1.8, d/8) {
			n := 0
			for n < len(met) && met[n]+l.clear < d {
				n++
			}
			at := geom.Point{X: l.anchor.X + (d+wider)*unit.Length(cos), Y: l.anchor.Y + (d+wider)*unit.Length(sin)}
			all = append(all, tried{spot{at, 0}, d, float64(d) + overLine*float64(n)})
		}
	}
	return all
}

func (c *scene) leadOver(l label, reach unit.Length, letters bool) bool {
	tries := c.leads(l, reach, letters)
	var at spot
	var leader geom.Line
	best, found, z, more := place.Never, false, l.size(c.r), mostTries
	place.Cheapest(len(tries), place.Never, func(i int) float64 { return tries[i].cost }, func(i int) (done bool, again float64) {
		t := tries[i]
		// What the ray crosses and the leader, which ends at the letters' nearest
		// place, does not, is little.
		if t.cost-2*overLine >= best || more == 0 {
			return true, place.Never
		}
		box := z.at(t.s)
		end := nearestOn(box, l.anchor)
		if float64(t.d) >= best || l.anchor.Distance(end) < l.clear+1 || !c.Free(box, gaps, place.NoLine) {
			return false, place.Never
		}
		to := geom.Line{From: l.anchor, To: end}.Direction()
		// The leader stops short of the letters.
		line := geom.Line{From: l.anchor.Toward(to, l.clear), To: end.Toward(to, -0.6)}
		most := mayCross(letters, best-float64(t.d))
		labels := c.overLabels(line, most)
		if labels > most {
			return false, place.Never
		}
		if found {
			more--
		}
		if cost := float64(t.d) + overLine*float64(c.overLines(line)) + overLabel*float64(labels); cost < best {
			at, leader, best, found = t.s, line, cost, true
		}
		return false, place.Never
	})
	if found {
		c.line(leader.From, leader.To, draw.Narrow, l.on)
		c.put(l.at(at, c.r))
	}
	return found
}

// mayCross is over how many parts of letters a leader may run that may cost so much.
func mayCross(letters bool, cost float64) int {
	if !letters {
		return 0
	}
	return int(min(cost, math.MaxInt32) / overLabel)
}

// What it costs a leader to cross a line or letters, in mm that it is longer.
const (
	overLine  = 6.0
	overLabel = 60.0
	mostTries = 40 // of better ones, once there is one
)

// met is how far along a ray it meets lines, each once, in order.
func (c *scene) met(ray geom.Line) []unit.Length {
	var at []unit.Length
	var seen []int
	dir := ray.Direction()
	for part := range parts(ray) {
		c.Ink.Every(part.Bounds(), func(s place.Stroke) bool {
			a, b := side(part, s.From), side(part, s.To)
			if a*b < 0 && side(s.Line, part.From)*side(s.Line, part.To) < 0 && !slices.Contains(seen, s.Of) {
				seen = append(seen, s.Of)
				p := s.At(a / (a - b))
				at = append(at, unit.Length(math.Cos(float64(dir)))*(p.X-ray.From.X)+unit.Length(math.Sin(float64(dir)))*(p.Y-ray.From.Y))
			}
			return true
		})
	}
	slices.Sort(at)
	return at
}

// meets is how far along a ray the first label is that it comes near.
func (c *scene) meets(ray geom.Line) unit.Length {
	for part := range parts(ray) {
		box := part.Bounds().Grow(labelGap)
		if !c.Boxes.Every(box, func(o geom.Polygon) bool { return !box.Meets(o.Bounds()) || o.ApartFrom(part) >= labelGap/2 }) {
			return part.From.Distance(ray.From)
		}
	}
	return ray.Length()
}

// side is twice the area of the triangle of a line and a place: positive on its left.
func side(l geom.Line, at geom.Point) float64 {
	return geom.Side(geom.VectorOf(l.From), geom.VectorOf(l.To), geom.VectorOf(at))
}

// nearestOn is the place on a shape's edge that is nearest to p.
func nearestOn(q geom.Polygon, p geom.Point) geom.Point {
	best := q[0]
	for i := range q {
		if n := q.Edge(i).Nearest(p); n.Distance(p) < best.Distance(p) {
			best = n
		}
	}
	return best
}

// parts of a line are short, so that little is filed near each.
func parts(l geom.Line) func(func(geom.Line) bool) {
	return func(yield func(geom.Line) bool) {
		n := max(1, math.Ceil(float64(l.Length()/inParts)))
		for i := 0.0; i < n && yield(geom.Line{From: l.At(i / n), To: l.At((i + 1) / n)}); i++ {
		}
	}
}

// label is words that belong to an anchor.
type label struct {
	words  string
	height unit.Length
	bold   bool
	on     draw.Layer
	anchor geom.Point
	clear  unit.Length // how far from the anchor a leader begins
}

// placedLabel is a label in its place.
type placedLabel struct {
	ops draw.Drawing
	box geom.Polygon
}

func (l label) width(r draw.Ruler) unit.Length {
	return r.Width(l.words, l.height, l.bold)
}

func (l label) at(s spot, r draw.Ruler) placedLabel {
	t := draw.Text{Height: l.height, Turn: s.turn, Align: draw.Middle, Bold: l.bold, Words: l.words, On: l.on}
	t.At = s.at.Toward(s.turn-unit.Turn/4, l.height/2)
	return placedLabel{draw.Drawing{t}, l.size(r).at(s)}
}

// size is the box of a label about the middle of its letters.
type size struct{ side, up, down unit.Length }

// below is how far letters reach below their line, in capital heights (draw.Text.Box).
const below = 0.35

func (l label) size(r draw.Ruler) size {
	return size{l.width(r) / 2, l.height / 2, l.height * (0.5 + below)}
}

func (z size) at(s spot) geom.Polygon {
	sin, cos := math.Sincos(float64(s.turn))
	corner := func(x, y unit.Length) geom.Point {
		return geom.Point{X: s.at.X + x*unit.Length(cos) - y*unit.Length(sin), Y: s.at.Y + x*unit.Length(sin) + y*unit.Length(cos)}
	}
	return geom.Polygon{corner(-z.side, -z.down), corner(z.side, -z.down), corner(z.side, z.up), corner(-z.side, z.up)}
}

// leaderStart is where the leader of a peg's name begins: outside its circle.
const leaderStart unit.Length = 1.8

// touches is how near a leader touches a line.
const touches unit.Length = 0.3

// overLines counts the lines that a leader crosses or touches.
func (c *scene) overLines(l geom.Line) int {
	var seen []int
	for part := range parts(l) {
		box := part.Bounds().Grow(touches)
		c.Ink.Every(box, func(s place.Stroke) bool {
			if box.Meets(s.Bounds()) && !slices.Contains(seen, s.Of) && part.Apart(s.Line) < touches {
				seen = append(seen, s.Of)
			}
			return true
		})
	}
	return len(seen)
}

// overLabels counts the parts of a leader that come near labels, no further than one more
// than matter.
func (c *scene) overLabels(l geom.Line, most int) (n int) {
	for part := range parts(l) {
		box := part.Bounds().Grow(labelGap)
		if !c.Boxes.Every(box, func(o geom.Polygon) bool { return !box.Meets(o.Bounds()) || o.ApartFrom(part) >= labelGap/2 }) {
			if n++; n > most {
				break
			}
		}
	}
	return n
}

// spot is a place for a label: the middle of its letters and their turn.
type spot struct {
	at   geom.Point
	turn unit.Angle
}
