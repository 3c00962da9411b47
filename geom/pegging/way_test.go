package pegging

import (
	"fmt"
	"math"
	"math/cmplx"
	"math/rand/v2"
	"testing"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/tape"
	"trammel/geom/unit"
)

// constant is a site where every pull has the same σ, but for the one of a
// length that is given.
func constant(sigma, but float64) site {
	return site{pull: func(mm float64) float64 {
		if mm == but {
			return 0
		}
		return sigma
	}, tools: tape.Tools{}.Complete()}
}

// Two arcs crossing at γ, each with σ: σ_P = σ√2/sin γ, along all directions
// together (computed from the covariance, any text on error propagation).
func TestArcsCrossing(t *testing.T) {
	for gamma, want := range map[float64]string{90: "1.414", 60: "1.633", 45: "2.000", 30: "2.828", 20: "4.135"} {
		s := math.Sin(gamma * math.Pi / 180)
		// Radii of 10 m that cross at γ: the base is 2·10·sin(γ/2).
		b := 20000 * math.Sin(gamma*math.Pi/360)
		at := geom.Vector{X: b / 2, Y: 10000 * math.Cos(gamma*math.Pi/360)}
		k := constant(1, b).act(TwoArcs, at, b, Square{}).covariance()
		if got := fmt.Sprintf("%.3f", math.Sqrt(float64(k.XX+k.YY))); got != want {
			t.Errorf("crossing at %v°: %s σ, want %s (√2/sin = %.4f)", gamma, got, want, math.Sqrt2/s)
		}
	}
}

// Arcs of 5000 and 5000 over a base of 6000, σ 2: apex (3000, 4000), σx 2.35702,
// σy 1.76777 (computed: 2·5/(3√2), 2·5/(4√2)).
func TestArcsOverSixMetres(t *testing.T) {
	k := constant(2, 6000).act(TwoArcs, geom.Vector{X: 3000, Y: 4000}, 6000, Square{}).covariance()
	if got := fmt.Sprintf("%.5f %.5f", k.X().MM(), k.Y().MM()); got != "2.35702 1.76777" {
		t.Errorf("σ %s", got)
	}
}

// A 3-4-5 square in metres with σ 1 mm a tape is right to 121.5″; 6-8-10 halves
// it (computed).
func TestSquareByThreeFourFive(t *testing.T) {
	for _, c := range []struct {
		height, base float64
		square       Square
		want         string
	}{{3900, 8001, Square{Along: 4000, Up: 3000, Across: 5000}, "121.5"}, {6001, 24001, Square{Along: 8000, Up: 6000, Across: 10000, Back: true}, "60.8"}} {
		s := constant(1, c.height)
		pull := s.pull
		s.pull = func(mm float64) float64 {
			if mm == c.base/2 { // where the foot lies does not turn the square
				return 0
			}
			return pull(mm)
		}
		k := s.act(OffsetSquare, geom.Vector{X: c.base / 2, Y: c.height}, c.base, c.square).covariance()
		if got := fmt.Sprintf("%.1f", k.X().MM()/c.height*180/math.Pi*3600); got != c.want {
			t.Errorf("square of %v: %s″, want %s″", c.square, got, c.want)
		}
	}
}

// The predicted 95 % region holds 95 ± 1 % of 100,000 settings-out, each method
// and thin, right and fat triangles. The settings-out here are written anew, with
// complex numbers and the laws of sines and cosines, and know nothing of act.
func TestRegionsHold95(t *testing.T) {
	const times = 100000
	tools := tape.Tools{Tape: tape.Tape{Class: tape.ClassII}, Instrument: tape.Theodolite}
	for _, shape := range []struct {
		name string
		b    float64
		apex complex128
	}{
		{"thin", 24000, 30000 + 4500i}, {"right", 12000, 9000i}, {"fat", 20000, 9000 + 15000i},
	} {
		for m, set := range map[Method]func(r *rand.Rand, apex complex128, b float64) complex128{
			TwoArcs: hands{tools}.swing, OffsetSquare: hands{tools}.square, AngleDistance: hands{tools}.sight,
		} {
			at := geom.Vector{X: real(shape.apex), Y: imag(shape.apex)}
			square := squaresAt(tools, []geom.Vector{{}, {X: shape.b, Y: 0}, at}, [2]int{0, 1}, shape.b)[2]
			k := siteOf(tools).act(m, at, shape.b, square).covariance()
			det := float64(k.XX*k.YY - k.XY*k.XY)
			r := rand.New(rand.NewPCG(uint64(m), 95))
			inside := 0
			for range times {
				p := set(r, shape.apex, shape.b)
				dx, dy := real(p)-at.X, imag(p)-at.Y
				if (float64(k.YY)*dx*dx-2*float64(k.XY)*dx*dy+float64(k.XX)*dy*dy)/det <= adjust.Ninetyfive*adjust.Ninetyfive {
					inside++
				}
			}
			share := float64(inside) / times
			t.Logf("%-5s %-20v %.2f %% inside, 95 %% figure %.1f mm", shape.name, m, 100*share, k.Figure95().MM())
			if math.Abs(share-0.95) > 0.01 {
				t.Errorf("%s, %v: %.2f %% inside", shape.name, m, 100*share)
			}
		}
	}
}

