package lesson

import (
	"fmt"
	"strings"

	"trammel/geom/task"
)

// Pupil is a pupil's name, or number.
func (EnglishMarking) Pupil(number int, name string) string {
	return EnglishTasks{}.Pupil(number, name)
}

// KeyTitle of a set, and the heads of its columns.
func (EnglishMarking) KeyTitle() string { return "Key for the teacher: keep it away from the class" }

func (EnglishMarking) KeyHeads() (pupil, task, given, diagnosed string) {
	return "pupil", "task", "given", "what a mistake gives"
}

// Range is an answer with what is accepted.
func (EnglishMarking) Range(b task.Box) string {
	return fmt.Sprintf("%.1f (%d–%d)", b.Value, b.Low, b.High)
}

// AnswerTitle is what stands over a task as it should come out.
func (EnglishMarking) AnswerTitle(pupil string, n int) string {
	return fmt.Sprintf("Answer: %s, task %d", pupil, n)
}

// Comes says what a box should come to, and from where to where it is accepted.
func (EnglishMarking) Comes(b task.Box) string {
	return fmt.Sprintf("It should come to %.1f; accepted from %d to %d.", b.Value, b.Low, b.High)
}

// Asked is the name of a box in a table.
func (EnglishMarking) Asked(k task.Kind, q task.Quantity) string {
	switch {
	case k == task.SSA2 && q == task.CA:
		return "longer CA"
	case q == task.CA2:
		return "shorter CA"
	case k == task.SSA0:
		return "least BC"
	case q == task.Height:
		return "height"
	}
	return strings.TrimPrefix(name(q), "angle ")
}

// Mistake in a few words.
func (EnglishMarking) Mistake(k task.Kind, m task.Mistake) string {
	switch m {
	case task.WrongScale:
		return "other scale at A"
	case task.WrongScaleB:
		return "other scale at B"
	case task.BothScales:
		return "other scale at A and B"
	case task.ReadScale:
		return "answer read on the other scale"
	case task.Swapped:
		switch k {
		case task.SSS:
			return "radii swapped"
		case task.ASA, task.AAS:
			return "angles at the wrong ends"
		}
		return "sides swapped"
	case task.NotBetween:
		if k == task.SAS || k == task.SASO {
			return "angle not between the sides"
		}
		return "angle taken as between the sides"
	case task.NoThird:
		return "angle C set at B"
	case task.OneDrawn:
		return "only one triangle"
	case task.AlongSquare:
		return "longest side along the square"
	case task.HeightAsSide:
		return "height taken as a side"
	case task.FootOutside:
		return "foot of the height outside A"
	case task.SideFromB:
		return "side drawn from B"
	}
	return "base and equal side swapped"
}

// offSheet is a length that no pupil draws.
const offSheet = 300

// Has is what stands in the boxes after a mistake.
func (EnglishMarking) Has(w task.Wrong, boxes []task.Box) string {
	var all []string
	for i, b := range boxes {
		switch {
		case w.Has[i] > offSheet:
			return "off the sheet"
		case w.Has[i] == task.Blank:
			all = append(all, "empty")
		case b.Of.IsAngle():
			all = append(all, fmt.Sprintf("%.0f°", w.Has[i]))
		default:
			all = append(all, fmt.Sprintf("%.0f", w.Has[i]))
		}
	}
	return strings.Join(all, " and ")
}

// Ranges says how what is accepted comes.
func (EnglishMarking) Ranges(t task.Tolerance) string {
	say := fmt.Sprintf("Accepted: the exact value ± %g mm or ± %g°, and what rounds to it", t.MM, t.Deg)
	if !t.Grows {
		return say + ". A careful hand falls outside now and then: look at the drawing first."
	}
	return say + "; more where a careful hand (1 mm, 1°) is further off. A box that agrees with the pupil's own drawing to 1 mm or 1° keeps its mark."
}

// Marks are how five marks of a task are usually given.
func (EnglishMarking) Marks() string {
	return "Five marks a task: construction lines seen, base in its range, C in its zone, one for each box."
}

// Seed that the set was drawn from: it makes the whole key.
func (EnglishMarking) Seed(seed int) string {
	return fmt.Sprintf("seed %d: whoever knows it can make this key", seed)
}

// OverlayTitle and how a film is used.
func (EnglishMarking) OverlayTitle() string { return "Overlay for film: print at 100 %, true to scale" }

func (EnglishMarking) OverlayUse() string {
	return "Lay A on A, turn until AB lies on the base, read. Turn over for a mirror image: full marks."
}

// Ghost stands at the place of C after a mistake.
func (EnglishMarking) Ghost(m task.Mistake) string {
	if m == task.Swapped {
		return "swapped"
	}
	return "180 −"
}

// PolarTitle and how the film for all is used.
func (EnglishMarking) PolarTitle() string { return "One film for the whole class: print at 100 %" }

func (EnglishMarking) PolarUse() string {
	return "Lay the centre on A and the 0 line on AB, and read C as the distance CA and the angle A, as the key has them. Turn over for a mirror image."
}

// Place is where C lies, for the polar film.
func (EnglishMarking) Place(ca, a float64) string { return fmt.Sprintf("C at %.0f, %.0f°", ca, a) }

// Alts say what a picture shows, and no answer.
func (EnglishTasks) SketchAlt() string { return "A sketch of triangle ABC that is not to scale." }
func (EnglishMarking) FilmAlt() string {
	return "The exact triangle with the zone in which C is accepted."
}
