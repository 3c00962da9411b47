package net

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/side"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// Placement tells one placement of the points of a net from others that fit.
type Placement struct {
	Sides []Side    // the fewest that no other has
	Area  unit.Area // inside the outline; 0 where there is none
}

// String is where its points lie: "C left of BD and E right of AB".
func (p Placement) String() string { return geom.Listed(p.said()) }

func (p Placement) said() (all []string) {
	for _, s := range p.Sides {
		all = append(all, s.String())
	}
	return all
}

// String is the side as a job says it: "C left of BD".
func (s Side) String() string {
	hand := "left"
	if s.Right {
		hand = "right"
	}
	if s.Of == ([2]geom.Name{}) {
		return string(s.Point) + " " + hand
	}
	return fmt.Sprintf("%s %s of %s", s.Point, hand, s.Of[0]+s.Of[1])
}

// Several is the error of a net that fits in more than one way. It is a *triangle.NoTriangle.
type Several struct {
	Answers []Adjusted // the best first; each says by Mine what tells it from the others
	More    bool       // there may be more than these
	Line    string     // to measure, which would tell the first two apart: "AC"; may be empty
	says    *triangle.NoTriangle
}

func (s *Several) Error() string { return s.says.Error() }
func (s *Several) Unwrap() error { return s.says }

// beginning is the start that a net is adjusted from, with the other placements that fit.
type beginning struct {
	*state
	others   []placement
	disputed bool
}

// begin is the start that was given, or else the one placement that agrees with all that was measured. Where
// none does, there is a slip: then the start is the one that most of the measurements mean.
func (p *problem) begin() (beginning, error) {
	if len(p.asked.Start) > 0 {
		s, err := p.given()
		return beginning{state: s}, err
	}
	f := p.finder()
	s, err := f.start()
	if len(f.firsts()) == 0 {
		return beginning{state: s}, err
	}
	all, whole := f.placements(true, mostPlacements, 1)
	switch {
	case len(all) > 1:
		return beginning{}, several(all, !whole, err)
	case !whole && err == nil:
		return beginning{}, notFixed("measure a line or two more, or say of some points on which side of a line they lie: side: [C left of AB]",
			"so many points may lie on either side of a line that the search was given up: whether the net is the only one that fits is not known")
	case !whole, len(all) == 0 && err != nil:
		return beginning{}, err
	case len(all) == 0:
		return beginning{s, f.rivals(s), true}, nil
	}
	if err != nil || !s.leadsTo(all[0]) {
		s = all[0].state
	}
	b := beginning{state: s}
	if len(p.asked.Sides) > 0 { // what fits but for what was said of sides
		found, _ := f.placements(false, fewOthers, 1)
		b.others = slices.DeleteFunc(found, all[0].alike)
	}
	return b, nil
}

// given is the start that the net itself says.
func (p *problem) given() (*state, error) {
	s := p.blank()
	for i, n := range p.Names {
		at, ok := p.asked.Start[n]
		if !ok {
			return nil, &unit.Fault{Subject: unit.Start, What: fmt.Sprintf("nothing says where %s lies", n), Hint: "say it of every point, or of none"}
		}
		s.at[i], s.known[i] = geom.VectorOf(at).Minus(p.Origin), true
		s.found = append(s.found, Placed{Point: n})
	}
	return s, nil
}

// leadsTo says whether a start does to a placement.
func (s *state) leadsTo(q placement) bool {
	r, err := s.fitted()
	return err == nil && r.alike(q)
}

const (
	// fewOthers are named on paper beside the one that was meant.
	fewOthers = 6
	// nearly: two placements of which neither agrees come equally near where their
	// sums of squares differ by no more than this factor, 2 in σ.
	nearly = 4
	// mostDisputed points of a net whose other placements are looked for where none agrees.
	mostDisputed = 12
	// mostTold placements stand in one line.
	mostTold = 4
)

// rivals are other placements that agree with what was measured no worse by much than one that does not agree.
func (f *finder) rivals(s *state) []placement {
	q, err := s.fitted()
	if err != nil || f.freedom() < 1 || len(f.Names) > mostDisputed {
		return nil
	}
	found, _ := f.placements(true, fewOthers, max(1, nearly*q.fit.Sum/limit(f.freedom(), chanceOfAll)))
	return slices.DeleteFunc(found, q.alike)
}

