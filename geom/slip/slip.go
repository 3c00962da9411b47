// Package slip knows how people go wrong who measure: which of the known slips would
// lead from what a reading should have been to what was read.
//
// Files, from the top floor to the ground: slip.go.
package slip

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"trammel/geom/adjust"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// Kind is a way in which people go wrong.
type Kind uint8

const (
	Misread    Kind = iota // a mark too far or too short: 10, 50, 100, 1000 mm; an inch, a foot; 1°, 5°, 10°
	Hooked                 // the tape held at its 100 mm (1 in) mark, and that not taken off
	Swapped                // two digits that stand side by side written the other way round
	OtherScale             // an angle read on the protractor's other scale
)

// Slip is one explanation: the reading without it would have been True.
type Slip struct {
	Kind Kind
	By   adjust.Figure // the reading less True
	True adjust.Figure
	Text string // of Swapped: the reading as it should have been written
}

const (
	within  = 2   // σ: a slip explains the difference where it leaves no more than this
	share   = 0.2 // nor more than this share of itself
	atLeast = 3   // σ: a slip smaller than this cannot be told from scatter
)

// Explain lists the known ways of going wrong that lead from what the others say to
// what was read; spread is the σ of the difference.
func Explain(m triangle.Measurement, others, spread float64) (all []Slip) {
	reads := adjust.ReadingOf(m)
	off := reads - others
	try := func(k Kind, truth float64, text string) {
		by := reads - truth
		left := math.Abs(truth - others)
		if left <= within*spread && left <= math.Abs(by)*share && math.Abs(by) >= atLeast*spread {
			all = append(all, Slip{k, adjust.AsFigure(m.Kind, by), adjust.AsFigure(m.Kind, truth), text})
		}
	}
	sign := math.Copysign(1, off)
	if m.Kind == triangle.Angle {
		try(OtherScale, math.Pi-reads, "")
		for _, d := range [...]float64{1, 5, 10} {
			try(Misread, reads-sign*d*float64(unit.Degree), "")
		}
	} else {
		steps, hook := []unit.Length{10, 50, 100, 1000}, unit.Length(100)
		if m.Value.Unit >= unit.IN {
			steps, hook = []unit.Length{unit.Inch, unit.Foot}, unit.Inch
		}
		if off > 0 {
			try(Hooked, reads-float64(hook), "")
		}
		for _, d := range steps {
			try(Misread, reads-sign*float64(d), "")
		}
	}
	for _, t := range swaps(m.Value.Text) {
		if v, ok := reread(m, t); ok {
			try(Swapped, v, t)
		}
	}
	slices.SortStableFunc(all, func(s, t Slip) int {
		return cmp.Compare(math.Abs(s.True.Bare(m.Kind)-others), math.Abs(t.True.Bare(m.Kind)-others))
	})
	return all
}

// swaps are the text with two neighbouring digits the other way round; a point between them stays where it is.
func swaps(text string) (all []string) {
	b := []byte(text)
	isDigit := func(c byte) bool { return '0' <= c && c <= '9' }
	for i := range b {
		j := i + 1
		if j < len(b) && (b[j] == '.' || b[j] == ',') {
			j++
		}
		if j < len(b) && isDigit(b[i]) && isDigit(b[j]) && b[i] != b[j] {
			c := slices.Clone(b)
			c[i], c[j] = b[j], b[i]
			if !strings.HasPrefix(string(c), "0") {
				all = append(all, string(c))
			}
		}
	}
	return all
}

// reread is the reading if another text stood there.
func reread(m triangle.Measurement, text string) (float64, bool) {
	r, err := unit.ParseLength(text, m.Value.Unit)
	if m.Kind == triangle.Angle {
		r, err = unit.ParseAngle(text)
	}
	if m.Value = r; err != nil {
		return 0, false
	}
	return adjust.ReadingOf(m), true
}
