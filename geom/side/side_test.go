package side

import (
	"testing"

	"trammel/geom"
)

// A point above a line and one below it, both as far from its ends: one side tells them
// apart, and a placement alone needs none. Plane geometry, no source.
func TestTell(t *testing.T) {
	above := []geom.Vector{{X: 0, Y: 0}, {X: 4000, Y: 0}, {X: 2000, Y: 1500}}
	below := []geom.Vector{{X: 0, Y: 0}, {X: 4000, Y: 0}, {X: 2000, Y: -1500}}
	line := Line{Point: 2, From: 0, To: 1}
	got := Tell([][]geom.Vector{above, below}, []Line{line})
	for k, right := range []bool{false, true} {
		if len(got[k]) != 1 || got[k][0] != (Side{line, right}) {
			t.Errorf("placement %d: %v", k, got[k])
		}
	}
}
