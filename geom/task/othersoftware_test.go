//go:build othersoftware

package task

import (
	"bytes"
	"fmt"
	"math"
	"os/exec"
	"strings"
	"testing"
)

// Answers of 200 tasks a kind against mpmath, which finds C from what is given by its own root
// finder at 40 digits: 1e-9.
func TestAnswersAgainstMpmath(t *testing.T) {
	var in strings.Builder
	var want []float64
	var of []string
	for _, k := range Kinds() {
		if k == SSA0 {
			continue
		}
		s := StockOf(k, Fives, School)
		for i := 0; i < len(s.Kept); i += max(1, len(s.Kept)/200) {
			task := s.Kept[i]
			shapes := task.Solve()
			for _, b := range task.Measured(Maths) {
				shape, box := shapes[0], b.Of.String()
				if b.Of == CA2 {
					shape, box = shapes[1], "CA"
				}
				if b.Of == Height {
					box = "H"
				}
				g := task.Given
				fmt.Fprintf(&in, "%s %d %d %d %s %.3f %.3f\n", k, g[0], g[1], g[2], box, shape.X, shape.Y)
				want, of = append(want, b.Value), append(of, fmt.Sprint(k, g, box))
			}
		}
	}
	cmd := exec.Command("/usr/bin/python3", "testdata/answers.py")
	cmd.Stdin = strings.NewReader(in.String())
	var complaint bytes.Buffer
	cmd.Stderr = &complaint
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v: %s", err, complaint.String())
	}
	lines := strings.Fields(string(out))
	if len(lines) != len(want) {
		t.Fatalf("%d answers, %d asked for", len(lines), len(want))
	}
	for i, line := range lines {
		var x float64
		if _, err := fmt.Sscan(line, &x); err != nil {
			t.Fatal(err)
		}
		if math.Abs(x-want[i]) > 1e-9 {
			t.Errorf("%s is %v, mpmath has %v", of[i], want[i], x)
		}
	}
	t.Logf("%d answers", len(lines))
}
