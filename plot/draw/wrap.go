package draw

import "strings"

// Wrap sets words in lines that fit, one at least. A word that does not fit alone is
// broken between characters.
func Wrap(words []string, fits func(string) bool) (lines []string) {
	line := ""
	for _, word := range words {
		if joined := line + " " + word; line != "" && fits(joined) {
			line = joined
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for line = word; !fits(line); {
			rest, n := []rune(line), 1
			for n < len(rest) && fits(string(rest[:n+1])) {
				n++
			}
			if n == len(rest) {
				break // a line has one character at least
			}
			lines, line = append(lines, string(rest[:n])), string(rest[n:])
		}
	}
	if line != "" || lines == nil {
		lines = append(lines, line)
	}
	return lines
}

// Shorten cuts words that do not fit, and what of trim is then at their end, and shows
// that by dots.
func Shorten(words, trim string, fits func(string) bool) string {
	if fits(words) {
		return words
	}
	cut := []rune(words)
	for n := len(cut) - 1; n > 0; n-- {
		if s := strings.TrimRight(string(cut[:n]), trim) + "…"; fits(s) {
			return s
		}
	}
	return "…"
}
