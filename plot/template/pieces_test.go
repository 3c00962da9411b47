package template

import (
	"math"
	"math/big"

	"trammel/geom"
	"trammel/geom/unit"
)

// bySides is a piece whose three sides were measured, constructed by two arcs; its
// corners computed here by hand, not by the code under test's own solver.
func bySides(ab, bc, ca unit.Length) Piece {
	x := (ab*ab + ca*ca - bc*bc) / (2 * ab)
	y := unit.Length(math.Sqrt(float64(ca*ca - x*x)))
	return piece(ab, x, y, []geom.Measurement{side("AB", ab), side("BC", bc), side("CA", ca)}, geom.ByArcs)
}

func side(at string, l unit.Length) geom.Measurement {
	return geom.Measurement{Kind: geom.Distance, At: [3]geom.Name{geom.Name(at[:1]), geom.Name(at[1:])}, Value: unit.Reading{Value: new(big.Rat).SetFloat64(float64(l))}}
}

// piece has its corners at 0,0 and ab,0 and x,y.
func piece(ab, x, y unit.Length, measured []geom.Measurement, by geom.Method) Piece {
	t := geom.Triangle{Names: [3]geom.Name{"A", "B", "C"}, Points: [3]geom.Point{{}, {X: ab}, {X: x, Y: y}}}
	p := t.Points
	for i := range 3 {
		a, b := p[(i+1)%3].Minus(p[i]), p[(i+2)%3].Minus(p[i])
		t.Angles[i] = unit.Angle(math.Atan2(cross(a, b), dot(a, b)))
		t.Sides[i] = p[(i+1)%3].Distance(p[(i+2)%3])
		t.Perimeter += t.Sides[i]
	}
	t.Area = unit.Area(ab * y / 2)
	for i := range 3 {
		t.Heights[i] = unit.Length(2*t.Area) / t.Sides[i]
	}
	c := geom.Construction{Triangle: t}
	add := func(s ...geom.Step) { c.Steps = append(c.Steps, s...) }
	add(geom.DrawBase{From: "A", To: "B", Line: geom.Line{From: p[0], To: p[1]}, Length: ab, Measured: true})
	switch by {
	case geom.ByArcs:
		add(geom.Swing{Centre: "A", About: p[0], Radius: t.Sides[1], To: "C", Through: p[2], Measured: true},
			geom.Swing{Centre: "B", About: p[1], Radius: t.Sides[0], To: "C", Through: p[2], Measured: true, Twice: true, Other: geom.Point{X: x, Y: -y}})
	case geom.ByAngle:
		ray := geom.Line{From: p[0], To: p[2]}
		ray.To = ray.At(1 + float64(10/ray.Length()))
		add(geom.SetAngle{At: "A", Along: "B", Angle: t.Angles[0], Arm: geom.Line{From: p[0], To: p[1]}, Ray: ray, To: "C"},
			geom.MarkOff{From: "A", To: "C", Line: geom.Line{From: p[0], To: p[2]}, Length: t.Sides[1]})
	case geom.BySquare:
		add(geom.Erect{From: "A", Toward: "B", Foot: geom.Point{X: x}, Top: p[2], Along: x, Height: y, To: "C"})
	}
	add(geom.Join{From: "A", To: "C", Line: geom.Line{From: p[0], To: p[2]}},
		geom.Join{From: "B", To: "C", Line: geom.Line{From: p[1], To: p[2]}},
		geom.CheckAngle{At: "C", Angle: t.Angles[2]})
	return Piece{Job: "Slip gate brace", Name: "Brace plate", Quantity: 2, Construction: c,
		Solution: geom.Solution{Case: "SSS", Answers: []geom.Answer{{Triangle: t}}, Measured: measured}}
}
