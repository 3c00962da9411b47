package byhand

import (
	"fmt"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/unit"
)

// figures of one sentence: those that are computed are told behind it.
type figures struct {
	Piece
	place
	computed []string
}

// told writes a length, and remembers it where it was not measured.
func (f *figures) told(l unit.Length, measured bool) string {
	return f.remember(f.plain(l), measured)
}

// plain writes a length of a check, which is computed in any case.
func (f *figures) plain(l unit.Length) string { return f.place.length(f.Piece, l) }

// fine writes one that comes from a slope or a chord, to where it is finer than any rule.
func (f *figures) fine(l unit.Length, measured bool) string {
	h := f.Piece
	if h.Figures.Unit >= unit.IN {
		h.Figures.Unit, h.Figures.Denominator = unit.IN, 64
	}
	return f.remember(f.place.length(h, l), measured)
}

func (f *figures) remember(figure string, measured bool) string {
	if !measured && !slices.Contains(f.computed, figure) {
		f.computed = append(f.computed, figure)
	}
	return figure
}

// corner writes the angle that is set off: as it was given, else to what it is exact.
func (f *figures) corner(a SetAngle) string {
	if given, ok := f.Given[a.At]; ok {
		return f.Figures.Given(given)
	}
	return f.remember(f.fineAngle(a.Angle), a.Measured)
}

// baseline by its name.
func (h Piece) baseline() string {
	for _, s := range h.Construction.Steps {
		if b, ok := s.(construct.DrawBase); ok {
			return string(b.From + b.To)
		}
	}
	return "the baseline"
}

// above says on which side of the baseline an arc is; nothing where another point tells.
func (h Piece) above(s Swing) string {
	switch {
	case s.Tell != "":
		return ""
	case s.Below:
		return " below " + h.baseline()
	}
	return " above " + h.baseline()
}

// centre of an arc: a corner, or the foot of a height.
func centre(s Swing) string {
	if s.Centre == "" {
		return "the foot"
	}
	return string(s.Centre)
}

// which of two crossings a corner is.
func (h Piece) which(s Swing) string {
	switch {
	case s.From == "":
		return strings.TrimPrefix(h.above(s), " ")
	case s.Nearer:
		return "nearer to " + string(s.From)
	}
	return "farther from " + string(s.From)
}

// whichSide is the same for who stands on the line: nothing is above it there.
func (h Piece) whichSide(s Swing) string {
	if s.From != "" {
		return h.which(s)
	}
	side := map[bool]string{true: "right", false: "left"}[s.Below]
	for _, step := range h.Construction.Steps {
		if b, ok := step.(construct.DrawBase); ok {
			return fmt.Sprintf("on your %s at %s, facing %s", side, b.From, b.To)
		}
	}
	return fmt.Sprintf("on the %s of the baseline", side)
}

// line names what a corner lies on already.
func line(met construct.Step) string {
	switch s := met.(type) {
	case construct.SetAngle:
		return fmt.Sprintf("the line from %s", s.At)
	case construct.Parallel:
		return "the parallel"
	case construct.HalfCircle:
		return "the half circle"
	}
	return "the first arc"
}

func (s SetAngle) obtuse() bool { return s.Angle > unit.Turn/4+1e-9 } // rounding of a right angle is 1e-16

// squared is a perpendicular's foot in words: from where, along what, and whether the
// line is carried on past an end of the baseline.
func squared(s Erect) (along geom.Name, base, past string) {
	switch {
	case s.Along < 0:
		return s.From, string(s.Toward + s.From), string(s.From)
	case s.Past:
		return s.From, string(s.From + s.Toward), string(s.Toward)
	}
	return s.From, string(s.From + s.Toward), ""
}

// chain is "A to B", or "A to B, then C and D".
func chain(names []string) string {
	say := names[0] + " to " + names[1]
	if len(names) > 2 {
		say += ", then " + geom.Listed(names[2:])
	}
	return say
}

// runOn is a side that is carried on past its end.
func runOn(side string, past geom.Name) string { return fmt.Sprintf("%s run on past %s", side, past) }

// areComputed is the remark in three of the four places.
func areComputed(figures []string) string {
	if len(figures) == 1 {
		return figures[0] + " is computed."
	}
	return geom.Listed(figures) + " are computed."
}

func (s HalfCircle) over() string { return string(s.Over[0] + s.Over[1]) }

// which of two crossings with a parallel the corner is.
func (s HalfCircle) which() string {
	if s.Nearer {
		return "nearer to " + string(s.Over[0])
	}
	return "nearer to " + string(s.Over[1])
}

// tool that draws it.
func (s HalfCircle) tool(hand, first, again string) string {
	switch {
	case s.First:
		return first
	case s.Beam:
		return again
	}
	return hand
}
