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
func (p Placement) String() string {
	var all []string
	for _, s := range p.Sides {
		all = append(all, s.String())
	}
	return geom.Listed(all)
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

// Several is the error of a net that fits in more than one way. It is a
// *triangle.NoTriangle.
type Several struct {
	Answers []Adjusted // the best first; each says by Mine what tells it from the others
	More    bool       // there may be more than these
	Line    string     // to measure, which would tell the first two apart: "AC"; may be empty
	says    *triangle.NoTriangle
}

func (s *Several) Error() string { return s.says.Error() }
func (s *Several) Unwrap() error { return s.says }

// begun is a start, with the other placements that fit.
type begun struct {
	*state
	others   []placement
	disputed bool
}

// begin is the start that was given, or else the one placement that agrees with all
// that was measured. Where none does, there is a slip: then the start is the one
// that most of the measurements mean.
func (p *problem) begin() (begun, error) {
	if len(p.asked.Start) > 0 {
		s, err := p.given()
		return begun{state: s}, err
	}
	s, err := p.start()
	if len(p.firsts()) == 0 {
		return begun{state: s}, err
	}
	all, whole := p.placements(true, mostPlacements, 1)
	switch {
	case len(all) > 1:
		return begun{}, p.several(all, !whole, err)
	case !whole && err != nil:
		return begun{}, err
	case !whole:
		return begun{}, notFixed("measure a line or two more, or say of some points on which side of a line they lie: side: [C left of AB]",
			"so many points may lie on either side of a line that the search was given up: whether the net is the only one that fits is not known")
	case len(all) == 0 && err != nil:
		return begun{}, err
	case len(all) == 0:
		return begun{s, p.rivals(s), true}, nil
	}
	if err != nil || !p.is(s, all[0]) {
		s = all[0].state
	}
	return begun{state: s, others: p.excluded(all[0])}, nil
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

// is says whether a start leads to a placement.
func (p *problem) is(s *state, q placement) bool {
	f, err := p.fit(s.at)
	if err != nil {
		return false
	}
	end := f.At
	if len(p.control) == 0 {
		end = laid(end, 0, 1)
	}
	return p.alike(end, q.end)
}

// excluded are the placements that fit but for what was said of sides.
func (p *problem) excluded(q placement) (all []placement) {
	if len(p.asked.Sides) == 0 {
		return nil
	}
	found, _ := p.placements(false, fewOthers, 1)
	for _, o := range found {
		if !p.alike(o.end, q.end) {
			all = append(all, o)
		}
	}
	return all
}

const (
	// fewOthers are named on paper beside the one that was meant.
	fewOthers = 6
	// nearly: two placements of which neither agrees come equally near where their
	// sums of squares differ by no more than this factor, 2 in σ.
	nearly = 4
	// mostDisputed points of a net whose other placements are looked for where none
	// agrees.
	mostDisputed = 12
)

// rivals are other placements that agree with what was measured no worse by much
// than one that does not agree.
func (p *problem) rivals(s *state) (all []placement) {
	f, err := p.fit(s.at)
	freedom := len(p.Obs) - p.unknowns(0, 1).N
	if err != nil || freedom < 1 || len(p.Names) > mostDisputed {
		return nil
	}
	found, _ := p.placements(true, fewOthers, max(1, nearly*f.Sum/limit(freedom, chanceOfAll)))
	for _, q := range found {
		if !p.is(s, q) {
			all = append(all, q)
		}
	}
	return all
}

// several is the error of a net of more placements than one; err is what the search
// for a start had to say.
func (p *problem) several(all []placement, more bool, err error) error {
	e := &Several{More: more}
	var ends [][]geom.Vector
	for _, q := range all {
		a, err := p.adjusted(q.state)
		if err != nil {
			continue
		}
		e.Answers, ends = append(e.Answers, a), append(ends, a.fit.At)
	}
	if len(e.Answers) < 2 {
		return notFixed("say of some points on which side of a line they lie, or measure more lines", "more than one placement of the points fits the measurements")
	}
	sides := p.sides(ends, p.sidedLines(all))
	if slices.ContainsFunc(sides, func(sides []Side) bool { return len(sides) == 0 }) && err != nil {
		return err // two triangles of one hand: no side parts them
	}
	e.open()
	for i := range e.Answers {
		e.Answers[i].Mine = p.placement(ends[i], sides[i])
		for k := range e.Answers {
			if k != i {
				e.Answers[i].Others = append(e.Answers[i].Others, p.placement(ends[k], sides[k]))
			}
		}
	}
	var ways []string
	for i, a := range e.Answers[:min(len(e.Answers), mostTold)] {
		ways = append(ways, fmt.Sprintf("(%d) %s", i+1, a.Mine))
	}
	count := fmt.Sprintf("the points may lie in %d ways that fit", len(e.Answers))
	if more {
		count = fmt.Sprintf("the points may lie in %d ways that fit, or more", len(e.Answers))
	}
	if len(e.Answers) > mostTold {
		ways = append(ways, "…")
	}
	e.says = &triangle.NoTriangle{What: count + ": " + strings.Join(ways, "; "), Hint: "say which, as side: [" + e.Answers[0].Mine.words() + "]"}
	if t := p.turned(all[0].state, all[0].end, all[1].end); t.first >= 0 {
		stay := p.blank()
		for i := range p.Names {
			stay.known[i] = !slices.Contains(t.over, i)
		}
		e.Line = p.another(t.first, stay)
		e.says.Hint += ", or measure " + e.Line
	}
	return e
}

// open says of each place that the answers do not share that nothing decides it.
func (e *Several) open() {
	type seen struct{ left, right bool }
	hands := map[string]seen{}
	key := func(f Placed) string { return string(f.Point) + " " + geom.Joined(f.From) }
	for _, a := range e.Answers {
		for _, f := range a.Placed {
			s := hands[key(f)]
			s.left, s.right = s.left || !f.Right, s.right || f.Right
			hands[key(f)] = s
		}
	}
	for i, a := range e.Answers {
		e.Answers[i].Placed = slices.Clone(a.Placed)
		for k, f := range a.Placed {
			if s := hands[key(f)]; s.left && s.right && f.Why != BySide {
				e.Answers[i].Placed[k].Why = OneOfSeveral
			}
		}
	}
}

// mostTold placements stand in one line.
const mostTold = 4

func (p Placement) words() string {
	var all []string
	for _, s := range p.Sides {
		all = append(all, s.String())
	}
	return strings.Join(all, ", ")
}

func (p *problem) placement(at []geom.Vector, sides []Side) Placement {
	q := Placement{Sides: sides}
	if len(p.round) > 2 {
		q.Area = unit.Area(math.Abs(p.area(at)))
	}
	return q
}

// among tells an adjusted net from the others that fit.
func (p *problem) among(a *Adjusted, b begun) {
	ends := [][]geom.Vector{a.fit.At}
	mine := placement{state: b.state}
	bases := append([]placement{mine}, b.others...)
	for _, q := range b.others {
		o, err := p.adjusted(q.state)
		if err != nil {
			continue
		}
		ends = append(ends, o.fit.At)
	}
	if len(ends) < 2 {
		return
	}
	sides := p.sides(ends, p.sidedLines(bases))
	a.Mine, a.Disputed = p.placement(ends[0], sides[0]), b.disputed
	for i := range ends[1:] {
		a.Others = append(a.Others, p.placement(ends[i+1], sides[i+1]))
	}
	if b.disputed {
		a.Doubts = append(a.Doubts, Doubt{Kind: AsNear})
	}
}

// sides that tell each placement from the others.
func (p *problem) sides(ends [][]geom.Vector, lines []side.Line) (all [][]Side) {
	for _, lies := range side.Tell(ends, lines) {
		var of []Side
		for _, s := range lies {
			of = append(of, Side{Point: p.Names[s.Point], Of: [2]geom.Name{p.Names[s.From], p.Names[s.To]}, Right: s.Right})
		}
		all = append(all, of)
	}
	return all
}

// sidedLines are those by which placements may be told apart: first those that
// points were found from.
func (p *problem) sidedLines(all []placement) (list []side.Line) {
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
	measured := func(x side.Line) int {
		for _, i := range p.Of[x.From] {
			if o := &p.Obs[i]; o.N == 2 && o.Has(x.To) {
				return 0
			}
		}
		return 1
	}
	slices.SortStableFunc(list, func(x, y side.Line) int {
		return cmp.Or(cmp.Compare(measured(x), measured(y)), cmp.Compare(y.Point, x.Point))
	})
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
