package app

import (
	"io"
	"strings"

	"trammel/cmd/internal/lines"
	"trammel/geom/unit"
	"trammel/plot/check"
)

func (c *checkSheets) words(out io.Writer) error {
	var b strings.Builder
	if c.work.Title != "" {
		b.WriteString(c.work.Title + "\n\n")
	}
	for i, f := range c.all {
		if i > 0 {
			b.WriteString("\n\n")
		}
		checkText(&b, f)
	}
	if len(c.silent) > 0 {
		b.WriteString("\n")
		lines.Paragraph(&b, "  ", "Nothing was measured back of "+strings.Join(c.silent, ", ")+".")
	}
	_, err := io.WriteString(out, b.String())
	return err
}

func checkText(b *strings.Builder, f check.Sheet) {
	b.WriteString(strings.Join([]string{f.Piece, "check", f.Figures.Style.Name()}, "   ") + "\n\n")
	var columns [5][]string
	for _, r := range f.Comparison.Readings {
		m := r.Measurement
		for k, s := range []string{f.Figure(m, r.Wanted), f.Figure(m, r.Least), f.Figure(m, r.Greatest), f.Figure(m, r.Found), f.Off(m, r.Off)} {
			columns[k] = append(columns[k], s)
		}
	}
	for k := range columns {
		columns[k] = lines.OnPoint(columns[k])
	}
	tab := lines.Table{{"reading", "wanted", "accept from", "to", "found", "off by", ""}}
	for i, r := range f.Comparison.Readings {
		row := []string{unit.Cut(r.Measurement.Subject(), most)}
		for k := range columns {
			row = append(row, columns[k][i])
		}
		tab = append(tab, append(row, f.Says().Reading(r)))
	}
	tab.Write(b, "l r r r r r l")
	b.WriteString("\n")
	lines.Paragraph(b, "  ", f.Says().Verdict(f.Comparison))
	for k, s := range f.Says().Advice(f.Comparison, f.Figures.Style) {
		if k == 0 {
			b.WriteString("\n")
		}
		lines.Paragraph(b, "  ", s)
	}
}
