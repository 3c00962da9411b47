package task

import (
	"math"
	"testing"
)

// Examples that were published with the list of mistakes, to whole millimetres and degrees:
// what stands right in the first box and the second, and what a mistake gives.
func TestPublishedMistakes(t *testing.T) {
	for _, x := range []struct {
		task  Task
		right [2]float64
		of    Mistake
		wrong [2]float64
	}{
		{Task{SAS, [3]int{85, 50, 70}}, [2]float64{67, 53}, WrongScale, [2]float64{141, 22}},
		{Task{SAS, [3]int{85, 50, 70}}, [2]float64{67, 53}, ReadScale, [2]float64{67, 127}},
		{Task{SSS, [3]int{90, 80, 60}}, [2]float64{61, 79}, Swapped, [2]float64{41, 79}},
		{Task{ASA, [3]int{95, 40, 65}}, [2]float64{63, 89}, Swapped, [2]float64{89, 63}},
		{Task{AAS, [3]int{75, 75, 55}}, [2]float64{88, 70}, NoThird, [2]float64{95, 80}},
		{Task{SSA2, [3]int{80, 35, 60}}, [2]float64{104, 27}, NotBetween, [2]float64{46, Blank}},
		{Task{RHS, [3]int{45, 90, 75}}, [2]float64{60, 53}, AlongSquare, [2]float64{87, 59}},
		{Task{BHA, [3]int{85, 120, 55}}, [2]float64{129, 25}, HeightAsSide, [2]float64{122, 23}},
	} {
		for i, b := range x.task.Measured(Maths) {
			if math.Abs(b.Value-x.right[i]) > 0.51 {
				t.Errorf("%s %v: %s is %.1f, not %g", x.task.Kind, x.task.Given, b.Of, b.Value, x.right[i])
			}
		}
		found := false
		for _, w := range x.task.Mistakes() {
			if w.Mistake != x.of {
				continue
			}
			found = true
			for i, want := range x.wrong {
				if math.Abs(w.Has[i]-want) > 0.51 {
					t.Errorf("%s %v: the mistake gives %.1f, not %g", x.task.Kind, x.task.Given, w.Has[i], want)
				}
			}
		}
		if !found {
			t.Errorf("%s %v: no mistake %d", x.task.Kind, x.task.Given, x.of)
		}
	}
}

// A pupil's boxes name one mistake: no two of a task come within a millimetre and a degree of
// each other in both boxes.
func TestMistakesAreToldApart(t *testing.T) {
	for _, k := range Kinds() {
		alike := 0
		s := StockOf(k, Fives, School)
		for _, task := range s.Kept {
			all := task.Mistakes()
			for i, v := range all {
				for _, w := range all[:i] {
					if math.Abs(v.Has[0]-w.Has[0]) < 0.5 && math.Abs(v.Has[1]-w.Has[1]) < 0.5 {
						alike++
					}
				}
			}
		}
		if alike > 0 {
			t.Errorf("%s: %d pairs of mistakes give the same, of %d tasks", k, alike, len(s.Kept))
		}
	}
}
