package words

import (
	"math"

	"trammel/geom/adjust"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// figures writes figures of one kind known to ± spread: no digit that says nothing.
type figures struct {
	style  unit.Style
	kind   triangle.Kind
	spread float64 // mm or rad
}

// Of a bare number, in mm or rad.
func (w figures) of(x float64) string {
	if w.kind == triangle.Angle {
		d := w.spread * 180 / math.Pi
		switch {
		case w.style.Minutes && d >= 1.0/60:
			return w.style.Angle(unit.Angle(x))
		case w.style.Minutes || d < 1.0/60:
			return unit.Seconds(unit.Angle(x))
		case d >= 0.1:
			return unit.Decimals(x*180/math.Pi, 1) + "°"
		}
		return unit.Decimals(x*180/math.Pi, 3) + "°"
	}
	if w.spread >= 2 && w.style.Unit == unit.MM {
		x = math.Round(x)
	}
	return w.style.Length(unit.Length(x))
}

// exact is the size of a slip, which is round.
func (w figures) exact(f adjust.Figure) string {
	if w.kind == triangle.Angle {
		return unit.Decimals(math.Abs(f.Angle.Degrees()), 1) + "°"
	}
	return w.style.Length(unit.Length(math.Abs(f.Length.MM())))
}

// smallAngle is an angle in degrees, minutes or seconds, whichever is read easily.
func smallAngle(a unit.Angle) string {
	d := a.Degrees()
	switch {
	case d < 1.0/60:
		return unit.Decimals(d*3600, 0) + "\u2033"
	case d < 1:
		return unit.Decimals(d*60, 0) + "\u2032"
	}
	return unit.Decimals(d, 1) + "°"
}
