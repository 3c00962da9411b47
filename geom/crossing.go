package geom

import "trammel/geom/unit"

// How sharply two lines may cross for their crossing to be marked (common practice, no
// source): under TooFlat nobody sees where, under Flat it wants care.
const (
	TooFlat = 10 * unit.Degree
	Flat    = 30 * unit.Degree
)
