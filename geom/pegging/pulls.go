package pegging

import (
	"fmt"
	"math"

	"trammel/geom"
	"trammel/geom/tape"
	"trammel/geom/unit"
)

// Pulled is a setting-out with what is pulled, in the order of the work.
type Pulled struct {
	Heights
	tape.Taping
	Pulls []Pull
}

// Use is what a pull of the tape is for.
type Use string

const (
	ForBaseline Use = "baseline"
	ForRunning  Use = "along"
	ForArc      Use = "arc"
	ForLeg      Use = "square"
	ForHeight   Use = "height" // an offset
	ForAngle    Use = "angle"  // turned, not pulled
	ForRay      Use = "ray"    // along the sight
	ForMiddle   Use = "middle"
	ForLine     Use = "line" // along the line of two marks that is no baseline, from the first
)

// Whole says whether the pull is of a length from peg to peg.
func (u Use) Whole() bool {
	return u == ForBaseline || u == ForRunning || u == ForLine || u == ForArc || u == ForRay
}

// Part of the work that a pull belongs to.
type Part string

const (
	MainWay   Part = "main way"
	SecondWay Part = "second way"
	ForChecks Part = "for the checks"
)

// Pull is one pull of the tape: zero held at one mark, a length read at another;
// or one angle turned at Hold from the other end of the baseline to To.
type Pull struct {
	Number   int
	Use      Use
	Part     Part // empty: the baseline and the marks on it
	Hold, To geom.Name
	Length   unit.Length // true
	Reads    unit.Length // what the tape shows: Length, unless it is corrected
	By       tape.Corrections
	Behind   bool         // of a mark along the baseline: on the far side of Hold
	Line     [2]geom.Name // of ForLine
	Aside    unit.Length  // of an offset: from its end so far to the peg, square to it
	Toward   geom.Name    // and towards which end of the line
	Angle    unit.Angle   // of an angle
	Side     Side         // to which it is turned
	Measured bool         // one of the measurements; otherwise computed
	Limit    unit.Length  // good within ± this, see the package comment; 0 of an angle
	Within   unit.Angle   // of an angle, good within ± this
}

// pulledOf lists all pulls. The error is a *unit.Fault where the ground falls more
// steeply than a tape is laid.
func pulledOf(h Heights, t tape.Taping) (Pulled, error) {
	p := Pulled{Heights: h, Taping: t}
	if h.Falls {
		p.Squares = nil
		for _, q := range h.Squares {
			q.Loop = loopOf(h.LegsOf(q))
			p.Squares = append(p.Squares, q)
		}
	}
	from, to := h.Baseline.From, h.Baseline.To
	p.add(Pull{Use: ForBaseline, Hold: from, To: to, Length: h.Baseline.Length, Measured: h.Baseline.Measured})
	for _, m := range h.On {
		l := max(m.Along, -m.Along)
		p.add(Pull{Use: ForRunning, Hold: from, To: m.Name, Length: l, Behind: m.Along < 0, Measured: m.Role == Corner && h.WasMeasured(from, m.Name, l)})
	}
	legs := map[int][]int{} // of squares
	p.Main = p.place(h.Main, MainWay, legs)
	for _, m := range h.Middles {
		p.add(Pull{Use: ForMiddle, Part: ForChecks, Hold: m.Of[0], To: m.Name, Length: h.spots[m.Of[0]].Distance(m.At)})
	}
	p.Second = p.place(h.Second, SecondWay, legs)
	p.Main, p.Second = p.rounded(p.Main), p.rounded(p.Second)
	return p, p.steep()
}

// add numbers a pull and says what the tape shows; it returns its index.
func (p *Pulled) add(x Pull) int {
	x.Number = len(p.Pulls) + 1
	if x.Use != ForAngle {
		x.Limit = p.Limit(x.Length)
		if fall := p.Fall(x.Hold, x.To); x.Use == ForLeg {
			x.Reads, x.By = tape.Leg(x.Length, fall)
		} else {
			x.Reads, x.By = p.Reads(x.Length, fall)
		}
	}
	p.Pulls = append(p.Pulls, x)
	return x.Number - 1
}

func (p Pulled) steep() error {
	for _, x := range p.Pulls {
		if fall := p.Fall(x.Hold, x.To); x.Use != ForAngle && fall >= x.Length {
			return &unit.Fault{Subject: unit.Levels, What: fmt.Sprintf("from %s to %s the ground falls more than 45°: %s over %s", x.Hold, x.To, p.Style.LengthUnit(fall), p.Style.LengthUnit(x.Length)),
				Hint: "a tape is not laid so steep: measure in steps, each level, and give no levels"}
		}
	}
	return nil
}

