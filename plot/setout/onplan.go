package setout

import (
	"slices"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/pegging"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/plan"
)

// planned is what the plan of the sheet shows.
func (s Sheet) planned() plan.Plan {
	many := len(s.Sure) > crowded
	p := plan.Plan{Edge: s.Outline, Base: s.ends(), ZeroFirst: s.Baseline.Zero == 0, Enlarged: plan.Roundly, Details: !s.lone(), North: plan.North(s.North)}
	ellipse := map[geom.Name]adjust.Ellipse{}
	for _, x := range s.Sure {
		ellipse[x.Peg] = x.Ellipse
	}
	if many && slices.ContainsFunc(s.Pegs, forSquare) {
		p.Notes = append(p.Notes, "Marks for squares are left out: they are in the tables.")
	}
	for _, q := range s.Pegs {
		if many && forSquare(q) || len(s.Sure) > mostFeet && q.Role == Foot {
			continue
		}
		peg := plan.Peg{Name: q.Name, At: q.At, Role: roles[q.Role], Also: q.Also, Ellipse: ellipse[q.Name], Along: q.Along}
		if !s.lone() { // eight letters and eight numbers say no more than the letters
			peg.Number = q.Number
		}
		if q.Side == OnLine {
			peg.Running, _ = s.pegFigures(q)
		}
		p.Pegs = append(p.Pegs, peg)
	}
	side := func(a, b geom.Name, measured bool) {
		line := [2]geom.Name{a, b}
		// The baseline's own length is the last of the running figures: between two of
		// their marks it would read as the distance between those.
		if sameLine(line, s.ends()) || slices.ContainsFunc(p.Sides, func(x plan.Side) bool { return sameLine([2]geom.Name{x.From, x.To}, line) }) {
			return
		}
		p.Sides = append(p.Sides, plan.Side{From: a, To: b, Words: bracketed(s.Figure(s.between(a, b)), measured), Measured: measured})
	}
	for i, a := range s.Outline {
		b := s.Outline[(i+1)%len(s.Outline)]
		side(a, b, s.measured(a, b, s.between(a, b)))
	}
	if !many {
		for _, r := range s.given {
			if m := r.Measurement; m.Kind == triangle.Distance {
				side(m.At[0], m.At[1], s.measured(m.At[0], m.At[1], s.between(m.At[0], m.At[1])))
			}
		}
	}
	for _, x := range slices.Concat(s.Main, s.Second) {
		s.strokesOf(&p, x)
	}
	for _, n := range s.Nails {
		corner := s.sides[n.Beyond]
		p.Strokes = append(p.Strokes, plan.Stroke{Kind: plan.StringLine, From: corner, To: n.Point})
		across := geom.Line{From: corner, To: n.Point}.Direction() + unit.Turn/4
		p.Strokes = append(p.Strokes, plan.Stroke{Kind: plan.Board, From: n.Point.Toward(across, halfBoard), To: n.Point.Toward(across, -halfBoard)})
	}
	return p
}

// roles of pegs as a plan draws them.
var roles = [...]plan.Role{Corner: plan.Corner, Foot: plan.Helper, Middle: plan.Midpoint, SquareLeg: plan.Helper, SquareTop: plan.Helper}

// forSquare says whether a peg serves a 3-4-5 alone.
func forSquare(q Peg) bool { return q.Role == SquareLeg || q.Role == SquareTop }

// mostFeet is up to how many points the feet of offsets are on the plan.
const mostFeet = 40

// crowded is from how many points on a plan leaves out what the tables say as well.
const crowded = 12

// halfBoard is half of a profile board's length.
const halfBoard = 400 * unit.Millimetre

// between is the distance of two points of the net.
func (s Sheet) between(a, b geom.Name) unit.Length { return s.sides[a].Distance(s.sides[b]) }

// strokesOf are the marks of the hand's work for one corner.
func (s Sheet) strokesOf(p *plan.Plan, x Placing) {
	at := s.sides[x.Peg]
	add := func(k plan.Kind, from, to geom.Point) {
		if stroke := (plan.Stroke{Kind: k, From: from, To: to}); !slices.Contains(p.Strokes, stroke) {
			p.Strokes = append(p.Strokes, stroke)
		}
	}
	switch x.Method {
	case pegging.TwoArcs:
		add(plan.ArcTo, s.sides[s.Baseline.From], at)
		add(plan.ArcTo, s.sides[s.Baseline.To], at)
	case pegging.AngleDistance:
		add(plan.SightTo, s.sides[s.Baseline.From], at)
	default:
		q := s.Squares[x.Square]
		leg, _ := s.Peg(q.Leg)
		top, _ := s.Peg(q.Top)
		foot, _ := s.Peg(q.At)
		if len(s.Sure) <= crowded {
			add(plan.SquareLeg, leg.At, top.At)
		}
		// The sign of the right angle stands away from the 3-4-5; inside where the right
		// angle is the piece's own.
		quarter := geom.Point{X: 2*foot.At.X - leg.At.X, Y: top.At.Y}
		if foot.Role == Corner {
			quarter.X = leg.At.X
		}
		if !s.edgeOf(foot.Name, x.Peg) {
			add(plan.OffsetTo, foot.At, at)
		}
		add(plan.RightAngle, foot.At, quarter)
		if s.lone() && foot.Role == Foot { // its length stands beside it
			p.Sides = append(p.Sides, plan.Side{From: foot.Name, To: x.Peg, Words: bracketed(s.Figure(foot.At.Distance(at)), s.offsetTold(x.Peg)), Measured: s.offsetTold(x.Peg)})
		}
	}
}
