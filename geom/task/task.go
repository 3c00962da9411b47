// Package task makes the tasks of a class: triangles to be drawn by hand and measured, with
// the ranges that a careful hand falls into and what each usual mistake would give instead.
// They are pure values: the same seed gives the same set for ever.
//
// The base AB lies level, A at the left, C above. Lengths are millimetres, angles degrees,
// both bare numbers here: what is given lies on whole ones.
//
// Files, from the top floor to the ground: class.go, short.go, shown.go, grid.go, rules.go, zone.go, sketch.go, mistakes.go,
// accept.go, solve.go, chance.go, task.go.
package task

import (
	"fmt"
	"strings"
)

// Kind is what is given of a triangle.
type Kind uint8

// Kinds that there are; their names are those of lessons, with the height as H.
const (
	SSS  Kind = iota // three sides
	SAS              // two sides and the acute angle between them
	SASO             // two sides and the obtuse angle between them
	ASA              // a side and the angles at its ends
	AAS              // a side, an angle at its end and the angle opposite
	RHS              // right angle, longest side and another
	LEGS             // right angle and the two sides at it
	SSA2             // two sides and an angle not between them: two triangles fit
	SSA1             // the same: one fits
	SSA0             // the same: none fits
	BHA              // base, height and an angle at the base
	BHS              // base, height and a side
	ISO              // base and the two equal sides
	kinds
)

// Kinds are all of them.
func Kinds() (all []Kind) {
	for k := range kinds {
		all = append(all, k)
	}
	return all
}

func (k Kind) String() string { return names[k] }

var names = [kinds]string{"SSS", "SAS", "SASO", "ASA", "AAS", "RHS", "LEGS", "SSA2", "SSA1", "SSA0", "BHA", "BHS", "ISO"}

// KindNamed is the kind of that name, false where there is none.
func KindNamed(name string) (Kind, bool) {
	for k, n := range names {
		if strings.EqualFold(n, name) {
			return Kind(k), true
		}
	}
	return 0, false
}

// Quantity is what can be given or asked of a triangle.
type Quantity uint8

const (
	AB Quantity = iota
	BC
	CA
	A
	B
	C
	Height // of C over AB
	CA2    // of two triangles the shorter CA
	none
)

// IsAngle says whether it counts degrees.
func (q Quantity) IsAngle() bool { return q == A || q == B || q == C }

// String is the quantity as measurements and tables write it.
func (q Quantity) String() string {
	return [...]string{"AB", "BC", "CA", "A", "B", "C", "C-AB", "CA2", ""}[q]
}

// locus is a line that a hand draws C on.
type locus uint8

const (
	arcA  locus = iota // about A, radius CA
	arcB               // about B, radius BC
	rayA               // the arm of angle A
	rayB               // the arm of angle B
	level              // parallel to AB at the height
)

// kind is what there is to know of one.
type kind struct {
	given  [3]Quantity // none: two are given
	boxes  [2]Quantity // what is measured; none: one box
	loci   [2]locus    // what a hand sets
	square bool        // angle A is set with the set square
	once   int         // the box of a sheet that asks for one, by which a swap can be seen
}

var about = [kinds]kind{
	SSS:  {given: [3]Quantity{AB, BC, CA}, boxes: [2]Quantity{A, C}, loci: [2]locus{arcA, arcB}},
	SAS:  {given: [3]Quantity{AB, A, CA}, boxes: [2]Quantity{BC, B}, loci: [2]locus{rayA, arcA}, once: 1},
	SASO: {given: [3]Quantity{AB, A, CA}, boxes: [2]Quantity{BC, B}, loci: [2]locus{rayA, arcA}, once: 1},
	ASA:  {given: [3]Quantity{AB, A, B}, boxes: [2]Quantity{BC, CA}, loci: [2]locus{rayA, rayB}},
	AAS:  {given: [3]Quantity{AB, A, C}, boxes: [2]Quantity{BC, CA}, loci: [2]locus{rayA, rayB}},
	RHS:  {given: [3]Quantity{AB, A, BC}, boxes: [2]Quantity{CA, B}, loci: [2]locus{rayA, arcB}, square: true},
	LEGS: {given: [3]Quantity{AB, A, CA}, boxes: [2]Quantity{BC, B}, loci: [2]locus{rayA, arcA}, square: true, once: 1},
	SSA2: {given: [3]Quantity{AB, A, BC}, boxes: [2]Quantity{CA, CA2}, loci: [2]locus{rayA, arcB}},
	SSA1: {given: [3]Quantity{AB, A, BC}, boxes: [2]Quantity{CA, B}, loci: [2]locus{rayA, arcB}},
	SSA0: {given: [3]Quantity{AB, A, BC}, boxes: [2]Quantity{BC, none}, loci: [2]locus{rayA, arcB}},
	BHA:  {given: [3]Quantity{AB, A, Height}, boxes: [2]Quantity{BC, B}, loci: [2]locus{level, rayA}},
	BHS:  {given: [3]Quantity{AB, Height, CA}, boxes: [2]Quantity{BC, A}, loci: [2]locus{level, arcA}},
	ISO:  {given: [3]Quantity{AB, BC, CA}, boxes: [2]Quantity{C, Height}, loci: [2]locus{arcA, arcB}},
}

// Given is what is given of a kind, in the order in which it is said.
func (k Kind) Given() [3]Quantity { return about[k].given }

// Boxes is what is measured of a kind, one or two.
func (k Kind) Boxes() []Quantity {
	b := about[k].boxes
	if b[1] == none {
		return b[:1]
	}
	return b[:]
}

// OneBox is the number of the box that a sheet with one asks for: it sees most mistakes.
// Of two triangles both answers are asked.
func (k Kind) OneBox() int { return about[k].once }

// BySquare says whether angle A is a right angle that the set square draws.
func (k Kind) BySquare() bool { return about[k].square }

// IsArc says whether an angle is given that is not between the two sides: none, one or two
// triangles fit.
func (k Kind) IsArc() bool { return k == SSA2 || k == SSA1 || k == SSA0 }

// Task is one triangle to be drawn: the kind, and what is given in the order of Kind.Given.
type Task struct {
	Kind  Kind
	Given [3]int // mm or whole degrees
}

// Tokens are what is given as measurements.
func (t Task) Tokens() (all []string) {
	for i, q := range t.Kind.Given() {
		unit := ""
		if q.IsAngle() {
			unit = "deg"
		}
		all = append(all, fmt.Sprintf("%s=%d%s", q, t.Given[i], unit))
	}
	return all
}

// of is what is given of a quantity, false where it is not.
func (t Task) of(q Quantity) (float64, bool) {
	for i, g := range about[t.Kind].given {
		if g == q {
			return float64(t.Given[i]), true
		}
	}
	return 0, false
}
