package unit

import "math/big"

// Reading is a length or an angle exactly as it was written: nothing rounded.
type Reading struct {
	Value     *big.Rat // millimetres of a length, degrees of an angle (radians and slopes: within 1e-60 relative)
	Tolerance *big.Rat // same unit, never negative; half of the last digit written unless Stated
	Stated    bool     // the writer gave the tolerance
	Text      string   // the value as written, without the tolerance
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

// Length rounds the reading, once, to the nearest float64 of millimetres.
func (r Reading) Length() Length { f, _ := r.Value.Float64(); return Length(f) }
