//go:build othersoftware && !race

package main

import (
	"regexp"
	"strings"
	"testing"

	"trammel/plot/readback"
)

// pdfinfo reads the same parts in the same order, and every word of theirs.
func TestPartsByPdfinfo(t *testing.T) {
	element := regexp.MustCompile(`^ *(\w+)(?: \(\w+\))?:?$`)
	words := func(s string) string { return strings.Join(strings.Fields(s), "") }
	tagged(t, func(t *testing.T, file []byte) {
		var roles, want []string
		var said, saidWant strings.Builder
		readback.Structure(t, file).Walk(func(p readback.Part, _ int) {
			want = append(want, p.Role)
			for _, s := range p.Said {
				saidWant.WriteString(words(s))
			}
		})
		for _, line := range strings.Split(string(readback.Run(t, file, "pdf", "pdfinfo", "-enc", "UTF-8", "-struct-text", "FILE")), "\n") {
			trimmed := strings.TrimSpace(line)
			switch m := element.FindStringSubmatch(line); {
			case strings.HasPrefix(trimmed, `"`):
				said.WriteString(words(trimmed[1 : len(trimmed)-1]))
			case m != nil:
				roles = append(roles, m[1])
			}
		}
		if got, want := strings.Join(roles, " "), strings.Join(want, " "); got != want {
			t.Errorf("pdfinfo reads\n%s\nwant\n%s", got, want)
		}
		if got, want := said.String(), words(saidWant.String()); got != want {
			t.Errorf("pdfinfo reads\n%.2000s\nwant\n%.2000s", got, want)
		}
	})
}
