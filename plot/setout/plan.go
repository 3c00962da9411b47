package setout

import (
	"slices"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/pegging"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/plan"
	"trammel/plot/words"
)

// planned is what the plan of the sheet shows.
func (s Sheet) planned() plan.Plan {
	many := len(s.Sure) > crowded
	p := plan.Plan{Edge: s.Outline, Base: s.Ends(), ZeroFirst: s.Baseline.Zero == 0, Enlarged: plan.Roundly, Details: !s.Lone(), North: s.North, Language: s.Language}
	ellipse := map[geom.Name]adjust.Ellipse{}
	for _, x := range s.Sure {
		ellipse[x.Peg] = x.Ellipse
	}
	if many && slices.ContainsFunc(s.Pegs, forSquare) {
		p.Notes = append(p.Notes, s.heads().LeftOut())
	}
	for _, q := range s.Pegs {
		if many && forSquare(q) || len(s.Sure) > mostFeet && q.Role == pegging.Foot {
			continue
		}
		peg := plan.Peg{Name: q.Name, At: q.At, Role: roles[q.Role], Also: q.Also, Ellipse: ellipse[q.Name], Along: q.Along}
		if !s.Lone() { // eight letters and eight numbers say no more than the letters
			peg.Number = q.Number
		}
		if q.Side == pegging.OnLine {
			peg.Running, _ = s.pegFigures(q)
		}
		p.Pegs = append(p.Pegs, peg)
	}
	side := func(a, b geom.Name, measured bool) {
		line := [2]geom.Name{a, b}
		// The baseline's own length is the last of the running figures: between two of
		// their marks it would read as the distance between those.
		if pegging.SameLine(line, s.Ends()) || slices.ContainsFunc(p.Sides, func(x plan.Side) bool { return pegging.SameLine([2]geom.Name{x.From, x.To}, line) }) {
			return
		}
		p.Sides = append(p.Sides, plan.Side{From: a, To: b, Words: words.Computed(s.Figure(s.Between(a, b)), measured), Measured: measured})
	}
	for i, a := range s.Outline {
		b := s.Outline[(i+1)%len(s.Outline)]
		side(a, b, s.WasMeasured(a, b, s.Between(a, b)))
	}
	if !many {
		for _, r := range s.Net.Results {
			if m := r.Measurement; m.Kind == triangle.Distance {
				side(m.At[0], m.At[1], s.WasMeasured(m.At[0], m.At[1], s.Between(m.At[0], m.At[1])))
			}
		}
	}
	for _, x := range slices.Concat(s.Main, s.Second) {
		s.strokesOf(&p, x)
	}
	for _, n := range s.Nails {
		corner := s.Spot(n.Beyond)
		p.Strokes = append(p.Strokes, plan.Stroke{Kind: plan.StringLine, From: corner, To: n.Point})
		across := geom.Line{From: corner, To: n.Point}.Direction() + unit.Turn/4
		p.Strokes = append(p.Strokes, plan.Stroke{Kind: plan.Board, From: n.Point.Toward(across, halfBoard), To: n.Point.Toward(across, -halfBoard)})
	}
	return p
}

// roles of pegs as a plan draws them.
var roles = [...]plan.Role{pegging.Corner: plan.Corner, pegging.Foot: plan.Helper, pegging.Middle: plan.Midpoint, pegging.SquareLeg: plan.Helper, pegging.SquareTop: plan.Helper}

// forSquare says whether a peg serves a 3-4-5 alone.
func forSquare(q pegging.Mark) bool {
	return q.Role == pegging.SquareLeg || q.Role == pegging.SquareTop
}

// mostFeet is up to how many points the feet of offsets are on the plan.
const mostFeet = 40

// crowded is from how many points on a plan leaves out what the tables say as well.
const crowded = 12

// halfBoard is half of a profile board's length.
const halfBoard = 400 * unit.Millimetre

// strokesOf are the marks of the hand's work for one corner.
func (s Sheet) strokesOf(p *plan.Plan, x pegging.Placing) {
	at := s.Spot(x.Peg)
	add := func(k plan.Kind, from, to geom.Point) {
		if stroke := (plan.Stroke{Kind: k, From: from, To: to}); !slices.Contains(p.Strokes, stroke) {
			p.Strokes = append(p.Strokes, stroke)
		}
	}
	switch x.Method {
	case pegging.TwoArcs:
		add(plan.ArcTo, s.Spot(s.Baseline.From), at)
		add(plan.ArcTo, s.Spot(s.Baseline.To), at)
	case pegging.AngleDistance:
		add(plan.SightTo, s.Spot(s.Baseline.From), at)
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
		if foot.Role == pegging.Corner {
			quarter.X = leg.At.X
		}
		if !s.Edge(foot.Name, x.Peg) {
			add(plan.OffsetTo, foot.At, at)
		}
		add(plan.RightAngle, foot.At, quarter)
		if s.Lone() && foot.Role == pegging.Foot { // its length stands beside it
			p.Sides = append(p.Sides, plan.Side{From: foot.Name, To: x.Peg, Words: words.Computed(s.Figure(foot.At.Distance(at)), s.offsetTold(x.Peg)), Measured: s.offsetTold(x.Peg)})
		}
	}
}
