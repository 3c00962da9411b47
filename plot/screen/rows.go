package screen

import "trammel/geom/unit"

// rows sets the tags that found no room beside their lines one after the other under the
// shape, with their names, and says how much height that takes.
func rows(things []thing, width, from unit.Length) (height unit.Length) {
	const gap = 6
	x, y := unit.Length(toEdge), from+gap
	for i := range things {
		t := &things[i]
		if !t.Row {
			continue
		}
		w := min(wide(t.Of+" "+t.Say), width-2*toEdge)
		if x > toEdge && x+w > width-toEdge {
			x, y = toEdge, y+Target+gap
		}
		t.X, t.Y, t.W = float64(x), float64(y), float64(w)
		x += w + gap
		height = y + Target + gap - from
	}
	return height
}
