// Package unit holds lengths and angles as numbers with a type, reads them as
// the trades write them and writes them back.
//
// A Length is a float64 in millimetres and an Angle a float64 in radians. What
// somebody wrote is kept as a Reading, an exact rational number, until the
// geometry has decided what depends on exactness (flat or not, one answer or
// two); only then is it rounded, once.
//
// Files, from the top floor to the ground: given.go, angle.go, length.go, wrong.go,
// number.go, plain.go, style.go, text.go, reading.go, fault.go, subject.go, unit.go.
package unit

import "math"

// Length is a distance in millimetres.
type Length float64

// Angle is an angle in radians, counter-clockwise positive.
type Angle float64

// Area is an area in square millimetres.
type Area float64

// Exact by definition (1 in = 25.4 mm since the international yard of 1959;
// 1 ft = 0.3048 m).
const (
	Millimetre Length = 1
	Centimetre Length = 10
	Metre      Length = 1000
	Inch       Length = 25.4
	Foot       Length = 304.8
)

const (
	Radian Angle = 1
	Degree Angle = math.Pi / 180
	Turn   Angle = 2 * math.Pi
)

// MM is the length in millimetres as a bare number, for the edge of the program
// (a file format, a numeric routine).
func (l Length) MM() float64 { return float64(l) }

// Degrees is the angle in degrees, within 1 ulp.
func (a Angle) Degrees() float64 { return float64(a) * (180 / math.Pi) }

// Radians is the angle in radians as a bare number.
func (a Angle) Radians() float64 { return float64(a) }
