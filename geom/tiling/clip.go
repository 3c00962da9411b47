package tiling

import "math"

// part is one connected part of what a rectangle cuts out of a region: its outer ring
// counter-clockwise, and openings, clockwise.
type part struct {
	outer []vec
	holes [][]vec
}

func (p part) area() float64 {
	sum := signed(p.outer)
	for _, h := range p.holes {
		sum += signed(h)
	}
	return sum
}

// has says whether a place lies in the part.
func (p part) has(at vec) bool {
	in := inside(p.outer, at)
	for _, h := range p.holes {
		in = in != inside(h, at)
	}
	return in
}

// within is a place in the part: in the middle of its first run on a level just above
// its lowest corner.
func (p part) within() vec {
	low, next := math.Inf(1), math.Inf(1)
	p.edges(func(a, _ vec) bool {
		switch {
		case a.Y < low-1e-9:
			low, next = a.Y, low
		case a.Y > low+1e-9:
			next = min(next, a.Y)
		}
		return true
	})
	level := (low + next) / 2
	first, second := math.Inf(1), math.Inf(1)
	p.edges(func(a, b vec) bool {
		if (a.Y > level) != (b.Y > level) {
			x := a.X + (b.X-a.X)*(level-a.Y)/(b.Y-a.Y)
			if x < first {
				x, first = first, x
			}
			second = min(second, x)
		}
		return true
	})
	return vec{X: (first + second) / 2, Y: level}
}

// edges calls do with every edge of the part until it returns false.
func (p part) edges(do func(a, b vec) bool) {
	for k := -1; k < len(p.holes); k++ {
		ring := p.outer
		if k >= 0 {
			ring = p.holes[k]
		}
		for i, b := range ring {
			if !do(ring[(i+len(ring)-1)%len(ring)], b) {
				return
			}
		}
	}
}

// clipper cuts rectangles out of a region. What it returns is good until its next
// cut: it reuses its room. Not for two at a time.
type clipper struct {
	rings  [][]vec
	boxes  []box // of the rings
	chains []chain
	whole  [][]vec // rings that lie in the rectangle
	points []vec
	begun  int // the first of the points of the ring that is being made
	parts  []part
	cuts   int
}

// chain is a run of a ring within a rectangle, from where it comes in to where it
// leaves. Where on the rectangle is told as its side and the share along it, 0 to 4.
type chain struct {
	points  []vec
	in, out float64
	used    bool
}

func newClipper(r Region) *clipper {
	c := &clipper{rings: r.rings}
	for _, ring := range r.rings {
		c.boxes = append(c.boxes, boxOf(ring))
	}
	return c
}

// uneven are by how much the sides of a rectangle are moved inward before it is cut
// out, in mm, each by its own, so that no corner of a region lies on them: a wall
// along a tile's edge is then on one side of it. Corners that come to lie on a moved
// side are put back onto the tile's.
var uneven = [4]float64{1.1e-8, 1.7e-8, 1.3e-8, 1.9e-8}

// cut is the parts of the region within the rectangle, corners within 1e-7 mm.
func (c *clipper) cut(b box) []part {
	c.cuts++
	c.chains, c.whole, c.parts, c.points = c.chains[:0], c.whole[:0], c.parts[:0], c.points[:0]
	if b.empty() {
		return nil
	}
	in := box{vec{X: b.min.X + uneven[0], Y: b.min.Y + uneven[1]}, vec{X: b.max.X - uneven[2], Y: b.max.Y - uneven[3]}}
	for i, ring := range c.rings {
		if c.boxes[i].meets(in) {
			c.run(ring, in)
		}
	}
	if len(c.chains) > 0 {
		c.join(in)
	} else if c.holds(in.min) {
		c.begin()
		c.points = append(c.points, in.min, vec{X: in.max.X, Y: in.min.Y}, in.max, vec{X: in.min.X, Y: in.max.Y})
		c.end()
	}
	c.place()
	for i := range c.parts {
		restore(c.parts[i].outer, in, b)
	}
	return c.parts
}

// run follows a ring through the rectangle and keeps what lies within.
func (c *clipper) run(ring []vec, b box) {
	start := -1
	for i, p := range ring {
		if !b.has(p) {
			start = i
			break
		}
	}
	if start < 0 {
		c.whole = append(c.whole, ring)
		return
	}
	open := false
	begun := 0
	for k := range ring {
		p, q := ring[(start+k)%len(ring)], ring[(start+k+1)%len(ring)]
		t0, t1, in, out, ok := through(p, q, b)
		if !ok {
			continue
		}
		way := q.Minus(p)
		if !open {
			if t0 <= 0 { // it begins on the edge itself: where it is counts as outside
				t0 = 0
			}
			begun = len(c.points)
			at := onSide(p.Plus(way.Times(t0)), in, b)
			c.points = append(c.points, at)
			c.chains = append(c.chains, chain{in: along(at, in, b)})
			open = true
		}
		if out < 0 {
			c.points = append(c.points, q)
			continue
		}
		at := onSide(p.Plus(way.Times(t1)), out, b)
		c.points = append(c.points, at)
		last := &c.chains[len(c.chains)-1]
		last.points, last.out = c.points[begun:len(c.points):len(c.points)], along(at, out, b)
		open = false
	}
	if open { // cannot be: the ring ends where it began, outside
		c.chains = c.chains[:len(c.chains)-1]
	}
}

