package unit

import "testing"

// What was measured is written back as it was, whatever form it had; by hand.
func TestGiven(t *testing.T) {
	for _, c := range []struct {
		text, decimal, minutes, rise, run string
	}{
		{"35.25", "35.25°", "35°15′", "", ""},
		{"35,25deg", "35.25°", "35°15′", "", ""},
		{"35", "35°", "35°00′", "", ""},
		{"90deg", "90°", "90°00′", "", ""},
		{"35.333°", "35.333°", "35.333°", "", ""},
		{"35°30'", "35°30′", "35°30′", "", ""},
		{"35d05m07.5s", "35°05′07.5″", "35°05′07.5″", "", ""},
		{"0°20'", "0°20′", "0°20′", "", ""},
		{"1:12", "1 in 12", "1 in 12", "1", "12"},
		{"6in12", "6 in 12", "6 in 12", "6", "12"},
		{"2.5 : 12", "2.5 in 12", "2.5 in 12", "5/2", "12"},
		{"8.5%", "8.5 %", "8.5 %", "17/2", "100"},
		{"0.61rad", "0.61rad", "0.61rad", "", ""},
		{"38.9gon", "38.9gon", "38.9gon", "", ""},
	} {
		r, err := ParseAngle(c.text)
		if err != nil {
			t.Fatal(err)
		}
		if d, m := (Style{}).Given(r), (Style{Minutes: true}).Given(r); d != c.decimal || m != c.minutes {
			t.Errorf("%s: %q and %q, want %q and %q", c.text, d, m, c.decimal, c.minutes)
		}
		rise, run, ok := r.Slope()
		if ok != (c.rise != "") || ok && (rise.RatString() != c.rise || run.RatString() != c.run) {
			t.Errorf("%s: slope %v in %v, %t", c.text, rise, run, ok)
		}
	}
}