// several is the error of a net of more placements than one; err is what the search for a start had to say.
func several(all []placement, more bool, err error) error {
	e := &Several{More: more}
	var mine []Placement
	e.Answers, mine = told(all, nil)
	if len(e.Answers) < 2 {
		return notFixed("say of some points on which side of a line they lie, or measure more lines", "more than one placement of the points fits the measurements")
	}
	if slices.ContainsFunc(mine, func(p Placement) bool { return len(p.Sides) == 0 }) && err != nil {
		return err // two triangles of one hand: no side parts them
	}
	e.open()
	var ways []string
	for i := range e.Answers {
		e.Answers[i].Mine, e.Answers[i].Others = mine[i], slices.Delete(slices.Clone(mine), i, i+1)
		ways = append(ways, fmt.Sprintf("(%d) %s", i+1, mine[i]))
	}
	count := fmt.Sprintf("the points may lie in %d ways that fit", len(ways))
	if more {
		count += ", or more"
	}
	if len(ways) > mostTold {
		ways = append(ways[:mostTold], "…")
	}
	e.says = &triangle.NoTriangle{What: count + ": " + strings.Join(ways, "; "), Hint: "say which, as side: [" + strings.Join(mine[0].said(), ", ") + "]"}
	if t := all[0].turned(all[1]); t.first != nil {
		e.Line = t.line(all[0].problem)
		e.says.Hint += ", or measure " + e.Line
	}
	return e
}

// open says of each place that the answers do not share that nothing decides it.
func (e *Several) open() {
	key := func(f Placed, right bool) string { return fmt.Sprint(f.Point, " ", geom.Joined(f.From), right) }
	seen := map[string]bool{}
	for _, a := range e.Answers {
		for _, f := range a.Placed {
			seen[key(f, f.Right)] = true
		}
	}
	for i := range e.Answers {
		a := &e.Answers[i]
		a.Placed = slices.Clone(a.Placed)
		for k, f := range a.Placed {
			if seen[key(f, !f.Right)] && f.Why != BySide {
				a.Placed[k].Why = OneOfSeveral
			}
		}
	}
}

// tellApart tells an adjusted net from the others that fit.
func (b beginning) tellApart(a *Adjusted) {
	_, all := told(append([]placement{{state: b.state}}, b.others...), []Adjusted{*a})
	if len(all) < 2 {
		return
	}
	a.Mine, a.Others, a.Disputed = all[0], all[1:], b.disputed
	if b.disputed {
		a.Doubts = append(a.Doubts, Doubt{Kind: AsNear})
	}
}

// told are the placements adjusted, each that can be and the first as they are already,
// and what tells each from the others.
func told(all []placement, first []Adjusted) (answers []Adjusted, mine []Placement) {
	p := all[0].problem
	answers = first
	for _, q := range all[len(first):] {
		if a, err := q.adjusted(); err == nil {
			answers = append(answers, a)
		}
	}
	var ends [][]geom.Vector
	for _, a := range answers {
		ends = append(ends, a.fit.At)
	}
	if len(ends) < 2 {
		return answers, nil
	}
	for i, lies := range side.Tell(ends, p.linesToTellBy(all)) {
		var q Placement
		for _, s := range lies {
			q.Sides = append(q.Sides, Side{Point: p.Names[s.Point], Of: [2]geom.Name{p.Names[s.From], p.Names[s.To]}, Right: s.Right})
		}
		if len(p.round) > 0 {
			q.Area = unit.Area(math.Abs(p.area(ends[i])))
		}
		mine = append(mine, q)
	}
	return answers, mine
}

// linesToTellBy are those by which placements may be told apart: first those that points were found from.
func (p *problem) linesToTellBy(all []placement) (list []side.Line) {
	seen := map[side.Line]bool{}
	add := func(u, a, b int) {
		if x := (side.Line{Point: u, From: min(a, b), To: max(a, b)}); u != a && u != b && a != b && !seen[x] {
			seen[x] = true
			list = append(list, x)
		}
	}
	for _, q := range all {
		for _, f := range q.found {
			if len(f.From) > 1 {
				add(p.Number[f.Point], p.Number[f.From[0]], p.Number[f.From[1]])
			}
		}
	}
	slices.SortStableFunc(list, func(x, y side.Line) int { return cmp.Compare(y.Point, x.Point) })
	taped := func(x side.Line) bool { return p.Taped(x.From, x.To) }
	rest := slices.DeleteFunc(slices.Clone(list), taped)
	list = append(slices.DeleteFunc(list, func(x side.Line) bool { return !taped(x) }), rest...)
	const few = 10
	if n := len(p.Names); n <= few {
		for u := n - 1; u >= 0; u-- {
			for a := range n {
				for b := range a {
					add(u, a, b)
				}
			}
		}
	}
	return list
}
