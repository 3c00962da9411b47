package unit_test

import (
	"fmt"

	"trammel/geom/unit"
)

// A length is read as a trade writes it and written as another one does.
func ExampleParseLength() {
	r, err := unit.ParseLength(`2'-10 1/2"`, unit.MM)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(r.Length().MM())
	fmt.Println(unit.Style{Unit: unit.MM}.LengthUnit(r.Length()))
	// Output:
	// 876.3
	// 876.3 mm
}
