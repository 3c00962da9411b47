package main

import (
	"fmt"
	"strings"
	"testing"
)

// wrongNets: pieces of more than three points.
var wrongNets = []wrong{
	// A net that is not fixed, or not one: status 3, as with a triangle.
	netWrong("AB=6m, BC=4m, CA=5m, AD=3m", "", statusNoTriangle, "job.yaml:2:5: Slip: D hangs free: only AD=3m holds it to A, B and C", "measure BD as well"),
	netWrong("AB=6m, BC=4m, CA=5m, AD=3m", "outline: [A, B, C, D]", statusNoTriangle, "job.yaml:2:5: Slip: D hangs free: only AD=3m holds it to A, B and C", "measure CD as well"),
	netWrong("AB=6m, BC=4m, CA=5m, DE=3m, EF=3m, FD=2m", "", statusNoTriangle, "job.yaml:2:5: Slip: the net is in two halves: nothing is measured from A, B or C to D, E or F",
		"measure from one to the other, three things such as AD, AE and BD"),
	netWrong("AB=6m, BC=4m, CA=5m, D-EF=3m, AE=2m, BE=5m", "", statusNoTriangle, "job.yaml:2:5: Slip: D-EF=3m goes to the line EF, and nothing fixes F", "measure AF and BF"),
	netWrong("AB=6m, BC=4m, CA=5m, AD=300mm, CD=350mm", "", statusNoTriangle, "job.yaml:2:5: Slip: AD=300mm and CD=350mm do not meet: AC is 5000 mm, 4350 mm more than both together", "measure them again, and AC"),
	// Points that coincide.
	netWrong("AB=6m, BC=4m, CA=5m, AD=5m, BD=4m", "outline: [A, B, C]\n    side: [C left of AB, D left of AB]", statusWords, "job.yaml:2:5: C and D: they lie 0 mm apart", "give two points so close to one another one name, or measure again"),
	netWrong("AB=6000, BC=4000, CA=5000, AD=5000, BD=4000, CD=1", "side: left", statusWords, "job.yaml:2:5: C and D: they lie 0.82 mm apart", "give two points so close to one another one name, or measure again"),
	// Tolerances of nothing; too many points; contradicting angles of a triangle.
	netWrong("AB=6m, BC=4m, CA=5m, AD=5m, BD=4m+-0", "", statusWords, `job.yaml:3:43: BD=4m+-0: a tolerance of "0" allows nothing`, "leave it out: then it is half of the last digit written"),
	netWrong(spokes(260), "", statusWords, "job.yaml:2:5: 261 points: a net takes at most 250", "divide it, and set the parts out from two points that they share"),
	netWrong(strings.TrimSuffix(strings.Repeat("AB=6m, ", 10_000), ", "), "", statusWords, "job.yaml:3:14015: more than 2000 measurements", ""),
	netWrong("AB=6m, A=40deg, B=60deg, C=100deg", "", statusNoTriangle, "job.yaml:2:5: Slip: A=40deg, B=60deg and C=100deg must make 180° together: they make 200.0°, 20.0° more", "one of the three is wrong: measure them again"),
	netWrong("AB=6m, BC=4m, CA=5m, A=40deg, B=60deg, C=100deg", "", statusNoTriangle, "job.yaml:2:5: Slip: C=100deg disagrees with the other five: they make it 80.0°, 20.0° less", "measure the angle at C again"),
	// The outline.
	netWrong(quad, "outline: [A, B, C, E]", statusWords, "job.yaml:4:14: outline ABCE: no measurement goes to E", "the points are A, B, C and D"),
	netWrong(quad, "outline: [A, B]", statusWords, "job.yaml:4:14: outline: an outline has three corners or more", "name them in the order of walking round, such as A,B,C,D"),
	netWrong(quad, "outline: [A, B, C, A]", statusWords, "job.yaml:4:24: outline: A stands in it twice", "name each corner once, in the order of walking round"),
	netWrong(quad, "outline: AbCD", statusWords, `job.yaml:4:14: outline: "AbCD" does not name the corners of an outline`, "points have capital letters: ABCD"),
	netWrong(quad, "outline: [A, C, D, B]", statusWords, "job.yaml:4:14: outline ACDB: its edges BA and CD cross", "name the corners in the order of walking round"),
	netWrong("AB=6m, BC=4m, CA=5m", "outline: [A, C, B]", statusWords, "job.yaml:4:14: outline ACB: the corners of a triangle run counter-clockwise in the order of the alphabet",
		"leave the outline out; for the mirror image, handed: pair"),
	// Sides, baseline, and what is a triangle's alone.
	netWrong(quad, "side: up", statusWords, `job.yaml:4:11: side: "up" does not say on which side a point lies`, "write left or right, or D left, or E right of AB (walking from A to B)"),
	netWrong(quad, "side: X left", statusWords, "job.yaml:4:11: side X left: no measurement goes to X", "the points are A, B, C and D"),
	netWrong("AB=6m, BC=4m, CA=5m", "side: left", statusWords, "job.yaml:4:11: side: a triangle has no point that could lie on another side",
		"leave it out; where two triangles fit, say pick: 1 or pick: 2; for the mirror image, handed: pair"),
	netWrong(quad, "base: AX", statusWords, "job.yaml:4:11: base AX: no measurement goes to X", "the points are A, B, C and D"),
	netWrong(quad, "outline: [A, B, C, D]\n    pick: 2", statusWords, "job.yaml:5:11: pick: picks one of two triangles, and this is a net of more than three points", "say on which side a point lies: side: [D left of AC]"),
	// What was measured back.
	netWrong(quad, "found: []", statusWords, "job.yaml:4:12: the list of what was found is empty", "found: [AB=600, BC=450, CA=450]"),
	netWrong(quad, "found: [AB]", statusWords, `job.yaml:4:13: "AB" is not a measurement: it has no =`, "write what was measured and its value, such as AB=600"),
	// The same by flags.
	{args: netArgs("--outline", "A,B,C,E"), status: statusWords, line: "--outline ABCE: no measurement goes to E", hint: "the points are A, B, C and D"},
	{args: netArgs("--outline", "A,B"), status: statusWords, line: "--outline: an outline has three corners or more", hint: "name them in the order of walking round, such as A,B,C,D"},
	{args: netArgs("--outline="), status: statusWords, line: `--outline: "" does not name the corners of an outline`, hint: "write them in the order of walking round, such as A,B,C,D"},
	{args: netArgs("--side", "D left of AX"), status: statusWords, line: "--side D left of AX: no measurement goes to X", hint: "the points are A, B, C and D"},
	{args: netArgs("--side", "sideways"), status: statusWords, line: `--side: "sideways" does not say on which side a point lies`, hint: "write left or right, or D left, or E right of AB (walking from A to B)"},
	{args: netArgs("--base", "AX"), status: statusWords, line: "--base AX: no measurement goes to X", hint: "the points are A, B, C and D"},
}

