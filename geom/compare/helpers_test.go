package compare

import (
	"slices"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// measure reads tokens that stand in one text, parted by blanks.
func measure(t testing.TB, text string) []triangle.Measurement {
	t.Helper()
	var all []triangle.Measurement
	for _, token := range strings.Fields(text) {
		m, err := triangle.ParseMeasurement(token, unit.MM)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, m)
	}
	return all
}

func names(text string) (all []geom.Name) {
	for _, n := range strings.Fields(text) {
		all = append(all, geom.Name(n))
	}
	return all
}

func letter(i int) geom.Name { return geom.Name(rune('A' + i)) }

// standing is where a peg stands.
func standing(c Comparison, n geom.Name) Standing {
	return c.Standings[slices.IndexFunc(c.Standings, func(s Standing) bool { return s.Name == n })]
}
