// Package unit holds lengths and angles as numbers with a type, reads them as
// the trades write them and writes them back.
//
// A Length is a float64 in millimetres and an Angle a float64 in radians. What
// somebody wrote is kept as a Reading, an exact rational number, until the
// geometry has decided what depends on exactness (flat or not, one answer or
// two); only then is it rounded, once.
//
// Files, from the top floor to the ground: angle.go, length.go, wrong.go, number.go,
// plain.go, style.go, text.go, fault.go, subject.go, unit.go.
package unit

import (
	"math"
	"math/big"

	"trammel/geom/internal/trig"
)

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

// Reading is a length or an angle exactly as it was written: nothing rounded.
type Reading struct {
	Value     *big.Rat // millimetres of a length, degrees of an angle (radians and slopes: within 1e-60 relative)
	Tolerance *big.Rat // same unit, more than 0; half of the last digit written unless Stated
	Stated    bool     // the writer gave the tolerance
	Text      string   // the value as written, without the tolerance; characters that few fonts have are written out
	Read      string   // of an angle: how it was read, where something else may have been meant, else empty
	Unit      Unit     // of a length: the last unit that it names, else what a bare number counted
	Bare      bool     // of a length: it names no unit
	Feet      bool     // of a length: it is written in feet, perhaps with inches behind them

	rise, run *big.Rat // of an angle that was written as a slope
}

// Unit is what a bare number counts.
type Unit uint8

const (
	MM Unit = iota
	CM
	M
	IN
	FT
)

// String is the unit's sign: mm, cm, m, in or ft.
func (u Unit) String() string { return [...]string{"mm", "cm", "m", "in", "ft"}[min(u, FT)] }

// Length is the length of one.
func (u Unit) Length() Length {
	return [...]Length{Millimetre, Centimetre, Metre, Inch, Foot}[min(u, FT)]
}

// rat is the exact number of millimetres in one.
func (u Unit) rat() *big.Rat {
	return big.NewRat([...]int64{10, 100, 10000, 254, 3048}[min(u, FT)], 10)
}

// Length rounds the reading, once, to the nearest float64 of millimetres.
func (r Reading) Length() Length { f, _ := r.Value.Float64(); return Length(f) }

// Angle rounds the reading, once, to the nearest float64 of radians.
func (r Reading) Angle() Angle { return radians(r.Value) }

// LengthTolerance is the tolerance of a length, rounded.
func (r Reading) LengthTolerance() Length { f, _ := r.Tolerance.Float64(); return Length(f) }

// AngleTolerance is the tolerance of an angle, rounded.
func (r Reading) AngleTolerance() Angle { return radians(r.Tolerance) }

// radians of exact degrees, at 128 bits and then rounded to 53.
func radians(degrees *big.Rat) Angle {
	x := new(big.Float).SetPrec(128).SetRat(degrees)
	x.Mul(x, trig.Pi(128))
	f, _ := x.Quo(x, big.NewFloat(180)).Float64()
	return Angle(f)
}
