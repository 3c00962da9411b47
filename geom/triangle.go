package geom

import "trammel/geom/unit"

// Name is a corner's name: a capital letter, perhaps with digits behind it (A, B, K2).
type Name string

// Triangle is a solved triangle. Index 0 and 1 are the ends of its baseline:
// corner 0 lies at the origin, corner 1 on the positive x axis and corner 2
// above it, so the corners run counter-clockwise.
type Triangle struct {
	Names     [3]Name
	Points    [3]Point
	Sides     [3]unit.Length // Sides[i] is opposite corner i
	Angles    [3]unit.Angle
	Heights   [3]unit.Length // from corner i to the line of the opposite side
	Area      unit.Area
	Perimeter unit.Length
}
