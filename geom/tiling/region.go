package tiling

import (
	"errors"
	"math"

	"trammel/geom"
	"trammel/geom/area"
	"trammel/geom/unit"
)

// Floor is what is to be tiled, as measured: the ring of its walls,
// counter-clockwise, and what stands in it.
type Floor struct {
	Walls    geom.Polygon
	Gaps     []unit.Length // along each wall, from corner i to the next; 0 is none
	Openings []Opening
}

// Opening is what the tiles go round: a post, a shaft.
type Opening struct {
	Name string
	Ring geom.Polygon // counter-clockwise
	Gap  unit.Length  // all round it
}

// Region is what of a floor bears tiles: the floor less the strip along each wall and
// opening. Outer rings run counter-clockwise, each followed by its openings,
// clockwise; no corner lies on a straight run.
type Region struct {
	rings [][]vec
	parts int
}

// ErrNothing is a floor of which the gaps leave nothing.
var ErrNothing = errors.New("the gaps leave nothing of the floor")

// Region of the floor. Its corners are those that the lines have, within 1e-7 mm.
// Where the strips along the walls leave every wall its part and openings stand clear of them, rings
// are moved inward as they are; else the areas are cut.
func (f Floor) Region() (Region, error) {
	walls := vectors(f.Walls)
	whole := true
	outer, ok := inward(walls, f.Gaps)
	whole = whole && ok
	all := [][]vec{outer}
	for _, o := range f.Openings {
		hole := vectors(o.Ring)
		if signed(hole) > 0 {
			reverse(hole)
		}
		grown, ok := inward(hole, same(o.Gap, len(hole)))
		whole = whole && ok
		all = append(all, grown)
	}
	if whole && clearOf(all) {
		r := Region{parts: 1}
		for _, ring := range all {
			r.rings = append(r.rings, straightened(ring))
		}
		return r, nil
	}
	return f.cut()
}

func same(g unit.Length, n int) []unit.Length {
	all := make([]unit.Length, n)
	for i := range all {
		all[i] = g
	}
	return all
}

// clearOf says whether rings neither cross nor lie in one another, but all in the first.
func clearOf(rings [][]vec) bool {
	for i, r := range rings {
		for j, s := range rings[:i] {
			if j == 0 && !inside(s, r[0]) || j > 0 && (inside(s, r[0]) || inside(r, s[0])) {
				return false
			}
			for a := range r {
				for b := range s {
					if edgesApart(r[a], r[(a+1)%len(r)], s[b], s[(b+1)%len(s)]) < 1e-6 {
						return false
					}
				}
			}
		}
	}
	return true
}

// cut is the region by areas: the floor less its strips and openings, one by one.
func (f Floor) cut() (Region, error) {
	left, err := area.Of(f.Walls)
	if err != nil {
		return Region{}, err
	}
	exact := vectors(f.Walls)
	off := strips(vectors(f.Walls), f.Gaps)
	for _, o := range f.Openings {
		hole := vectors(o.Ring)
		if signed(hole) > 0 {
			reverse(hole)
		}
		off = append(off, hole)
		off = append(off, strips(hole, same(o.Gap, len(hole)))...)
	}
	for _, s := range off {
		exact = append(exact, s...)
		if left, err = less(left, s); err != nil {
			return Region{}, err
		}
	}
	r := regionOf(left, exact)
	if len(r.rings) == 0 {
		return Region{}, ErrNothing
	}
	return r, nil
}

// less takes a strip away. Where the sweep loses its way, as it may on edges that lie on
// one another, more or less area is left than can be: then the strip is moved by less than anybody
// sees.
func less(left area.Region, strip []vec) (area.Region, error) {
	before := float64(left.Area())
	var wrong error
	for k := range 4 {
		moved := make([]vec, len(strip))
		for i, p := range strip {
			moved[i] = p.Plus(vec{X: 1.3e-5, Y: 1.7e-5}.Times(float64(k)))
		}
		off, err := area.Of(polygon(moved))
		if err != nil {
			return left, err
		}
		after, err := left.Less(off)
		if wrong = err; err != nil {
			continue
		}
		if a := float64(after.Area()); a <= before+speck && a >= before-math.Abs(signed(strip))-speck {
			return after, nil
		}
		wrong = errLost
	}
	return left, wrong
}

