package template

import (
	"fmt"
	"strings"
	"testing"

	"trammel/geom/unit"
	"trammel/plot/draw"
)

// Rows of saw and square, worked out by hand from the formulas that geom/shape holds
// against published tables: 90° is a square cut; 60° stands 30° from square, and on a
// square 100/tan 60° = 57.7 along and 100 up, on 12 in 12/tan 60° = 6.93, 6 15/16 in;
// 120° leans away by as much; 35.25° lies beyond a saw of 45°, whose scale reads it with
// the edge against a block. A mitre of 60° has its joint at 30°, 60° from square.
func TestSettings(t *testing.T) {
	inches := full()
	inches.Figures.Unit = unit.IN
	wide := full()
	wide.Saw = 60 * unit.Degree
	for _, c := range []struct {
		tokens, corners string
		style           Style
		row             int
		want, says      string
	}{
		{"AB=100 A=90deg CA=100", "", full(), 1, `["A" "90°" "AB" "0°" "0" "100"]`, ""},
		{"AB=100 BC=100 CA=100", "", full(), 2, `["B" "60°" "BC" "30° in" "57.7" "100"]`, "In: the cut leans back"},
		{"AB=100 BC=100 CA=100", "", inches, 2, `["B" "60°" "BC" "30° in" "6 15/16\"" "12\""]`, "In: the cut leans back"},
		{"AB=100 A=120deg CA=90", "", full(), 1, `["A" "120°" "AB" "30° out" "57.7" "100"]`, "(out: carried on)"},
		{"AB=100 A=35.25deg CA=90", "", full(), 1, `["A" "35.25°" "AB" "block 35.25° in" "100" "70.7"]`, "Block: beyond the saw's 45°"},
		{"AB=100 A=35.25deg CA=90", "", inches, 1, `["A" "35.25°" "AB" "block 35.25° in" "12\"" "8 15/32\""]`, "hands 4 in from the blade"},
		{"AB=100 A=35.25deg CA=90", "", wide, 1, `["A" "35.25°" "AB" "54.75° in" "100" "70.7"]`, "In: the cut leans back"},
		{"AB=100 A=1:12 CA=90", "", full(), 1, `["A" "1 in 12" "AB" "block 4.8° in" "100" "8.3"]`, "Block"},
		{"AB=100 BC=100 CA=100", "B mitre", full(), 2, `["B mitre" "60°" "each" "block 30° in" "100" "57.7"]`, "Mitre: the joint"},
		{"AB=100 BC=100 CA=100", "B mitre", wide, 2, `["B mitre" "60°" "each" "60° in" "100" "57.7"]`, "Mitre: the joint"},
		{"AB=100 BC=100 CA=100", "B cut 10", full(), 3, `["B cut" "120°" "BC" "30° out" "57.7" "100"]`, "Cut: across the corner, from the set-back."},
	} {
		p, err := plate(t, c.tokens, "", c.corners, "")
		if err != nil {
			t.Fatal(err)
		}
		if got := fmt.Sprintf("%q", Settings(p, c.style)[c.row]); got != c.want {
			t.Errorf("%s, %s: %s, want %s", c.tokens, c.corners, got, c.want)
		}
		if about := strings.Join(AboutSettings(p, c.style), " "); !strings.Contains(about, c.says) {
			t.Errorf("%s, %s: %q does not say %q", c.tokens, c.corners, about, c.says)
		}
	}
	about := strings.Join(AboutSettings(piece(t, "AB=100 BC=100 CA=100"), full()), " ")
	for _, never := range []string{"Block", "Mitre", "carried on", "Inward"} {
		if strings.Contains(about, never) {
			t.Errorf("of three corners of 60° it says %q: %q", never, about)
		}
	}
	if rows := Settings(hollow(t, 1), full()); !strings.Contains(fmt.Sprint(rows), "to the line") || !strings.Contains(strings.Join(AboutSettings(hollow(t, 1), full()), " "), "Inward: both cuts stop") {
		t.Errorf("an inward corner: %q", rows)
	}
}

