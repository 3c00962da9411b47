package net

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
)

// Covariance of a place: how it scatters along x and along y, and together.
type Covariance struct{ XX, YY, XY unit.Area }

// Plus adds what is independent: a peg is off because its place was measured and
// because it was set out.
func (c Covariance) Plus(d Covariance) Covariance {
	return Covariance{c.XX + d.XX, c.YY + d.YY, c.XY + d.XY}
}

// Times scales the variances: by Sigma0², where the σ are to be taken from the
// residuals instead of from what was stated.
func (c Covariance) Times(k float64) Covariance {
	a := unit.Area(k)
	return Covariance{c.XX * a, c.YY * a, c.XY * a}
}

// Turned is the same scatter in a plane that is turned counter-clockwise by a.
func (c Covariance) Turned(a unit.Angle) Covariance {
	s64, c64 := math.Sincos(float64(a))
	s, k := unit.Area(s64), unit.Area(c64)
	return Covariance{
		XX: k*k*c.XX - 2*s*k*c.XY + s*s*c.YY,
		YY: s*s*c.XX + 2*s*k*c.XY + k*k*c.YY,
		XY: s*k*(c.XX-c.YY) + (k*k-s*s)*c.XY,
	}
}

// X is the σ along x, Y across it.
func (c Covariance) X() unit.Length { return root(c.XX) }
func (c Covariance) Y() unit.Length { return root(c.YY) }

// Along is the σ in a direction.
func (c Covariance) Along(a unit.Angle) unit.Length { return root(c.Turned(-a).XX) }

func root(a unit.Area) unit.Length { return unit.Length(math.Sqrt(math.Max(0, float64(a)))) }

// Ellipse is the standard ellipse of a place: 39.3 of 100 fall inside one.
type Ellipse struct {
	Major, Minor unit.Length // half axes
	Turn         unit.Angle  // of the major one from x, in (−90°, 90°]
}

// Ellipse of the covariance: a², b² = ½(σx²+σy²) ± √[¼(σx²−σy²)² + σxy²].
func (c Covariance) Ellipse() Ellipse {
	xx, yy, cov := float64(c.XX), float64(c.YY), float64(c.XY)
	mean, off := (xx+yy)/2, math.Hypot((xx-yy)/2, cov)
	major := mean + off
	minor := 0.0
	if major > 0 { // mean − off would lose the digits of a thin one
		minor = max(0, (xx*yy-cov*cov)/major)
	}
	return Ellipse{length(math.Sqrt(max(0, major))), length(math.Sqrt(minor)), unit.Angle(math.Atan2(2*cov, xx-yy) / 2)}
}

// Ninetyfive is the factor from the standard ellipse to the one that holds 95 of
// 100 where σ is known: √χ²(2, 95 %) = √(−2 ln 0.05) = 2.4477.
const Ninetyfive = 2.4477468306808166

// Within95 is the ellipse that holds 95 of 100.
func (e Ellipse) Within95() Ellipse {
	return Ellipse{e.Major * Ninetyfive, e.Minor * Ninetyfive, e.Turn}
}

// Figure95 is the 95 % figure of a place: the longer half axis of the ellipse
// that holds 95 of 100, so that at least as many lie within it.
func (c Covariance) Figure95() unit.Length { return c.Ellipse().Major * Ninetyfive }

// Permitted is the permitted deviation ±K√L of a distance, L in metres, and ±2K
// below 5 m. K is in millimetres (for one metre): ±1.5√L mm for points of
// structures is ISO 4463-1:1989 as reported by V. Kala, Geodesy and Cartography
// 35(3), 2009; the rule of 2K, and K = 10 for rough earthwork, 5 for earthwork, 2
// for in-situ concrete, 1 for precast and steel, IS 11134:1984 as summarised.
func Permitted(k, distance unit.Length) unit.Length {
	if distance < 5*unit.Metre {
		return 2 * k
	}
	return k * length(math.Sqrt(distance.MM()/1000))
}

