package words

import (
	"fmt"
	"strings"

	"trammel/geom/pegging"
	"trammel/geom/unit"
	"trammel/plot/words/phrase"
)

// Heads are what stands on a sheet of setting out, or of checking, beside its sentences:
// titles, headings, heads of columns, labels and lines of figures.
type Heads interface {
	// Title is what the sheet is; Units what its figures count, in full and in brief;
	// Sign who fills in what; Turn what stands on the other side of the leaf.
	Title(check bool) string
	Units(check bool, style unit.Style) []string
	Sign(check bool) []string
	Turn(back bool) (side, other string)
	ForOffice() (side, below string)
	// Heading of a part on paper, and the heads of its columns.
	Heading(p Part) string
	Columns(p Part) []string
	// OnPhone is the heading of a part in a column of plain text, and the line below it.
	OnPhone(p Part) (heading, columns string)

	// NoScale keeps from measuring on the plan; LeftOut and TooFar say what is missing
	// there, and of how many nails why; Legend is what the signs of a check's plan mean.
	NoScale() string
	LeftOut() string
	TooFar(nails int) string
	Legend(of Signs) []string
	// Bring is what to take along, in one line.
	Bring() string

	// Of plain text: a check and its range, a place to write, a correction, a way, a string.
	Check(c pegging.Check) (reads, good, found string)
	Corrected(p pegging.Pull) string
	Way(x pegging.Way, used bool) string
	String(x pegging.String) string
}

// Signs are what the plan of a check has on it: lengths that are outside alone, moves of
// pegs, names of those pegs alone that something is told of.
type Signs struct{ OutsideAlone, Moves, FewNames bool }

// Part of a sheet that has a heading.
type Part uint8

const (
	PartBring Part = iota
	PartCare
	PartDoubts
	PartPegs
	PartPulls
	PartCorrections
	PartSteps
	PartMarks
	PartNails
	PartStrings
	PartChecks
	PartSure
	PartWays
	PartSecond
	PartAdvice // of a check, as those below
	PartFound
	PartAgain
	PartBefore // of a check: what to know before anything is moved
)

// Parts are all of them.
func Parts() (all []Part) {
	for p := range PartBefore + 1 {
		all = append(all, p)
	}
	return all
}

// heads in English.
type heads struct{ setOut }

func (heads) Title(check bool) string {
	if check {
		return "Check of what was set out"
	}
	return "Setting-out sheet"
}

func (heads) Units(check bool, style unit.Style) []string {
	if check {
		return []string{fmt.Sprintf("All figures in %s.", style.Name()), fmt.Sprintf("All figures in %s.", style.Name())}
	}
	return []string{
		fmt.Sprintf("%s. Bold is given, the rest computed.", phrase.Capital(style.Name())),
		fmt.Sprintf("%s. Bold is given.", phrase.Capital(style.Name())), fmt.Sprintf("All figures in %s.", style.Name()),
	}
}

func (heads) Sign(check bool) []string {
	if check {
		return []string{"measured by", "tape", "accepted by", "date"}
	}
	return []string{"set out by", "helper", "tape", "date"}
}

func (heads) ForOffice() (side, below string) { return "office", "not for the site" }

func (heads) Turn(back bool) (side, other string) {
	if back {
		return "back", "turn over: plan, pulls and pegs"
	}
	return "front", "turn over: steps and checks"
}

func (h heads) Heading(p Part) string {
	if own := h.floorHeading(p); h.in.Voice == Floor && own != "" {
		return own
	}
	return [...]string{
		PartBring: "Bring", PartCare: "Before the first peg", PartDoubts: "Before setting out", PartPegs: "Pegs and marks, to check by", PartPulls: "Hold and pull",
		PartCorrections: "Tape corrections", PartSteps: "Steps", PartMarks: "Marks along the edges, every " + h.Style.LengthUnit(h.Every),
		PartNails:   "Nails in the profile boards, clear of the digging by " + h.Style.LengthUnit(h.Boards),
		PartStrings: "Strings, and where they cross, from the first nail", PartChecks: "Checks", PartSecond: "A second way to the same corner",
		PartSure: "How sure", PartWays: "Which way is surest", PartAdvice: "What to do", PartFound: "What was found", PartAgain: "Measure again", PartBefore: "Before anything is moved",
	}[p]
}

// floorHeading is one that a floor has its own words for.
func (h heads) floorHeading(p Part) string {
	return map[Part]string{
		PartCare: "Before the first line", PartPegs: "Marks, to check by", PartPulls: "Hold and measure",
		PartNails:   "Crosses beyond the corners, clear of the work by " + h.Style.LengthUnit(h.Boards),
		PartStrings: "Carried lines, and where they cross, from the first cross",
	}[p]
}

