package geom_test

import (
	"fmt"

	"trammel/geom"
)

// A gable end 4 m wide, as a polygon counter-clockwise; lengths are in millimetres.
func Example() {
	gable := geom.Polygon{{X: 0, Y: 0}, {X: 4000, Y: 0}, {X: 4000, Y: 1500}, {X: 2000, Y: 3000}, {X: 0, Y: 1500}}
	fmt.Println(gable[2].Distance(gable[3]).MM())
	_, _, crosses := gable.Crossing()
	fmt.Println("its outline crosses itself:", crosses)
	// Output:
	// 2500
	// its outline crosses itself: false
}
