package geom

import (
	"cmp"
	"fmt"
	"strconv"
	"strings"
)

// Name is a point's name: a capital letter, perhaps with digits behind it (A, B, K2).
type Name string

// Before orders by letter, then by the number behind it: A, B, K2, K10.
func Before(m, n Name) int {
	ml, mn := split(m)
	nl, nn := split(n)
	return cmp.Or(cmp.Compare(ml, nl), cmp.Compare(mn, nn), cmp.Compare(m, n))
}

func split(n Name) (letters string, number int) {
	letters = strings.TrimRight(string(n), "0123456789")
	number, _ = strconv.Atoi(string(n)[len(letters):])
	return letters, number
}

// Joined is the names of a figure, one behind the other: ABC.
func Joined(names []Name) string {
	var b strings.Builder
	for _, n := range names {
		b.WriteString(string(n))
	}
	return b.String()
}

// Texts are names as plain words.
func Texts(names []Name) []string {
	words := make([]string, len(names))
	for i, n := range names {
		words[i] = string(n)
	}
	return words
}

// List is "A", "A and B", "A, B and C"; of many only the first.
func List(names []Name) string {
	const most = 12
	all := make([]string, 0, most)
	for _, n := range names {
		if len(all) == most && len(names) > most+1 {
			return strings.Join(all, ", ") + fmt.Sprintf(" and %d more", len(names)-most)
		}
		all = append(all, string(n))
	}
	return Listed(all)
}

// Listed is words in a row, the last after "and".
func Listed(all []string) string {
	if len(all) < 2 {
		return strings.Join(all, "")
	}
	return strings.Join(all[:len(all)-1], ", ") + " and " + all[len(all)-1]
}
