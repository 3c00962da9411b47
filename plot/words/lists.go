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
