package lesson

import (
	"fmt"

	"trammel/geom/task"
)

// EnglishModels says what stands on the sheets that show how it is done.
type EnglishModels struct{}

// Title of what is shown of a kind.
func (EnglishModels) Title(k task.Kind) string {
	return [...]string{
		task.SSS:  "Three sides",
		task.SAS:  "Two sides and the angle between",
		task.SASO: "Two sides and an obtuse angle between",
		task.ASA:  "One side and the angles at its ends",
		task.AAS:  "One side, an angle at it and the angle opposite",
		task.RHS:  "A right angle, the longest side and another",
		task.LEGS: "A right angle and the two sides at it",
		task.SSA2: "An angle not between the sides: two triangles",
		task.SSA1: "An angle not between the sides: one triangle",
		task.SSA0: "An angle not between the sides: no triangle",
		task.BHA:  "Base, height and an angle",
		task.BHS:  "Base, height and a side",
		task.ISO:  "Two equal sides",
	}[k]
}

// Other titles.
func (EnglishModels) HalfCircle() string { return "A right angle over the half circle" }
func (EnglishModels) Touching() string   { return "How many triangles? The arc that touches" }
func (EnglishModels) NoneOfThree() string {
	return "Three sides that do not meet"
}
func (EnglishModels) Kite() string { return "The net of a kite" }

// Number stands on a disc; Mark at the protractor's edge.
func (EnglishModels) Mark() string { return "mark" }

// Why says which of the two numbers of the protractor is meant.
func (EnglishModels) Why(angle, other string, acute bool) string {
	if acute {
		return fmt.Sprintf("%s is acute: it is not %s.", angle, other)
	}
	return fmt.Sprintf("%s is obtuse: it is not %s.", angle, other)
}

// FullSize stands under a panel that is true to scale.
func (EnglishModels) FullSize() string {
	return "This panel is full size: lay your own protractor on it."
}

// CutsTwice is the arc that gives two triangles.
func (EnglishModels) CutsTwice(centre, radius, arm string) string {
	return fmt.Sprintf("With compasses, centre %s, radius %s, cut the arm from %s. The arc cuts it twice: label C₁ and C₂. Both are answers.", centre, radius, arm)
}

// JoinBoth joins the two triangles.
func (EnglishModels) JoinBoth(from string) string {
	return fmt.Sprintf("Join %s to C₁ and to C₂. Go over both triangles firmly. Leave every arc and line.", from)
}

// CheckBoth measures what the two have different.
func (EnglishModels) CheckBoth(from string) string {
	return fmt.Sprintf("Measure %sC₁ and %sC₂ to the nearest millimetre: there are two answers.", from, from)
}

// FallsShort is the arc that does not reach an arm.
func (EnglishModels) FallsShort(centre, radius, gap string) string {
	return fmt.Sprintf("With compasses, centre %s, radius %s, draw an arc towards the arm. It does not reach: %s are missing. Write: no such triangle.", centre, radius, gap)
}

// First and Second are the arcs about the ends of a base that is too long for them.
func (EnglishModels) FirstArc(centre, radius string) string {
	return fmt.Sprintf("With compasses, centre %s, radius %s, draw an arc.", centre, radius)
}
func (EnglishModels) NoCrossing(centre, radius, gap string) string {
	return fmt.Sprintf("With compasses, centre %s, radius %s, draw an arc. The arcs do not meet: %s are missing. Write: no such triangle.", centre, radius, gap)
}

// TooShort is the rule behind it.
func (EnglishModels) TooShort(a, b, c string) string {
	return fmt.Sprintf("The two shorter sides together must be longer than the third: %s + %s is less than %s.", a, b, c)
}

// Alt says what a panel shows.
func (EnglishModels) Alt(number int) string {
	return fmt.Sprintf("What is drawn in step %d, with the instrument where it lies.", number)
}
