package geom

import (
	"math"
	"testing"

	"trammel/geom/unit"
)

func namesOf(p Polygon) []Name {
	all := make([]Name, len(p))
	for i := range p {
		all[i] = Name(rune('A' + i))
	}
	return all
}

// Figures that school geometry gives: a regular pentagon of side 100 (angles 108°,
// area √(25+10√5)/4·a²), an L, a square with a corner on one of its sides, each as it
// is and turned and shifted.
func TestOutlineFigures(t *testing.T) {
	var pentagon Polygon
	for i := range 5 {
		pentagon = append(pentagon, Point{}.Toward(unit.Turn/5*unit.Angle(i), unit.Length(50/math.Sin(math.Pi/5))))
	}
	for _, c := range []struct {
		points    Polygon
		angles    []float64 // degrees
		sides     []float64
		perimeter float64
		area      float64
		longest   int
		hollow    bool
	}{
		{pentagon, []float64{108, 108, 108, 108, 108}, []float64{100, 100, 100, 100, 100}, 500, math.Sqrt(25+10*math.Sqrt(5)) / 4 * 1e4, 0, false},
		{Polygon{{0, 0}, {90, 0}, {90, 20}, {30, 20}, {30, 60}, {0, 60}}, []float64{90, 90, 90, 270, 90, 90}, []float64{90, 20, 60, 40, 30, 60}, 300, 3000, 0, true},
		{Polygon{{0, 0}, {10, 0}, {40, 0}, {40, 40}, {0, 40}}, []float64{90, 180, 90, 90, 90}, []float64{10, 30, 40, 40, 40}, 160, 1600, 2, false},
		{Polygon{{0, 0}, {4, 0}, {0, 3}}, []float64{90, math.Atan2(3, 4) * 180 / math.Pi, math.Atan2(4, 3) * 180 / math.Pi}, []float64{4, 5, 3}, 12, 6, 1, false},
	} {
		for _, m := range []Placement{{}, {Turn: 2.5, Shift: Point{-300, 70}}, {Turn: -0.9, Shift: Point{1000, -5000}}} {
			points := m.Polygon(c.points)
			o := OutlineOf(namesOf(points), points)
			const near = 1e-9
			for i := range points {
				if math.Abs(o.Angles[i].Degrees()-c.angles[i]) > near || math.Abs(o.Sides[i].MM()-c.sides[i]) > near {
					t.Errorf("%v: corner %s %v°, side %s %v", c.points, o.Names[i], o.Angles[i].Degrees(), o.Side(i), o.Sides[i])
				}
			}
			if math.Abs(o.Perimeter().MM()-c.perimeter) > near || math.Abs(float64(o.Area())-c.area) > 1e-6 || o.Longest() != c.longest || o.Hollow() != c.hollow {
				t.Errorf("%v: perimeter %v, area %v, longest %d, hollow %t", c.points, o.Perimeter(), o.Area(), o.Longest(), o.Hollow())
			}
		}
	}
}

// Looked at by eye on squared paper.
func TestCrossing(t *testing.T) {
	for _, c := range []struct {
		what   string
		points Polygon
		i, j   int
		found  bool
	}{
		{"triangle", Polygon{{0, 0}, {4, 0}, {0, 3}}, 0, 0, false},
		{"square with a corner on a side", Polygon{{0, 0}, {2, 0}, {4, 0}, {4, 4}, {0, 4}}, 0, 0, false},
		{"L", Polygon{{0, 0}, {9, 0}, {9, 2}, {3, 2}, {3, 6}, {0, 6}}, 0, 0, false},
		{"bow tie", Polygon{{0, 0}, {4, 4}, {4, 0}, {0, 4}}, 0, 2, true},
		{"bow tie from another corner", Polygon{{4, 4}, {4, 0}, {0, 4}, {0, 0}}, 1, 3, true},
		{"a corner touches a side", Polygon{{0, 0}, {8, 0}, {8, 4}, {4, 0}, {0, 4}}, 0, 2, true},
		{"two corners in one place", Polygon{{0, 0}, {4, 2}, {8, 0}, {8, 4}, {4, 2}, {0, 4}}, 0, 3, true},
		{"runs back at its second corner", Polygon{{0, 0}, {8, 0}, {4, 0}, {4, 4}}, 0, 1, true},
		{"runs back at its first corner, which its last side touches", Polygon{{0, 0}, {8, 0}, {8, 4}, {4, 0}}, 0, 2, true},
		{"flat triangle", Polygon{{0, 0}, {8, 0}, {4, 0}}, 0, 1, true},
	} {
		for _, m := range []Placement{{}, {Turn: unit.Turn / 4}} {
			if i, j, found := m.Polygon(c.points).Crossing(); i != c.i || j != c.j || found != c.found {
				t.Errorf("%s: edges %d and %d, %t, want %d and %d, %t", c.what, i, j, found, c.i, c.j, c.found)
			}
		}
	}
}
