package furniture

import "testing"

// By hand: written on a slip and turned about, up to 99.
func TestNumbersThatTurnHaveAFoot(t *testing.T) {
	want := map[string]bool{"6": true, "9": true, "60": true, "66": true, "68": true, "69": true, "86": true, "89": true, "90": true, "96": true, "98": true, "99": true, "609": true}
	for _, n := range []string{"1", "2", "6", "8", "9", "10", "16", "19", "26", "60", "66", "68", "69", "80", "86", "88", "89", "90", "96", "98", "99", "106", "609", ""} {
		if turns(n) != want[n] {
			t.Errorf("%q turns: %t", n, turns(n))
		}
	}
}
