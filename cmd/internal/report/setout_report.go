package report

import (
	"trammel/geom"
	"trammel/geom/pegging"
	"trammel/geom/unit"
	"trammel/plot/setout"
)

// SetoutReport is how a piece is set out: what its sheet says, in its order. Places are
// counted from the zero end of the baseline along it, and to its left.
type SetoutReport struct {
	Baseline string         `json:"baseline"` // its zero end first
	Method   string         `json:"method"`
	Pegs     []pegReport    `json:"pegs"`
	Pulls    []pullReport   `json:"pulls"`
	Squares  []squareReport `json:"squares"`
	Marks    []markReport   `json:"marks"` // along the edges, where they were asked for
	Checks   []checkOfSheet `json:"checks"`
	Steps    []string       `json:"steps"`
}

// pegReport is a peg, or a mark that is needed to set one.
type pegReport struct {
	Name   string     `json:"name"`
	Number int        `json:"number"`
	Role   string     `json:"role"` // corner, foot, middle, leg or top of a square
	At     [2]float64 `json:"at"`
	Along  float64    `json:"along"`  // running distance from the zero end
	Offset float64    `json:"offset"` // square to the baseline, never negative
	Side   string     `json:"side,omitempty"`
}

// pullReport is one pull of the tape, or one angle that is turned.
type pullReport struct {
	Number   int     `json:"number"`
	Use      string  `json:"use"`            // baseline, along, arc, square, height, angle, ray, middle or line
	Part     string  `json:"part,omitempty"` // main way, second way or for the checks
	Hold     string  `json:"hold"`
	To       string  `json:"to"`
	Length   float64 `json:"length"` // true
	Reads    float64 `json:"reads"`  // what the tape shows
	Angle    float64 `json:"angle,omitempty"`
	Side     string  `json:"side,omitempty"`   // to which it is turned
	Aside    float64 `json:"aside,omitempty"`  // of a height: from its end so far to the peg, square to it
	Toward   string  `json:"toward,omitempty"` // and towards which end of its line
	Measured bool    `json:"measured"`
	Within   float64 `json:"within"` // good to so much, mm; of an angle degrees
}

type squareReport struct {
	At   string     `json:"at"`
	Leg  string     `json:"leg"`
	Top  string     `json:"top"`
	Legs [3]float64 `json:"legs"` // along the baseline, square to it, across
	Loop [3]float64 `json:"loop"` // the tape in one loop: at the leg's end, at the top, at the foot again
	Side string     `json:"side,omitempty"`
}

type markReport struct {
	Edge string     `json:"edge"` // counted from its first end
	From float64    `json:"from"` // so far
	At   [2]float64 `json:"at"`
}

// checkOfSheet is a distance to close on.
type checkOfSheet struct {
	Number     int     `json:"number"`
	Kind       string  `json:"kind"` // height, foot, median, middles, side or diagonal
	From       string  `json:"from"`
	To         string  `json:"to"`
	Length     float64 `json:"length"` // true
	Reads      float64 `json:"reads"`  // what the tape shows
	AcceptFrom float64 `json:"accept_from"`
	AcceptTo   float64 `json:"accept_to"`
	Measured   bool    `json:"measured"`
}

var roles = map[pegging.Role]string{pegging.Corner: "corner", pegging.Foot: "foot", pegging.Middle: "middle", pegging.SquareLeg: "leg", pegging.SquareTop: "top"}

// along is a place as it is counted from the baseline.
func along(x, offset unit.Length, s pegging.Side) [2]float64 {
	if s == pegging.Right {
		offset = -offset
	}
	return Pair(geom.Point{X: x, Y: offset})
}

func ReportSetout(s setout.Sheet) *SetoutReport {
	r := &SetoutReport{Baseline: string(s.Baseline.From + s.Baseline.To), Method: s.Method.String(),
		Pegs: []pegReport{}, Pulls: []pullReport{}, Squares: []squareReport{}, Marks: []markReport{}, Checks: []checkOfSheet{}, Steps: []string{}}
	for _, p := range s.Pegs {
		r.Pegs = append(r.Pegs, pegReport{string(p.Name), p.Number, roles[p.Role], along(p.Along, p.Offset, p.Side), p.Along.MM(), p.Offset.MM(), p.Side.String()})
	}
	for _, p := range s.Pulls {
		q := pullReport{Number: p.Number, Use: string(p.Use), Part: string(p.Part), Hold: string(p.Hold), To: string(p.To),
			Length: p.Length.MM(), Reads: p.Reads.MM(), Measured: p.Measured, Within: p.Limit.MM()}
		if p.Use == pegging.ForAngle {
			q.Angle, q.Side, q.Within = p.Angle.Degrees(), p.Side.String(), p.Within.Degrees()
		}
		q.Aside, q.Toward = p.Aside.MM(), string(p.Toward)
		r.Pulls = append(r.Pulls, q)
	}
	for _, q := range s.Squares {
		r.Squares = append(r.Squares, squareReport{string(q.At), string(q.Leg), string(q.Top), lengths(q.Along, q.Up, q.Across), lengths(q.Loop[0], q.Loop[1], q.Loop[2]), q.Side.String()})
	}
	for _, m := range s.Marks {
		r.Marks = append(r.Marks, markReport{string(m.Edge[0] + m.Edge[1]), m.At.MM(), along(m.Along, m.Offset, m.Side)})
	}
	for _, c := range s.Checks {
		r.Checks = append(r.Checks, checkOfSheet{c.Number, string(c.Kind), string(c.From), string(c.To), c.Value.MM(), c.Reads.MM(), c.Least.MM(), c.Greatest.MM(), c.Measured})
	}
	r.Steps = append(r.Steps, s.Steps...)
	return r
}

func lengths(a, b, c unit.Length) [3]float64 { return [3]float64{a.MM(), b.MM(), c.MM()} }
