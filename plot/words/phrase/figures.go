package phrase

import (
	"math"

	"trammel/geom/adjust"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// Figures writes figures of one kind known to ± spread: no digit that says nothing.
type Figures struct {
	Style  unit.Style
	Kind   triangle.Kind
	Spread float64 // mm or rad
}

// Of a bare number, in mm or rad.
func (w Figures) Of(x float64) string {
	if w.Kind == triangle.Angle {
		d := w.Spread * 180 / math.Pi
		switch {
		case w.Style.Minutes && d >= 1.0/60:
			return w.Style.Angle(unit.Angle(x))
		case w.Style.Minutes || d < 1.0/60:
			return unit.Seconds(unit.Angle(x))
		case d >= 0.1:
			return unit.Decimals(x*180/math.Pi, 1) + "°"
		}
		return unit.Decimals(x*180/math.Pi, 3) + "°"
	}
	if w.Spread >= 2 && w.Style.Unit == unit.MM {
		x = math.Round(x)
	}
	return w.Style.Length(unit.Length(x))
}

// Exact is the size of a slip, which is round.
func (w Figures) Exact(f adjust.Figure) string {
	if w.Kind == triangle.Angle {
		return unit.Decimals(math.Abs(f.Angle.Degrees()), 1) + "°"
	}
	return w.Style.Length(unit.Length(math.Abs(f.Length.MM())))
}

// SmallAngle is an angle in degrees, minutes or seconds, whichever is read easily.
func SmallAngle(a unit.Angle) string {
	d := a.Degrees()
	switch {
	case d < 1.0/60:
		return unit.Decimals(d*3600, 0) + "\u2033"
	case d < 1:
		return unit.Decimals(d*60, 0) + "\u2032"
	}
	return unit.Decimals(d, 1) + "°"
}
