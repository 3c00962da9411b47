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
	if t := title(s.Job, s.Piece); t != "" {
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
	if len(s.Doubts) > 0 {
		head("Before setting out")
		for _, x := range s.Doubts {
			para("- ", x)
		}
	}
	head("Pegs")
	both := s.bothSides()
	side := ", " + s.oneSide().String()
	if both {
		side = ""
	}
	para("", fmt.Sprintf("in the order of setting: along from %s, then square out%s", s.Baseline.From, side))
	rows := [][]string{}
	for _, p := range s.Pegs {
		along := s.Figure(max(p.Along, 0))
		if p.Along < 0 && s.Figure(-p.Along) != along {
			along = "−" + s.Figure(-p.Along)
		}
		row := []string{string(p.Name), along, s.Figure(p.Offset)}
		if both {
			row = append(row, p.Side.String())
		}
		rows = append(rows, row)
	}
	table(line, rows)
	head("Hold 0 at, pull to")
	rows = nil
	for _, p := range s.Pulls {
		reads := s.Figure(p.Reads)
		if p.Use == ForAngle {
			reads = s.Turned(p.Angle)
		}
		rows = append(rows, []string{fmt.Sprint(p.Number), string(p.Hold) + " " + string(p.To), reads, s.useWords(p)})
	}
	table(line, rows)
	if words := s.crossingWords(); words != "" {
		line("")
		para("", words)
	}
	if s.Corrected {
		head("Tape corrections")
		para("", s.correctionWords())
		for _, p := range s.Pulls {
			if s.corrects(p) {
				para(fmt.Sprintf("%2d. ", p.Number), fmt.Sprintf("%s %s true %s: %s, lay off %s", p.Hold, p.To, s.Figure(p.Length), s.broken(p), s.Figure(p.Reads)))
			}
		}
	}
	head("Steps")
	for _, x := range s.Steps {
		para(fmt.Sprintf("%2d. ", x.Number), x.Words)
	}
	s.textMarks(line, head)
	head("Checks")
	for _, c := range s.Checks {
		para(fmt.Sprintf("%2d. ", c.Number), fmt.Sprintf("%s to %s  %s", c.From, c.To, s.Figure(c.Reads)))
		para("    ", fmt.Sprintf("good %s to %s", s.Figure(c.Least), s.Figure(c.Greatest)))
		line("    found ________________")
	}
	line("")
	for _, x := range s.Basis {
		para("", x)
	}
	head("How sure, in " + s.SmallUnit())
	line("peg, measured, set out, both")
	rows = nil
	for _, x := range s.Sure {
		row := []string{string(x.Peg), s.Small(x.Measured), s.Small(x.SetOut), s.Small(x.Both)}
		if s.Permitted > 0 {
			row = append(row, x.verdict()+" "+s.Small(x.Permitted))
		}
		rows = append(rows, row)
	}
	table(line, rows)
	para("", s.sureWords())
	head("Which way is surest")
	for i, x := range s.Ranking.Best {
		used := ""
		if i == s.Ranking.Used {
			used = ", used"
		}
		para("- ", fmt.Sprintf("%s from %s: %s %s at %s, %.1f times%s", wayWords(x.Method), edge(x.Base), s.Small(x.Figure), s.SmallUnit(), x.Pegs[x.Worst].Name, x.Times, used))
	}
	para("", s.rankWords())
	_, err := io.WriteString(out, b.String())
	return err
}

// textMarks are the marks along the edges, the nails in the profile boards and where
// the strings cross.
func (s Sheet) textMarks(line, head func(string)) {
	side := func(row []string, x Side) []string {
		if s.bothSides() || len(s.Nails) > 0 {
			row = append(row, x.String())
		}
		return row
	}
	if len(s.Marks) > 0 {
		head("Marks along the edges")
		line("edge, from its first; along, square out")
		var rows [][]string
		for _, m := range s.Marks {
			rows = append(rows, side(s.markFigures(m)[:4], m.Side))
		}
		table(line, rows)
	}
	if len(s.Nails) > 0 {
		head("Nails in the profile boards")
		line("string, beyond, by; along, square out")
		var rows [][]string
		for _, n := range s.Nails {
			rows = append(rows, side([]string{edge(n.Edge), string(n.Beyond), s.laid(n.Past, 0), s.laidAlong(n.Along, 0), s.laid(n.Offset, 0)}, n.Side))
		}
		table(line, rows)
	}
	if len(s.Strings) > 0 {
		head("Strings, from their first nail")
		for _, x := range s.Strings {
			for i, words := range wrapRunes(fmt.Sprintf("%s %s long, crosses %s at %s, %s at %s", edge(x.Edge), s.laid(x.Length, 0), edge(x.With[0]), s.laid(x.Corners[0], 0), edge(x.With[1]), s.laid(x.Corners[1], 0)), phone-2) {
				line([]string{"- ", "  "}[min(i, 1)] + words)
			}
		}
	}
}

// useWords says in a word or two what a pull does.
func (s Sheet) useWords(p Pull) string {
	switch p.Use {
	case ForRunning:
		if p.Behind {
			return "behind"
		}
	case ForHeight:
		if !s.lone() {
			return "offset"
		}
	case ForAngle:
		return "angle " + p.Side.String()
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
