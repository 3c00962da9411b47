package net

import (
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/unit"
)

// DoubtKind is what is doubtful in a net itself.
type DoubtKind uint8

const (
	EdgesCross  DoubtKind = iota // Edges of the outline do
	MirrorImage                  // the outline runs clockwise: its corners are named the wrong way round, or the piece is turned over
	AngleSum                     // Angles of one triangle do not make 180°
	Unchecked                    // a slip in Lines would not show
	AsNear                       // no placement agrees with all that was measured, and Others[0] comes as near
)

// Doubt is one, with what it is about.
type Doubt struct {
	Kind         DoubtKind
	Edges        [2][2]geom.Name
	Angles       []int // into Results
	Sum, Allowed unit.Angle
	Lines        []string // what was measured, as Subject has it, in the order of the alphabet
}

// warn looks for what is doubtful in the net itself.
func (a *Adjusted) warn() {
	p := a.net
	if c := p.crossing(a.fit.At); len(a.Suspects) > 0 {
		// What a slip bends is not the outline's fault.
	} else if c != [2]int{} {
		n := len(p.round)
		edge := func(i int) [2]geom.Name { return [2]geom.Name{p.Names[p.round[i]], p.Names[p.round[(i+1)%n]]} }
		a.Doubts = append(a.Doubts, Doubt{Kind: EdgesCross, Edges: [2][2]geom.Name{edge(c[0]), edge(c[1])}})
	} else if len(p.round) > 2 && len(p.asked.Sides) == 0 && p.area(a.fit.At) < 0 {
		a.Doubts = append(a.Doubts, Doubt{Kind: MirrorImage})
	}
	a.Doubts = append(a.Doubts, p.angleSums()...)
	var alone []string
	for i, r := range a.Results {
		if a.Freedom > 0 && r.Redundancy < Checked && !a.held(i) {
			alone = append(alone, r.Measurement.Subject())
		}
	}
	if len(alone) > 0 {
		slices.Sort(alone)
		a.Doubts = append(a.Doubts, Doubt{Kind: Unchecked, Lines: slices.Compact(alone)})
	}
}

// or is "A", "A or B", "A, B or C".
func or(all []string) string {
	if len(all) < 2 {
		return strings.Join(all, "")
	}
	return strings.Join(all[:len(all)-1], ", ") + " or " + all[len(all)-1]
}
