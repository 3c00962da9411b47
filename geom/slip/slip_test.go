package slip

import (
	"testing"

	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// The ways in which people go wrong: common practice, no source.
func TestExplain(t *testing.T) {
	for _, c := range []struct {
		token  string
		others float64 // mm
		want   Kind
		by     float64
	}{
		{"AB=2510", 2411, Hooked, 100},
		{"AB=2410", 2509, Misread, -100},
		{"AB=4524", 4253, Swapped, 270},
	} {
		m, err := triangle.ParseMeasurement(c.token, unit.MM)
		if err != nil {
			t.Fatal(err)
		}
		found := false
		for _, s := range Explain(m, c.others, 2) {
			found = found || s.Kind == c.want && s.By.Length.MM() == c.by
		}
		if !found {
			t.Errorf("%s beside %v: %+v", c.token, c.others, Explain(m, c.others, 2))
		}
	}
}
