package shape

import (
	"fmt"

	"trammel/geom/unit"
)

// leastBetween is how much material is left between two holes without a word.
// Judgement, no published source; a warning says nothing of strength.
const leastBetween unit.Length = 3

// thin says where a hole leaves little: less than its own radius between its rim and
// the nearest edge, finished or cut (common practice, no source), or less than
// leastBetween between its rim and that of a hole before it.
func (m *maker) thin(b Bore) (notes []string) {
	centre, radius := b.Circle.Centre, b.Circle.Radius
	at, d := m.shape.Cut.Nearest(centre)
	edge := "the cut line of " + m.cutParts[at].name
	if i, near := m.shape.Finished.Nearest(centre); near <= d+touching { // where both are one line, the plain name
		d, edge = near, m.finishedParts[i].name
	}
	if left := d - radius; left < radius-touching {
		notes = append(notes, fmt.Sprintf("The hole %s leaves %s between its rim and %s, less than its radius of %s.",
			b.Hole.Text, m.words.below(left, radius), edge, m.words.length(radius)))
	}
	for _, o := range m.shape.Bores {
		if left := centre.Distance(o.Circle.Centre) - radius - o.Circle.Radius; left < leastBetween-touching {
			notes = append(notes, fmt.Sprintf("The holes %s and %s leave %s between their rims, less than %s.",
				o.Hole.Text, b.Hole.Text, m.words.below(left, leastBetween), m.words.length(leastBetween)))
		}
	}
	return notes
}

// below writes l, which is less than most, so that the figures do not look alike:
// with as many places as that takes.
func (w words) below(l, most unit.Length) string {
	s := w.style
	than := w.length(most)
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
