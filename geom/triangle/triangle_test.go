package triangle

import (
	"math"
	"testing"

	"trammel/geom"
)

// A triangle's outline has the triangle's own figures, each beside its corner.
func TestTriangleOutline(t *testing.T) {
	tri := solved(t, "AB=640 BC=400 CA=455").Answers[0].Triangle
	o, want := tri.Outline(), geom.OutlineOf(tri.Names[:], tri.Polygon())
	for i := range 3 {
		if o.Names[i] != want.Names[i] || o.Points[i] != want.Points[i] ||
			math.Abs(float64(o.Sides[i]-want.Sides[i])) > 1e-9 || math.Abs(float64(o.Angles[i]-want.Angles[i])) > 1e-12 {
			t.Errorf("corner %d: %+v, want %+v", i, o, want)
		}
	}
	if s := o.Side(1) + o.Side(2); s != "BCCA" || o.Next(2) != 0 || o.Before(0) != 2 {
		t.Errorf("sides BC and CA are %s", s)
	}
	if i, ok := o.Corner("C"); i != 2 || !ok {
		t.Errorf("C is corner %d, %t", i, ok)
	}
	if i, ok := o.Corner("D"); i != 0 || ok {
		t.Errorf("D is corner %d, %t", i, ok)
	}
}
