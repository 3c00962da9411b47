package app

import (
	"fmt"
	"io"
	"math"
	"strings"
	"unicode/utf8"

	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// Text writes what was found for a person at a terminal: columns, a blank line
// between thoughts.
func (w Work) Text(out io.Writer) error {
	var b strings.Builder
	if w.Title != "" {
		b.WriteString(w.Title + "\n\n")
	}
	for i, p := range w.Pieces {
		if p.Other { // nothing new to read
			continue
		}
		if i > 0 {
			b.WriteString("\n\n")
		}
		w.text(&b, p)
	}
	_, err := io.WriteString(out, b.String())
	return err
}

func (w Work) text(b *strings.Builder, p Piece) {
	if p.Net != nil {
		w.netText(b, p)
		return
	}
	t := p.Triangle()
	head := []string{p.Name, p.Solution.Case}
	if n := len(p.Solution.Answers); n > 1 {
		head = append(head, fmt.Sprintf("%d of %d that fit", p.Answer+1, n))
	}
	if p.Quantity > 1 {
		head = append(head, fmt.Sprintf("%d off", p.Quantity))
	}
	b.WriteString(strings.Join(append(head, w.Figures.Name()), "   ") + "\n\n")
	w.cutText(b, p)

	tab := table{{"side", "length", "", "corner", "angle", "height"}}
	order := corners(t)
	drawn := w.templatePiece(p)
	for i, s := range sides(t) {
		k := order[i]
		angle := w.Figures.Angle(t.Angles[k])
		if given, ok := drawn.Given(k); ok {
			angle = w.Figures.Given(given)
		}
		tab = append(tab, []string{s.name, w.Figures.Length(s.length), "", string(t.Names[k]), angle, w.Figures.Length(t.Heights[k])})
	}
	tab.write(b, "l r l l r r")
	fmt.Fprintf(b, "\n  area %s, perimeter %s\n", w.area(t.Area), w.Figures.Length(t.Perimeter))

	a := p.Solution.Answers[p.Answer]
	if len(a.Moves) > 0 {
		b.WriteString("\n")
		w.sensitivity(p).write(b, "l r l"+strings.Repeat(" r", 3))
	}
	if a, ok := p.checked(); ok {
		b.WriteString("\n")
		for _, s := range w.agreement(a) {
			b.WriteString("  " + s + "\n")
		}
	}
	w.shapeText(b, p)
	for _, s := range p.cares() {
		b.WriteString("\n  take care: " + s + "\n")
	}
}

// sensitivity is one row a measurement: how well it fits, where more was measured
// than needed, and how far a slip in it moves each corner.
func (w Work) sensitivity(p Piece) table {
	a := p.Solution.Answers[p.Answer]
	order := corners(a.Triangle)
	tab := table{{"measured", "off by", "a slip of", "", "", ""}}
	for k, c := range order {
		tab[0][3+k] = "moves " + string(a.Triangle.Names[c])
	}
	none := true
	for _, m := range a.Moves {
		of := p.Solution.Measured[m.Measurement]
		slip, times, off := "1 mm", 1.0, w.residual(a, m.Measurement, of.Kind)
		switch {
		case of.Kind == triangle.Angle:
			slip = "0.5°"
		case w.Figures.Unit >= unit.IN:
			slip, times = "1/16 in", unit.Inch.MM()/16
		}
		none = none && off == ""
		row := []string{token(of.Text), off, slip, "", "", ""}
		for k, c := range order {
			row[3+k] = w.smallLength(unit.Length(times) * m.Corners[c])
		}
		tab = append(tab, row)
	}
	if none {
		tab[0][1] = ""
	}
	return tab
}

// token is a measurement as written, cut where it is unreasonably long.
func token(text string) string {
	if r := []rune(text); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return text
}

// residual is what the triangle's figure is more than the measured one, empty
// where it is less than is ever seen.
func (w Work) residual(a triangle.Answer, i int, kind triangle.Kind) string {
	if i >= len(a.Residuals) {
		return ""
	}
	if kind == triangle.Angle {
		if d := a.Residuals[i].Angle.Degrees(); math.Abs(d) >= 0.0005 {
			return fmt.Sprintf("%+.3f°", d)
		}
		return ""
	}
	switch l := a.Residuals[i].Length.MM(); {
	case math.Abs(l) < 0.005:
	case w.Figures.Unit >= unit.IN:
		return fmt.Sprintf("%+.3f in", l/unit.Inch.MM())
	default:
		return fmt.Sprintf("%+.2f mm", l)
	}
	return ""
}

// area in the square of a unit that gives it three digits or so.
func (w Work) area(a unit.Area) string {
	mm2 := float64(a)
	const inch2, foot2 = 25.4 * 25.4, 304.8 * 304.8
	switch {
	case w.Figures.Unit >= unit.IN && mm2 >= foot2:
		return figures(mm2/foot2) + " sq ft"
	case w.Figures.Unit >= unit.IN:
		return figures(mm2/inch2) + " sq in"
	case mm2 >= 1e4:
		return figures(mm2/1e6) + " m²"
	}
	return figures(mm2) + " mm²"
}

// figures writes four significant digits, never with an exponent.
func figures(x float64) string {
	digits := 0
	if x > 0 {
		digits = max(0, 3-int(math.Floor(math.Log10(x))))
	}
	s := fmt.Sprintf("%.*f", digits, x)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

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
