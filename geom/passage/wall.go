package passage

import "trammel/geom"

// wall from one corner to the next. One that is an edge of the outline has the piece on its
// left; next is where the wall behind it goes on, where there is one that is an edge too.
type wall struct {
	line  geom.Line
	by    [2]geom.Name
	edge  bool
	next  geom.Point
	turns bool // next is there
}

// along says whether a line runs along another for more than a graze.
func (x wall) along(l geom.Line) bool {
	way, length := direction(x.line)
	from, to := geom.VectorOf(l.From.Minus(x.line.From)), geom.VectorOf(l.To.Minus(x.line.From))
	if max(abs(way.Cross(from)), abs(way.Cross(to))) > float64(Grazed) {
		return false
	}
	a, b := way.Dot(from), way.Dot(to)
	return min(max(a, b), length)-max(min(a, b), 0) > float64(Grazed)
}

// stops says whether the wall stands across a line. To run along it, to end at it and to
// pass its corner is allowed.
func (x wall) stops(l geom.Line) bool {
	const g = float64(Grazed)
	way, length := direction(l)
	if length <= g {
		return false
	}
	along, size := direction(x.line)
	u, v := geom.VectorOf(x.line.From.Minus(l.From)), geom.VectorOf(x.line.To.Minus(l.From))
	du, dv := way.Cross(u), way.Cross(v)
	p, q := geom.VectorOf(l.From.Minus(x.line.From)), geom.VectorOf(l.To.Minus(x.line.From))
	dp, dq := along.Cross(p), along.Cross(q)
	if min(du, dv) < -g && max(du, dv) > g && min(dp, dq) < -g && max(dp, dq) > g {
		return true
	}
	if !x.edge {
		return false
	}
	// It ends on the wall, and would leave through it.
	for _, e := range []struct{ at, on, past float64 }{{along.Dot(p), dp, dq}, {along.Dot(q), dq, dp}} {
		if abs(e.on) <= g && e.at > g && e.at < size-g && e.past < -g && x.leaves(e.at, e.past, e.on, along.Dot(q.Minus(p)), size) {
			return true
		}
	}
	return x.turns && x.cuts(l)
}

// leaves says whether a line from a place on the wall runs further into it than it may.
func (x wall) leaves(at, past, on, run, size float64) bool {
	room := size - at // along the wall, to where the line is past its end
	if run < 0 {
		room = at
	}
	depth := abs(past - on)
	if r := abs(run); r > room {
		depth *= room / r
	}
	return depth > float64(Grazed)
}

// cuts says whether a line that passes the corner at the wall's end, or ends there, runs
// through the walls on either side of it.
func (x wall) cuts(l geom.Line) bool {
	corner := x.line.To
	if corner.Distance(l.Nearest(corner)) > Grazed {
		return false
	}
	ahead, back := geom.VectorOf(x.next.Minus(corner)), geom.VectorOf(x.line.From.Minus(corner))
	for _, end := range []geom.Point{l.From, l.To} {
		way := geom.VectorOf(end.Minus(corner))
		if way.Size() > float64(Grazed) && !between(way, ahead, back) && into(way, ahead) && into(way, back) {
			return true
		}
	}
	return false
}

// between says whether a way lies in the corner that opens from one wall counter-clockwise
// to the other.
func between(way, ahead, back geom.Vector) bool {
	left, right := ahead.Cross(way) >= 0, way.Cross(back) >= 0
	if ahead.Cross(back) >= 0 { // less than half a turn
		return left && right
	}
	return left || right
}

// into says that a way does not merely run along a wall.
func into(way, wall geom.Vector) bool {
	shorter := min(way.Size(), wall.Size())
	return way.Dot(wall) <= 0 || abs(way.Unit().Cross(wall.Unit()))*shorter > float64(Grazed)
}

func direction(l geom.Line) (way geom.Vector, length float64) {
	v := geom.VectorOf(l.To.Minus(l.From))
	length = v.Size()
	return v.Times(1 / length), length
}

func abs(x float64) float64 { return max(x, -x) }
