package unit

import (
	"strings"
	"testing"
)

func TestQuote(t *testing.T) {
	for text, want := range map[string]string{
		"12OO":                  `"12OO"`,
		"35°":                   `"35°"`,
		`7'-10"`:                "`7'-10\"`",
		"`7\"":                  "\"`7\\\"\"",
		"a\nb":                  `"a\nb"`,
		"\"\x1b":                `"\"\x1b"`,
		"\xff":                  `"\xff"`,
		"":                      `""`,
		strings.Repeat("x", 41): `"` + strings.Repeat("x", 40) + `…"`,
	} {
		if got := Quote(text); got != want {
			t.Errorf("%q: %s, want %s", text, got, want)
		}
	}
	if got := Quote(strings.Repeat("\xff", 3<<20)); len(got) > 400 {
		t.Errorf("three megabytes are quoted as %d bytes", len(got))
	}
}

func TestFault(t *testing.T) {
	f := &Fault{What: `"12OO" is not a length`, Hint: "write 1200"}
	g := f.In("CA=12OO").In("job.yaml:7:12")
	if got, want := g.Error(), `job.yaml:7:12: CA=12OO: "12OO" is not a length`; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	if f.Error() != `"12OO" is not a length` || g.Hint != f.Hint {
		t.Errorf("the fault itself became %q, the hint %q", f, g.Hint)
	}
}
