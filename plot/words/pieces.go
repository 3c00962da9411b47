package words

import (
	"fmt"

	"trammel/geom/shape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// Pieces says what is doubtful in a piece.
type Pieces interface {
	// Doubts about one answer of a solved triangle.
	Doubts(s triangle.Solution, answer int) []Remark
	// Notes on what is done to an outline.
	Notes(s shape.Shape, figures unit.Style) []string
}

type pieces struct{}

func (pieces) Doubts(s triangle.Solution, answer int) (all []Remark) {
	f := triangle.FiguresOf(s.Measured)
	for _, d := range s.Answers[answer].Doubts {
		all = append(all, Remark(doubt(d, s.Measured, f)))
	}
	return all
}

func doubt(d triangle.Doubt, measured []triangle.Measurement, f triangle.Figures) string {
	slip, mm := f.Slip()
	m := measured[d.Measured]
	switch d.Code {
	case triangle.SlipMoves:
		return fmt.Sprintf("a slip of %s in %s moves corner %s by %s", slip, quantity(m), d.Corner, f.Length(d.By*unit.Length(mm)))
	case triangle.SlipEnds:
		if m.Kind == triangle.Angle {
			slip = "0.5°"
		}
		more, what := "more", "there would be no triangle"
		if d.Less {
			more = "less"
		}
		if d.Other {
			what = "only the other triangle would fit"
		}
		if d.End != nil {
			what += ": this one ends at " + f.At(m.Kind, d.End, m.Value.Value)
		}
		return fmt.Sprintf("with %s %s in %s %s", slip, more, quantity(m), what)
	case triangle.NearlySame:
		return fmt.Sprintf("the two triangles are nearly the same: corner %s lies only %s apart", d.Corner, f.Length(d.By))
	case triangle.Tolerances:
		return fmt.Sprintf("the tolerances leave corner %s in doubt by up to %s", d.Corner, f.Length(d.By))
	}
	return fmt.Sprintf("a second triangle fits but is left out: in it %s would be %s: sides may be 1 mm to 1 km long", d.Side[0]+d.Side[1], f.Length(d.By))
}

// quantity names what was measured: "AB", "the angle at A", "the height from C".
func quantity(m triangle.Measurement) string {
	switch m.Kind {
	case triangle.Angle:
		return "the angle at " + string(m.At[1])
	case triangle.Height:
		return "the height from " + string(m.At[0])
	}
	return string(m.At[0] + m.At[1])
}

func (pieces) Notes(s shape.Shape, figures unit.Style) (all []string) {
	for _, n := range s.Notes {
		all = append(all, note(n, figures))
	}
	return all
}

func note(n shape.Note, figures unit.Style) string {
	switch n.Code {
	case shape.RunsOut:
		shorten := "give both edges more nearly the same allowance, or round the corner"
		if n.Token != "" {
			shorten = "cut off what runs out: corners: [" + n.Token + "]"
		}
		return fmt.Sprintf("At %s the cut lines cross %s from the finished corner; to shorten that, %s.", n.Corner, figures.LengthUnit(n.Left), shorten)
	case shape.ThinBetween:
		return fmt.Sprintf("The holes %s and %s leave %s between their rims, less than %s.", n.Other, n.Hole, below(n.Left, n.Least, figures), figures.LengthUnit(n.Least))
	}
	near := map[shape.Treatment]string{shape.Sharp: "edge ", shape.Round: "the rounding at ", shape.Cut: "the cut at ", shape.Blunt: "the cut at "}[n.Near.Do] + n.Near.Of
	if n.CutLine {
		near = "the cut line of " + near
	}
	return fmt.Sprintf("The hole %s leaves %s between its rim and %s, less than its radius of %s.",
		n.Hole, below(n.Left, n.Least, figures), near, figures.LengthUnit(n.Least))
}

// below writes l, which is less than most, so that the figures do not look alike:
// with as many places as that takes.
func below(l, most unit.Length, s unit.Style) string {
	than := s.LengthUnit(most)
	if s.Unit >= unit.IN {
		for _, d := range []int{s.Denominator, 16, 32, 64} {
			s.Denominator = d
			if say := s.LengthUnit(l); l >= unit.Inch/unit.Length(max(d, 16)) && say != than {
				return say
			}
		}
		return fmt.Sprintf(`%.3g"`, float64(l/unit.Inch))
	}
	for s.Decimals = max(s.Decimals, [...]int{unit.MM: 1, unit.CM: 2, unit.M: 4}[s.Unit]); s.Decimals < 9; s.Decimals++ {
		if say := s.LengthUnit(l); say != than && say != s.LengthUnit(0) {
			return say
		}
	}
	return s.LengthUnit(l)
}
