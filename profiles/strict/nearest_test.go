package strict

import "testing"

func TestNearest(t *testing.T) {
	known := []string{"job", "unit", "trade", "paper", "printer", "pieces", "quantity"}
	for _, c := range []struct{ word, want string }{
		{"piece", "pieces"}, {"Job", "job"}, {"quantitty", "quantity"}, {"unti", "unit"}, {"papre", "paper"},
		{"colour", ""}, {"", ""}, {"x", ""}, {"units", "unit"},
	} {
		if got := Nearest(c.word, known); got != c.want {
			t.Errorf("nearest to %q: %q, want %q", c.word, got, c.want)
		}
	}
}
