package geom_test

import (
	"fmt"

	"trammel/geom"
)

// An arc of 100 about one end of a side and one of 80 about the other cross twice.
func ExampleLocus_Meet() {
	a := geom.Locus{Circle: true, At: geom.Vector{X: 0, Y: 0}, Radius: 100}
	b := geom.Locus{Circle: true, At: geom.Vector{X: 60, Y: 0}, Radius: 80}
	places, _, _ := a.Meet(b)
	for _, p := range places {
		fmt.Printf("%.0f, %.0f\n", p.X, p.Y)
	}
	// Output:
	// 60, 80
	// 60, -80
}