const quad = "AB=6m, BC=4m, CA=5m, AD=3m, CD=3500"

func netWrong(measure, key string, status int, line, hint string) wrong {
	job := fmt.Sprintf("pieces:\n  - name: Slip\n    measure: [%s]\n", measure)
	if key != "" {
		job += "    " + key + "\n"
	}
	return wrong{args: []string{"solve", "job.yaml"}, job: job, status: status, line: line, hint: hint}
}

func netArgs(flags ...string) []string {
	return append([]string{"solve", "AB=6m", "BC=4m", "CA=5m", "AD=3m", "CD=3500"}, flags...)
}

// spokes are n points around one.
func spokes(n int) string {
	all := make([]string, n)
	for i := range all {
		all[i] = fmt.Sprintf("P%dQ=6m", i+1)
	}
	return strings.Join(all, ", ")
}

func TestWrongNets(t *testing.T) {
	t.Parallel()
	dir := place(t)
	for _, c := range wrongNets {
		c.check(t, dir)
	}
}

// Angles of a net that contradict one another are no end of it: the net is
// adjusted, and what is wrong is said.
func TestContradictingAngles(t *testing.T) {
	t.Parallel()
	status, stdout, _ := trammel(t, t.TempDir(), "", "solve", "AB=6m", "BC=4m", "CA=5m", "AD=3m", "CD=3500", "BAC=40deg", "ABC=60deg", "ACB=100deg", "--outline", "A,B,C,D")
	const want = "warning: BAC=40deg, ABC=60deg and ACB=100deg must make 180° together: they make 200°, and allow 2.291°"
	if status != 0 || !strings.Contains(stdout, want+"\n") {
		t.Errorf("%d: %s", status, stdout)
	}
}