var errLost = errors.New("the area of the floor could not be reckoned")

// speck is an area in mm² that is no part of a floor but rounding.
const speck = 1e-3

// regionOf takes rings from the sweep: corners that it set on its grid go back to
// where they are exactly, and those on a straight run go.
func regionOf(swept area.Region, exact []vec) Region {
	var r Region
	for _, ring := range swept.Rings() {
		at := vectors(ring)
		for i, p := range at {
			for _, e := range exact {
				if math.Abs(e.X-p.X) < 1e-6 && math.Abs(e.Y-p.Y) < 1e-6 {
					at[i] = e
					break
				}
			}
		}
		at = straightened(at)
		if len(at) < 3 || math.Abs(signed(at)) < speck {
			continue
		}
		r.rings = append(r.rings, at)
		if signed(at) > 0 {
			r.parts++
		}
	}
	return r
}

// straightened is a ring without corners that lie on the line of their neighbours,
// to a thousandth of a millimetre: on a straight run, or at the end of a needle that
// the sweep left.
func straightened(ring []vec) []vec {
	for again := true; again && len(ring) > 2; {
		again = false
		for i := 0; i < len(ring) && len(ring) > 2; i++ {
			a, b, c := ring[(i+len(ring)-1)%len(ring)], ring[i], ring[(i+1)%len(ring)]
			d := c.Minus(a).Size()
			if b.To(a) < 1e-6 || b.To(c) < 1e-6 || d < 1e-9 || math.Abs(geom.Side(a, c, b)) < 1e-3*d {
				ring = append(ring[:i:i], ring[i+1:]...)
				again = true
				i--
			}
		}
	}
	return ring
}

// Rings of the region as polygons, outer ones counter-clockwise and each followed by
// its openings, clockwise.
func (r Region) Rings() []geom.Polygon {
	all := make([]geom.Polygon, len(r.rings))
	for i, ring := range r.rings {
		all[i] = polygon(ring)
	}
	return all
}

// Parts is of how many parts the region is; one grid lies over all.
func (r Region) Parts() int { return r.parts }

// Area of the region.
func (r Region) Area() unit.Area {
	var sum float64
	for _, ring := range r.rings {
		sum += signed(ring)
	}
	return unit.Area(sum)
}

// turned is the region turned about the origin.
func (r Region) turned(by unit.Angle) Region {
	t := Region{parts: r.parts}
	for _, ring := range r.rings {
		all := make([]vec, len(ring))
		for i, p := range ring {
			all[i] = turnedExactly(p, by)
		}
		t.rings = append(t.rings, all)
	}
	return t
}

// turnedExactly turns about the origin; by quarters without rounding.
func turnedExactly(p vec, by unit.Angle) vec {
	if by == 0 {
		return p
	}
	return p.Turned(by)
}

func (r Region) bounds() box {
	b := boxOf(r.rings[0])
	for _, ring := range r.rings[1:] {
		c := boxOf(ring)
		b.min.X, b.min.Y = min(b.min.X, c.min.X), min(b.min.Y, c.min.Y)
		b.max.X, b.max.Y = max(b.max.X, c.max.X), max(b.max.Y, c.max.Y)
	}
	return b
}

func vectors(p geom.Polygon) []vec {
	all := make([]vec, len(p))
	for i, q := range p {
		all[i] = geom.VectorOf(q)
	}
	return all
}

func polygon(ring []vec) geom.Polygon {
	p := make(geom.Polygon, len(ring))
	for i, v := range ring {
		p[i] = v.Point()
	}
	return p
}

func reverse(ring []vec) {
	for i, j := 0, len(ring)-1; i < j; i, j = i+1, j-1 {
		ring[i], ring[j] = ring[j], ring[i]
	}
}
