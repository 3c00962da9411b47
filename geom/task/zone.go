package task

import "math"

// Line that C lies on: an arc about a point, or a straight line through one.
type Line struct {
	X, Y   float64 // the centre, or a point of it
	Radius float64 // 0: it is straight
	Deg    float64 // its direction, where straight
}

// Zone is where C may lie when what is given may be off by a tolerance to each side: four corners,
// counter-clockwise or not, and the line along which each leads to the next. It is exact.
type Zone struct {
	Corner [4][2]float64
	Along  [4]Line
}

// Zones of a task, one for each triangle that fits. B counts where it is to be.
func (t Task) Zones(mm, deg float64) (all []Zone) {
	for _, s := range t.Solve() {
		var z Zone
		k := about[t.Kind].loci
		lo, hi := [2]Line{}, [2]Line{}
		for i, l := range k {
			lo[i], hi[i] = l.moved(s, -mm, -deg), l.moved(s, mm, deg)
		}
		pairs := [4][2]Line{{lo[0], lo[1]}, {hi[0], lo[1]}, {hi[0], hi[1]}, {lo[0], hi[1]}}
		z.Along = [4]Line{lo[1], hi[0], hi[1], lo[0]}
		ok := true
		for i, p := range pairs {
			x, y, found := crossing(p[0], p[1], s.X, s.Y)
			z.Corner[i], ok = [2]float64{x, y}, ok && found
		}
		if ok {
			all = append(all, z)
		}
	}
	return all
}

// moved is the line of a shape with what it is set by off by so much.
func (l locus) moved(s Shape, mm, deg float64) Line {
	switch l {
	case arcA:
		return Line{Radius: s.Side[1] + mm}
	case arcB:
		return Line{X: s.Side[2], Radius: s.Side[0] + mm}
	case rayA:
		return Line{Deg: s.Deg[0] + deg}
	case rayB:
		return Line{X: s.Side[2], Deg: 180 - s.Deg[1] - deg}
	}
	return Line{Y: s.Y + mm}
}

// crossing of two lines nearest to a place; false where they do not cross.
func crossing(p, q Line, x, y float64) (float64, float64, bool) {
	if p.Radius == 0 && q.Radius > 0 {
		p, q = q, p
	}
	switch {
	case p.Radius > 0 && q.Radius > 0:
		dx, dy := q.X-p.X, q.Y-p.Y
		d := math.Hypot(dx, dy)
		along := ((p.Radius-q.Radius)*(p.Radius+q.Radius)/d + d) / 2
		across := p.Radius*p.Radius - along*along
		if across < 0 {
			return 0, 0, false
		}
		h := math.Sqrt(across)
		ux, uy := dx/d, dy/d
		return nearer(x, y, [2]float64{p.X + along*ux - h*uy, p.Y + along*uy + h*ux}, [2]float64{p.X + along*ux + h*uy, p.Y + along*uy - h*ux})
	case p.Radius > 0:
		ux, uy := cos(q.Deg), sin(q.Deg)
		wx, wy := q.X-p.X, q.Y-p.Y
		half := wx*ux + wy*uy
		under := half*half - wx*wx - wy*wy + p.Radius*p.Radius
		if under < 0 {
			return 0, 0, false
		}
		r := math.Sqrt(under)
		return nearer(x, y, [2]float64{q.X + (r-half)*ux, q.Y + (r-half)*uy}, [2]float64{q.X - (r+half)*ux, q.Y - (r+half)*uy})
	}
	det := cos(p.Deg)*sin(q.Deg) - sin(p.Deg)*cos(q.Deg)
	if math.Abs(det) < 1e-9 {
		return 0, 0, false
	}
	k := ((q.X-p.X)*sin(q.Deg) - (q.Y-p.Y)*cos(q.Deg)) / det
	return p.X + k*cos(p.Deg), p.Y + k*sin(p.Deg), true
}

func nearer(x, y float64, p, q [2]float64) (float64, float64, bool) {
	if math.Hypot(q[0]-x, q[1]-y) < math.Hypot(p[0]-x, p[1]-y) {
		p = q
	}
	return p[0], p[1], true
}

// Ghost is where C lies after a mistake that moves it, where that shows on a film.
func (t Task) Ghost() (x, y float64, of Mistake, ok bool) {
	g := [3]float64{float64(t.Given[0]), float64(t.Given[1]), float64(t.Given[2])}
	var s Shape
	ok = true
	switch t.Kind {
	case SSS:
		s, ok = bySides(g[2], g[1], g[0])
		of = Swapped
	case SAS, SASO:
		s = polar(g[0], 180-g[1], g[2])
	case ASA:
		s, ok = byAngles(g[0], 180-g[1], g[2])
		if !ok {
			s, ok = byAngles(g[0], g[1], 180-g[2])
			of = WrongScaleB
		}
	case BHA:
		s = shapeAt(g[0], g[2]/math.Tan((180-g[1])*rad), g[2])
	case SSA1, SSA2:
		all := byArc(g[0], 180-g[1], g[2])
		if ok = len(all) > 0; ok {
			s = all[0]
		}
	default:
		return 0, 0, 0, false
	}
	return s.X, s.Y, of, ok
}
