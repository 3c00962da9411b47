// Package net adjusts nets of points of which more is measured than is needed: it finds
// where each point lies, adjusts all measurements together by least squares, finds the
// slip among them, and says how sure each point is.
//
// Nothing here knows paper, files or profiles, and no sentence for paper is written.
// Everything is float64: what is exact in geom (flat or not, one triangle or two)
// concerns three measurements; a net has scatter in it.
//
// # Two searches
//
// Where points lie is searched twice, and each search does what the other cannot. One
// (firstlines.go, onebyone.go) hangs point on point as most of the measurements mean
// it: a slip does not lead it astray, and it says what is missing where a net is not
// fixed. It finds one net and proves nothing. The other (placements.go) finds every
// placement that agrees with all that was measured, and so finds none where there is a
// slip. A net is adjusted from the first where the second finds that one alone.
//
// A net whose words were checked is a problem, what is found of it as yet a state.
//
// Files, from the top floor to the ground: adjust.go, several.go, suspects.go, doubts.go,
// placements.go, contradictions.go, firstlines.go, meant.go, onebyone.go, options.go, unfixed.go,
// state.go, fit.go, problem.go, net.go.
package net

import (
	"trammel/geom"
	"trammel/geom/tape"
	"trammel/geom/triangle"
)

// Net is a set of points and what was measured of them.
type Net struct {
	// Measured holds what was measured, in any order. The same thing may be measured twice: that makes it surer.
	Measured []triangle.Measurement
	// Outline is the edge of the piece once round, counter-clockwise. Where empty, three points are a triangle
	// in the order of the alphabet, and more points have no edge.
	Outline []geom.Name
	// Sides says of single points on which side of a line they lie, and wins over the outline and over measurements.
	Sides []Side
	// Base is the line whose first end is the origin and whose direction is that
	// of x. Zero: the longest edge of the outline, else the longest distance.
	Base [2]geom.Name
	// Control are points whose places are known and held: none, or two and more. Base then changes nothing.
	Control []Control
	// Tools give σ where no tolerance is stated.
	Tools tape.Tools
	// Start is about where every point lies, where that is known: nothing is then
	// searched, and of two nets that fit it is the one near by that is adjusted.
	Start map[geom.Name]geom.Point
}

// Side says that a point lies left or right of a line walked from Of[0] to
// Of[1]. Where Of is zero it is the line the point is found from.
type Side struct {
	Point geom.Name
	Of    [2]geom.Name
	Right bool
}

// Control is a point whose place is known.
type Control struct {
	Name geom.Name
	At   geom.Point
}

// Reason says what decided between the places that two measurements allow.
type Reason uint8

const (
	OnlyPlace     Reason = iota // there was but one
	BySide                      // Net.Sides
	ByMeasurement               // the other measurements
	ByOutline                   // the order of the outline
	NothingElse                 // with the other place the outline or other measurements do not fit
	OneOfSeveral                // nothing: the net fits with other places as well
	ByAlphabet                  // no one says: the first triangle, its corners counter-clockwise
)

// Placed says how a point was found before the adjustment, so that a person can
// follow: by two measurements from points that were known already.
type Placed struct {
	Point geom.Name
	From  []geom.Name // known points, the base that the point is left or right of first; empty for what was given
	By    []int       // indices into Net.Measured
	Right bool        // of the base, walked from From[0] to From[1]
	Why   Reason
}
