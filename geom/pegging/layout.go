// Package pegging reckons how a net of points is set out: from which baseline and by
// which method each peg comes surest to its place, the marks and pulls that place it, the
// checks that close on it and how sure it all is. A triangle is a net of three.
//
// SetOut goes step by step, and each step makes a value of those before it: Points (as
// measured), Ranking (of the ways), Frame (the plane of the baseline), Set (marks, by what
// each corner is placed, squares), Heights (of the marks), Pulled (what is pulled), then
// checks, sureness, marks along the edges and profile boards. There is no sentence for
// paper in it, but data and codes.
//
// # Accept ranges
//
// One pull of length L is good within
//
//	t(L) = a + b·⌈L⌉ + r
//
// where a + b·⌈L⌉ (L in metres, rounded up) is the maximum permissible error of
// the tape's class in Directive 2014/32/EU, annex X (OIML R 35), and r stands for
// the nail in the peg and the reading, 1 mm unless the tools say otherwise (common
// practice, no source). An angle is good within what the instrument keeps and what
// it costs to centre it. A check that follows from the pulls Lᵢ is accepted within
//
//	√( t(L)² + Σ (∂check/∂Lᵢ · t(Lᵢ))² )
//
// the pulls taken as independent of each other, and the ends of the range are
// moved outward to the next whole millimetre (sixteenth of an inch). How surely the
// layout was measured has no part in it: the pegs close on the sheet, whatever that
// was made from, and 5 m measured to half a metre would accept anything.
//
// Files, from the top floor to the ground: layout.go, around.go, checks.go, slips.go, pulls.go, trace.go,
// heights.go, edges.go, chain_marks.go, pegs.go, frame.go, rank.go, chain.go, chain_steps.go,
// points.go, way.go, square.go.
package pegging

import (
	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/net"
	"trammel/geom/passage"
	"trammel/geom/tape"
	"trammel/geom/unit"
)

// Asked is what a setting-out is reckoned from.
type Asked struct {
	Net     net.Adjusted
	Base    [2]geom.Name // zero: the surest. Base[0] is the origin and has the tape's zero
	Method  *Method      // nil: the surest of Methods
	Methods []Method     // those that the tools allow; none: two arcs, and an offset by 3-4-5
	Tools   tape.Tools
	Style   unit.Style

	Permitted unit.Length // the K of a permitted deviation ±K√L; 0: none
	Every     unit.Length // marks along each edge, so far apart; 0: none
	Boards    unit.Length // profile boards, so far clear of the digging; 0: none
	// Levels of pegs: what the tape reads then follows the ground. None: all is level.
	Levels []Level
	// Conditions in which the tape is used; nil: nothing is corrected.
	Conditions *tape.Conditions
	Standard   tape.Standard
	Bars       passage.Bars // what keeps lines from being pulled
}

// Layout is a setting-out. Lengths are exact; they are rounded where they are written.
type Layout struct {
	Pulled
	Ranking Ranking
	Checks  []Check
	Sure    []Sure     // one for each point of the net, in the order of Pegs
	Marks   []EdgeMark // along the edges
	Nails   []Nail     // in profile boards
	Strings []String   // from nail to nail
	Shut    int        // nails that are left out since no line may run to them
	// Avoided are lines that would have been pulled, and may not be.
	Avoided []Avoided

	Permitted, Every, Boards unit.Length // as asked for; 0: not
}

