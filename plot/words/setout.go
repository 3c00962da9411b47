package words

import (
	"slices"

	"trammel/geom"
	"trammel/geom/pegging"
)

// SetOut tells of a layout that is set out.
type SetOut interface {
	// Bring is what to take along.
	Bring() []string
	// Steps is the work in order, for one person with one helper.
	Steps() []string
	// Short is the same with both arcs of a peg in one sentence, for many pegs.
	Short() []Step
	// Pulled is of each of them the number of the pull that it tells of; 0: of none.
	Pulled() []int
	// Doubts about what was measured: a sheet made from a slip sets the slip out.
	Doubts() []string
	// Flat says, for who makes the sheet, which arcs cross so that it is hard to see where.
	Flat() []string
	// Basis is how the ranges are reckoned, in the sheet's own unit where it is metric.
	Basis() []string
	// Crossing is how the arcs cross and what that does, where there is one corner.
	Crossing() string

	// Taping is the rule of the signs, and what the corrections stand on.
	Taping() string
	// Broken is the correction of a pull, part by part: "temperature +28.1 and pull +5.9".
	Broken(p pegging.Pull) string

	// HowSure is what the figures of how sure it is mean.
	HowSure() string
	// Within is the same in a line, of the pegs as they are set out.
	Within() string
	// Stand says on which side what lies: no length shows a shape turned over.
	Stand() string
	// Outside is what to do with a check outside its range; empty where there is none.
	Outside() string
	// Aside is what is to be known beside the figures: which are the tape's and which true,
	// where it is corrected; which lines are left out, and why.
	Aside() []string
	// SecondWay is the only corner once more, in steps, where there is another way.
	SecondWay() []string
	// Rank is what stands below a table of the ways.
	Rank() string
	// Why the way that is used, in a sentence; empty where there is no other.
	Why() string

	// In a word or two: what a peg, a check and a pull are for, where a pull's length
	// comes from, whether a peg is as sure as is permitted, and a method.
	Peg(p pegging.Mark) string
	Check(c pegging.Check) string
	Do(p pegging.Pull) string
	Source(p pegging.Pull) string
	Inside(x pegging.Sure) string
	Way(m pegging.Method) string
}

// setOut in English.
type setOut struct {
	pegging.Layout
	in English
}

func edge(e [2]geom.Name) string { return string(e[0] + e[1]) }

func (setOut) Check(c pegging.Check) string {
	if c.Along == pegging.HalfOfSide {
		return "half of " + edge(c.HalfOf)
	}
	return [...]string{
		pegging.AlongEdge: "side", pegging.AlongDiagonal: "diagonal", pegging.AlongLine: "line", pegging.FromOtherEnd: "from the other end",
		pegging.FromMiddle: "from the middle", pegging.AlongHeight: "height", pegging.AlongHeightHalf: "height, median",
		pegging.AlongFoot: "foot", pegging.AlongMedian: "median",
	}[c.Along]
}

func (setOut) Source(p pegging.Pull) string {
	switch {
	case p.Measured:
		return "measured"
	case p.Use == pegging.ForLeg:
		return "chosen"
	}
	return "computed"
}

func (setOut) Inside(x pegging.Sure) string {
	if x.Inside {
		return "inside"
	}
	return "outside"
}

func (setOut) Way(m pegging.Method) string {
	return [...]string{"two arcs", "offset by 3-4-5", "angle and distance", "peg from peg", "run off"}[m]
}

func (s setOut) Peg(p pegging.Mark) string {
	switch p.Role {
	case pegging.Foot:
		switch {
		case p.Also:
			return "foot, middle of " + string(s.Baseline.From+s.Baseline.To)
		case s.Lone():
			return "foot of the height"
		}
		return "foot of " + string(p.Of[0])
	case pegging.Middle:
		return "middle of " + edge(p.Of)
	case pegging.SquareLeg, pegging.SquareTop:
		return "for the square"
	}
	switch {
	case p.Name == s.Baseline.From:
		return "tape's zero"
	case p.Name == s.Baseline.To:
		return "baseline's end"
	case !slices.Contains(s.Beside, p.Name):
		return "on the baseline"
	case s.Lone():
		return "apex"
	case !slices.Contains(s.Outline, p.Name):
		return "point"
	}
	return "corner"
}

// Do is what the hand does with a pull.
func (s setOut) Do(p pegging.Pull) string {
	made, line, first, second := "peg", "string", "hold", ""
	if s.in.Voice == Floor {
		made, line, first, second = "mark", "snap", "arc", "arc, "
	}
	switch p.Use {
	case pegging.ForBaseline:
		return made + ", " + line
	case pegging.ForArc:
		for _, x := range slices.Concat(s.Main, s.Second) {
			if x.Peg == p.To && x.Method == pegging.TwoArcs && x.Base[1] == p.Hold {
				return second + made
			}
		}
		return first
	case pegging.ForLeg:
		return "square"
	case pegging.ForHeight, pegging.ForRay:
		if p.Aside > 0 {
			return s.Figure(p.Aside) + " aside"
		}
		return made
	case pegging.ForAngle:
		return "turn " + p.Side.String()
	}
	if !pegged(s, p.To) {
		made = "mark"
	}
	if p.Behind {
		return made + ", behind " + string(p.Hold)
	}
	return made
}
