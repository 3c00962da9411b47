package app

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// Columns writes rows of cells in columns; align has an l or an r for each.
func Columns(b *strings.Builder, rows [][]string, align string) { table(rows).write(b, align) }

// table is rows of cells, all of the same number.
type table [][]string

// write puts the rows in columns, two spaces apart and indented by two; align has
// an l or an r for each. An empty column is dropped, but for its gap.
func (t table) write(b *strings.Builder, align string) {
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

// onPoint fills figures up behind, so that their points stand one above the other.
func onPoint(all []string) []string {
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

// paragraph writes words in lines, indented.
func paragraph(b *strings.Builder, indent, words string) {
	line := indent
	for _, w := range strings.Fields(words) {
		if line != indent && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(w) > terminal {
			b.WriteString(line + "\n")
			line = indent
		}
		if line != indent {
			line += " "
		}
		line += w
	}
	fmt.Fprintln(b, line)
}
