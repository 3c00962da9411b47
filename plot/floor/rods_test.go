package floor

import (
	"fmt"
	"testing"

	"trammel/geom"
	"trammel/plot/draw"
	"trammel/plot/lettering"
)

// Every mark of a rod has its number once, wherever the strips part; the first strip has its 0; both strips
// of a join bear it; and no words lie on a mark or on others.
func TestRodsAreNumberedThroughout(t *testing.T) {
	for _, r := range []rod{{"A", 600.075, 603.25, 201.083}, {"B", 298.45, 301.625, 0}, {"C", 50, 52, 0}, {"D", 230, 233, 0}} {
		const long, n = 237, 10
		seen := map[string]int{}
		for i := range n {
			d := r.strip(geom.Point{}, long, i, n)
			for a, op := range d {
				w, ok := op.(draw.Text)
				if !ok {
					continue
				}
				seen[w.Words]++
				box := room(w)
				for b, other := range d {
					if _, frame := other.(draw.Polyline); !frame && a != b && overlap(box, room(other)) {
						t.Errorf("%s%d: %q lies on another", r.name, i+1, w.Words)
					}
				}
			}
		}
		for k := 1; float64(k)*float64(r.pitch)-float64(r.pitch-r.tile) < long*n; k++ {
			if seen[fmt.Sprint(k)] != 1 {
				t.Errorf("rod %s: number %d stands %d times", r.name, k, seen[fmt.Sprint(k)])
			}
		}
		if seen["0"] != 1 {
			t.Errorf("rod %s: %d zeros", r.name, seen["0"])
		}
		for i := 1; i < n; i++ {
			if seen[r.join(i)] != 2 {
				t.Errorf("rod %s: the join %s stands %d times", r.name, r.join(i), seen[r.join(i)])
			}
		}
	}
}

func overlap(a, b geom.Rect) bool {
	return a.Min.X < b.Max.X && b.Min.X < a.Max.X && a.Min.Y < b.Max.Y && b.Min.Y < a.Max.Y
}

// room of a mark, and of digits and capitals, which stand on their line.
func room(op draw.Op) geom.Rect {
	box := op.Bounds(lettering.Go())
	if w, ok := op.(draw.Text); ok {
		box.Min.Y, box.Max.Y = w.At.Y, w.At.Y+w.Height
	}
	return box
}
