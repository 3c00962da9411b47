package app

import (
	"math"
	"math/rand/v2"
	"testing"

	"trammel/geom/unit"
	"trammel/profiles"
	"trammel/profiles/job"
)

// Rods and templates of a floor are true where the calibrated printer prints them: the bars
// of those pages, read back by PDFium and put through the press, are 100 mm, and no bar is
// as for any printer.
func TestFloorForOnePrinter(t *testing.T) {
	const store = `pieces:
- measure: [AB=3000, BC=2400, CD=3000, DA=2400, AC=3842]
  outline: [A, B, C, D]
  tiles: {size: 150x150, joint: 3, gap: 8}
`
	m := profiles.Misprint{Across: 0.012, Along: -0.009, Skew: 0.25 * unit.Degree}
	k := profiles.Calibration{Printer: "shed", Paper: "A4", Width: 210, Height: 297, Found: m}
	press := pressOf(rand.New(rand.NewPCG(7, 7)), 1+m.Across, 1+m.Along, m.Skew.Degrees())
	w := mustOpen(t, store, Options{
		Printer: job.Setting{Text: "shed"}, Paper: job.Setting{Text: "A4"},
		Calibration: func(string) (*profiles.Calibration, error) { return &k, nil },
	})
	d, err := makeFloor(Order{Work: w})
	if err == nil {
		err = d.lay()
	}
	if err != nil {
		t.Fatal(err)
	}
	scaled := 0
	for i, page := range written(t, d.pdf) {
		true100, plain := 0, 0
		for _, path := range page.Paths {
			for _, q := range [][2]int{{0, 1}, {1, 2}} {
				c := path.Corners()
				if len(c) <= q[1] {
					continue
				}
				a, b := c[q[0]], c[q[1]]
				if math.Abs(float64(press.print(a).Distance(press.print(b)))-100) < 0.005 {
					true100++
				}
				if math.Abs(float64(a.Distance(b))-100) < 0.005 {
					plain++
				}
			}
		}
		if plain > 0 || true100 == 1 {
			t.Errorf("page %d: %d bars print true, %d are as for any printer", i+1, true100, plain)
		}
		scaled += min(true100/2, 1)
	}
	if scaled < 2 {
		t.Errorf("%d pages have two bars that print true", scaled)
	}
}
