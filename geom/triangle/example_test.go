package triangle_test

import (
	"fmt"

	"trammel/geom"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// Three measurements fix a triangle: all of it is known then.
func ExampleSolve() {
	var measured []triangle.Measurement
	for _, text := range []string{"AB=600", "BC=450", "CA=450"} {
		m, err := triangle.ParseMeasurement(text, unit.MM)
		if err != nil {
			fmt.Println(err)
			return
		}
		measured = append(measured, m)
	}
	s, err := triangle.Solve(measured, [2]geom.Name{})
	if err != nil {
		fmt.Println(err)
		return
	}
	t := s.Answers[0].Triangle
	fmt.Println(len(s.Answers), "triangle")
	fmt.Printf("angle at A %.2f°, height over AB %.1f mm\n", t.Angles[0].Degrees(), t.Heights[2].MM())
	// Output:
	// 1 triangle
	// angle at A 48.19°, height over AB 335.4 mm
}
