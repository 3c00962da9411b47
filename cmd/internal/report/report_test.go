package report

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"trammel/cmd/internal/solved"
	"trammel/profiles"
	"trammel/profiles/job"
)

// What other software reads of an example holds together by itself: the angles make two
// right ones (Euclid, Elements I.32), the points lie as far apart as the sides are long,
// and the area is Heron's (Metrica I.8).
func TestReportOfAnExample(t *testing.T) {
	for _, file := range []string{"gusset-plate", "boathouse-gable", "corner-cut", "class-sheet"} {
		data, err := os.ReadFile("../../../examples/" + file + ".yaml")
		if err != nil {
			t.Fatal(err)
		}
		set, err := profiles.Load()
		if err != nil {
			t.Fatal(err)
		}
		j, err := job.ReadAny(file, data)
		if err != nil {
			t.Fatal(err)
		}
		m, err := job.Merge(j, job.Overrides{}, set, nil, nil)
		if err != nil {
			t.Fatal(err)
		}
		w, err := solved.Open(m, func(string, int, int) {})
		if err != nil {
			t.Fatal(err)
		}
		text, err := json.Marshal(Of(w))
		if err != nil {
			t.Fatal(err)
		}
		var r struct {
			Pieces []struct {
				Name          string
				Points        map[string][2]float64
				Sides, Angles map[string]float64
				Area          float64 `json:"area_mm2"`
				Perimeter     float64
			}
		}
		if err := json.Unmarshal(text, &r); err != nil {
			t.Fatal(err)
		}
		if len(r.Pieces) == 0 {
			t.Errorf("%s: no piece in %s", file, text)
		}
		for _, p := range r.Pieces {
			sum, half, product := 0.0, p.Perimeter/2, p.Perimeter/2
			for _, a := range p.Angles {
				sum += a
			}
			for name, l := range p.Sides {
				a, b := p.Points[name[:1]], p.Points[name[1:]]
				if d := math.Hypot(a[0]-b[0], a[1]-b[1]); math.Abs(d-l) > 1e-6 {
					t.Errorf("%s, %s: %s is %v and its points are %v apart", file, p.Name, name, l, d)
				}
				product *= half - l
			}
			if len(p.Sides) != 3 || math.Abs(sum-180) > 1e-9 || math.Abs(math.Sqrt(product)/p.Area-1) > 1e-9 {
				t.Errorf("%s, %s: %d sides, angles of %v°, %v mm², by Heron %v", file, p.Name, len(p.Sides), sum, p.Area, math.Sqrt(product))
			}
		}
	}
}
