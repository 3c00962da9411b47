package words

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/pegging"
	"trammel/geom/tape"
	"trammel/geom/unit"
)

// levelWords say what the falls are reckoned from.
func levelWords(s setOut) string {
	if !s.Falls {
		return ""
	}
	words := "Levels in " + s.Style.Name() + ": " + levelsOf(s, false) + "."
	if all := assumedIn(s); all != "" {
		words += " " + all
	}
	return words + " Between marks the ground is taken as straight: along the baseline from peg to peg and on beyond its ends, from a foot to its peg, along an edge from corner to corner. Over a fall the tape reads √(level² + fall²). What was measured is taken as level; boards, their nails and strings are set level."
}

// assumedIn says of which pegs the level is not known and what it is taken for.
func assumedIn(s setOut) string {
	if len(s.Ground.Assumed) == 0 {
		return ""
	}
	plane := [...]string{
		pegging.LevelAcross:   "falling along the line of the levels given, and level across it",
		pegging.ThroughLevels: "the plane through the levels given",
		pegging.NearestLevels: "the plane nearest to the levels given",
	}[s.Ground.Plane]
	return fmt.Sprintf("Not levelled, and assumed: %s, %s.", levelsOf(s, true), plane)
}

func (s setOut) Taping() string {
	var parts []string
	if s.Weighed {
		c := s.Conditions
		how := fmt.Sprintf("The tape at %s °C", unit.Decimals(float64(c.Temperature), 2))
		if c.Pull > 0 {
			how += fmt.Sprintf(", pulled with %s N", unit.Decimals(float64(c.Pull), 2))
		}
		if c.Span > 0 {
			how += ", hanging in spans of " + s.Style.LengthUnit(c.Span)
		}
		parts = append(parts, how+".")
	}
	if s.Falls {
		parts = append(parts, levelWords(s))
	}
	rule := "A correction is the true length less what the tape reads. Laying out subtracts it: the tape reads the true length less the corrections. (Measuring adds it.) Pulls, steps, checks, marks and boards are told as the tape reads; the plan and the pegs are true."
	if s.Falls {
		rule = strings.Replace(rule, "true length", "true length, level,", 1)
		if s.Weighed {
			rule += " A 3-4-5 square is corrected for the fall alone."
		}
	} else {
		rule += " A 3-4-5 square needs none: it is square at any size."
	}
	return strings.Join(append(parts, rule), " ")
}

func (s setOut) Crossing() string {
	if len(s.Second) == 0 || s.Method != pegging.TwoArcs && s.Second[0].Method != pegging.TwoArcs {
		return "" // none are swung
	}
	c := s.Main[0].Crossing
	words := fmt.Sprintf("The arcs cross at %s: ", s.Style.Angle(c.Angle))
	switch {
	case c.Sound:
		words += "sound"
	case s.Method == pegging.OffsetSquare:
		words += fmt.Sprintf("not sound, so the offset places %s", c.At)
	default:
		words += "not sound"
	}
	return words + fmt.Sprintf(" (%s to %s, common practice). An error in each pull grows %.1f times at %s.",
		s.Style.Angle(geom.Flat), s.Style.Angle(pegging.Bluntest), c.Spread, c.At)
}

func (s setOut) Broken(p pegging.Pull) string {
	var all []string
	for _, x := range []struct {
		name string
		by   unit.Length
	}{{"calibration", p.By.Calibration}, {"temperature", p.By.Temperature}, {"pull", p.By.Pull}, {"sag", p.By.Sag}, {"slope", p.By.Slope}} {
		if text := s.Fine().Length(max(x.by, -x.by)); text != s.Fine().Length(0) {
			all = append(all, x.name+" "+tape.Signed(float64(x.by), text))
		}
	}
	return cmp.Or(geom.Listed(all), "none")
}

// levels of the points that are assumed to lie so, or were said to.
func levelsOf(s setOut, assumed bool) string {
	var all []string
	for _, p := range s.Pegs {
		if p.Role == pegging.Corner && slices.Contains(s.Ground.Assumed, p.Name) == assumed {
			l := s.Level(p.Name)
			all = append(all, string(p.Name)+" "+tape.Below(l, s.Figure(max(l, -l))))
		}
	}
	return strings.Join(all, ", ")
}

func (s setOut) Bring() []string {
	tapes := "tape"
	if crossesTapes(s) {
		tapes = "two tapes"
	}
	all := []string{fmt.Sprintf("%s of %s or longer, class %s", tapes, reach(wanted(s), s.Inches()), s.Tools.Tape.Class)}
	if s.in.Voice == Floor {
		all = append(all, "chalk line", "pin to hold the tape")
	} else {
		all = append(all, fmt.Sprintf("%d pegs with nails", driven(s)), "string", "hammer", "plumb bob")
	}
	if s.Method == pegging.AngleDistance {
		all = append(all, s.Instrument.Name)
	}
	if s.Weighed {
		all = append(all, "spring balance and thermometer for the tape")
	}
	if n := len(s.Nails); n > 0 && s.in.Voice != Floor {
		all = append(all, fmt.Sprintf("%d boards on stakes", n), "level")
	}
	return append(all, "this sheet", "thick pencil")
}

// crossesTapes says whether two tapes are pulled taut at once: no arc can be scratched in
// grass.
func crossesTapes(s setOut) bool {
	return s.in.Voice != Floor && slices.ContainsFunc(s.Pulls, func(p pegging.Pull) bool { return p.Use == pegging.ForArc || p.Use == pegging.ForLeg })
}

// pegged says whether a point on a string has a peg: a corner, or what a check is pulled from
// or to. A floor has none.
func pegged(s setOut, n geom.Name) bool {
	m, _ := s.Layout.Peg(n)
	return s.in.Voice != Floor && (m.Role == pegging.Corner ||
		slices.ContainsFunc(s.Checks, func(c pegging.Check) bool { return c.From == n || c.To == n }))
}

// driven is how many pegs are driven: corners, the tops of squares, but for the second
// way's, and what checks are pulled from. Other marks lie on strings.
func driven(s setOut) (n int) {
	second := map[geom.Name]bool{}
	for _, p := range s.Pulls {
		if p.Part == pegging.SecondWay && p.Use == pegging.ForLeg {
			second[p.To] = true
		}
	}
	var at []geom.Point
	for _, p := range s.Pegs {
		peg := pegged(s, p.Name) || p.Role == pegging.SquareTop && !second[p.Name]
		if peg && !slices.ContainsFunc(at, func(q geom.Point) bool { return q.Distance(p.At) < tape.OnePeg }) {
			at = append(at, p.At)
		}
	}
	return len(at)
}

// wanted is the longest length that the tape has to reach, strings included.
func wanted(s setOut) unit.Length {
	l := s.Longest()
	for _, c := range s.Checks {
		l = max(l, c.Value)
	}
	for _, s := range s.Strings {
		l = max(l, s.Length)
	}
	return l
}

// sameStep keeps a whole number of metres, but for rounding, from counting as one more.
const sameStep = 1e-9

// reach is the length of tape that a pull wants, in whole metres or feet.
func reach(l unit.Length, feet bool) string {
	if feet {
		return fmt.Sprintf("%.0f ft", math.Ceil(float64(l/unit.Foot)*(1-sameStep)))
	}
	return fmt.Sprintf("%.0f m", math.Ceil(float64(l/unit.Metre)*(1-sameStep)))
}
