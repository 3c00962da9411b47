// Package net is what is done with more than one triangle and with more
// measurements than are needed: nets of points adjusted by least squares, the
// slip found in them, how sure each point is, the surest way of setting it out,
// and what a tape reads that is warm, slack or long.
//
// Nothing here knows paper, files or profiles. Everything is float64: what is
// exact in geom (flat or not, one triangle or two) concerns three measurements;
// a net has scatter in it.
//
// # Standard deviations
//
// σ is the standard deviation of one measurement. It comes
//
//   - from a stated tolerance: "±t" is read as what 95 of 100 readings keep,
//     σ = t/2 (Expansion; coverage factor 2 of JCGM 100:2008, 6.2.2 and 6.3.3);
//   - else from the tools: the tape's maximum permissible error after Directive
//     2014/32/EU, annex X, is a bound inside which nothing is likelier than
//     anything else, σ = bound/√3 (JCGM 100:2008, 4.3.7); nail and eye, ±1 mm
//     unless the tools say otherwise, are a tolerance, σ = t/2; half of the last
//     digit written is a bound again, σ = half/√3. The three are taken as
//     independent: their squares add.
//
// Angles have the instrument's tolerance and its centring in the tape's stead
// (see Tools). Errors of one tape are taken as independent from pull to pull; that
// one tape is long or short all along is a matter for Standard.
package net

import (
	"trammel/geom"
	"trammel/geom/tape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// What a net may have. A point lies at least 1 mm from each other.
const (
	MostPoints       = 250
	MostMeasurements = 2000
	Shortest         = 1 * unit.Millimetre
	Longest          = 100000 * unit.Metre
)

// Net is a set of points and what was measured of them.
type Net struct {
	// Measured holds what was measured, in any order. The same thing may be
	// measured twice: that makes it surer.
	Measured []triangle.Measurement
	// Outline is the edge of the piece once round, counter-clockwise. Where empty,
	// three points are a triangle in the order of the alphabet, and more points
	// have no edge.
	Outline []geom.Name
	// Sides says of single points on which side of a line they lie, and wins over
	// the outline and over measurements.
	Sides []Side
	// Base is the line whose first end is the origin and whose direction is that
	// of x. Zero: the longest edge of the outline, else the longest distance.
	Base [2]geom.Name
	// Control are points whose places are known and held: none, or two and more.
	// Base then changes nothing.
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

// Figure is the length of a distance or a height, or an angle; the other is 0.
type Figure struct {
	Length unit.Length
	Angle  unit.Angle
}

// figure of a bare number: millimetres, or radians of an angle.
func AsFigure(k triangle.Kind, x float64) Figure {
	if k == triangle.Angle {
		return Figure{Angle: unit.Angle(x)}
	}
	return Figure{Length: unit.Length(x)}
}

// bare is the one of the two that is meant.
func (f Figure) Bare(k triangle.Kind) float64 {
	if k == triangle.Angle {
		return float64(f.Angle)
	}
	return float64(f.Length)
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

// Found says how a point was found before the adjustment, so that a person can
// follow: by two measurements from points that were known already.
type Found struct {
	Point geom.Name
	From  []geom.Name // known points, the base that the point is left or right of first; empty for what was given
	By    []int       // indices into Net.Measured
	Right bool        // of the base, walked from From[0] to From[1]
	Why   Reason
}
