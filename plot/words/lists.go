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

// of picks the word for one thing, or for several.
func of(n int, one, several string) string {
	if n == 1 {
		return one
	}
	return several
}

// Remark is a whole sentence as it stands behind a lead, such as "warning:": without
// its stop, and with a small first letter where a word is small.
type Remark string

// remark is made as by fmt.Sprintf.
func remark(form string, with ...any) Remark { return Remark(fmt.Sprintf(form, with...)) }

// Sentence is the same, standing alone.
func (r Remark) Sentence() string {
	if r == "" {
		return ""
	}
	return capital(string(r)) + "."
}

// capital is words with a great first letter, small with a small one.
func capital(words string) string {
	first := []rune(words)
	return strings.ToUpper(string(first[:1])) + string(first[1:])
}

func small(words string) string { return strings.ToLower(words[:1]) + words[1:] }
