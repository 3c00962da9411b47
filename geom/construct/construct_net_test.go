package construct

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"trammel/geom"
	"trammel/geom/gate"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// randomNet is a star of 4 to 9 corners about a middle, hollow as often as not, with
// up to two points within, in the plane of its baseline; sides and some diagonals
// are measured.
func randomNet(t testing.TB, r *rand.Rand) (o geom.Outline, inner []Spot, measured []triangle.Measurement) {
	n := 4 + r.IntN(6)
	size := math.Pow(10, 2+2.3*r.Float64())
	var round geom.Polygon
	for i := range n {
		a := unit.Turn * unit.Angle((float64(i)+0.6*r.Float64())/float64(n))
		round = append(round, geom.Point{}.Toward(a, unit.Length(size*(0.35+0.65*r.Float64()))))
	}
	spots := []geom.Point{{}, geom.Point{}.Toward(unit.Angle(7*r.Float64()), unit.Length(size/5))}[:r.IntN(3)]
	first := geom.Line{From: round[0], To: round[1]}
	m := geom.Placement{Turn: -first.Direction()}
	m.Shift = geom.Point{}.Minus(m.Apply(round[0]))
	round = m.Polygon(round)
	round[0], round[1].Y = geom.Point{}, 0
	o = geom.OutlineOf(lettered(round), round)
	for i, s := range spots {
		inner = append(inner, Spot{geom.Name(fmt.Sprintf("P%d", i+1)), m.Apply(s)})
	}
	names, at := o.Names, append(geom.Polygon{}, o.Points...)
	for _, s := range inner {
		names, at = append(names[:len(names):len(names)], s.Name), append(at, s.At)
	}
	for i := range names {
		for j := range i {
			if i < n && (o.Next(j) == i || o.Next(i) == j) || r.Float64() < 0.4 {
				m, err := triangle.ParseMeasurement(fmt.Sprintf("%s%s=%.3fmm", names[j], names[i], at[i].Distance(at[j]).MM()), unit.MM)
				if err != nil {
					t.Fatal(err)
				}
				measured = append(measured, m)
			}
		}
	}
	return o, inner, measured
}

// Who follows the steps of a net with compasses alone, and of two crossings takes the
// one that the step names, comes to every point. The crossings are the formula of
// two circles, as any text on analytic geometry has it.
func TestNetIsFollowed(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	for k := range gate.Of(400, 2000) {
		o, inner, measured := randomNet(t, r)
		c := ConstructNet(o, inner, [2]geom.Name{o.Names[0], o.Names[1]}, measured)
		at := map[geom.Name]complex128{}
		var first Swing
		joined := 1 // the baseline
		for _, step := range c.Steps {
			switch s := step.(type) {
			case DrawBase:
				at[s.From], at[s.To] = 0, complex(float64(s.Length), 0)
			case Swing:
				if first.To != s.To {
					first = s
					continue
				}
				at[s.To] = follow(t, at, first, s)
				first = Swing{}
			case MarkOff:
				way := (at[o.Names[1]] - at[o.Names[0]]) / complex(o.Sides[0].MM(), 0)
				if s.From == o.Names[1] {
					way = -way
				}
				at[s.To] = at[s.From] + way*complex(s.Length.MM(), 0)
			case Join:
				joined++
			case CheckSide:
				if d := abs(at[s.From] - at[s.To]); math.Abs(d-s.Length.MM()) > 1e-6*(1+d) {
					t.Fatalf("net %d: check %s%s says %v, it is %v", k, s.From, s.To, s.Length, d)
				}
			}
		}
		size := o.Perimeter().MM()
		for i, n := range o.Names {
			if abs(at[n]-xy(o.Points[i])) > 1e-6*size {
				t.Fatalf("net %d: %s comes to %v, not %v: %+v", k, n, at[n], o.Points[i], c.Steps)
			}
		}
		for _, s := range inner {
			if abs(at[s.Name]-xy(s.At)) > 1e-6*size {
				t.Fatalf("net %d: %s comes to %v, not %v", k, s.Name, at[s.Name], s.At)
			}
		}
		if joined != len(o.Names) {
			t.Fatalf("net %d: %d of %d edges", k, joined, len(o.Names))
		}
	}
}

// follow is the crossing of two circles that a step names.
func follow(t *testing.T, at map[geom.Name]complex128, a, b Swing) complex128 {
	t.Helper()
	p, q := at[a.Centre], at[b.Centre]
	d := abs(q - p)
	ra, rb := a.Radius.MM(), b.Radius.MM()
	x := (d*d + ra*ra - rb*rb) / (2 * d)
	y := math.Sqrt(max(0, ra*ra-x*x))
	u := (q - p) / complex(d, 0)
	one, two := p+u*complex(x, y), p+u*complex(x, -y)
	if b.Tell == "" {
		if (imag(one) < 0) == b.Below {
			return one
		}
		return two
	}
	tell, known := at[b.Tell]
	if !known {
		t.Fatalf("%s is told by %s, which is not there", b.To, b.Tell)
	}
	nearer := b.Through.Distance(b.TellAt) < b.Other.Distance(b.TellAt)
	if (abs(one-tell) < abs(two-tell)) == nearer {
		return one
	}
	return two
}

// A point of the baseline is marked off on it; one beside it never is.
func TestNetMarksOff(t *testing.T) {
	points := geom.Polygon{{X: 0, Y: 0}, {X: 60, Y: 0}, {X: 100, Y: 0}, {X: 90, Y: 70}, {X: 10, Y: 80}}
	c := ConstructNet(geom.OutlineOf(lettered(points), points), nil, [2]geom.Name{"A", "C"}, nil)
	m, ok := c.Steps[1].(MarkOff)
	if !ok || m.To != "B" || m.From != "A" || m.Length != 60 || m.Measured {
		t.Errorf("%+v", c.Steps[1])
	}
}

// lettered names the corners of a polygon A, B, C …
func lettered(p geom.Polygon) []geom.Name {
	all := make([]geom.Name, len(p))
	for i := range p {
		all[i] = geom.Name(rune('A' + i))
	}
	return all
}
