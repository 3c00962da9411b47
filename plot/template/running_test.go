package template

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/paging"
)

// Every 100 mm along every side of a piece on several sheets there is a tick, at joins and
// beside labels too, and its figure near it, which on each sheet says its zero at first.
func TestTicksStandWhateverElseIsThere(t *testing.T) {
	for _, tokens := range []string{"AB=600 BC=450 CA=450", "AB=900 BC=640 CA=1100", "AB=2000 BC=1990 CA=60", "AB=900 BC=880 CA=900"} {
		p := piece(t, tokens)
		plan := laid(t, p, a4, paging.Full)
		d, err := Draw(p, plan, font, full())
		if err != nil {
			t.Fatal(err)
		}
		zeros := 0
		for i := range plan.Outline {
			side := plan.Outline.Edge(i)
			for far := unit.Length(100); far < side.Length()-15; far += 100 {
				at := side.At(float64(far / side.Length()))
				ticked, figured := false, false
				for _, op := range d {
					switch o := op.(type) {
					case draw.Line:
						l := o.Line
						ticked = ticked || o.On == draw.Dimension && math.Abs(float64(l.From.Distance(at)-draw.Wide.Width/2)) < 1e-6 && math.Abs(float64(l.To.Distance(at)-runTick)) < 1e-6
					case draw.Text:
						said := strings.Fields(o.Words)
						figured = figured || strings.Join(said, " ") == fmt.Sprintf("%.0f", far) && o.Bounds(font).Centre().Distance(at) < 50 ||
							len(said) == 3 && said[0] == fmt.Sprintf("%.0f", far) && said[1] == "from" && o.Bounds(font).Centre().Distance(at) < 50 ||
							len(said) == 2 && said[1] == fmt.Sprintf("%.0f", far) && len(said[0]) == 2
					}
				}
				if !ticked || !figured {
					t.Errorf("%s: at %v along side %d a tick %t, its figure %t", tokens, far, i, ticked, figured)
				}
			}
		}
		for _, op := range d {
			if o, ok := op.(draw.Text); ok && strings.Contains(o.Words, " from ") && !strings.HasPrefix(o.Words, "R ") {
				zeros++
			}
		}
		if zeros < len(plan.Cells)/2 {
			t.Errorf("%s: %d ticks say their zero on %d sheets", tokens, zeros, len(plan.Cells))
		}
	}
}