func (h heads) Columns(p Part) []string {
	line := string(h.Baseline.From + h.Baseline.To)
	along, out, u := "along "+line, "off "+line, h.SmallUnit()
	pegsOut, reads := out, "reads"
	if !h.BothSides() {
		pegsOut = h.OneSide().String() + " of " + line
	}
	if h.Layout.Corrected {
		reads = "tape reads"
	}
	over, nails, peg := "string", "nail to\nnail", "peg"
	if h.in.Voice == Floor {
		over, nails, peg = "line", "cross to\ncross", "mark"
	}
	return map[Part][]string{
		PartPegs:        {"", along, pegsOut, "side", "what it is"},
		PartPulls:       {"step", "0 on", "to", "true", reads, "and"},
		PartCorrections: {"pull", "from", "to", "true", "correction", "lay off", "because of"},
		PartMarks:       {"edge", "from its\nfirst", along, out, "side"},
		PartNails:       {over, "beyond", "from the\ncorner", along, out, "side"},
		PartStrings:     {over, nails, "crosses", "at", "crosses", "at"},
		PartChecks:      {"", "0 on", "to", "reads", "good from", "to", "found"},
		PartSure:        {peg, "along,\n" + u, "across,\n" + u, "95 %: as\nmeasured", "as set\nout", "both,\n" + u, "may be\noff, " + u, ""},
		PartWays:        {"way", "from", "worst\n" + peg, "95 %,\n" + u, "times", ""},
		PartFound:       {"reading", "wanted", "accept\nfrom", "accept\nto", "found", "found less\nwanted", "it is"},
		PartAgain:       {"reading", "should\nread", "found again"},
	}[p]
}

func (h heads) OnPhone(p Part) (heading, columns string) {
	switch p {
	case PartPegs:
		side := ""
		if !h.BothSides() {
			side = ", " + h.OneSide().String()
		}
		columns = fmt.Sprintf("in the order of setting: along from %s, then square out%s", h.Baseline.From, side)
	case PartPulls:
		return "Hold 0 at, pull to", ""
	case PartMarks:
		return "Marks along the edges", "edge, from its first; along, square out"
	case PartNails:
		if h.in.Voice == Floor {
			return "Crosses beyond the corners", "line, beyond, by; along, square out"
		}
		return "Nails in the profile boards", "string, beyond, by; along, square out"
	case PartStrings:
		if h.in.Voice == Floor {
			return "Lines, from their first cross", ""
		}
		return "Strings, from their first nail", ""
	case PartChecks:
		return "Checks", ""
	case PartSure:
		return "How sure, in " + h.SmallUnit(), "peg, measured, set out, both"
	}
	return h.Heading(p), columns
}

func (heads) NoScale() string {
	return "The plan is a picture: work to the figures, not by measuring it."
}
func (heads) LeftOut() string { return "Marks for squares are left out: they are in the tables." }

func (h heads) TooFar(nails int) string {
	var said []string
	if far := nails - h.Shut; far > 0 {
		said = append(said, fmt.Sprintf("%d more would stand too far off: there an edge runs nearly straight on past its corner.", far))
	}
	if h.Shut > 0 {
		what := map[bool]string{true: "crosses", false: "nails"}[h.in.Voice == Floor]
		said = append(said, fmt.Sprintf("%d %s beyond corners are left out: no line may run on past the corner there.", h.Shut, what))
	}
	return strings.Join(said, " ")
}

func (heads) Legend(signs Signs) []string {
	of := "Beside a line"
	if signs.OutsideAlone {
		of += " that is outside"
	}
	lines := []string{of + ": found less wanted."}
	if signs.Moves {
		lines = append(lines, "A cross is where a peg stands, the arrow the way it is to be moved; its length has no scale.")
	}
	if signs.FewNames {
		lines = append(lines, "Pegs without a name here: nothing that was read to them is outside its range.")
	}
	return lines
}

func (h heads) Bring() string { return phrase.Capital(strings.Join(h.setOut.Bring(), ", ")) + "." }

func (h heads) Check(c pegging.Check) (reads, good, found string) {
	return fmt.Sprintf("%s to %s  %s", c.From, c.To, h.Figure(c.Reads)), fmt.Sprintf("good %s to %s", h.Figure(c.Least), h.Figure(c.Greatest)), "found"
}

func (h heads) Corrected(p pegging.Pull) string {
	return fmt.Sprintf("%s %s true %s: %s, lay off %s", p.Hold, p.To, h.Figure(p.Length), h.Broken(p), h.Figure(p.Reads))
}

func (h heads) Way(x pegging.Way, used bool) string {
	say := fmt.Sprintf("%s from %s: %s %s at %s, %.1f times", h.setOut.Way(x.Method), edge(x.Base), h.Small(x.Figure), h.SmallUnit(), x.Pegs[x.Worst].Name, x.Times)
	if used {
		return say + ", used"
	}
	return say
}

func (h heads) String(x pegging.String) string {
	laid := func(l unit.Length) string { r, _ := h.Reads(l, 0); return h.Figure(r) }
	return fmt.Sprintf("%s %s long, crosses %s at %s, %s at %s", edge(x.Edge), laid(x.Length), edge(x.With[0]), laid(x.Corners[0]), edge(x.With[1]), laid(x.Corners[1]))
}
