package compare

import (
	"math"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/tape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

func (l *layout) compared(i int) Compared {
	o := &l.Obs[i]
	fig := func(x float64) adjust.Figure { return adjust.AsFigure(o.Kind, x) }
	wanted, by := o.Computed(l.wanted)
	half, open, rough := l.half(o, wanted, by)
	found := o.Value
	if o.Kind != triangle.Angle {
		wanted = float64(l.tape.reads(unit.Length(wanted)))
		found = float64(l.Measured[i].Value.Length())
	}
	least, greatest := wanted-half, wanted+half
	// An end that lies on a whole step but for rounding stays there.
	const onStep = 1e-6
	if step := l.asked.Fine.Bare(o.Kind); l.permits(o) && step > 0 { // inward
		least, greatest = math.Ceil(least/step-onStep)*step, math.Floor(greatest/step+onStep)*step
	} else if step := l.asked.Grain.Bare(o.Kind); !l.permits(o) && step > 0 { // outward
		least, greatest = math.Floor(least/step+onStep)*step, math.Ceil(greatest/step-onStep)*step
	}
	if o.Kind == triangle.Distance {
		p, q := l.Names[o.At[0]], l.Names[o.At[1]]
		for _, r := range l.asked.Ranges {
			if r.From == p && r.To == q || r.From == q && r.To == p {
				low, high := float64(r.Least), float64(r.Greatest)
				if o.Stated { // it may narrow what is printed
					low, high = max(low, least), min(high, greatest)
				}
				least, greatest = low, high
			}
		}
	}
	r := Compared{
		Measurement: l.asked.Found[i], Wanted: fig(wanted), Found: fig(found), Off: fig(found - wanted), Least: fig(least), Greatest: fig(greatest),
		Sigma: fig(o.Sigma), Rough: rough, Open: fig(open),
	}
	r.Inside = r.takes(0)
	return r
}

// permits says whether the range of a reading is what is permitted.
func (l *layout) permits(o *adjust.Observation) bool {
	return l.asked.Permitted > 0 && o.Kind != triangle.Angle
}

// half of the range that a reading is accepted within; what the reading leaves open
// by the way it is written, and whether that is more than can be judged by.
func (l *layout) half(o *adjust.Observation, wanted float64, by [3]geom.Vector) (half, open float64, rough bool) {
	open = o.Half
	if o.Stated {
		open = tape.Expansion * o.Sigma
	}
	if l.permits(o) {
		half = float64(tape.Permitted(l.asked.Permitted, unit.Length(wanted)))
		return half, open, open > half
	}
	tools := l.pull(wanted)
	if o.Kind == triangle.Angle {
		exact := *o
		exact.Half, exact.Stated = 0, false
		tools = accepted * exact.SigmaAt(l.Tools, l.wanted)
	}
	set := l.setting(o, wanted, by)
	with := func(own float64) float64 { return math.Hypot(own, set) }
	switch half = with(tools); {
	case open > half:
		return half, open, true
	case o.Stated:
		return with(min(open, tools)), open, false // it narrows the range, and never widens it
	case o.Kind == triangle.Angle || o.Half > float64(l.Tools.Reading): // read to the centimetre
		return with(math.Hypot(tools, accepted*tape.Bound(o.Half))), open, false
	}
	return half, open, false
}

// setting is what setting out leaves of a reading: of a line that was pulled itself
// what one pull is good for, else what both its pegs cost.
func (l *layout) setting(o *adjust.Observation, wanted float64, by [3]geom.Vector) float64 {
	if o.Kind == triangle.Distance && l.pulled[[2]int{min(o.At[0], o.At[1]), max(o.At[0], o.At[1])}] {
		return l.pull(wanted)
	}
	pegs := 0.0
	for k, q := range o.Points() {
		pegs += l.spread[q].Through(by[k])
	}
	return accepted * math.Sqrt(pegs)
}

func (l *layout) pull(wanted float64) float64 {
	return float64(l.Tools.Tape.Error(unit.Length(wanted)) + l.Tools.Reading)
}

// takes says whether a reading lies inside its range if it reads so much more.
func (r Compared) takes(more float64) bool {
	kind := r.Measurement.Kind
	found, least, greatest := r.Found.Bare(kind)+more, r.Least.Bare(kind), r.Greatest.Bare(kind)
	hair := 1e-9 * max(1, math.Abs(r.Wanted.Bare(kind))) // on the edge it is inside, whatever rounding says
	return found >= least-hair && found <= greatest+hair
}
