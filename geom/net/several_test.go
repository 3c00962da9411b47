package net

import (
	"errors"
	"math"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/triangle"
)

// The kite and the dart have the same five lengths, and the outline is simple in both;
// C over BD is √(2000² − 1600²) = 1200 and A √(3000² − 1600²) = 2537.7, so that the
// areas are 1600 times their sum and difference.
func TestKiteAndDart(t *testing.T) {
	const lengths = "AB=3000 BC=2000 CD=2000 DA=3000 BD=3200"
	kite := Net{Measured: measure(t, lengths), Outline: names("A B C D")}
	_, err := Adjust(kite)
	var s *Several
	if !errors.As(err, &s) || len(s.Answers) != 2 || s.More {
		t.Fatal(err)
	}
	var none *triangle.NoTriangle
	if !errors.As(err, &none) || !strings.Contains(none.Hint, "measure AC") {
		t.Errorf("%v: not refused as other nets are: %v", err, none)
	}
	want := map[string]float64{"C right of BD": 1600 * (1200 + 2537.7155), "C left of BD": 1600 * (2537.7155 - 1200)}
	for _, a := range s.Answers {
		if area := float64(a.Mine.Area); math.Abs(area-want[a.Mine.String()]) > 1 {
			t.Errorf("%s: %.1f mm², want %.1f", a.Mine.String(), area, want[a.Mine.String()])
		}
		said := kite
		said.Sides = a.Mine.Sides
		b := adjusted(t, said)
		if got := float64(geom.OutlineOf(b.Outline, b.Polygon()).Area()); math.Abs(got-want[a.Mine.String()]) > 1 {
			t.Errorf("with %s the area is %.1f", a.Mine.String(), got)
		}
		if len(b.Others) != 1 || b.Mine.String() != a.Mine.String() || !strings.HasPrefix(b.Others[0].String(), "C ") {
			t.Error(b.Mine, b.Others)
		}
	}
	measured := Net{Measured: measure(t, lengths+" AC=3737.7"), Outline: names("A B C D")}
	if a := adjusted(t, measured); len(a.Others) > 0 {
		t.Errorf("AC settles it, and yet: %s", a.Others)
	}
}

// Of a net that was called impossible one placement fits.
func TestThePlacementThatFits(t *testing.T) {
	a := adjusted(t, Net{Measured: measure(t, "AB=1803 AC=2209 BC=3890 CD=4123 AD=2163 DE=1166 BE=1746"), Outline: names("E D B A C")})
	if a.Sum > 1e-9 || len(a.Doubts) > 0 {
		t.Error(a.Sum, a.Doubts)
	}
}

// With a slip no placement agrees: the net is shown and the slip named, as ever.
func TestSlipIsNoPlacement(t *testing.T) {
	a := adjusted(t, Net{Measured: measure(t, "AB=4000 BC=3000 CD=4000 DA=3000 AC=5000 BD=5100"), Outline: names("A B C D")})
	if len(a.Suspects) == 0 || a.Disputed {
		t.Errorf("%v %v", a.Suspects, a.Others)
	}
}

// 10 corners that nothing braces across may be folded in many ways.
func TestManyWays(t *testing.T) {
	var text strings.Builder
	for i := 1; i < 12; i++ {
		text.WriteString(" " + string(letter(i-1)+letter(i)) + "=3000")
		if i > 1 {
			text.WriteString(" " + string(letter(i-2)+letter(i)) + "=4000")
		}
	}
	_, err := Adjust(Net{Measured: measure(t, text.String())})
	var s *Several
	if !errors.As(err, &s) || !s.More || len(s.Answers) != mostPlacements {
		t.Error(err)
	}
}
