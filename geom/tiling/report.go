package tiling

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
)

// Layout is a grid laid at one shift: every tile and piece of it. Places are in the
// frame of the grid.
type Layout struct {
	Shift     geom.Point
	Whole     []Spot
	Pieces    []Piece
	Kinds     []Kind
	Dropped   int // parts no wider than Slack, left to the gap
	Measures  Measures
	UnderHalf int // pieces narrower than half of a tile's shorter side less a joint
	Areas     Areas
	Groups    [][]Laid // the pieces of each tile that is cut
	Bought    int      // tiles, whole ones and those that are cut
	Least     int      // no cutting plan of this kind takes fewer
	standing  bool     // a herringbone
}

// Areas of a layout, mm². What is left of the region is joints.
type Areas struct{ Region, Whole, Cut, Dropped unit.Area }

// Joints is the area between the tiles.
func (a Areas) Joints() unit.Area { return a.Region - a.Whole - a.Cut - a.Dropped }

// report is everything about one shift.
func (l *layer) report(shift vec) Layout {
	out := Layout{Shift: shift.Point(), Measures: l.measure(shift), standing: l.grid.pattern == Herringbone}
	for _, ring := range l.cut.rings {
		out.Areas.Region += unit.Area(signed(ring))
	}
	l.walk(shift, func(s Spot, b box, state where, parts []part) {
		if state == within {
			out.Whole = append(out.Whole, s)
			out.Areas.Whole += unit.Area(l.insideArea(b))
			return
		}
		for _, p := range parts {
			if l.widths.caliper(p.outer) <= Slack {
				out.Dropped++
				out.Areas.Dropped += unit.Area(p.area())
				continue
			}
			out.Areas.Cut += unit.Area(p.area())
			out.Pieces = append(out.Pieces, l.piece(s, b, p))
		}
	})
	for _, p := range out.Pieces {
		if p.Width < l.grid.half()-1e-6 {
			out.UnderHalf++
		}
	}
	out.Kinds = kindsOf(out.Pieces, l.grid)
	c := newCutting(out.Pieces, l.grid)
	out.Groups = c.groups()
	out.Bought = len(out.Whole) + len(out.Groups)
	out.Least = c.least(len(out.Whole))
	return out
}

// insideArea is how much of a whole tile lies in the region: all but what stands into
// the gap by less than Slack.
func (l *layer) insideArea(b box) float64 {
	if l.field.of(b) == within {
		return b.area()
	}
	return b.area() - max(l.lost(b), 0)
}

// piece is a part of a tile with its figures, in room of its own.
func (l *layer) piece(s Spot, b box, p part) Piece {
	own := func(ring []vec) (laid, lying []vec) {
		for _, q := range ring {
			laid = append(laid, q)
			r := q.Minus(b.min)
			if s.Standing {
				r = vec{X: r.Y, Y: l.grid.t2 - r.X}
			}
			lying = append(lying, r)
		}
		return laid, lying
	}
	out := Piece{Spot: s, Tile: b, Width: l.widths.width(p), Area: p.area(), Corners: corners(p, b)}
	out.Of.outer, out.Own.outer = own(straightened(append([]vec(nil), p.outer...)))
	for _, h := range p.holes {
		laid, lying := own(h)
		out.Of.holes, out.Own.holes = append(out.Of.holes, laid), append(out.Own.holes, lying)
	}
	return out
}

// narrowest is the number of the narrowest piece; ok is false where nothing is cut.
func (l Layout) Narrowest() (i int, ok bool) {
	least := math.Inf(1)
	for k, p := range l.Pieces {
		if p.Width < least-1e-9 {
			i, least, ok = k, p.Width, true
		}
	}
	return i, ok
}
