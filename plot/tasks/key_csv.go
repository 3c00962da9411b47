package tasks

import (
	"encoding/csv"
	"fmt"
	"io"
	"strings"

	"trammel/geom/task"
)

// KeyCSV is the key for other software, one row a box. Values are in mm and degrees with
// three decimals; what a mistake gives is empty where it gives nothing. if_other names the
// other mistakes with what they give, parted by semicolons.
func (s Set) KeyCSV(out io.Writer) error {
	w := csv.NewWriter(out)
	w.Write([]string{"set", "seed", "pupil", "task", "kind", "level", "givens", "box", "value", "low", "high", "unit", "if_scale", "if_swapped", "if_included", "if_other"})
	for _, p := range s.Pupils {
		who := p.Name
		if who == "" {
			who = fmt.Sprintf("%02d", p.Number)
		}
		for n, d := range p.Tasks {
			wrong := d.Mistakes()
			for i, b := range d.Measured(s.Accept) {
				unit := "mm"
				if b.Of.IsAngle() {
					unit = "deg"
				}
				row := []string{s.Title, fmt.Sprint(s.Seed), who, fmt.Sprint(n + 1), d.Kind.String(), fmt.Sprint(d.Level), strings.Join(d.Tokens(), " "),
					b.Of.String(), fmt.Sprintf("%.3f", b.Value), fmt.Sprint(b.Low), fmt.Sprint(b.High), unit}
				w.Write(append(row, key{s}.diagnoses(d.Kind, wrong, i)...))
			}
		}
	}
	w.Flush()
	return w.Error()
}

// diagnoses are the last four columns of a box.
func (s key) diagnoses(k task.Kind, wrong []task.Wrong, box int) []string {
	var scale, swapped, between string
	var others []string
	for _, w := range wrong {
		if w.Has[box] == task.Blank {
			continue
		}
		x := fmt.Sprintf("%.1f", w.Has[box])
		switch w.Mistake {
		case task.WrongScale:
			scale = x
		case task.Swapped:
			swapped = x
		case task.NotBetween:
			between = x
		default:
			others = append(others, x+" "+s.marking().Mistake(k, w.Mistake))
		}
	}
	return []string{scale, swapped, between, strings.Join(others, "; ")}
}
