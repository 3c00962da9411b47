package words

import (
	"fmt"
	"strings"

	"trammel/geom"
)

// few names at most a dozen, many at most forty: each is in the table of readings.
func few(all []string) string  { return upTo(12, all) }
func many(all []string) string { return upTo(40, all) }

func upTo(most int, all []string) string {
	if len(all) > most+1 {
		return strings.Join(all[:most], ", ") + fmt.Sprintf(" and %d more", len(all)-most)
	}
	return geom.Listed(all)
}

// or is "A", "A or B", "A, B or C".
func or(all []string) string {
	if len(all) < 2 {
		return strings.Join(all, "")
	}
	return strings.Join(all[:len(all)-1], ", ") + " or " + all[len(all)-1]
}

// them is what n things are called.
func them(n int) string {
	if n == 1 {
		return "it"
	}
	return "them"
}
