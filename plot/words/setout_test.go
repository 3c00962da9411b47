package words_test

import (
	"slices"
	"strings"
	"sync"
	"testing"

	"trammel/geom"
	"trammel/geom/net"
	"trammel/geom/passage"
	"trammel/geom/pegging"
	"trammel/geom/tape"
	"trammel/plot/words"
)

// layouts of a flat gable whose arcs hardly cross and of a yard with a slip, on a slope
// and with a tape that is warm, by every method.
func layouts(t *testing.T) []pegging.Layout {
	laidOut.once.Do(func() { laidOut.all = everyLayout(t) })
	return laidOut.all
}

var laidOut struct {
	once sync.Once
	all  []pegging.Layout
}

func everyLayout(t *testing.T) (all []pegging.Layout) {
	gable := adjusted(t, net.Net{Outline: names("A B C"), Measured: measured(t, "AB=8m", "BC=4.105m", "CA=4.1m")})
	yard := slipped(t)
	for _, m := range []pegging.Method{pegging.TwoArcs, pegging.OffsetSquare, pegging.AngleDistance} {
		for _, n := range []net.Adjusted{gable, yard} {
			l, err := pegging.SetOut(pegging.Asked{
				Net: n, Method: &m, Permitted: 2, Every: 1000, Boards: 1500,
				Levels:     []pegging.Level{{Name: "A", At: 0}, {Name: "B", At: 150}},
				Conditions: &tape.Conditions{Temperature: 31}, Standard: tape.Standard{Expansivity: 11.5e-6, Temperature: 20},
			})
			if err != nil {
				t.Fatal(err)
			}
			all = append(all, l)
		}
	}
	return append(all, walled(t, passage.Bars{Around: true}), walled(t, passage.Bars{Blocked: [][2]geom.Name{{"A", "B"}, {"B", "E"}}}), walled(t, passage.Bars{Reach: 5400}))
}

// walled is a room like a U.
func walled(t *testing.T, b passage.Bars) pegging.Layout {
	room := adjusted(t, net.Net{Outline: names("A B C D E F G H"), Measured: measured(t, "AB=7800", "BC=5200", "CD=2600", "DE=3310", "EF=2650",
		"FG=2805", "GH=2550", "HA=4690", "BE=3220", "AF=3177", "BD=5823", "CE=4201", "AG=5347", "FH=3783", "AE=5536", "BF=5582")})
	l, err := pegging.SetOut(pegging.Asked{Net: room, Bars: b})
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// What stands in the way is said once, with the lines that would have been pulled.
func TestAvoided(t *testing.T) {
	for want, b := range map[string]passage.Bars{
		"": {},
		"Left out: AC, AD, BG and BH, since a wall stands between.":       {Around: true},
		"Left out: AC and BG, since a wall stands between.":               {Walls: [][2]geom.Name{{"D", "E"}}},
		"Left out: AB, since something stands on it.":                     {Blocked: [][2]geom.Name{{"B", "A"}}},
		"Left out: AB, AC, AD, BG and BH, since the tape does not reach.": {Reach: 6000},
	} {
		if got := strings.Join(english.SetOut(walled(t, b)).Aside(), " "); got != want {
			t.Errorf("%+v: %q, want %q", b, got, want)
		}
	}
}

// A foot 42 mm from A stands on one peg with it, which is said once (computed: the foot of
// 8000 and 12010 over 9000).
func TestMarksOnOnePeg(t *testing.T) {
	a := adjusted(t, net.Net{Outline: names("A B C"), Measured: measured(t, "AB=9m", "CA=8m", "BC=12.01m")})
	l, err := pegging.SetOut(pegging.Asked{Net: a, Base: [2]geom.Name{"A", "B"}})
	if err != nil {
		t.Fatal(err)
	}
	if got := english.SetOut(l).Steps()[1]; got != "Tape still on A: at 42 mark F on the string, on one peg with A." {
		t.Error(got)
	}
}

func pulls(l pegging.Layout) []pegging.Pull { return l.Pulls }

// ofLayout is all that is said of the layouts; alone makes a list of one.
func ofLayout(say func(words.SetOut) []string) func(*testing.T, words.Language) []string {
	return func(t *testing.T, in words.Language) (all []string) {
		for _, l := range layouts(t) {
			all = append(all, say(in.SetOut(l))...)
		}
		return all
	}
}

func alone(say func(words.SetOut) string) func(words.SetOut) []string {
	return func(s words.SetOut) []string {
		return slices.DeleteFunc([]string{say(s)}, func(x string) bool { return x == "" })
	}
}

// ofEach is what is said of each thing of a layout.
func ofEach[T any](of func(pegging.Layout) []T, say func(words.SetOut, T) string) func(*testing.T, words.Language) []string {
	return func(t *testing.T, in words.Language) (all []string) {
		for _, l := range layouts(t) {
			for _, x := range of(l) {
				all = append(all, say(in.SetOut(l), x))
			}
		}
		return all
	}
}
