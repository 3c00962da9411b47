package template

import (
	"trammel/plot/draw"
)

// Ready says, before any page is laid, whether a piece can be drawn at all. A
// *unit.Fault names a character of its names that the lettering does not have.
func Ready(p Piece, r draw.Ruler) error { return p.lettered(r) }
