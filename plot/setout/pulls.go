package setout

import (
	"fmt"

	"trammel/geom"
	"trammel/geom/pegging"
	"trammel/geom/tape"
	"trammel/geom/unit"
)

// reading is what a nail in a peg and an eye over a tape add to one pull: common
// practice, no source.
const reading unit.Length = 1

// limit is what one pull of the length is good for: the tape's error, and peg and
// reading.
func (s *Sheet) limit(l unit.Length) unit.Length { return s.Tools.Tape.Error(l) + s.Tools.Reading }

// reads is what the tape shows where the length is laid off over a fall, and by what
// corrections.
func (s *Sheet) reads(l, fall unit.Length) (unit.Length, tape.Corrections) {
	if !s.Corrected {
		return l, tape.Corrections{}
	}
	c := s.Conditions
	c.Fall = fall
	r, by, err := s.Standard.Reading(l, c)
	if err != nil {
		return l, tape.Corrections{} // Prepare has asked before
	}
	return r, by
}

// leg is the same of a side of a square, which is square at any size: only the fall
// counts.
func (s *Sheet) leg(l, fall unit.Length) (unit.Length, tape.Corrections) {
	r, by, err := tape.Standard{}.Reading(l, tape.Conditions{Fall: fall})
	if err != nil {
		return l, tape.Corrections{}
	}
	return r, by
}

// pulls lists all pulls in the order of the work. The error is a *unit.Fault where the
// ground falls more steeply than a tape is laid.
func (w *work) pulls() error {
	var steep error
	from, to := w.Baseline.From, w.Baseline.To
	add := func(p Pull) int {
		p.Number = len(w.Pulls) + 1
		if p.Use != ForAngle {
			p.Limit = w.limit(p.Length)
			fall := w.fall(p.Hold, p.To)
			if fall >= p.Length && steep == nil {
				steep = &unit.Fault{Subject: unit.Levels, What: fmt.Sprintf("from %s to %s the ground falls more than 45°: %s over %s", p.Hold, p.To, w.Style.LengthUnit(fall), w.Style.LengthUnit(p.Length)),
					Hint: "a tape is not laid so steep: measure in steps, each level, and give no levels"}
			}
			if p.Use == ForLeg {
				p.Reads, p.By = w.leg(p.Length, fall)
			} else {
				p.Reads, p.By = w.reads(p.Length, fall)
			}
		}
		w.Pulls = append(w.Pulls, p)
		return p.Number - 1
	}
	add(Pull{Use: ForBaseline, Hold: from, To: to, Length: w.Baseline.Length, Measured: w.Baseline.Measured})
	for _, p := range w.marksOn {
		l := max(p.Along, -p.Along)
		add(Pull{Use: ForRunning, Hold: from, To: p.Name, Length: l, Behind: p.Along < 0, Measured: p.Role == Corner && w.measured(from, p.Name, l)})
	}
	legs := map[int][]int{} // of squares
	place := func(p *Placing, part Part) {
		n := p.Peg
		side := func(end geom.Name) unit.Length { return w.sides[end].Distance(w.sides[n]) }
		switch p.Method {
		case pegging.TwoArcs:
			for _, end := range []geom.Name{from, to} {
				p.Pulls = append(p.Pulls, add(Pull{Use: ForArc, Part: part, Hold: end, To: n, Length: side(end), Measured: w.measured(end, n, side(end))}))
			}
		case pegging.AngleDistance:
			along, offset, _ := w.running(w.sides[n])
			d := side(from)
			a := geom.Line{To: geom.Point{X: along, Y: offset}}.Direction()
			p.Pulls = []int{
				add(Pull{Use: ForAngle, Part: part, Hold: from, To: n, Angle: a, Side: p.Side, Measured: w.angleMeasured(n, a),
					Within: tape.Expansion * w.Tools.Turned(w.Baseline.Length, d, side(to))}),
				add(Pull{Use: ForRay, Part: part, Hold: from, To: n, Length: d, Measured: w.measured(from, n, d)}),
			}
		default:
			q := w.Squares[p.Square]
			if legs[p.Square] == nil {
				for _, l := range []Pull{{Hold: q.At, To: q.Leg, Length: q.Along}, {Hold: q.At, To: q.Top, Length: q.Up}, {Hold: q.Leg, To: q.Top, Length: q.Across}} {
					l.Use, l.Part = ForLeg, part
					legs[p.Square] = append(legs[p.Square], add(l))
				}
			}
			_, offset, _ := w.running(w.sides[n])
			p.Pulls = append(append(p.Pulls, legs[p.Square]...),
				add(Pull{Use: ForHeight, Part: part, Hold: q.At, To: n, Length: offset, Measured: w.offsetMeasured(n, offset)}))
		}
	}
	for i := range w.Main {
		place(&w.Main[i], MainWay)
	}
	for _, p := range w.mids {
		add(Pull{Use: ForMiddle, Part: ForChecks, Hold: p.Of[0], To: p.Name, Length: w.sides[p.Of[0]].Distance(p.At)})
	}
	for i := range w.Second {
		place(&w.Second[i], SecondWay)
	}
	w.trace = w.traceOf(w.Main)
	for _, all := range [][]Placing{w.Main, w.Second} {
		n := w.traceOf(all)
		for i := range all {
			all[i].Rounding = w.roundingCost(n, all[i].Peg)
		}
	}
	return steep
}

// longest of all pulls, as the tape reads.
func (s Sheet) longest() (l unit.Length) {
	for _, p := range s.Pulls {
		l = max(l, p.Reads)
	}
	return l
}

// fromSite says whether the pull for a use from a mark to a corner was measured.
func (s Sheet) fromSite(u Use, hold, to geom.Name) bool {
	for _, p := range s.Pulls {
		if p.Use == u && p.Hold == hold && p.To == to {
			return p.Measured
		}
	}
	return false
}
