package profiles

import "testing"

// A roll is as long as a page of a PDF may be (ISO 32000-1, annex C.2: 14 400
// units of 1/72 inch).
func TestRoll(t *testing.T) {
	s, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	for name, width := range map[string]float64{"914xany": 914, "36in x any": 914.4, "61cm×ANY": 610} {
		p, err := s.Paper(name)
		if err != nil || !p.Roll || p.Width.MM() != width || p.Height.MM() != 5080 {
			t.Errorf("%s: %+v, %v", name, p, err)
		}
	}
	for _, name := range []string{"A4", "300x500"} {
		if p, err := s.Paper(name); err != nil || p.Roll {
			t.Errorf("%s: %+v, %v", name, p, err)
		}
	}
}
