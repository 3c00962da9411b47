package template

import (
	"testing"

	"trammel/geom"
	"trammel/plot/draw"
	"trammel/plot/paging"
)

// What is cut out says what it is: name, how many, hand and face stand inside the outline, on a
// page of its own too, but not where nothing is cut out.
func TestACutOutPieceSaysWhatItIs(t *testing.T) {
	for _, c := range []struct {
		tokens string
		out    bool
	}{{"AB=120 BC=90 CA=110", true}, {"AB=120 BC=90 CA=110", false}, {"AB=600 BC=450 CA=450", true}} {
		p, s := piece(t, c.tokens), full()
		p.Name, p.Face, s.CutOut = "Brace plate, opposite hand", "face up", c.out
		plan := laid(t, p, a4, paging.Full)
		d, err := Draw(p, plan, font, s)
		if err != nil {
			t.Fatal(err)
		}
		inside := map[string]bool{}
		for _, op := range d {
			if w, ok := op.(draw.Text); ok {
				box := w.Box(font)
				inside[w.Words] = true
				for _, q := range box {
					inside[w.Words] = inside[w.Words] && geom.Polygon(plan.Outline).Has(q)
				}
			}
		}
		if inside[p.Name] != c.out || (inside["mark 2, face up"] || inside["mark 2"] && inside["face up"]) != c.out {
			t.Errorf("%s, cut out %t: inside are %v", c.tokens, c.out, inside)
		}
	}
}