// What is given is set off as given: a slope as run and rise on the square, what the
// protractor has no mark for by its chord; 2·R·sin(θ/2) by hand: 2·200·sin 17.625° =
// 121.1, 2·1000·sin 18.685° = 640.7.
func TestAnglesAreSetOffAsGiven(t *testing.T) {
	s := full()
	s.Protractor = unit.Degree / 2
	inches := s
	inches.Figures.Unit = unit.IN
	minutes := s
	minutes.Figures.Minutes = true
	for _, c := range []struct {
		tokens string
		style  Style
		want   string
	}{
		{"AB=150 A=35deg CA=90", s, "Set the bevel to 35°. Stock on AB, strike a line from A."},
		{"AB=150 A=35.5deg CA=90", s, "Set the bevel to 35.5°. Stock on AB, strike a line from A."},
		{"AB=150 A=35.25deg CA=90", s, "Set off 35.25° at A by its chord. Run AB on past B. Swing 200 from A across it. From that crossing swing 121.1 across the arc on C's side. Strike the line from A through where they cross. 121.1 is computed."},
		{"AB=150 A=35°15' CA=90", s, "Set off 35°15′ at A by its chord. Run AB on past B. Swing 200 from A across it. From that crossing swing 121.1 across the arc on C's side. Strike the line from A through where they cross. 121.1 is computed."},
		{"AB=1500 A=37.37deg CA=1200", minutes, "Set off 37.37° at A by its chord. Swing 1000 from A across AB. From that crossing swing 640.7 across the arc on C's side. Strike the line from A through where they cross. 640.7 is computed."},
		{"AB=900 A=1:12 CA=700", s, "For 1 in 12 at A measure 600 from A along AB. From there square up 50. Strike the line from A through that mark."},
		{"AB=150 A=1:12 CA=90", s, "For 1 in 12 at A measure 60 from A along AB. From there square up 5. Strike the line from A through that mark."},
		{"AB=900 A=8.5% CA=700", s, "For 8.5 % at A measure 500 from A along AB. From there square up 42.5. Strike the line from A through that mark."},
		{"AB=900 A=6in12 CA=700", inches, "For 6 in 12 at A measure 24\" from A along AB. From there square up 12\". Strike the line from A through that mark."},
		{"AB=40 A=1:12 CA=90", s, "Run AB on past B. For 1 in 12 at A measure 60 from A along it. From there square up 5. Strike the line from A through that mark."},
		// Over 120° the rest of 180°: 54.75° at 200 is 2·200·sin 27.375° = 183.9.
		{"AB=150 A=125.25deg CA=90", s, "Set off 125.25° at A by the chord of the rest of 180°. Run BA on past A. Swing 200 from A across it. From that crossing swing 183.9 across the arc on C's side. Strike the line from A through where they cross. 183.9 is computed."},
		{"AB=140 A=40deg C=60.25deg", s, "Angle B is 79.75°: what 60.25° and 40° leave of 180°."},
		{"AB=140 A=40deg C=60.25deg", s, "Try the bevel at C: 60.25°."},
	} {
		if got := strings.Join(Steps(piece(t, c.tokens), c.style), "\n"); !strings.Contains(got, c.want) {
			t.Errorf("%s:\n%s\nwant %s", c.tokens, got, c.want)
		}
	}
}

// The figure in a corner is that which was given.
func TestAnglesAreDrawnAsGiven(t *testing.T) {
	for tokens, want := range map[string]string{
		"AB=150 A=35.25deg CA=90": "35.25°", "AB=150 A=35°30' CA=90": "35°30′", "AB=150 A=1:12 CA=90": "1 in 12", "AB=150 BC=120 CA=90": "(53.1°)",
	} {
		p := piece(t, tokens)
		d, err := Draw(p, laid(t, p, a4, 0), font, full())
		if err != nil {
			t.Fatal(err)
		}
		if all := words1(draw.Page{Ops: d}); !strings.Contains(all, want) {
			t.Errorf("%s: no %q in %q", tokens, want, all)
		}
	}
}
