package template

import (
	"trammel/geom"
)

// radius is what is written along an arc: where it is swung from and how far.
func (f *face) radius(s geom.Swing) string {
	say := "R " + f.style.length(s.Radius, s.Measured)
	if s.Centre != "" {
		say += " from " + string(s.Centre)
	}
	return say
}
