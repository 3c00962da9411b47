package adjust

import (
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// Figure is the length of a distance or a height, or an angle; the other is 0.
type Figure struct {
	Length unit.Length
	Angle  unit.Angle
}

// AsFigure is the figure of a bare number: millimetres, or radians of an angle.
func AsFigure(k triangle.Kind, x float64) Figure {
	if k == triangle.Angle {
		return Figure{Angle: unit.Angle(x)}
	}
	return Figure{Length: unit.Length(x)}
}

// ReadingOf is what a measurement reads, as a bare number.
func ReadingOf(m triangle.Measurement) float64 {
	if m.Kind == triangle.Angle {
		return float64(m.Value.Angle())
	}
	return float64(m.Value.Length())
}

// Bare is the one of the two that is meant, in millimetres or radians.
func (f Figure) Bare(k triangle.Kind) float64 {
	if k == triangle.Angle {
		return float64(f.Angle)
	}
	return float64(f.Length)
}
