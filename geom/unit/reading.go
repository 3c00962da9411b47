package unit

import (
	"math/big"

	"trammel/geom/internal/trig"
)

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
