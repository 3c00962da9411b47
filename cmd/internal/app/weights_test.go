package app

import (
	"fmt"
	"math"
	"testing"
)

// A triangle of 999 mm is weighed as one of 1001 mm is, and whatever its size an angle
// is one of the trade's protractor (±30', 95 of 100: σ 15' and more), however it is
// written.
func TestNoCliffAtOneMetre(t *testing.T) {
	weights := func(scale float64) (length, angle float64) {
		w := mustOpen(t, pieceOf(fmt.Sprintf("AB=%.1f, BC=%.1f, CA=%.1f, A=%.4fdeg", 1000*scale, 800*scale, 600*scale, 53.1301), ""), Options{})
		a, ok := w.Pieces[0].Checked()
		if !ok {
			t.Fatal("nothing is weighed")
		}
		return a.Results[0].Sigma.Length.MM(), a.Results[3].Sigma.Angle.Degrees()
	}
	l1, a1 := weights(0.999)
	l2, a2 := weights(1.001)
	if math.Abs(l1/l2-1) > 0.2 || math.Abs(a1/a2-1) > 0.02 { // at a whole metre the tape's own error grows by 0.2 mm
		t.Errorf("999 mm is weighed by %.3f mm and %.3f°, 1001 mm by %.3f and %.3f", l1, a1, l2, a2)
	}
	l0, a0 := weights(0.1)
	if a0 < 0.25 || a0 > 0.3 || l0 > l1/2 {
		t.Errorf("100 mm is weighed by %.3f mm and %.3f°", l0, a0)
	}
}