// through is the part of the way from p to q within the rectangle, as shares of it,
// and by which side it comes in and leaves (0 lower, 1 right, 2 upper, 3 left; −1
// where it begins or ends inside).
func through(p, q vec, b box) (t0, t1 float64, in, out int, ok bool) {
	if p.X < b.min.X && q.X < b.min.X || p.X > b.max.X && q.X > b.max.X || p.Y < b.min.Y && q.Y < b.min.Y || p.Y > b.max.Y && q.Y > b.max.Y {
		return 0, 0, 0, 0, false
	}
	t1, in, out = 1, -1, -1
	dx, dy := q.X-p.X, q.Y-p.Y
	for side, e := range [4][2]float64{{-dy, p.Y - b.min.Y}, {dx, b.max.X - p.X}, {dy, b.max.Y - p.Y}, {-dx, p.X - b.min.X}} {
		switch slope, room := e[0], e[1]; {
		case slope == 0:
			if room < 0 {
				return 0, 0, 0, 0, false
			}
		case slope < 0:
			if t := room / slope; t > t0 {
				t0, in = t, side
			}
		default:
			if t := room / slope; t < t1 {
				t1, out = t, side
			}
		}
	}
	return t0, t1, in, out, t0 < t1
}

// onSide puts a place that rounding left beside a side onto it.
func onSide(p vec, side int, b box) vec {
	switch side {
	case 0:
		p.Y = b.min.Y
	case 1:
		p.X = b.max.X
	case 2:
		p.Y = b.max.Y
	case 3:
		p.X = b.min.X
	}
	return vec{X: min(max(p.X, b.min.X), b.max.X), Y: min(max(p.Y, b.min.Y), b.max.Y)}
}

// along is where on the rectangle's edge a place of a side lies, counter-clockwise
// from the lower left corner, 1 for each side.
func along(p vec, side int, b box) float64 {
	switch side {
	case 0:
		return (p.X - b.min.X) / b.width()
	case 1:
		return 1 + (p.Y-b.min.Y)/b.height()
	case 2:
		return 2 + (b.max.X-p.X)/b.width()
	default:
		return 3 + (b.max.Y-p.Y)/b.height()
	}
}

// join makes rings of chains: from where one leaves, along the rectangle
// counter-clockwise to where the next one comes in.
func (c *clipper) join(b box) {
	for first := range c.chains {
		if c.chains[first].used {
			continue
		}
		c.begin()
		for at := first; ; {
			now := &c.chains[at]
			now.used = true
			c.points = append(c.points, now.points...)
			next, way := first, math.Inf(1)
			for i := range c.chains {
				d := c.chains[i].in - now.out
				if d < 0 {
					d += 4
				}
				if d < way && (i == first || !c.chains[i].used) {
					next, way = i, d
				}
			}
			c.corners(now.out, way, b)
			if next == first {
				break
			}
			at = next
		}
		c.end()
	}
}

// corners adds the rectangle's corners on the way from a place of its edge.
func (c *clipper) corners(from, way float64, b box) {
	for k := math.Floor(from) + 1; k <= from+way; k++ {
		switch int(k) % 4 {
		case 0:
			c.points = append(c.points, b.min)
		case 1:
			c.points = append(c.points, vec{X: b.max.X, Y: b.min.Y})
		case 2:
			c.points = append(c.points, b.max)
		case 3:
			c.points = append(c.points, vec{X: b.min.X, Y: b.max.Y})
		}
	}
}

// begin and end make a part of the points added in between.
func (c *clipper) begin() { c.begun = len(c.points) }

func (c *clipper) end() {
	c.parts = append(c.parts, part{outer: c.points[c.begun:len(c.points):len(c.points)]})
}

// place puts rings that lie wholly in the rectangle: openings into the part that
// holds them, others as parts of their own.
func (c *clipper) place() {
	for _, ring := range c.whole {
		if signed(ring) > 0 {
			c.parts = append(c.parts, part{outer: append([]vec(nil), ring...)})
		}
	}
	for _, ring := range c.whole {
		if signed(ring) > 0 {
			continue
		}
		best, least := -1, math.Inf(1)
		for i := range c.parts {
			if a := signed(c.parts[i].outer); a < least && inside(c.parts[i].outer, ring[0]) {
				best, least = i, a
			}
		}
		if best >= 0 {
			c.parts[best].holes = append(c.parts[best].holes, ring)
		}
	}
}

// holds says whether the region has a place.
func (c *clipper) holds(p vec) bool {
	in := false
	for i, ring := range c.rings {
		if b := c.boxes[i]; p.Y > b.min.Y && p.Y < b.max.Y && inside(ring, p) {
			in = !in
		}
	}
	return in
}

// inside says whether a ring has a place, by the edges to the right of it.
func inside(ring []vec, p vec) bool {
	in := false
	for i, b := range ring {
		a := ring[(i+len(ring)-1)%len(ring)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(b.X-a.X)*(p.Y-a.Y)/(b.Y-a.Y) {
			in = !in
		}
	}
	return in
}

// restore puts corners that lie on the moved sides back onto the tile's own.
func restore(ring []vec, moved, own box) {
	for i, p := range ring {
		switch p.X {
		case moved.min.X:
			p.X = own.min.X
		case moved.max.X:
			p.X = own.max.X
		}
		switch p.Y {
		case moved.min.Y:
			p.Y = own.min.Y
		case moved.max.Y:
			p.Y = own.max.Y
		}
		ring[i] = p
	}
}
