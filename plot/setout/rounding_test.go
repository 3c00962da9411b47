package setout

import (
	"fmt"
	"math"
	"math/cmplx"
	"math/rand/v2"
	"testing"

	"trammel/geom/pegging"
	"trammel/geom/unit"
)

// Whoever pulls exactly what the sheet says, to its whole millimetres, finds every check
// inside its range: the steps are followed by their words, the checks measured by the test's
// own formula, and read to the millimetre. Nets by every method and random triangles.
func TestRoundingKeepsEveryCheckInside(t *testing.T) {
	checked := 0
	check := func(name string, s Sheet) {
		h := newFollower(t, exact())
		h.follow(s.Steps)
		for _, c := range s.siteChecks() {
			p, ok := h.at[string(c.From)]
			q, also := h.at[string(c.To)]
			if !ok || !also {
				t.Errorf("%s: check %d wants %s and %s, which no step makes", name, c.Number, c.From, c.To)
				continue
			}
			checked++
			reads, from, to := math.Round(cmplx.Abs(p-q)), figureIn(t, s.Figure(c.Least)), figureIn(t, s.Figure(c.Greatest))
			if reads < from || reads > to {
				t.Errorf("%s: %s to %s comes to %.0f by rounded pulls, good is %.0f to %.0f", name, c.From, c.To, reads, from, to)
			}
			if shown := figureIn(t, s.Figure(c.Reads)); shown < from || shown > to {
				t.Errorf("%s: %s to %s should read %.0f, good is %.0f to %.0f", name, c.From, c.To, shown, from, to)
			}
		}
	}
	for _, c := range []struct{ name, tokens, outline string }{{"house", house, "ABCD"}, {"floor", floor, "ABCDEF"}} {
		for m := range pegging.AngleDistance {
			check(fmt.Sprintf("%s, %v", c.name, m), preparedNet(t, c.tokens, c.outline, func(in *Input) { in.Method = &m }))
		}
	}
	r := rand.New(rand.NewPCG(10, 5))
	for i := range 300 {
		if s, ok := random(t, r, unit.Style{}); ok {
			check(fmt.Sprintf("random %d", i), s)
		}
	}
	if checked < 500 {
		t.Errorf("only %d checks", checked)
	}
}
