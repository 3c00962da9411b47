package app

import (
	"fmt"
	"io"
	"math"
	"strings"

	"trammel/cmd/internal/lines"
	"trammel/cmd/internal/solved"
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

func (w Work) text(b *strings.Builder, p solved.Piece) {
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

	tab := lines.Table{{"side", "length", "", "corner", "angle", "height"}}
	order := solved.Corners(t)
	drawn := w.templatePiece(p)
	for i, s := range solved.Sides(t) {
		k := order[i]
		angle := w.Figures.Angle(t.Angles[k])
		if given, ok := drawn.Given(k); ok {
			angle = w.Figures.Given(given)
		}
		tab = append(tab, []string{s.Name, w.Figures.Length(s.Length), "", string(t.Names[k]), angle, w.Figures.Length(t.Heights[k])})
	}
	tab.Write(b, "l r l l r r")
	fmt.Fprintf(b, "\n  area %s, perimeter %s\n", lines.Area(w.Figures, t.Area), w.Figures.Length(t.Perimeter))

	a := p.Solution.Answers[p.Answer]
	if len(a.Moves) > 0 {
		b.WriteString("\n")
		w.sensitivity(p).Write(b, "l r l"+strings.Repeat(" r", 3))
	}
	if a, ok := p.Checked(); ok {
		b.WriteString("\n")
		for _, s := range w.Agreement(a) {
			b.WriteString("  " + s + "\n")
		}
	}
	w.shapeText(b, p)
	for _, s := range p.Cares() {
		b.WriteString("\n  take care: " + s + "\n")
	}
}

// sensitivity is one row a measurement: how well it fits, where more was measured
// than needed, and how far a slip in it moves each corner.
func (w Work) sensitivity(p solved.Piece) lines.Table {
	a := p.Solution.Answers[p.Answer]
	order := solved.Corners(a.Triangle)
	tab := lines.Table{{"measured", "off by", "a slip of", "", "", ""}}
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
		row := []string{lines.Token(of.Text), off, slip, "", "", ""}
		for k, c := range order {
			row[3+k] = lines.SmallLength(w.Figures, unit.Length(times)*m.Corners[c])
		}
		tab = append(tab, row)
	}
	if none {
		tab[0][1] = ""
	}
	return tab
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
