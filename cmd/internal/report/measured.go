package report

import (
	"trammel/cmd/internal/solved"
	"trammel/geom/triangle"
)

var Kinds = map[triangle.Kind]string{triangle.Distance: "distance", triangle.Angle: "angle", triangle.Height: "height"}

func measured(p solved.Piece) []measuredReport {
	var a triangle.Answer
	if p.Net == nil {
		a = p.Solution.Answers[p.Answer]
	}
	list := make([]measuredReport, len(p.Solution.Measured))
	for i, m := range p.Solution.Measured {
		value, _ := m.Value.Value.Float64()
		tolerance, _ := m.Value.Tolerance.Float64()
		list[i] = measuredReport{Token: m.Text, Where: m.Where, Kind: Kinds[m.Kind], Value: value, Tolerance: tolerance, Stated: m.Value.Stated}
		if i < len(a.Residuals) {
			list[i].Residual = a.Residuals[i].Length.MM()
			if m.Kind == triangle.Angle {
				list[i].Residual = a.Residuals[i].Angle.Degrees()
			}
		}
	}
	for _, m := range a.Moves {
		moves := map[string]float64{}
		for i, n := range a.Triangle.Names {
			moves[string(n)] = m.Corners[i].MM()
		}
		list[m.Measurement].Moves = moves
	}
	return list
}
