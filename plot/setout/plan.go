package setout

import (
	"slices"

	"trammel/geom"
	"trammel/geom/pegging"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/plan"
)

// planned is what the plan of the sheet shows: the piece, every line that is pulled, the
// marks, and what was measured of its angles.
func (s Sheet) planned() plan.Plan {
	many := len(s.Sure) > crowded
	p := plan.Plan{Edge: s.Outline, Base: s.Ends(), ZeroFirst: s.Baseline.Zero == 0, Details: !s.Lone(), North: s.North, Turn: s.Turn, Language: s.Language}
	if many && slices.ContainsFunc(s.Pegs, forSquare) {
		p.Notes = append(p.Notes, s.heads().LeftOut())
	}
	for _, q := range s.sitePegs() {
		if many && forSquare(q) || len(s.Sure) > mostFeet && q.Role == pegging.Foot {
			continue
		}
		peg := plan.Peg{Name: q.Name, At: q.At, Role: roles[q.Role], Also: q.Also, Along: q.Along}
		if q.Side == pegging.OnLine {
			peg.Running, peg.Given = s.along(q), alongMeasured(s.written, q)
		} else if q.Role == pegging.Middle {
			peg.Figure = s.Figure(s.PullTo(q.Name).Length)
		}
		p.Pegs = append(p.Pegs, peg)
	}
	side := func(a, b geom.Name) {
		line := [2]geom.Name{a, b}
		// The baseline's own length is the last of the running figures: between two of
		// their marks it would read as the distance between those.
		if s.Turn == 0 && pegging.SameLine(line, s.Ends()) || slices.ContainsFunc(p.Sides, func(x plan.Side) bool { return pegging.SameLine([2]geom.Name{x.From, x.To}, line) }) {
			return
		}
		length := s.mark(a).At.Distance(s.mark(b).At)
		p.Sides = append(p.Sides, plan.Side{From: a, To: b, Words: s.Figure(length), Measured: s.WasMeasured(a, b, length)})
	}
	for i, a := range s.Outline {
		side(a, s.Outline[(i+1)%len(s.Outline)])
	}
	for _, x := range s.Pulls {
		if x.Use == pegging.ForArc && x.Part != pegging.SecondWay || x.Use == pegging.ForRay || x.Use == pegging.ForLine {
			side(x.Hold, x.To)
			if chalk := (plan.Stroke{Kind: plan.StringLine, From: s.Spot(x.Line[0]), To: s.Spot(x.Line[1])}); x.Use == pegging.ForLine && !s.Edge(x.Line[0], x.Line[1]) && !slices.Contains(p.Strokes, chalk) {
				p.Strokes = append(p.Strokes, chalk)
			}
		}
	}
	if s.Turn != 0 { // there is no tape line
		side(s.Ends()[0], s.Ends()[1])
	}
	for _, x := range s.Main {
		s.strokesOf(&p, x)
	}
	heightOf(s, &p)
	anglesOf(s, &p)
	for _, n := range s.Nails {
		corner := s.Spot(n.Beyond)
		p.Strokes = append(p.Strokes, plan.Stroke{Kind: plan.StringLine, From: corner, To: n.Point})
		across := geom.Line{From: corner, To: n.Point}.Direction() + unit.Turn/4
		p.Strokes = append(p.Strokes, plan.Stroke{Kind: plan.Board, From: n.Point.Toward(across, halfBoard), To: n.Point.Toward(across, -halfBoard)})
	}
	return p
}

// heightOf a triangle stands on the plan whatever places its corner: it is checked.
func heightOf(s Sheet, p *plan.Plan) {
	for _, c := range s.Checks {
		if c.Kind != pegging.CheckHeight {
			continue
		}
		foot, at := s.mark(c.To), s.mark(c.From)
		p.Strokes = append(p.Strokes, plan.Stroke{Kind: plan.OffsetTo, From: foot.At, To: at.At},
			plan.Stroke{Kind: plan.RightAngle, From: foot.At, To: geom.Point{X: 2*foot.At.X - s.Spot(s.Ends()[0]).X + 1, Y: at.At.Y}})
		p.Sides = append(p.Sides, plan.Side{From: c.To, To: c.From, Words: s.Figure(c.Value), Measured: c.Measured})
	}
}

func (s Sheet) mark(n geom.Name) pegging.Mark {
	m, _ := s.Peg(n)
	return m
}

// anglesOf are those that were measured in the corners of a triangle.
func anglesOf(s Sheet, p *plan.Plan) {
	if !s.Lone() {
		return
	}
	for _, r := range s.Net.Results {
		m := r.Measurement
		if m.Kind != triangle.Angle || len(s.Outline) != 3 {
			continue
		}
		for i, n := range s.Outline {
			if n == m.At[1] {
				p.Angles = append(p.Angles, plan.Angle{At: n, From: s.Outline[(i+1)%3], To: s.Outline[(i+2)%3], Words: s.Style.Angle(r.Measured.Angle)})
			}
		}
	}
}

// checked is the plan of the checks: their lines, numbered as in the table.
func (s Sheet) checked(checks []pegging.Check) plan.Plan {
	p := plan.Plan{Edge: s.Outline, Base: s.Ends(), Small: true, Turn: s.Turn}
	seen := map[geom.Name]bool{}
	for _, n := range s.Outline {
		seen[n] = true
	}
	for _, c := range checks {
		p.Rings = append(p.Rings, plan.Ring{From: c.From, To: c.To, Number: c.Number})
		seen[c.From], seen[c.To] = true, true
	}
	for _, q := range s.Pegs {
		if seen[q.Name] {
			p.Pegs = append(p.Pegs, plan.Peg{Name: q.Name, At: q.At, Role: roles[q.Role]})
		}
	}
	return p
}

// fitted is a plan as large as the room lets it be, or crammed where it has none.
func fitted(p plan.Plan, width, height unit.Length, r draw.Ruler) plan.Drawn {
	d, ok := p.Fit(width, height, r)
	d.Crammed = d.Crammed || !ok
	return d
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
		add(plan.ArcTo, s.Spot(x.Base[0]), at)
		add(plan.ArcTo, s.Spot(x.Base[1]), at)
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
		along := leg.At.Minus(foot.At)
		if foot.Role != pegging.Corner {
			along = along.Times(-1)
		}
		quarter := top.At.Plus(along)
		switch {
		case x.Aside > 0: // it turns over the foot
			up := geom.VectorOf(top.At.Minus(foot.At)).Unit()
			turn := foot.At.Plus(up.Times(up.Dot(geom.VectorOf(at.Minus(foot.At)))).Point())
			add(plan.OffsetTo, foot.At, turn)
			add(plan.OffsetTo, turn, at)
		case !s.Edge(foot.Name, x.Peg):
			add(plan.OffsetTo, foot.At, at)
		}
		add(plan.RightAngle, foot.At, quarter)
		if !slices.ContainsFunc(p.Sides, func(y plan.Side) bool {
			return pegging.SameLine([2]geom.Name{y.From, y.To}, [2]geom.Name{foot.Name, x.Peg})
		}) { // its length stands beside it
			p.Sides = append(p.Sides, plan.Side{From: foot.Name, To: x.Peg, Words: s.Figure(foot.At.Distance(at)), Measured: s.offsetTold(x.Peg)})
		}
	}
}
