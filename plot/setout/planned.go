package setout

import (
	"trammel/geom"
	"trammel/geom/survey"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// planned is what a plan shows, whatever the layout has for pegs: everything on
// the ground, in the plane in which the baseline lies on the x axis, its left end
// at the origin. Pegs may lie above and below it and beyond its ends.
type planned struct {
	Edge      []geom.Name // outline, once round; none: pegs alone
	Pegs      []planPeg
	Sides     []planSide
	Strokes   []planStroke
	Base      [2]geom.Name // its left and its right end
	ZeroFirst bool         // running distances count from Base[0]
	// Enlarged is how many times larger than the plan the ellipses are: 0 draws
	// none, roundly takes a round number that makes them easy to see.
	Enlarged Ratio
	// Details: where pegs crowd, their names stand in details of their own, which
	// then have to be printed too. Otherwise all names are on the plan.
	Details bool
	// Wide is how wide the running figures may spread on paper: as far as the plan
	// reaches in any case.
	Wide  unit.Length
	North Reference
}

// roundly as planned.Enlarged is 1, 2 or 5 times a power of ten, as fits the plan.
const roundly Ratio = -1

// planPeg is a mark as the plan shows it. One without a name is drawn and not
// lettered.
type planPeg struct {
	Name    geom.Name
	Number  int // in the order of the work, in a circle behind the name; 0: none
	At      geom.Point
	Role    Role
	Also    bool           // ticked across the baseline as well: the middle of it
	Ellipse survey.Ellipse // half axes on the ground of the one that holds 95 %
	Along   unit.Length    // running distance from the zero end
	Running string         // its figure as the running dimensions have it; empty: it has none there
}

// planSide is a length beside the line between two pegs. Where nothing else draws
// that line, it is drawn narrow.
type planSide struct {
	From, To geom.Name
	Words    string // as printed, with parentheses where computed
	Measured bool   // these find their places first
}

// planStroke is a mark of the hand's work.
type planStroke struct {
	Kind     strokeKind
	From, To geom.Point
}

type strokeKind uint8

const (
	arcTo      strokeKind = iota // the tape's end swung about From, near To
	offsetTo                     // from a foot on the baseline to the peg
	sightTo                      // from an instrument to the peg
	squareLeg                    // a side of a 3-4-5 that nothing else draws
	rightAngle                   // the sign of one at From, in the quarter that To lies in
	board                        // a profile board
	stringLine                   // a string from board to board
)

// extent is the rectangle round all that has a place on the ground.
func (p planned) extent() geom.Rect {
	var all []geom.Point
	for _, peg := range p.Pegs {
		all = append(all, peg.At)
	}
	for _, s := range p.Strokes {
		if s.Kind != rightAngle {
			all = append(all, s.From, s.To)
		}
	}
	if len(all) == 0 {
		return geom.Rect{}
	}
	return geom.RectOf(all[0], all...)
}

// drawPlan draws the plan 1:scale.
func (s Sheet) drawPlan(scale int, r draw.Ruler) plan { return s.planned().draw(scale, r) }

// planned is what the plan of a triangle shows.
func (s Sheet) planned() planned {
	t := s.Triangle
	p := planned{Edge: t.Names[:], Base: [2]geom.Name{t.Names[0], t.Names[1]}, ZeroFirst: s.Baseline.Zero == 0, North: s.North}
	for _, peg := range s.Pegs {
		shown := planPeg{Name: peg.Name, At: peg.At, Role: peg.Role, Also: peg.Also, Along: peg.Along}
		if peg.Offset == 0 && peg.At.Y == 0 {
			shown.Running = s.told(peg.Along, peg.Along == 0 || peg.Role == Corner && s.Baseline.Measured)
		}
		p.Pegs = append(p.Pegs, shown)
	}
	// The baseline's own length is the last of the running figures: between two of
	// their marks it would read as the distance between those.
	for i, end := range []geom.Name{t.Names[0], t.Names[1]} {
		measured := s.fromSite(ForArc, end)
		p.Sides = append(p.Sides, planSide{From: end, To: t.Names[2], Words: s.told(t.Sides[1-i], measured), Measured: measured})
	}
	apex, foot := t.Points[2], geom.Point{X: t.Points[2].X}
	onEnd := s.Square.At == t.Names[0] || s.Square.At == t.Names[1]
	if !onEnd {
		p.Strokes = append(p.Strokes, planStroke{offsetTo, foot, apex})
		measured := s.fromSite(ForHeight, s.Square.At)
		p.Sides = append(p.Sides, planSide{From: s.Square.At, To: t.Names[2], Words: s.told(t.Heights[2], measured), Measured: measured})
	}
	// The sign of the right angle stands away from the 3-4-5; inside where the right
	// angle is the triangle's own.
	quarter := geom.Point{X: foot.X + 1, Y: apex.Y}
	if (s.Square.Toward == t.Names[1]) != onEnd {
		quarter.X = foot.X - 1
	}
	p.Strokes = append(p.Strokes, planStroke{rightAngle, foot, quarter})
	leg, _ := s.Peg(s.Square.Leg)
	top, _ := s.Peg(s.Square.Top)
	p.Strokes = append(p.Strokes, planStroke{squareLeg, leg.At, top.At},
		planStroke{arcTo, t.Points[0], apex}, planStroke{arcTo, t.Points[1], apex})
	return p
}
