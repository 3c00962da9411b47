package setout

import (
	"trammel/geom"
	"trammel/geom/pegging"
	"trammel/geom/tape"
	"trammel/geom/unit"
	"trammel/plot/words"
)

// written is a layout as its figures are written.
type written struct {
	pegging.Layout
	Language words.Language // nil: English at the bench
}

// Says what there is to say of the layout, in the language of the sheet.
func (s written) Says() words.SetOut { return words.In(s.Language).SetOut(s.Layout) }

func (s written) heads() words.Heads { return words.In(s.Language).Heads(s.Layout) }

// corrects says whether a pull has a correction to tell of.
func (s written) corrects(p pegging.Pull) bool {
	return p.Use != pegging.ForAngle && (p.Use != pegging.ForLeg || s.Falls)
}

// laid is a length as the tape reads it over a fall; laidAlong the same of a running
// distance, with a sign where it lies behind the zero end.
func (s written) laid(l, fall unit.Length) string {
	r, _ := s.Reads(l, fall)
	return s.Figure(r)
}

func (s written) laidAlong(l, fall unit.Length) string {
	return tape.Below(l, s.laid(max(l, -l), fall))
}

// pegFigures are a peg's running distance and offset, bare where measured or chosen.
func (s written) pegFigures(p pegging.Mark) (along, offset string) {
	chosen := p.Role == pegging.SquareLeg || p.Role == pegging.SquareTop
	along = tape.Below(p.Along, words.Computed(s.Figure(max(p.Along, -p.Along)), s.alongMeasured(p)))
	offset = words.Computed(s.Figure(p.Offset), p.Side == pegging.OnLine || chosen || p.Role == pegging.Corner && s.offsetTold(p.Name))
	return along, offset
}

func (s written) alongMeasured(p pegging.Mark) bool {
	switch {
	case max(p.Along, -p.Along) <= pegging.SameMark:
		return true
	case p.Name == s.Baseline.To:
		return s.Baseline.Measured
	}
	return p.Role == pegging.Corner && p.Side == pegging.OnLine && s.PullTo(p.Name).Measured
}

// offsetTold says whether a corner's offset was measured.
func (s written) offsetTold(n geom.Name) bool {
	for _, p := range s.Pulls {
		if p.Use == pegging.ForHeight && p.To == n {
			return p.Measured
		}
	}
	return false
}

func edge(e [2]geom.Name) string { return string(e[0] + e[1]) }
