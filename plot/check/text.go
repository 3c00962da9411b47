package check

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"strings"

	"trammel/geom/adjust"
	"trammel/geom/triangle"
	"trammel/plot/phone"
	"trammel/plot/words"
)

// Text writes the sheet as plain text for a phone, as Sheet.Text does.
func (s Sheet) Text(out io.Writer) error {
	var t phone.Text
	if title := s.Title(); title != "" {
		t.Para("", title)
	}
	t.Para("", s.heads().Title(true)+". "+s.heads().Units(true, s.written().Style)[1])
	if s.Date != "" {
		t.Para("", s.Date)
	}
	t.Line("")
	t.Para("", s.Says().Verdict(s.Comparison))
	if advice := s.Says().Advice(s.Comparison, s.written().Style); len(advice) > 0 {
		t.Head(s.heads().Heading(words.PartAdvice))
		for i, x := range advice {
			t.Para(fmt.Sprintf("%2d. ", i+1), x)
		}
	}
	t.Head(s.heads().Heading(words.PartFound))
	for _, r := range s.Comparison.Readings {
		m := r.Measurement
		t.Para("", fmt.Sprintf("%s  %s, wanted %s", m.Subject(), s.Figure(m, r.Found), s.Figure(m, r.Wanted)))
		t.Para("    ", fmt.Sprintf("%s, %s (%s to %s)", s.Off(m, r.Off), s.Says().Reading(r), s.Figure(m, r.Least), s.Figure(m, r.Greatest)))
	}
	t.Head(s.heads().Heading(words.PartBefore))
	t.List(words.In(s.Language).Cautions().Check(s.Comparison.Passed))
	t.Line("")
	t.Para("", s.held())
	_, err := t.WriteTo(out)
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
func (s Sheet) CSV(out io.Writer) error {
	w := csv.NewWriter(out)
	w.UseCRLF = true
	rows := [][]string{{"kind", "what", "wanted", "accept_from", "accept_to", "found", "off", "verdict", "note"}}
	passed := "passed"
	if !s.Comparison.Passed {
		passed = "not passed"
	}
	rows = append(rows, []string{"verdict", s.Title(), "", "", "", "", "", passed, strings.Join(s.Says().Advice(s.Comparison, s.written().Style), " ")})
	mm := func(l float64) string { return strconv.FormatFloat(l+0, 'f', 3, 64) }
	for _, r := range s.Comparison.Readings {
		m := r.Measurement
		plain := func(x adjust.Figure) string {
			if m.Kind == triangle.Angle {
				return strconv.FormatFloat(x.Angle.Degrees()+0, 'f', 4, 64)
			}
			return mm(x.Length.MM())
		}
		kind := [...]string{triangle.Distance: "distance", triangle.Angle: "angle", triangle.Height: "height"}[m.Kind]
		rows = append(rows, []string{kind, m.Subject(), plain(r.Wanted), plain(r.Least), plain(r.Greatest), plain(r.Found), plain(r.Off), s.Says().Reading(r), m.Text})
	}
	for _, m := range s.Comparison.Wrong() {
		rows = append(rows, []string{"move", string(m.Name), "0.000", "", mm(m.Figure95.MM()), "", mm(m.Off.MM()), "outside", s.Says().Move(m, s.written().Style)})
	}
	return w.WriteAll(rows)
}
