package lesson

import (
	"fmt"

	"trammel/geom/task"
)

const leave = " Leave all your construction lines."

// Wording of a task, as an examination has it.
func (EnglishTasks) Wording(d task.Drawn) string {
	with := map[task.Kind]string{
		task.SSS:  "Using ruler and compasses only, construct triangle ABC.",
		task.ISO:  "Using ruler and compasses only, construct the isosceles triangle ABC.",
		task.ASA:  "With ruler and protractor make an accurate full-size drawing of triangle ABC.",
		task.AAS:  "Work out angle B. Then with ruler and protractor make an accurate full-size drawing of triangle ABC.",
		task.RHS:  "With ruler, set square and compasses make an accurate full-size drawing of the right-angled triangle ABC.",
		task.LEGS: "With ruler and set square make an accurate full-size drawing of the right-angled triangle ABC.",
		task.BHA:  "With ruler, set square and protractor make an accurate full-size drawing of triangle ABC.",
		task.BHS:  "With ruler, set square and compasses make an accurate full-size drawing of triangle ABC.",
	}
	say, known := with[d.Kind]
	if !known {
		say = "With ruler, protractor and compasses make an accurate full-size drawing of triangle ABC."
	}
	switch {
	case d.Kind.IsArc() && d.Demand == task.Stretch:
		say = "How many different triangles ABC fit? With ruler, protractor and compasses construct all of them, full size."
	case d.Kind == task.SSA2:
		say = "Two different triangles ABC fit. With ruler, protractor and compasses construct both, full size, on the same AB."
	case d.Kind == task.SSA0:
		say = "Try to construct triangle ABC full size with ruler, protractor and compasses. Explain what you find."
	}
	return say + leave
}

// Measure is what is to be measured.
func (EnglishTasks) Measure(d task.Drawn, boxes []task.Quantity) string {
	if d.Demand == task.Stretch && d.Kind.IsArc() {
		return "Measure CA of each triangle that fits to the nearest millimetre, the longer first."
	}
	if d.Kind == task.SSA0 {
		return "Measure how long BC would have to be at least, to the nearest millimetre."
	}
	if d.Kind == task.SSA2 {
		return "Measure and state CA of both triangles to the nearest millimetre."
	}
	var lengths, angles []string
	for _, q := range boxes {
		if q.IsAngle() {
			angles = append(angles, name(q))
			continue
		}
		lengths = append(lengths, name(q))
	}
	say := "Measure and state "
	if lengths != nil {
		say += joined(lengths) + " to the nearest millimetre"
		if angles != nil {
			say += " and "
		}
	}
	if angles != nil {
		say += joined(angles) + " to the nearest degree"
	}
	return say + "."
}

// gap is where a pupil writes a letter or a number.
const gap = "____"

// Steps with gaps, for a sheet on which AB is drawn already.
func (EnglishTasks) Steps(t task.Task) []string {
	angle := fmt.Sprintf("Put the protractor's centre on A, its 0 line on AB. On the scale whose 0 lies on AB mark %s°. Draw the arm.", gap)
	square := fmt.Sprintf("Hold the set square on AB with its corner at %s and draw upwards.", gap)
	along := fmt.Sprintf("Along this line mark AC = %s mm.", gap)
	arcA := fmt.Sprintf("With centre A and radius %s mm draw an arc above AB.", gap)
	arcB := fmt.Sprintf("With centre B and radius %s mm cut it. Label the crossing C.", gap)
	join := fmt.Sprintf("Join %s to C. Go over the triangle firmly.", gap)
	both := fmt.Sprintf("Join A to C and %s to C. Go over the triangle firmly.", gap)
	last := fmt.Sprintf("At B the other scale has its 0 on BA: mark %s°. The arms cross at C.", gap)
	parallel := fmt.Sprintf("Slide the set square up the ruler and draw a line %s mm above AB.", gap)
	switch t.Kind {
	case task.SSS, task.ISO:
		return []string{arcA, arcB, both}
	case task.SAS, task.SASO:
		return []string{angle, along, join}
	case task.LEGS:
		return []string{square, along, join}
	case task.ASA:
		return []string{angle, last}
	case task.AAS:
		return []string{fmt.Sprintf("Work out angle B: 180° − %s − %s = %s.", gap, gap, gap), angle, last}
	case task.RHS:
		return []string{square, arcB, join}
	case task.SSA2:
		return []string{angle, fmt.Sprintf("With centre B and radius %s mm cut the arm twice. Label the crossings C₁ and C₂.", gap), "Join B to both."}
	case task.SSA0:
		return []string{angle, fmt.Sprintf("With centre B and radius %s mm draw an arc towards the arm. What happens?", gap)}
	case task.BHA:
		return []string{parallel, angle + " It crosses the line at C.", join}
	case task.BHS:
		return []string{parallel, fmt.Sprintf("With centre A and radius %s mm cut this line, to the right of A. Label the crossing C.", gap), both}
	}
	return []string{angle, arcB, join}
}
