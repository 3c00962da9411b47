package strict_test

import (
	"errors"
	"strings"
	"testing"

	"trammel/geom/unit"
	"trammel/profiles/strict"
)

// Brackets and dashes that are words open nothing.
func TestDepthIsThatOfLists(t *testing.T) {
	for _, text := range []string{
		strings.Repeat("# see [1\n", 99) + "job: x\n",
		"job: x # " + strings.Repeat("- ", 99) + "\n",
		"pieces:\n" + strings.Repeat("  - name: \"gap [a\\\" {b\"\n    note: 'the {other''s ['\n", 99),
		"pieces: [" + strings.Repeat("{name: 'gap [', note: \"{\"}, ", 99) + "]\n",
		"job: " + strings.Repeat("-", 300) + "\n",
		"pieces: " + strings.Repeat("[", 39) + strings.Repeat("]", 39) + "\n",
	} {
		if _, err := strict.Parse("j", []byte(text)); err != nil {
			t.Errorf("%.60q: %v", text, err)
		}
	}
	for _, c := range []struct{ text, place string }{
		{"it's: " + strings.Repeat("[", 99), "j:1:47"},
		{"a: 'b'\n# remark\nc: " + strings.Repeat("{d: ", 99), "j:3:164"},
		{"a#b: " + strings.Repeat("[", 99), "j:1:46"},
		{"a: \"\\\\\"\nc: " + strings.Repeat("[", 99), "j:2:44"},
		{strings.Repeat("- ", 99) + "a", "j:1:81"},
		{strings.Repeat("[", 41) + strings.Repeat("]", 41), "j:1:41"},
	} {
		_, err := strict.Parse("j", []byte(c.text))
		var f *unit.Fault
		if !errors.As(err, &f) || f.Where != c.place || f.What != "lists within lists more than 40 deep" {
			t.Errorf("%.60q: %v, want the place %s", c.text, err, c.place)
		}
	}
}
