package strict_test

import (
	"errors"
	"strings"
	"testing"

	"trammel/geom/unit"
	"trammel/profiles/strict"
)

// The line of what is not YAML, counted by eye.
func TestPlaceOfSyntax(t *testing.T) {
	const head = "job: x\nunit: mm\npieces:\n  - name: a\n" // four lines
	for _, c := range []struct{ text, place string }{
		{head + "    measure: [AB=60, BC=45]\n  - name: b\n    measure: [AB=60, , CA=45]\n", "7:5"},
		{head + "    measure: [AB=60, BC=45]\n  - name: b\n    measure: [AB=60, BC=4\n", "7:5"},
		{head + "    measure: [AB=60, BC=4\n    quantity: 2\n", "5:5"},
		{head + "    measure: [AB=60, BC=45]]\n    quantity: 2\n", "5:5"},
		{head + "    measure: [AB=60, BC=45}\n", "5:5"},
		{head + "   measure: [AB=60, BC=45]\n", "5:4"},
		{head + "    measure: [AB=60, BC=45]\n   quantity: 2\n", "6:4"},
		{head + "    measure: [AB=60, BC=45]\n job: y\n", "6:2"},
		{head + "    measure:\n      - AB=60\n     - BC=45\n", "7:6"},
		{head + "    measure [AB=60, BC=45]\n", "5:5"},
		{head + "    pick: a: b\n", "5:5"},
		{head + "    pick: @a\n", "5:5"},
		{head + "    pick: \"1\n    base: AB\n", "5:5"},
		{head + "    pick: *one\n", "5:11"},
		{head + "...\njob: y\n", "6:1"},
		{"job: [\n", "1:1"},
		{"job: x\n]\n", "2:1"},
		{"job: {a: b\n\n\n", "1:1"},
		{strings.Repeat("# a remark\n", 5000) + head + "   measure: [AB=60]\n" + strings.Repeat("# a remark\n", 5000), "5005:4"},
	} {
		_, err := strict.Parse("job.yaml", []byte(c.text))
		var f *unit.Fault
		if !errors.As(err, &f) || f.Where != "job.yaml:"+c.place || !strings.HasPrefix(f.What, "is not YAML: ") {
			t.Errorf("%q: %v, want the place %s", c.text[max(0, len(c.text)-80):], err, c.place)
		}
	}
}
