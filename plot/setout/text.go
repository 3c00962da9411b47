package setout

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

// phone is the widest line of the plain text, in characters: what a phone held
// upright shows in letters that can be read in the sun.
const phone = 40

// Text writes the sheet as plain text for a phone: UTF-8, lines of at most 40
// characters ended by a line feed, every figure as on the paper.
func (s Sheet) Text(out io.Writer) error {
	var b strings.Builder
	line := func(words string) { b.WriteString(words + "\n") }
	para := func(lead, words string) {
		hang := strings.Repeat(" ", utf8.RuneCountInString(lead))
		for i, l := range wrapRunes(words, phone-len(hang)) {
			if i == 0 {
				line(strings.TrimRight(lead+l, " "))
			} else {
				line(strings.TrimRight(hang+l, " "))
			}
		}
	}
	head := func(words string) { line(""); line(strings.ToUpper(words)) }
	if t := s.title(); t != "" {
		para("", t)
	}
	para("", "Setting-out sheet. All figures in "+s.Style.Name()+".")
	if s.Date != "" {
		para("", s.Date)
	}

	head("Bring")
	for _, x := range s.Bring {
		para("- ", x)
	}
	head("Take care")
	for _, x := range s.Cautions {
		para("- ", x)
	}
	head("Pegs")
	line("from " + string(s.Baseline.From) + " along, then square out")
	rows := [][]string{}
	for _, p := range s.Pegs {
		rows = append(rows, []string{string(p.Name), s.Figure(p.Along), s.Figure(p.Offset)})
	}
	table(line, rows)
	head("Hold 0 at, pull to")
	rows = nil
	for _, p := range s.allPulls() {
		rows = append(rows, []string{fmt.Sprint(p.Number), string(p.Hold) + " " + string(p.To), s.Figure(p.Length), s.useWords(p)})
	}
	table(line, rows)
	line("")
	para("", s.crossingWords())
	head("Steps")
	for _, x := range s.Steps {
		para(fmt.Sprintf("%2d. ", x.Number), x.Words)
	}
	head("Checks")
	for _, c := range s.Checks {
		para(fmt.Sprintf("%2d. ", c.Number), fmt.Sprintf("%s to %s  %s", c.From, c.To, s.Figure(c.Value)))
		para("    ", fmt.Sprintf("good %s to %s", s.Figure(c.Least), s.Figure(c.Greatest)))
		line("    found ________________")
	}
	line("")
	for _, x := range s.Basis {
		para("", x)
	}
	_, err := io.WriteString(out, b.String())
	return err
}

// useWords says in a word or two what a pull does.
func (s Sheet) useWords(p Pull) string {
	switch p.Use {
	case ForArc:
		return "arc"
	case ForRunning:
		return "along"
	case ForLeg:
		return "square"
	}
	return string(p.Use)
}

// table writes columns parted by two spaces, figures right-aligned on their
// point, words left-aligned.
func table(line func(string), rows [][]string) {
	n := len(rows[0])
	left, right := make([]int, n), make([]int, n)
	for _, r := range rows {
		for i, c := range r {
			w, f := onPoint(c)
			left[i], right[i] = max(left[i], utf8.RuneCountInString(w)), max(right[i], utf8.RuneCountInString(f))
		}
	}
	for _, r := range rows {
		var b strings.Builder
		for i, c := range r {
			w, f := onPoint(c)
			pad := strings.Repeat(" ", left[i]-utf8.RuneCountInString(w))
			tail := strings.Repeat(" ", right[i]-utf8.RuneCountInString(f))
			if i > 0 {
				b.WriteString("  ")
			}
			if c != "" && c[0] >= '0' && c[0] <= '9' {
				b.WriteString(pad + w + f + tail)
			} else {
				b.WriteString(c + pad + tail)
			}
		}
		line(strings.TrimRight(b.String(), " "))
	}
}

// onPoint parts a figure at its decimal point, or before its fraction.
func onPoint(c string) (whole, rest string) {
	if c == "" || c[0] < '0' || c[0] > '9' {
		return c, ""
	}
	if i := strings.IndexAny(c, ". "); i >= 0 {
		return c[:i], c[i:]
	}
	return strings.TrimSuffix(c, `"`), c[len(strings.TrimSuffix(c, `"`)):]
}

// wrapRunes breaks words at spaces into lines of at most width characters; a
// longer word is cut.
func wrapRunes(words string, width int) []string {
	var lines []string
	line := ""
	for _, word := range strings.FieldsFunc(words, func(c rune) bool { return c == ' ' || c == '\n' || c == '\t' || c == '\r' }) {
		for {
			joined := word
			if line != "" {
				joined = line + " " + word
			}
			if utf8.RuneCountInString(joined) <= width {
				line = joined
				break
			}
			if line != "" {
				lines, line = append(lines, line), ""
				continue
			}
			cut := []rune(word)
			lines = append(lines, string(cut[:width]))
			word = string(cut[width:])
		}
	}
	if line != "" || lines == nil {
		lines = append(lines, line)
	}
	return lines
}
