// Package phrase is what sentences are made of in English: lists of names, one thing or
// several, figures that have no digit that says nothing.
//
// Files, from the top floor to the ground: figures.go, lists.go.
package phrase

import (
	"fmt"
	"strings"

	"trammel/geom"
)

// Few names at most a dozen, many at most forty: each is in the table of readings.
func Few(all []string) string  { return upTo(12, all) }
func Many(all []string) string { return upTo(40, all) }

func upTo(most int, all []string) string {
	if len(all) > most+1 {
		return strings.Join(all[:most], ", ") + fmt.Sprintf(" and %d more", len(all)-most)
	}
	return geom.Listed(all)
}

// Or is "A", "A or B", "A, B or C".
func Or(all []string) string {
	if len(all) < 2 {
		return strings.Join(all, "")
	}
	return strings.Join(all[:len(all)-1], ", ") + " or " + all[len(all)-1]
}

// Of picks the word for one thing, or for several.
func Of(n int, one, several string) string {
	if n == 1 {
		return one
	}
	return several
}

// Remark is a whole sentence as it stands behind a lead, such as "warning:": without
// its stop, and with a small first letter where a word is small.
type Remark string

// Remarked is made as by fmt.Sprintf.
func Remarked(form string, with ...any) Remark { return Remark(fmt.Sprintf(form, with...)) }

// Sentence is the same, standing alone.
func (r Remark) Sentence() string {
	if r == "" {
		return ""
	}
	return Capital(string(r)) + "."
}

// Capital is words with a great first letter, small with a small one.
func Capital(words string) string {
	first := []rune(words)
	return strings.ToUpper(string(first[:1])) + string(first[1:])
}

// Small is words with a small first letter.
func Small(words string) string { return strings.ToLower(words[:1]) + words[1:] }