// at is the covariance of two points' coordinates among each other.
func (a Adjusted) at(i, j int) (c [2][2]float64) {
	u := [2]int{a.free.x[i], a.free.y[i]}
	v := [2]int{a.free.x[j], a.free.y[j]}
	for r := range 2 {
		for s := range 2 {
			if u[r] >= 0 && v[s] >= 0 {
				c[r][s] = a.cov.At(u[r], v[s])
			}
		}
	}
	return c
}

// Covariance of a point, with the baseline's first end and direction (or the
// known points) held: zero for what is held and for a name that is not there.
func (a Adjusted) Covariance(n geom.Name) Covariance {
	i, ok := a.number[n]
	if !ok {
		return Covariance{}
	}
	c := a.at(i, i)
	return Covariance{unit.Area(c[0][0]), unit.Area(c[1][1]), unit.Area(c[0][1])}
}

// Between is the covariance of the way from one point to another, the axes as
// they are: how well the two lie to one another.
func (a Adjusted) Between(m, n geom.Name) Covariance {
	i, ok := a.number[m]
	j, too := a.number[n]
	if !ok || !too {
		return Covariance{}
	}
	p, q, r := a.at(i, i), a.at(j, j), a.at(i, j)
	return Covariance{
		unit.Area(p[0][0] + q[0][0] - 2*r[0][0]),
		unit.Area(p[1][1] + q[1][1] - 2*r[1][1]),
		unit.Area(p[0][1] + q[0][1] - r[0][1] - r[1][0]),
	}
}

// Distance between two adjusted points and its σ.
func (a Adjusted) Distance(m, n geom.Name) (d, sigma unit.Length) {
	p, ok := a.Point(m)
	q, too := a.Point(n)
	if !ok || !too {
		return 0, 0
	}
	d = p.Distance(q)
	return d, a.Between(m, n).Along(geom.Line{From: p, To: q}.Direction())
}

// Seen is the place of a point and its covariance as seen from another baseline:
// its first end is the origin, its direction that of x, and both are without
// error. That is what a peg set out from that baseline has from the measurements.
func (a Adjusted) Seen(n geom.Name, base [2]geom.Name) (geom.Point, Covariance) {
	i, ok0 := a.number[n]
	p, ok1 := a.number[base[0]]
	q, ok2 := a.number[base[1]]
	if !ok0 || !ok1 || !ok2 || p == q {
		return geom.Point{}, Covariance{}
	}
	at := func(k int) geom.Vector { return geom.VectorOf(a.Points[k]) }
	way := at(q).Minus(at(p))
	b := way.Size()
	u := way.Times(1 / b)
	d := at(i).Minus(at(p))
	here := geom.Vector{X: u.Dot(d), Y: u.Cross(d)}
	// In the axes of the baseline: the point less the first end, less what the
	// turn of the baseline moves it by.
	along, across := u, u.Left()
	type part struct {
		k    int
		x, y geom.Vector // of the new x and y by the old coordinates
	}
	turn := across.Times(1 / b)
	parts := []part{
		{i, along, across},
		{p, along.Times(-1).Minus(turn.Times(here.Y)), across.Times(-1).Plus(turn.Times(here.X))},
		{q, turn.Times(here.Y), turn.Times(-here.X)},
	}
	var c Covariance
	for _, s := range parts {
		for _, t := range parts {
			m := a.at(s.k, t.k)
			sum := func(f, g geom.Vector) unit.Area {
				return unit.Area(f.X*(m[0][0]*g.X+m[0][1]*g.Y) + f.Y*(m[1][0]*g.X+m[1][1]*g.Y))
			}
			c.XX += sum(s.x, t.x)
			c.YY += sum(s.y, t.y)
			c.XY += sum(s.x, t.y)
		}
	}
	return geom.Point{X: length(here.X), Y: length(here.Y)}, c
}
