package app

import (
	"math"
	"testing"
)

// A triangle of 3, 4 and 5 m: what other software reads of its sheet is what the sheet
// says. (The 3-4-5 is the oldest check of a right angle there is; common practice, no source.)
func TestSetoutReport(t *testing.T) {
	w := mustOpen(t, "site: {every: 1 m}\npieces: [{name: Bay, measure: [AB=4000, BC=3000, CA=5000]}]\n", Options{})
	s, err := w.setout()
	if err != nil {
		t.Fatal(err)
	}
	r := s.report().Pieces[0].Setout
	if len(r.Pegs) != len(s.all[0].Pegs) || len(r.Pulls) == 0 || len(r.Checks) == 0 || len(r.Marks) == 0 || len(r.Steps) != len(s.all[0].Steps) {
		t.Fatalf("%+v", r)
	}
	at := map[string][2]float64{}
	for _, p := range r.Pegs {
		at[p.Name] = p.At
		if p.At[0] != p.Along || math.Abs(p.At[1]) != p.Offset {
			t.Errorf("peg %+v", p)
		}
	}
	apart := func(a, b string) float64 { return math.Hypot(at[a][0]-at[b][0], at[a][1]-at[b][1]) }
	for two, want := range map[[2]string]float64{{"A", "B"}: 4000, {"B", "C"}: 3000, {"C", "A"}: 5000} {
		if got := apart(two[0], two[1]); math.Abs(got-want) > 1e-6 {
			t.Errorf("%v stand %.9f apart, want %.0f", two, got, want)
		}
	}
	for _, c := range r.Checks {
		if math.Abs(apart(c.From, c.To)-c.Length) > 1e-6 || c.AcceptFrom > c.Reads || c.Reads > c.AcceptTo {
			t.Errorf("check %+v, the pegs stand %.6f apart", c, apart(c.From, c.To))
		}
	}
	c, err := w.check(Findings{Tokens: Tokens("AB=4000,BC=3000,CA=5000", "--found"), Where: "--found"})
	if err != nil {
		t.Fatal(err)
	}
	if q := c.report().Checks[0].Setout; q == nil || len(q.Pegs) != len(r.Pegs) || len(q.Checks) != len(r.Checks) {
		t.Errorf("the check was of another sheet: %+v", q)
	}
}
