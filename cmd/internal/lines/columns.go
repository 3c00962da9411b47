// Package lines puts words and figures in the lines that a terminal shows: columns,
// paragraphs, and figures with their units as short as they may be.
//
// Files, from the top floor to the ground: columns.go, figures.go.
package lines

import (
	"strings"
	"unicode/utf8"

	"trammel/plot/draw"
)

// Table is rows of cells, all of the same number.
type Table [][]string

// Write puts the rows in columns, two spaces apart and indented by two; align has
// an l or an r for each. An empty column is dropped, but for its gap.
func (t Table) Write(b *strings.Builder, align string) {
	sides := strings.Fields(align)
	widths := make([]int, len(sides))
	for _, row := range t {
		for i, c := range row {
			widths[i] = max(widths[i], utf8.RuneCountInString(c))
		}
	}
	for _, row := range t {
		line := ""
		for i, c := range row {
			pad := strings.Repeat(" ", widths[i]-utf8.RuneCountInString(c))
			if sides[i] == "r" {
				c = pad + c
			} else {
				c += pad
			}
			line += "  " + c
		}
		b.WriteString(strings.TrimRight(line, " ") + "\n")
	}
}

// terminal is how wide sentences run there, in characters.
const terminal = 86

// OnPoint fills figures up behind, so that their points stand one above the other.
func OnPoint(all []string) []string {
	tail := func(s string) int {
		if i := strings.IndexByte(s, '.'); i >= 0 && !strings.ContainsAny(s, `'"`) {
			return utf8.RuneCountInString(s[i:])
		}
		return 0
	}
	most := 0
	for _, s := range all {
		most = max(most, tail(s))
	}
	out := make([]string, len(all))
	for i, s := range all {
		out[i] = s + strings.Repeat(" ", most-tail(s))
	}
	return out
}

// Paragraph writes words in lines, indented; a word too long for a line stays whole.
func Paragraph(b *strings.Builder, indent, words string) {
	fits := func(s string) bool {
		return utf8.RuneCountInString(indent+s) <= terminal || !strings.Contains(s, " ")
	}
	for _, line := range draw.Wrap(strings.Fields(words), fits) {
		b.WriteString(indent + line + "\n")
	}
}
