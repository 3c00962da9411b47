package setout

import (
	"math"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/pegging"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// On ground that is a plane every pull, every side of a square, every check and every
// mark reads the distance in space of its two ends, by Pythagoras from where they lie:
// whatever the way, of a triangle and of nets, pegs behind the zero end too.
func TestReadingsFollowTheGround(t *testing.T) {
	plane := func(p geom.Point) float64 { return 200 + 0.06*p.X.MM() - 0.035*p.Y.MM() }
	for _, c := range []struct{ tokens, outline, base string }{
		{gable, "", "AB"}, {gable, "", "CA"}, {"AB=5000 CA=3354.102 BC=7158.911", "", "AB"}, {house, "ABCD", "AB"}, {floor, "ABCDEF", "EC"}, {floor, "ABCDEF", "FA"},
	} {
		net := adjusted(t, c.tokens, c.outline)
		var levels []pegging.Level
		for i, n := range net.Names {
			if i < 3 || n == "D" { // the others lie on the plane of these
				levels = append(levels, pegging.Level{Name: n, At: unit.Length(plane(net.Points[i]))})
			}
		}
		for m := range pegging.AngleDistance + 1 {
			s, err := Prepare(Input{Asked: pegging.Asked{Net: net, Levels: levels, Method: &m, Base: [2]geom.Name{geom.Name(c.base[:1]), geom.Name(c.base[1:])}, Every: 900}})
			if err != nil {
				if _, flat := err.(*triangle.NoTriangle); flat {
					continue
				}
				t.Fatal(err)
			}
			back := geom.Placement{Turn: -s.Place.Turn}
			high := func(at geom.Point) float64 { return plane(back.Apply(at.Minus(s.Place.Shift))) }
			inSpace := func(p, q geom.Point) float64 { return math.Hypot(p.Distance(q).MM(), high(p)-high(q)) }
			for _, p := range s.Pulls {
				if a, b := peg(t, s, p.Hold).At, peg(t, s, p.To).At; p.Use != pegging.ForAngle && math.Abs(p.Reads.MM()-inSpace(a, b)) > 0.01 {
					t.Errorf("%s %v from %s: %s %s to %s reads %v, want %v", c.tokens, m, c.base, p.Use, p.Hold, p.To, p.Reads, inSpace(a, b))
				}
			}
			for _, k := range s.Checks {
				if a, b := peg(t, s, k.From).At, peg(t, s, k.To).At; math.Abs(k.Reads.MM()-inSpace(a, b)) > 1e-6 {
					t.Errorf("%s %v: check %s to %s reads %v, want %v", c.tokens, m, k.From, k.To, k.Reads, inSpace(a, b))
				}
			}
			zero := peg(t, s, s.Baseline.From).At
			for i, figures := range s.marksTable().Cells {
				k := s.Marks[i]
				foot := s.footOn(k.Along)
				for i, want := range []float64{inSpace(s.Spot(k.Edge[0]), k.Point), inSpace(zero, foot), inSpace(foot, k.Point)} {
					if got := figureIn(t, strings.TrimPrefix(figures[i+1], "−")); math.Abs(got-want) > 0.51 {
						t.Errorf("%s %v: mark on %s: %q, want %v", c.tokens, m, edge(k.Edge), figures, want)
					}
				}
			}
			for _, q := range s.Squares { // what the steps print
				found := false
				for _, x := range append(s.Says().SecondWay(), s.Steps...) {
					found = found || strings.Contains(x, "at "+s.Figure(unit.Length(inSpace(peg(t, s, q.At).At, peg(t, s, q.Leg).At)))+": mark "+string(q.Leg)+" on the string")
				}
				if !found {
					t.Errorf("%s %v: no step marks %s along the ground", c.tokens, m, q.Leg)
				}
			}
		}
	}
}

// footOn is a place on the line of the baseline.
func (s Sheet) footOn(along unit.Length) geom.Point {
	if s.Baseline.Zero == 1 {
		return geom.Point{X: s.Baseline.Length - along}
	}
	return geom.Point{X: along}
}

// What nobody levelled is said, with what it is taken for; without levels all is level,
// and the sheet says so once.
func TestLevelsAreSaid(t *testing.T) {
	s := prepared(t, gable, func(in *Input) { in.Levels = []pegging.Level{{Name: "A", At: 0}, {Name: "B", At: 320}} })
	plain := func(s Sheet) string { return strings.Join(strings.Fields(textOf(t, s)), " ") }
	for _, want := range []string{"Levels in millimetres: A 0, B 320.", "Not levelled, and assumed: C 160, falling along the line of the levels given, and level across it.", "by the levels given"} {
		if !strings.Contains(plain(s), want) {
			t.Errorf("the sheet does not say %q:\n%s", want, textOf(t, s))
		}
	}
	if level := plain(prepared(t, gable, nil)); strings.Count(level, "are level") != 1 || strings.Contains(level, "Levels") {
		t.Error("that all is level is not said once")
	}
	m := pegging.TwoArcs
	_, err := Prepare(Input{Asked: pegging.Asked{Net: adjusted(t, gable, ""), Method: &m, Levels: []pegging.Level{{Name: "A", At: 0}, {Name: "C", At: 4500}}}})
	if f, ok := err.(*unit.Fault); !ok || f.Subject != unit.Levels || !strings.Contains(f.What, "steeper than 45°") {
		t.Errorf("a cliff: %v", err)
	}
}