// SetOut reckons a setting-out. The longest distance of two points must lie between
// Least and Most and the baseline must not be shorter than Least; otherwise, and
// where Base names no two points or a tape cannot be used as said, the error is a
// *unit.Fault.
func SetOut(a Asked) (Layout, error) {
	taping, err := tapingOf(a)
	if err != nil {
		return Layout{}, err
	}
	a.Tools = taping.Tools
	points := pointsOf(a.Net, tape.FiguresOf(a.Style, a.Tools.Instrument))
	if err := points.fit(a.Base); err != nil {
		return Layout{}, err
	}
	var ground Ground
	if len(a.Levels) > 0 {
		if ground, err = GroundOf(points.pegs(), a.Levels); err != nil {
			return Layout{}, err
		}
	}
	open, err := passage.Of(a.Bars, passage.Points{Names: points.order, Outline: points.Outline, At: points.at})
	if err != nil {
		return Layout{}, err
	}
	ranking, err := points.rank(a)
	if err != nil && !a.Bars.Any() {
		return Layout{}, err
	}
	var avoided []Avoided
	if err == nil {
		l, no := a.layout(points, ranking, ground, taping, open)
		barred := false
		if avoided, barred = avoidedOf(l, open.Placed(l.Place)); no != nil || !barred {
			return l, no
		}
	}
	if ranking, err = points.rankAround(a, open); err != nil {
		return Layout{}, err
	}
	points.open = open
	l, err := a.layout(points, ranking, ground, taping, open)
	l.Avoided = avoided
	return l, err
}

// layout of the way that the ranking uses.
func (a Asked) layout(points Points, r Ranking, ground Ground, taping tape.Taping, open passage.Passage) (l Layout, err error) {
	l = Layout{Ranking: r, Permitted: a.Permitted, Every: a.Every, Boards: a.Boards}
	set := setOf(frameOf(points, l.Ranking.Way()), a.Tools)
	if l.Pulled, err = pulledOf(heightsOf(set, len(a.Levels) > 0, ground), taping); err != nil {
		return Layout{}, err
	}
	l.Checks = checksOf(l.Pulled)
	l.Sure = sureOf(set, a.Permitted)
	if l.Marks, err = set.edgeMarks(a.Every); err != nil {
		return Layout{}, err
	}
	l.Nails, l.Strings, l.Shut = set.boards(a.Boards, open.Placed(l.Place))
	return l, nil
}

// Sure is how sure a corner is.
type Sure struct {
	Peg           geom.Name
	Along, Across unit.Length    // σ along the baseline and across it, all in all
	Ellipse       adjust.Ellipse // the one that holds 95 of 100, in the plane of the baseline
	// 95 % figures: from the measurements, from the setting-out, from both.
	Measured, SetOut, Both unit.Length
	// Distance from the nearer end of the baseline, and what that permits; 0: not asked for.
	Distance, Permitted unit.Length
	Inside              bool // Both is not more than Permitted
}

// sureOf works out how sure each point is, as measured and as set out from the baseline.
func sureOf(s Set, permitted unit.Length) (all []Sure) {
	set := map[geom.Name]adjust.Covariance{}
	for _, p := range s.way.Pegs {
		set[p.Name] = p.Covariance
	}
	turn := unit.Angle(0) // from the axes of the baseline to those of the plane
	if s.Baseline.Zero == 1 {
		turn = unit.Turn / 2
	}
	from, to := s.Baseline.From, s.Baseline.To
	for _, p := range s.Pegs {
		if _, ok := s.at[p.Name]; !ok {
			continue
		}
		_, seen := s.Seen(p.Name)
		out := set[p.Name]
		both := seen.Plus(out)
		x := Sure{
			Peg: p.Name, Along: both.X(), Across: both.Y(), Ellipse: both.Turned(turn).Ellipse().Within95(),
			Measured: seen.Figure95(), SetOut: out.Figure95(), Both: both.Figure95(),
		}
		switch x.Distance = min(p.At.Distance(s.spots[from]), p.At.Distance(s.spots[to])); p.Name {
		case from, to:
			x.Distance = s.Baseline.Length
		}
		if permitted > 0 {
			x.Permitted = tape.Permitted(permitted, x.Distance)
			x.Inside = x.Both <= x.Permitted
		}
		all = append(all, x)
	}
	return all
}

// Seen is where a point of the net lies from the baseline, whose zero end is the origin
// and whose direction that of x, and how surely it was measured.
func (f Frame) Seen(n geom.Name) (geom.Point, adjust.Covariance) {
	return f.Net.Seen(n, f.way.Base)
}
