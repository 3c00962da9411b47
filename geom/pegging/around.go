package pegging

import (
	"fmt"
	"slices"

	"trammel/geom"
	"trammel/geom/passage"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// Avoided is a line that would be pulled if nothing barred it.
type Avoided struct {
	Line [2]geom.Name
	passage.Bar
}

// avoidedOf are the lines of a setting-out that may not be pulled; between corners alone they
// have names to tell. Any says whether there is one at all.
func avoidedOf(l Layout, open passage.Passage) (all []Avoided, any bool) {
	add := func(a, b geom.Name) {
		p, _ := l.Peg(a)
		q, _ := l.Peg(b)
		bar := open.May(geom.Line{From: p.At, To: q.At})
		if bar.Code == passage.Open {
			return
		}
		any = true
		line := [2]geom.Name{a, b}
		if p.Role == Corner && q.Role == Corner && !slices.ContainsFunc(all, func(x Avoided) bool { return SameLine(x.Line, line) }) {
			all = append(all, Avoided{line, bar})
		}
	}
	for _, x := range l.Pulls {
		add(x.Hold, x.To)
	}
	for _, x := range l.Checks {
		add(x.From, x.To)
	}
	return all, any
}

// rankAround compares the ways of placing pegs one from another, by lines that may be
// pulled alone.
func (p Points) rankAround(in Asked, open passage.Passage) (Ranking, error) {
	methods := in.methods()
	if in.Method != nil {
		methods = []Method{*in.Method}
	}
	if bar := open.May(geom.Line{From: p.at[in.Base[0]], To: p.at[in.Base[1]]}); bar.Code != passage.Open && in.Base != [2]geom.Name{} {
		return Ranking{}, &unit.Fault{Subject: unit.Base, Of: string(in.Base[0] + in.Base[1]), What: "the line is not pulled: " + why(bar),
			Hint: "name a line that is free, or leave the base out"}
	}
	if !slices.Contains(methods, TwoArcs) && !slices.Contains(methods, OffsetSquare) {
		return Ranking{}, &unit.Fault{Subject: unit.Pegs, What: "angles are turned from one line alone, and not every peg is free from there",
			Hint: "leave it to the tape: arcs, or an offset by 3-4-5"}
	}
	all, left := p.chainedWays(in, methods, open)
	if len(all) == 0 {
		return Ranking{}, p.unreached(left[0], open)
	}
	return p.ranking(all, func(Way) bool { return true }, in), nil
}

func why(b passage.Bar) string {
	switch b.Code {
	case passage.AtWall:
		return fmt.Sprintf("the wall %s stands across it", b.By[0]+b.By[1])
	case passage.AtBlock:
		return fmt.Sprintf("%s is blocked", b.By[0]+b.By[1])
	}
	return "the tape is too short for it"
}

// unreached says which peg no line leads to, and what to do.
func (p Points) unreached(n geom.Name, open passage.Passage) error {
	var from []geom.Name
	for _, m := range p.order {
		if m != n && open.Free(p.at[m], p.at[n]) {
			from = append(from, m)
		}
	}
	f := &triangle.NoTriangle{}
	f.Subject = unit.Pegs
	switch len(from) {
	case 0:
		f.What = fmt.Sprintf("%s cannot be reached: a line from any other point is barred", n)
	case 1:
		f.What = fmt.Sprintf("%s cannot be reached: it is free from %s alone, and two points are wanted", n, from[0])
	default:
		f.What = fmt.Sprintf("%s cannot be reached: it is free from %s, where arcs cross too flat and no square has room", n, list(from))
	}
	f.Hint = fmt.Sprintf("measure in one point more, from where %s and two others are free, such as in a doorway; or take out what can be passed", n)
	return f
}
