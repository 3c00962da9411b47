package setout

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode/utf8"

	"trammel/geom/adjust"
	"trammel/geom/triangle"
	"trammel/plot/words"
)

// Text writes the sheet as plain text for a phone, as Sheet.Text does.
func (f Found) Text(out io.Writer) error {
	var b strings.Builder
	line := func(words string) { b.WriteString(words + "\n") }
	para := func(lead, words string) {
		hang := strings.Repeat(" ", utf8.RuneCountInString(lead))
		for i, l := range wrapRunes(words, phone-len(hang)) {
			if i > 0 {
				lead = hang
			}
			line(strings.TrimRight(lead+l, " "))
		}
	}
	head := func(words string) { line(""); line(strings.ToUpper(words)) }
	if t := title(f.Job, f.Piece); t != "" {
		para("", t)
	}
	para("", "Check of what was set out. All figures in "+f.Figures.Style.Name()+".")
	if f.Date != "" {
		para("", f.Date)
	}
	line("")
	para("", f.Says().Verdict(f.Comparison))
	if advice := f.Says().Advice(f.Comparison, f.Figures.Style); len(advice) > 0 {
		head("What to do")
		for i, x := range advice {
			para(fmt.Sprintf("%2d. ", i+1), x)
		}
	}
	head("What was found")
	for _, r := range f.Comparison.Readings {
		m := r.Measurement
		para("", fmt.Sprintf("%s  %s, wanted %s", m.Subject(), f.Figure(m, r.Found), f.Figure(m, r.Wanted)))
		para("    ", fmt.Sprintf("%s, %s (%s to %s)", f.Off(m, r.Off), f.Verdict(r), f.Figure(m, r.Least), f.Figure(m, r.Greatest)))
	}
	head("Take care")
	for _, x := range words.In(f.Language).Cautions().Check(f.Comparison.Passed) {
		para("- ", x)
	}
	line("")
	para("", f.basis())
	_, err := io.WriteString(out, b.String())
	return err
}

// CSV writes the sheet for other software: RFC 4180, UTF-8, lines ended by CRLF,
// one header line, a decimal point; lengths in millimetres to 0.001, angles in
// degrees to 0.0001.
//
//	kind         distance, height, angle: a reading
//	             move: a peg that stands wrong; value is how far, with its 95 % figure
//	             in accept_to; only where it is named without a doubt
//	             verdict: passed or not passed
//	what         AB, C-AB, BAC; the peg; job and piece
//	wanted, accept_from, accept_to, found, off
//	verdict      good, outside, passed, not passed
//	note         what to do
func (f Found) CSV(out io.Writer) error {
	w := csv.NewWriter(out)
	w.UseCRLF = true
	rows := [][]string{{"kind", "what", "wanted", "accept_from", "accept_to", "found", "off", "verdict", "note"}}
	passed := "passed"
	if !f.Comparison.Passed {
		passed = "not passed"
	}
	rows = append(rows, []string{"verdict", title(f.Job, f.Piece), "", "", "", "", "", passed, strings.Join(f.Says().Advice(f.Comparison, f.Figures.Style), " ")})
	mm := func(l float64) string { return strconv.FormatFloat(l+0, 'f', 3, 64) }
	for _, r := range f.Comparison.Readings {
		m := r.Measurement
		plain := func(x adjust.Figure) string {
			if m.Kind == triangle.Angle {
				return strconv.FormatFloat(x.Angle.Degrees()+0, 'f', 4, 64)
			}
			return mm(x.Length.MM())
		}
		kind := [...]string{triangle.Distance: "distance", triangle.Angle: "angle", triangle.Height: "height"}[m.Kind]
		rows = append(rows, []string{kind, m.Subject(), plain(r.Wanted), plain(r.Least), plain(r.Greatest), plain(r.Found), plain(r.Off), f.Verdict(r), m.Text})
	}
	for _, m := range f.Comparison.Wrong() {
		rows = append(rows, []string{"move", string(m.Name), "0.000", "", mm(m.Figure95.MM()), "", mm(m.Off.MM()), "outside", f.Says().Move(m, f.Figures.Style)})
	}
	if err := w.WriteAll(rows); err != nil {
		return err
	}
	return w.Error()
}
