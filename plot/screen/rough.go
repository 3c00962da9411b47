package screen

import (
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// rough are points as they may lie: each round pulls them a little towards what was
// measured of them, and less and less towards sides of one length where nothing was. What
// contradicts itself ends somewhere between; nothing is proven or to scale.
type rough struct {
	at       map[geom.Name]geom.Vector
	outline  []geom.Name
	measured []triangle.Measurement
	usual    float64 // length of a side that nobody measured
}

const rounds = 400

// roughly lays out points once round, counter-clockwise, and pulls them into shape.
func roughly(outline, others []geom.Name, ms []triangle.Measurement) map[geom.Name]geom.Point {
	r := rough{at: map[geom.Name]geom.Vector{}, outline: outline, measured: ms, usual: usual(ms)}
	n := float64(max(len(outline), 3))
	radius := r.usual / 2 / math.Sin(math.Pi/n)
	for i, name := range outline {
		r.at[name] = geom.Vector{X: radius}.Turned(unit.Angle(2 * math.Pi * (float64(i)/n - 0.25 - 0.5/n)))
	}
	for i, name := range others {
		r.at[name] = geom.Vector{X: radius / 3}.Turned(unit.Angle(float64(i) * 2.4)) // round the middle, no two alike
	}
	for k := range rounds {
		left := 1 - float64(k)/rounds
		r.usualSides(0.3 * left * left)
		for _, m := range ms {
			r.pull(m)
		}
	}
	all := map[geom.Name]geom.Point{}
	for name, v := range r.at {
		all[name] = v.Point()
	}
	return all
}

// usual is a length for what nobody measured: the middle of those that somebody did.
func usual(ms []triangle.Measurement) float64 {
	var all []float64
	for _, m := range ms {
		if m.Kind != triangle.Angle {
			all = append(all, value(m))
		}
	}
	if len(all) == 0 {
		return 1000
	}
	slices.Sort(all)
	return all[len(all)/2]
}

func value(m triangle.Measurement) float64 {
	v, _ := m.Value.Value.Float64()
	return v
}

// usualSides pulls what nobody measured.
func (r rough) usualSides(by float64) {
	for i, a := range r.outline {
		b := r.outline[(i+1)%len(r.outline)]
		side := triangle.Measurement{Kind: triangle.Distance, At: [3]geom.Name{a, b}}
		if !slices.ContainsFunc(r.measured, side.Same) {
			r.apart(a, b, r.usual, by)
		}
	}
}

// apart moves two points towards a distance.
func (r rough) apart(a, b geom.Name, want, by float64) {
	d := r.at[b].Minus(r.at[a])
	if d.Size() < 1e-9*want {
		d = geom.Vector{X: 1e-6 * want}
	}
	move := d.Times((d.Size() - want) / d.Size() / 2 * by)
	r.at[a], r.at[b] = r.at[a].Plus(move), r.at[b].Minus(move)
}

// pull moves points towards what was measured.
func (r rough) pull(m triangle.Measurement) {
	switch m.Kind {
	case triangle.Distance:
		r.apart(m.At[0], m.At[1], value(m), 1)
	case triangle.Height:
		a, b, c := r.at[m.At[1]], r.at[m.At[2]], r.at[m.At[0]]
		if l := b.Minus(a); l.Size() > 0 {
			square := l.Left().Unit()
			off := c.Minus(a).Dot(square)
			want := math.Copysign(value(m), off)
			r.at[m.At[0]] = c.Plus(square.Times(want - off))
		}
	case triangle.Angle:
		r.open(m)
	}
}

// open turns the arms of an angle, by half of what it lacks each.
func (r rough) open(m triangle.Measurement) {
	corner, one, other := m.At[1], m.At[0], m.At[2]
	if one == "" { // by its corner alone: its neighbours on the outline
		i := slices.Index(r.outline, corner)
		if i < 0 || len(r.outline) < 3 {
			return
		}
		one, other = r.outline[(i+1)%len(r.outline)], r.outline[(i+len(r.outline)-1)%len(r.outline)]
	}
	at := r.at[corner]
	u, v := r.at[one].Minus(at), r.at[other].Minus(at)
	now := math.Atan2(u.Cross(v), u.Dot(v))
	lack := math.Copysign(value(m)*math.Pi/180, now) - now
	r.at[one] = at.Plus(u.Turned(unit.Angle(-lack / 4)))
	r.at[other] = at.Plus(v.Turned(unit.Angle(lack / 4)))
}
