package app

import (
	"os"
	"testing"

	"trammel/plot/draw"
)

// Leaves that go with the examples, beside the sheets that are true to scale. were is what
// they took before a sheet was one leaf: setting out, checking, the page before a template.
// Setting out and checking take 7 of 10 since; the page before a template says more than
// it did (spans, saw and square) in letters that are read.
var leaves = map[string]struct{ setout, check, index, were int }{
	"boathouse-floor-found": {2, 1, 2, 3 + 2 + 2},
	"boathouse-floor":       {2, 0, 2, 3 + 2},
	"boathouse-gable":       {2, 0, 2, 2 + 1},
	"boathouse-heel-plates": {0, 0, 2, 2},
	"corner-cut":            {0, 0, 2, 1},
	"gusset-plate":          {0, 0, 1, 1},
	"hatch-board":           {0, 0, 2, 2},
}

func TestExamplesTakeFewLeaves(t *testing.T) {
	now, were := 0, 0
	for name, most := range leaves {
		text, err := os.ReadFile("../../../examples/" + name + ".yaml")
		if err != nil {
			t.Fatal(err)
		}
		index := 0
		for page := range templateOf(t, string(text), Options{}).pages() {
			if page.Kind != draw.Index {
				break
			}
			index++
		}
		sheets := func(kind string, most int) int {
			if most == 0 {
				return 0
			}
			d, err := KindOf(kind).Make(Order{Work: mustOpen(t, string(text), Options{})})
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			if err := d.laid(); err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			return len(d.names())
		}
		setout, check := sheets("setout", most.setout), sheets("check", most.check)
		if setout > most.setout || check > most.check || index > most.index {
			t.Errorf("%s: %d to set out, %d to check, %d before the template: %+v at most", name, setout, check, index, most)
		}
		now, were = now+setout+check+index, were+most.were
		t.Logf("%s: %d leaves, %d before", name, setout+check+index, most.were)
	}
	t.Logf("%d leaves, %d before", now, were)
}
