package net_test

import (
	"fmt"
	"strings"

	"trammel/geom"
	"trammel/geom/net"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// A rectangle of 4 m by 3 m, its sides and both diagonals measured with a tape: one
// length more than is needed, and one that was misread by 100 mm.
func Example() {
	n := net.Net{Outline: []geom.Name{"A", "B", "C", "D"}}
	for _, token := range strings.Fields("AB=4000 BC=3000 CD=4000 DA=3000 AC=5000 BD=5100") {
		m, err := triangle.ParseMeasurement(token, unit.MM)
		if err != nil {
			fmt.Println(err)
			return
		}
		n.Measured = append(n.Measured, m)
	}
	a, err := net.Adjust(n)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("more than needed:", a.Freedom)
	fmt.Println("they agree:", a.Global.Passed)
	// Output:
	// more than needed: 1
	// they agree: false
}
