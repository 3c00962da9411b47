package construct

import (
	"math"
	"slices"
	"testing"

	"trammel/geom"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// draughtsman follows the steps with nothing but their names, lengths and
// angles, by a geometry of his own, and keeps what is on the paper.
type draughtsman struct {
	t       testing.TB
	what    string
	size    float64
	at      map[geom.Name]complex128 // points marked
	rays    [][2]complex128          // a point and a direction
	circles []circle
	levels  []float64 // lines parallel to the baseline
	edges   map[[2]geom.Name]bool
	apex    geom.Name
	worked  map[geom.Name]unit.Angle
	base    [2]geom.Name
}

type circle struct {
	centre complex128
	radius float64
}

func (d *draughtsman) wrong(format string, a ...any) {
	d.t.Helper()
	d.t.Errorf(d.what+": "+format, a...)
}

func xy(p geom.Point) complex128 { return complex(float64(p.X), float64(p.Y)) }

func abs(z complex128) float64 { return math.Hypot(real(z), imag(z)) }

func (d *draughtsman) same(a, b complex128) bool { return abs(a-b) <= 1e-6*d.size }

// known is the place of a corner that must be on the paper.
func (d *draughtsman) known(n geom.Name) complex128 {
	d.t.Helper()
	p, ok := d.at[n]
	if !ok {
		d.wrong("%s is used before it is marked", n)
	}
	return p
}

func (d *draughtsman) edge(a, b geom.Name) {
	d.known(a)
	d.known(b)
	d.edges[[2]geom.Name{min(a, b), max(a, b)}] = true
}

// crossings of all that is on the paper, above the baseline.
func (d *draughtsman) crossings() (found []complex128) {
	add := func(p complex128) {
		if imag(p) > 1e-9*d.size && !slices.ContainsFunc(found, func(q complex128) bool { return d.same(p, q) }) {
			found = append(found, p)
		}
	}
	onRay := func(r [2]complex128, p complex128) bool { return real((p-r[0])/r[1]) > 0 }
	for i, r := range d.rays {
		for _, s := range d.rays[:i] { // r0 + t r1 = s0 + u s1
			det := real(r[1])*imag(s[1]) - imag(r[1])*real(s[1])
			w := s[0] - r[0]
			p := r[0] + r[1]*complex((real(w)*imag(s[1])-imag(w)*real(s[1]))/det, 0)
			if onRay(r, p) && onRay(s, p) {
				add(p)
			}
		}
		for _, c := range d.circles {
			w := (c.centre - r[0]) / r[1] // in the ray's own frame
			h := c.radius*c.radius - imag(w)*imag(w)
			if h < 0 {
				h = 0
			}
			for _, x := range []float64{real(w) - math.Sqrt(h), real(w) + math.Sqrt(h)} {
				if p := r[0] + r[1]*complex(x, 0); x > 0 {
					add(p)
				}
			}
		}
		for _, y := range d.levels {
			add(r[0] + r[1]*complex((y-imag(r[0]))/imag(r[1]), 0))
		}
	}
	for i, c := range d.circles {
		for _, e := range d.circles[:i] {
			w := e.centre - c.centre
			x := (abs(w)*abs(w) + c.radius*c.radius - e.radius*e.radius) / (2 * abs(w))
			h := math.Sqrt(math.Max(0, c.radius*c.radius-x*x))
			u := w / complex(abs(w), 0)
			add(c.centre + u*complex(x, h))
			add(c.centre + u*complex(x, -h))
		}
		for _, y := range d.levels {
			h := math.Sqrt(math.Max(0, c.radius*c.radius-(y-imag(c.centre))*(y-imag(c.centre))))
			add(complex(real(c.centre)-h, y))
			add(complex(real(c.centre)+h, y))
		}
	}
	return found
}

// follow does one step.
func (d *draughtsman) follow(step Step, tri triangle.Triangle) {
	d.t.Helper()
	marked := func(n geom.Name, p complex128) {
		d.t.Helper()
		d.apex = n
		d.at[n] = p
		if !d.same(p, xy(tri.Points[2])) {
			d.wrong("%T marks %s at %v, want %v", step, n, p, tri.Points[2])
		}
	}
	switch s := step.(type) {
	case ThirdAngle:
		if sum := s.Angle + s.Known[0] + s.Known[1]; math.Abs(float64(sum-unit.Turn/2)) > 1e-12 {
			d.wrong("angles make %v", sum)
		}
		d.worked[s.At] = s.Angle
	case DrawBase:
		d.at[s.From], d.at[s.To] = 0, complex(float64(s.Length), 0)
		d.base = [2]geom.Name{s.From, s.To}
		d.edges[[2]geom.Name{min(s.From, s.To), max(s.From, s.To)}] = true
		if xy(s.Line.From) != d.at[s.From] || !d.same(xy(s.Line.To), d.at[s.To]) {
			d.wrong("base %v", s.Line)
		}
	case Swing:
		c := circle{d.known(s.Centre), float64(s.Radius)}
		d.circles = append(d.circles, c)
		if !d.same(xy(s.About), c.centre) || !d.same(xy(s.Through), xy(tri.Points[2])) || math.Abs(abs(xy(s.Through)-c.centre)-c.radius) > 1e-9*d.size {
			d.wrong("%+v", s)
		}
		if s.Twice {
			if math.Abs(abs(xy(s.Other)-c.centre)-c.radius) > 1e-9*d.size || d.same(xy(s.Other), xy(s.Through)) {
				d.wrong("other crossing of %+v", s)
			}
			if !slices.ContainsFunc(d.crossings(), func(p complex128) bool { return d.same(p, xy(s.Other)) }) {
				d.wrong("there is no crossing at %v", s.Other)
			}
		}
		d.settle(s.To, len(d.circles)+len(d.rays)+len(d.levels), s.Twice, tri)
	case HalfCircle:
		c := circle{(d.known(s.Over[0]) + d.known(s.Over[1])) / 2, abs(d.known(s.Over[1])-d.known(s.Over[0])) / 2}
		d.circles = append(d.circles, c)
		if !d.same(xy(s.Middle), c.centre) || math.Abs(float64(s.Radius)-c.radius) > 1e-9*d.size || !d.same(xy(s.Through), xy(tri.Points[2])) {
			d.wrong("%+v", s)
		}
		if s.Twice && math.Abs(abs(xy(s.Other)-c.centre)-c.radius) > 1e-9*d.size {
			d.wrong("other crossing of %+v", s)
		}
		d.settle(s.To, len(d.circles)+len(d.rays)+len(d.levels), s.Twice, tri)
	case SetAngle:
		from, along := d.known(s.At), d.known(s.Along)
		a := float64(s.Angle)
		if s.At == d.base[1] { // clockwise from the baseline seen from its end
			a = -a
		}
		u := (along - from) / complex(abs(along-from), 0) * complex(math.Cos(a), math.Sin(a))
		d.rays = append(d.rays, [2]complex128{from, u})
		end := (xy(s.Ray.To) - xy(s.Ray.From)) / u
		if !d.same(xy(s.Ray.From), from) || math.Abs(imag(end)) > 1e-9*d.size || real(end) < abs(xy(tri.Points[2])-from)+0.05*math.Min(real(end), 100) ||
			!d.same(xy(s.Arm.From), from) || !d.same(xy(s.Arm.To), along) {
			d.wrong("%+v", s)
		}
		d.settle(s.To, len(d.circles)+len(d.rays)+len(d.levels), false, tri)
	case MarkOff:
		from := d.known(s.From)
		r := d.rays[len(d.rays)-1]
		if r[0] != from {
			d.wrong("marked off from %s, the ray starts elsewhere", s.From)
		}
		marked(s.To, from+r[1]*complex(float64(s.Length), 0))
		d.edge(s.From, s.To)
	case Erect:
		from, toward := d.known(s.From), d.known(s.Toward)
		foot := from + (toward-from)/complex(abs(toward-from), 0)*complex(float64(s.Along), 0)
		if !d.same(foot, xy(s.Foot)) || !d.same(xy(s.Top), xy(tri.Points[2])) {
			d.wrong("%+v", s)
		}
		marked(s.To, foot+complex(0, float64(s.Height)))
		if s.Along == 0 {
			d.edge(s.From, s.To)
		}
	case Parallel:
		if s.Base != d.base || s.Line.From.Y != s.Line.To.Y || math.Abs(float64(s.Line.From.Y-s.Distance)) > 1e-9*d.size ||
			s.Line.From.X >= tri.Points[2].X || s.Line.To.X <= tri.Points[2].X {
			d.wrong("%+v", s)
		}
		d.levels = append(d.levels, float64(s.Distance))
	case Join:
		d.edge(s.From, s.To)
		if !d.same(xy(s.Line.From), d.at[s.From]) || !d.same(xy(s.Line.To), d.at[s.To]) {
			d.wrong("%+v", s)
		}
	case CheckSide:
		if got := abs(d.known(s.From) - d.known(s.To)); math.Abs(got-float64(s.Length)) > 1e-6*d.size {
			d.wrong("%+v is %v", s, got)
		}
	case CheckAngle:
		i := slices.Index(tri.Names[:], s.At)
		a, b := d.known(tri.Names[(i+1)%3])-d.known(s.At), d.known(tri.Names[(i+2)%3])-d.known(s.At)
		if got := math.Atan2(imag(b/a), real(b/a)); math.Abs(got-float64(s.Angle)) > 1e-6 {
			d.wrong("%+v is %v", s, got)
		}
	case CheckHeight:
		a, b, p := d.known(s.Base[0]), d.known(s.Base[1]), d.known(s.From)
		if got := math.Abs(imag((p-a)/(b-a))) * abs(b-a); math.Abs(got-float64(s.Height)) > 1e-6*d.size {
			d.wrong("%+v is %v", s, got)
		}
	default:
		d.wrong("a step of type %T", step)
	}
}

// settle marks the apex where two lines cross, once there are two.
func (d *draughtsman) settle(n geom.Name, lines int, twice bool, tri triangle.Triangle) {
	d.t.Helper()
	if lines < 2 {
		return
	}
	found := d.crossings()
	i := slices.IndexFunc(found, func(p complex128) bool { return d.same(p, xy(tri.Points[2])) })
	if i < 0 {
		d.wrong("lines cross at %v, want %v", found, tri.Points[2])
		return
	}
	if (len(found) > 1) != twice {
		d.wrong("crossings %v, said to be two: %v", found, twice)
	}
	d.at[n], d.apex = found[i], n
	for _, r := range d.rays { // the ray is the edge
		for _, end := range d.base {
			if d.at[end] == r[0] {
				d.edge(end, n)
			}
		}
	}
}

// followAll does all steps and looks at what is on the paper then.
func followAll(t testing.TB, what string, c Construction) {
	t.Helper()
	tri := c.Triangle
	d := &draughtsman{t: t, what: what, size: float64(tri.Perimeter), at: map[geom.Name]complex128{}, edges: map[[2]geom.Name]bool{}, worked: map[geom.Name]unit.Angle{}}
	checking := false
	sides, others := 0, 0
	for _, s := range c.Steps {
		switch s.(type) {
		case CheckSide:
			checking, sides = true, sides+1
		case CheckAngle, CheckHeight:
			checking, others = true, others+1
		default:
			if checking {
				d.wrong("%T after the checks began", s)
			}
		}
		d.follow(s, tri)
	}
	if len(d.at) != 3 || len(d.edges) != 3 {
		d.wrong("points %v and edges %v on the paper, want three of each", d.at, d.edges)
	}
	if sides+others == 0 {
		d.wrong("nothing to check")
	}
}
