package paging_test

import (
	"reflect"
	"testing"

	"trammel/geom/gate"
	"trammel/geom/unit"
	"trammel/plot/paging"
)

// slackSteps is what choosing among equals takes at most, besides the search itself.
const slackSteps = 20_000_000

// hostile is what takes longest: a triangle on pages half of which are shown twice, so
// that a hundred million boxes prove nothing.
var hostile = sheetOf(210, 297, 10, 94)

// A search takes the steps that it may take and no more, and then says that nothing is
// proven. The pages it has found are shown to be enough by check. Before, twenty such
// pieces took 94 s.
func TestEffortIsKept(t *testing.T) {
	for _, c := range []paging.Cover{paging.Full, paging.OutlineOnly} {
		for _, most := range []int{1_000_000, 4_000_000} {
			var told []float64
			p, err := paging.Lay(sides(900, 1100, 1000), hostile, c, nil, paging.Effort{Most: most, Tell: func(s float64) { told = append(told, s) }})
			if err != nil {
				t.Fatal(err)
			}
			if p.Steps < most || p.Steps > most+slackSteps {
				t.Errorf("cover %d: %d steps, and %d were to be taken", c, p.Steps, most)
			}
			if p.Proven || p.Settled {
				t.Errorf("cover %d: proven with %d steps", c, p.Steps)
			}
			for i, s := range told {
				if s < 0 || s > 1 || i > 0 && s < told[i-1] {
					t.Errorf("cover %d: told %v", c, told)
				}
			}
			if most > 2_000_000 && len(told) == 0 {
				t.Errorf("cover %d: nothing was told in %d steps", c, p.Steps)
			}
			again, err := paging.Lay(sides(900, 1100, 1000), hostile, c, nil, paging.Effort{Most: most})
			if err != nil || !reflect.DeepEqual(p, again) {
				t.Errorf("cover %d: a second search comes to another plan: %v", c, err)
			}
		}
	}
}

// Nobody gets more than MostSteps, whatever is asked for: a piece with the turn given
// has two searches, which the gate makes.
func TestNoEffortIsBoundless(t *testing.T) {
	turn := 33 * unit.Degree
	p, err := paging.Lay(sides(900, 1100, 1000), hostile, paging.Full, gate.Of(nil, &turn), paging.Effort{Most: 1 << 60})
	if err != nil || p.Steps > 2*paging.MostSteps+slackSteps {
		t.Errorf("%d steps, %v", p.Steps, err)
	}
}

// A piece laid again at a turn is as Lay has it there.
func TestTurnedIsLaidAsByLay(t *testing.T) {
	for _, outline := range [][3]float64{{900, 1100, 1000}, {300, 280, 150}, {2800, 2100, 3500}} {
		shape := sides(outline[0], outline[1], outline[2])
		for _, s := range []paging.Sheet{sheetOf(210, 297, 10, 10), sheetOf(914, 5080, 5, 15)} {
			free, err := paging.Lay(shape, s, paging.Full, nil, paging.Effort{})
			if err != nil {
				t.Fatal(err)
			}
			for _, turn := range []unit.Angle{0, 20 * unit.Degree, -unit.Turn / 4} {
				want, err := paging.Lay(shape, s, paging.Full, &turn, paging.Effort{})
				if err != nil {
					t.Fatal(err)
				}
				got, err := paging.Turned(free, shape, turn, paging.Effort{})
				want.Steps, got.Steps = 0, 0
				if err != nil || !reflect.DeepEqual(got, want) {
					t.Errorf("%v at %v: %d pages, Lay has %d: %v", outline, turn, len(got.Cells), len(want.Cells), err)
				}
			}
		}
	}
}
