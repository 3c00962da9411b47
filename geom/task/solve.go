package task

import "math"

// Shape is a triangle as its task fixes it: the sides opposite A, B and C, the angles, C's
// place with A at 0 and B at (c, 0).
type Shape struct {
	Side [3]float64 // a=BC, b=CA, c=AB
	Deg  [3]float64 // A, B, C
	X, Y float64    // of C; Y is the height
}

const rad = math.Pi / 180

func sin(deg float64) float64 { return math.Sin(deg * rad) }
func cos(deg float64) float64 { return math.Cos(deg * rad) }

// shapeAt is the triangle with C at a place.
func shapeAt(c, x, y float64) Shape {
	s := Shape{Side: [3]float64{math.Hypot(c-x, y), math.Hypot(x, y), c}, X: x, Y: y}
	s.Deg[0], s.Deg[1] = math.Atan2(y, x)/rad, math.Atan2(y, c-x)/rad
	s.Deg[2] = 180 - s.Deg[0] - s.Deg[1]
	return s
}

// Value of a quantity. CA2 is not its own: see Task.Solve.
func (s Shape) Value(q Quantity) float64 {
	switch q {
	case BC:
		return s.Side[0]
	case CA:
		return s.Side[1]
	case AB:
		return s.Side[2]
	case Height:
		return s.Y
	}
	return s.Deg[q-A]
}

// polar is the triangle whose C lies at an angle from AB and so far from A.
func polar(c, deg, b float64) Shape { return shapeAt(c, b*cos(deg), b*sin(deg)) }

// bySides, byAngles, byArc and byHeight are the triangles of what is given, false where there
// is none.

func bySides(a, b, c float64) (Shape, bool) {
	if a+b <= c || b+c <= a || c+a <= b {
		return Shape{}, false
	}
	x := ((b-a)*(b+a)/c + c) / 2
	y := math.Sqrt((a+b+c)*(a+b-c)*(b+c-a)*(c+a-b)) / (2 * c)
	return shapeAt(c, x, y), true
}

func byAngles(c, degA, degB float64) (Shape, bool) {
	if degA <= 0 || degB <= 0 || degA+degB >= 180 {
		return Shape{}, false
	}
	return polar(c, degA, c*sin(degB)/sin(degA+degB)), true
}

// byArc: angle A, and the arc of radius a about B; first the longer CA, then the other.
func byArc(c, deg, a float64) (all []Shape) {
	drop := c * sin(deg)
	if a <= drop {
		return nil
	}
	half := math.Sqrt((a - drop) * (a + drop))
	for _, b := range []float64{c*cos(deg) + half, c*cos(deg) - half} {
		if b > 0 {
			all = append(all, polar(c, deg, b))
		}
	}
	return all
}

// byHeight: the height and CA, with angle A acute.
func byHeight(c, h, b float64) (Shape, bool) {
	if b < h {
		return Shape{}, false
	}
	return shapeAt(c, math.Sqrt((b-h)*(b+h)), h), true
}

// Solve is the triangle of a task; of SSA2 the one with the longer CA first, then the other.
// Nothing fits where a task of SSA0 is one, or where what is given fixes no triangle.
func (t Task) Solve() (all []Shape) {
	one := func(s Shape, ok bool) []Shape {
		if !ok {
			return nil
		}
		return []Shape{s}
	}
	g := [3]float64{float64(t.Given[0]), float64(t.Given[1]), float64(t.Given[2])}
	switch t.Kind {
	case SSS, ISO:
		return one(bySides(g[1], g[2], g[0]))
	case SAS, SASO, LEGS:
		return one(polar(g[0], g[1], g[2]), true)
	case ASA:
		return one(byAngles(g[0], g[1], g[2]))
	case AAS:
		return one(byAngles(g[0], g[1], 180-g[1]-g[2]))
	case BHA:
		return one(shapeAt(g[0], g[2]/math.Tan(g[1]*rad), g[2]), true)
	case BHS:
		return one(byHeight(g[0], g[1], g[2]))
	}
	return byArc(g[0], g[1], g[2])
}