// place pulls what places corners; legs are the pulls of squares that stand already.
func (p *Pulled) place(placings []Placing, part Part, legs map[int][]int) (all []Placing) {
	for _, x := range placings {
		n, from, to := x.Peg, x.Base[0], x.Base[1]
		side := func(end geom.Name) unit.Length { return p.Between(end, n) }
		along, offset, _ := p.Running(p.spots[n])
		if x.Base != p.base() {
			offset = unit.Length(math.Abs(p.from(x.Base, p.spots[n]).Y))
		}
		switch x.Method {
		case RunOff:
			x.Pulls = append(x.Pulls, p.add(Pull{Use: ForLine, Part: part, Hold: from, To: n, Length: side(from), Line: x.Base, Measured: p.WasMeasured(from, n, side(from))}))
		case TwoArcs:
			for _, end := range []geom.Name{from, to} {
				x.Pulls = append(x.Pulls, p.add(Pull{Use: ForArc, Part: part, Hold: end, To: n, Length: side(end), Measured: p.WasMeasured(end, n, side(end))}))
			}
		case AngleDistance:
			d := side(from)
			a := geom.Line{To: geom.Point{X: along, Y: offset}}.Direction()
			x.Pulls = []int{
				p.add(Pull{Use: ForAngle, Part: part, Hold: from, To: n, Angle: a, Side: x.Side, Measured: p.angleMeasured(n, a),
					Within: tape.Expansion * p.Tools.Turned(p.Baseline.Length, d, side(to))}),
				p.add(Pull{Use: ForRay, Part: part, Hold: from, To: n, Length: d, Measured: p.WasMeasured(from, n, d)}),
			}
		default:
			q := p.Squares[x.Square]
			if foot, _ := p.Peg(q.At); foot.Line != [2]geom.Name{} && p.PullTo(q.At).To == "" {
				p.add(Pull{Use: ForLine, Part: part, Hold: from, To: q.At, Length: p.spots[from].Distance(foot.At), Line: x.Base})
			}
			if legs[x.Square] == nil {
				for _, l := range []Pull{{Hold: q.At, To: q.Leg, Length: q.Along}, {Hold: q.At, To: q.Top, Length: q.Up}, {Hold: q.Leg, To: q.Top, Length: q.Across}} {
					l.Use, l.Part = ForLeg, part
					legs[x.Square] = append(legs[x.Square], p.add(l))
				}
			}
			x.Pulls = append(append(x.Pulls, legs[x.Square]...),
				p.add(Pull{Use: ForHeight, Part: part, Hold: q.At, To: n, Length: offset, Aside: x.Aside, Toward: x.Toward, Measured: x.Aside == 0 && p.offsetMeasured(x, offset)}))
		}
		all = append(all, x)
	}
	return all
}

// rounded are placings with what rounding the figures costs.
func (p Pulled) rounded(placings []Placing) (all []Placing) {
	t := p.traceOf(placings)
	for _, x := range placings {
		x.Rounding = p.roundingCost(t, x.Peg)
		all = append(all, x)
	}
	return all
}

// LegsOf are the sides of a square as the tape reads them: along, up and across.
func (h Heights) LegsOf(q Squaring) (legs [3]unit.Length) {
	legs[0], _ = tape.Leg(q.Along, h.Fall(q.At, q.Leg))
	legs[1], _ = tape.Leg(q.Up, h.Fall(q.At, q.Top))
	legs[2], _ = tape.Leg(q.Across, h.Fall(q.Leg, q.Top))
	return legs
}

// Longest of all pulls, as the tape reads.
func (p Pulled) Longest() (l unit.Length) {
	for _, x := range p.Pulls {
		l = max(l, x.Reads)
	}
	return l
}

// PullTo is the first pull that makes a mark.
func (p Pulled) PullTo(n geom.Name) Pull {
	for _, x := range p.Pulls {
		if x.To == n {
			return x
		}
	}
	return Pull{}
}

// tapingOf what was asked; it is an error where no tape can be used so.
func tapingOf(a Asked) (tape.Taping, error) {
	t := tape.Taping{Tools: a.Tools, Corrected: a.Conditions != nil || len(a.Levels) > 0, Weighed: a.Conditions != nil}
	t.Tools.Reading = t.Tools.Complete().Reading
	t.Tools.Feet = tape.FiguresOf(a.Style, a.Tools.Instrument).Inches()
	if a.Conditions == nil {
		return t, nil
	}
	t.Standard, t.Conditions = a.Standard, *a.Conditions
	_, _, err := t.Standard.Reading(Most, t.Conditions)
	return t, err
}
