package pegging

import (
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// Frame is the points in the plane of their baseline: it lies on the x axis, its left
// end at the origin, more of the pegs above it than below.
type Frame struct {
	Points
	Baseline Baseline
	Method   Method
	Place    geom.Placement // from the net's own plane
	Beside   []geom.Name    // points beside the baseline, in the order of the work

	spots map[geom.Name]geom.Point
	way   Way // from the zero end
}

// Baseline is the line that everything is set out from.
type Baseline struct {
	Zero     int       // 0: running distances count from its left end, 1: from its right end
	From, To geom.Name // From has the zero
	Length   unit.Length
	Measured bool
}

// Side of the baseline, looking from its zero end to the other.
type Side uint8

const (
	OnLine Side = iota
	Left
	Right
)

func (s Side) String() string { return [...]string{"", "left", "right"}[s] }

// frameOf settles how the plane lies. The tape's zero is the first end of the way.
func frameOf(p Points, way Way) Frame {
	base := way.Base
	f := Frame{Points: p, way: way, Method: way.Method, spots: map[geom.Name]geom.Point{}}
	f.Baseline = Baseline{From: base[0], To: base[1], Length: p.distance(base[0], base[1])}
	f.Baseline.Measured = p.WasMeasured(base[0], base[1], f.Baseline.Length)
	sum := unit.Length(0)
	for _, q := range way.Pegs {
		sum += q.At.Y
	}
	left, right := base[0], base[1]
	if sum < -SameMark {
		f.Baseline.Zero = 1
		left, right = right, left
	}
	turn := -geom.Line{From: p.at[left], To: p.at[right]}.Direction()
	back := geom.Placement{Turn: turn}.Apply(p.at[left])
	f.Place = geom.Placement{Turn: turn, Shift: geom.Point{X: -back.X, Y: -back.Y}}
	for _, q := range way.Pegs {
		f.spots[q.Name] = f.plane(q.At.X, q.At.Y)
	}
	if f.Method == Mixed {
		f.Beside = way.beside()
		return f
	}
	for _, n := range f.around() {
		if math.Abs(float64(f.spots[n].Y)) > float64(SameMark) {
			f.Beside = append(f.Beside, n)
		}
	}
	return f
}

// beside are the pegs of a Mixed way that are not run off along the baseline from its zero.
func (w Way) beside() (all []geom.Name) {
	for _, n := range w.Order {
		if p := w.placed(n); p.Method != RunOff || p.Base != w.Base {
			all = append(all, n)
		}
	}
	return all
}

func (w Way) placed(n geom.Name) Placed {
	return w.Pegs[slices.IndexFunc(w.Pegs, func(p Placed) bool { return p.Name == n })]
}

// from is a place seen from a line between two points: along it, and to its left.
func (f Frame) from(base [2]geom.Name, at geom.Point) geom.Vector {
	from := f.spots[base[0]]
	way, v := geom.VectorOf(f.spots[base[1]].Minus(from)).Unit(), geom.VectorOf(at.Minus(from))
	return geom.Vector{X: way.Dot(v), Y: way.Cross(v)}
}

// on is the other way: a place on that line, or beside it.
func (f Frame) on(base [2]geom.Name, v geom.Vector) geom.Point {
	return on(geom.VectorOf(f.spots[base[0]]), geom.VectorOf(f.spots[base[1]]), v).Point()
}

// base is the ends of the baseline, its zero first.
func (f Frame) base() [2]geom.Name { return [2]geom.Name{f.Baseline.From, f.Baseline.To} }

// Spot is where a point of the net lies.
func (f Frame) Spot(n geom.Name) geom.Point { return f.spots[n] }

// Between is the distance of two points of the net.
func (f Frame) Between(a, b geom.Name) unit.Length { return f.spots[a].Distance(f.spots[b]) }

// Lone says that there is one corner beside the baseline, placed in two ways: a triangle.
func (f Frame) Lone() bool { return len(f.Beside) == 1 && f.Method != Mixed }

// Ends of the baseline, the left one of the plane first.
func (f Frame) Ends() [2]geom.Name {
	if f.Baseline.Zero == 1 {
		return [2]geom.Name{f.Baseline.To, f.Baseline.From}
	}
	return [2]geom.Name{f.Baseline.From, f.Baseline.To}
}

// around is all points but the baseline's ends, walking round from its far end.
func (f Frame) around() []geom.Name {
	start := slices.Index(f.order, f.Baseline.To)
	var out []geom.Name
	for i := range f.order {
		n := f.order[(start+i)%len(f.order)]
		if n != f.Baseline.From && n != f.Baseline.To {
			out = append(out, n)
		}
	}
	return out
}

// plane is a place in the plane, from its running distance and its offset to the left.
func (f Frame) plane(along, left unit.Length) geom.Point {
	if f.Baseline.Zero == 1 {
		return geom.Point{X: f.Baseline.Length - along, Y: 0 - left}
	}
	return geom.Point{X: along, Y: left}
}

// Running is the other way: running distance and offset of a place.
func (f Frame) Running(at geom.Point) (along, offset unit.Length, side Side) {
	along, left := at.X, at.Y
	if f.Baseline.Zero == 1 {
		along, left = f.Baseline.Length-at.X, 0-at.Y
	}
	switch {
	case left > SameMark:
		return along, left, Left
	case left < -SameMark:
		return along, -left, Right
	}
	return along, max(left, -left), OnLine
}

// heightMeasured says whether the height of a corner over the baseline was measured.
func (f Frame) heightMeasured(n geom.Name, is unit.Length) (yes, known bool) {
	for _, r := range f.Net.Results {
		if m := r.Measurement; m.Kind == triangle.Height && m.At[0] == n && SameLine([2]geom.Name{m.At[1], m.At[2]}, f.way.Base) {
			return f.Figure(r.Measured.Length) == f.Figure(is), true
		}
	}
	return false, false
}

// angleMeasured says the same of the angle at the zero end to a corner.
func (f Frame) angleMeasured(n geom.Name, is unit.Angle) bool {
	for _, r := range f.Net.Results {
		m := r.Measurement
		if m.Kind != triangle.Angle || m.At[1] != f.Baseline.From || f.Turned(r.Measured.Angle) != f.Turned(is) {
			continue
		}
		if m.At[0] == "" && f.Triangle() || SameLine([2]geom.Name{m.At[0], m.At[2]}, [2]geom.Name{f.Baseline.To, n}) {
			return true
		}
	}
	return false
}

// Framed is a matrix that leads from the axes of the baseline, whose zero end is the
// origin, to where one leads from the net's own plane.
func (f Frame) Framed(m [6]float64) [6]float64 {
	p, q := f.at[f.Baseline.From], f.at[f.Baseline.To]
	sin, cos := math.Sincos(float64(geom.Line{From: p, To: q}.Direction()))
	return [6]float64{
		m[0]*cos + m[2]*sin, m[1]*cos + m[3]*sin, m[2]*cos - m[0]*sin, m[3]*cos - m[1]*sin,
		m[0]*p.X.MM() + m[2]*p.Y.MM() + m[4], m[1]*p.X.MM() + m[3]*p.Y.MM() + m[5],
	}
}