// taped is what a pull of a length comes to.
func (t hands) taped(r *rand.Rand, mm float64) float64 {
	return mm + float64(t.Pull(unit.Length(mm)))*r.NormFloat64()
}

// swing sets a peg by two arcs.
func (t hands) swing(r *rand.Rand, apex complex128, b float64) complex128 {
	base, left, right := t.taped(r, b), t.taped(r, cmplx.Abs(apex)), t.taped(r, cmplx.Abs(apex-complex(b, 0)))
	cos := (base*base + left*left - right*right) / (2 * base * left)
	return cmplx.Rect(left, math.Acos(cos))
}

// square sets a peg by an offset from a foot, squared off by 3-4-5.
func (t hands) square(r *rand.Rand, apex complex128, b float64) complex128 {
	x, h := real(apex), imag(apex)
	nail := 0.5 // mm: ±1 mm beside the string
	k := squaresAt(t.Tools, []geom.Vector{{}, {X: b, Y: 0}, {X: x, Y: h}}, [2]int{0, 1}, b)[2]
	far := max(1, math.Abs(x)/b, math.Abs(b-x)/b)
	foot := complex(t.taped(r, math.Abs(x))*sign(x), nail*far*r.NormFloat64())
	if x == 0 { // the nail of the baseline's end
		foot = 0
	}
	toward := 1.0
	if k.Back {
		toward = -1
	}
	beyond := x + toward*k.Along.MM()
	mark := complex(real(foot)+toward*t.taped(r, k.Along.MM()), nail*max(1, math.Abs(beyond)/b, math.Abs(b-beyond)/b)*r.NormFloat64())
	up, across := t.taped(r, k.Up.MM()), t.taped(r, k.Across.MM())
	leg := cmplx.Abs(mark - foot)
	angle := math.Acos((leg*leg + up*up - across*across) / (2 * leg * up))
	return foot + cmplx.Rect(t.taped(r, h), cmplx.Phase(mark-foot)+toward*angle)
}

func sign(x float64) float64 { return math.Copysign(1, x) }

// sight sets a peg by an angle at the first end and a tape.
func (t hands) sight(r *rand.Rand, apex complex128, b float64) complex128 {
	c := t.Instrument.Centring.MM() / 2
	stands := complex(c*r.NormFloat64(), c*r.NormFloat64())
	target := complex(b, c*r.NormFloat64())
	turned := cmplx.Phase(apex) + t.Instrument.Angle.Radians()/2*r.NormFloat64()
	line := cmplx.Phase(target-stands) + turned
	tape := t.taped(r, cmplx.Abs(apex))
	// The tape is on the nail at 0 and swings to the line: law of sines.
	d := cmplx.Abs(stands)
	atStand := cmplx.Phase(-stands) - line
	far := math.Asin(d * math.Sin(atStand) / tape)
	return cmplx.Rect(tape, line-far)
}

// A long thin plot: swinging from its short side crosses at a sharp angle, and
// the ranking puts that last and says by how much.
func TestWaysOfThinPlot(t *testing.T) {
	pegs := []Peg{{"A", geom.Point{}}, {"B", geom.Point{X: 40000}}, {"C", geom.Point{X: 40000, Y: 6000}}, {"D", geom.Point{Y: 6000}}}
	ways := waysOf(tape.Tools{}, pegs, []Method{TwoArcs, OffsetSquare}, everyLine(pegs))
	if len(ways) != 24 {
		t.Fatalf("%d ways, want 6 lines by 2 ends and 2 methods", len(ways))
	}
	for i, w := range ways[1:] {
		if w.Figure < ways[i].Figure {
			t.Errorf("%d is surer than the one before it", i+1)
		}
	}
	var arcs Way
	for _, w := range ways {
		if w.Method == TwoArcs && (w.Base == [2]geom.Name{"A", "D"} || w.Base == [2]geom.Name{"D", "A"}) {
			arcs = w
		}
	}
	// Each far corner is seen under atan(6/40) = 8.53° from the short side.
	if got := arcs.Pegs[arcs.Worst].Crossing.Degrees(); math.Abs(got-8.5308) > 1e-3 {
		t.Errorf("crosses at %v°", got)
	}
	best := ways[0]
	if best.Method != OffsetSquare || best.Figure > arcs.Figure/5 {
		t.Errorf("the best way is %v from %v, %v", best.Method, best.Base, best.Figure)
	}
}

// everyLine of two pegs, from either end.
func everyLine(pegs []Peg) (all [][2]geom.Name) {
	for _, p := range pegs {
		for _, q := range pegs {
			if p != q {
				all = append(all, [2]geom.Name{p.Name, q.Name})
			}
		}
	}
	return all
}

// hands set a peg as a crew does it, with what their tools are off by.
type hands struct{ tape.Tools }

// Forty pegs, every baseline, every method.
func BenchmarkWaysOfFortyPegs(b *testing.B) {
	r := rand.New(rand.NewPCG(3, 3))
	var pegs []Peg
	for i := range 40 {
		pegs = append(pegs, Peg{geom.Name(fmt.Sprintf("P%d", i+1)), geom.Point{X: unit.Length(60000 * r.Float64()), Y: unit.Length(40000 * r.Float64())}})
	}
	lines := everyLine(pegs)
	for b.Loop() {
		waysOf(tape.Tools{}, pegs, []Method{TwoArcs, OffsetSquare, AngleDistance}, lines)
	}
}
