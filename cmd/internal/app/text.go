package app

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"trammel/cmd/internal/lines"
	"trammel/cmd/internal/solved"
	"trammel/geom"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/template"
)

// screen gathers what was found for a person at a terminal: columns, a blank line
// between thoughts.
type screen struct {
	strings.Builder
	Work
}

// Text writes what was found for a person at a terminal.
func (w Work) Text(out io.Writer) error {
	s := &screen{Work: w}
	if w.Title != "" {
		s.print("%s\n\n", w.Title)
	}
	for i, p := range w.Pieces {
		if p.Other { // nothing new to read
			continue
		}
		if i > 0 {
			s.print("\n\n")
		}
		s.piece(p)
	}
	_, err := io.WriteString(out, s.String())
	return err
}

// most letters of a measurement are shown in a table.
const most = 40

func (w *screen) print(form string, with ...any) { fmt.Fprintf(w, form, with...) }

func (w *screen) lines(all []string) {
	for _, l := range all {
		w.print("  %s\n", l)
	}
}

func (w *screen) piece(p solved.Piece) {
	what, fit := p.Solution.Case, len(p.Solution.Answers)
	if p.Net != nil {
		what, fit = fmt.Sprintf("net of %d points", len(p.Net.Names)), 0
	}
	if p.Several != nil {
		fit = len(p.Several.Answers)
	}
	head := []string{p.Name, what}
	if fit > 1 {
		head = append(head, fmt.Sprintf("%d of %d that fit", p.Answer+1, fit))
	}
	if p.Quantity > 1 {
		head = append(head, fmt.Sprintf("mark %d", p.Quantity))
	}
	w.print("%s\n\n", strings.Join(append(head, w.Figures.Name()), "   "))
	w.cut(p)
	if p.Net != nil {
		w.net(p)
	} else {
		w.triangle(p)
	}
	w.shape(p)
	for _, c := range p.Cares() {
		w.print("\n  warning: %s\n", c)
	}
}

func (w *screen) triangle(p solved.Piece) {
	t := p.Triangle()
	tab := lines.Table{{"side", "length", "", "corner", "angle", "height"}}
	order := solved.Corners(t)
	drawn := w.templatePiece(p)
	for i, side := range solved.Sides(t) {
		k := order[i]
		angle := w.Figures.Angle(t.Angles[k])
		if given, ok := drawn.Given(k); ok {
			angle = w.Figures.Given(given)
		}
		tab = append(tab, []string{side.Name, w.Figures.Length(side.Length), "", string(t.Names[k]), angle, w.Figures.Length(t.Heights[k])})
	}
	tab.Write(&w.Builder, "l r l l r r")
	w.print("\n  area %s, perimeter %s\n", lines.Area(w.Figures, t.Area), w.Figures.Length(t.Perimeter))
	if len(p.Solution.Answers[p.Answer].Moves) > 0 {
		w.print("\n")
		w.sensitivity(p).Write(&w.Builder, "l r l r r r")
	}
	if a, ok := p.Checked(); ok {
		w.print("\n")
		w.lines(w.Agreement(a))
	}
}

// sensitivity is one row a measurement: how well it fits, where more was measured
// than needed, and how far a slip in it moves each corner.
func (w *screen) sensitivity(p solved.Piece) lines.Table {
	a := p.Solution.Answers[p.Answer]
	order := solved.Corners(a.Triangle)
	tab := lines.Table{{"measured", "", "a slip of", "", "", ""}}
	for k, c := range order {
		tab[0][3+k] = "moves " + string(a.Triangle.Names[c])
	}
	for _, m := range a.Moves {
		of := p.Solution.Measured[m.Measurement]
		slip, times, off := "1 mm", 1.0, ""
		if m.Measurement < len(a.Residuals) {
			off = w.residual(a.Residuals[m.Measurement])
		}
		switch {
		case of.Kind == triangle.Angle:
			slip = "0.5°"
		case w.Figures.Unit >= unit.IN:
			slip, times = "1/16 in", unit.Inch.MM()/16
		}
		if off != "" {
			tab[0][1] = "off by"
		}
		row := []string{unit.Cut(of.Text, most), off, slip, "", "", ""}
		for k, c := range order {
			row[3+k] = lines.SmallLength(w.Figures, unit.Length(times)*m.Corners[c])
		}
		tab = append(tab, row)
	}
	return tab
}

// residual is what the triangle's figure is more than the measured one, empty
// where it is less than is ever seen.
func (w *screen) residual(r triangle.Residual) string {
	switch angle, length := r.Angle.Degrees(), r.Length.MM(); {
	case math.Abs(angle) >= 0.0005:
		return fmt.Sprintf("%+.3f°", angle)
	case math.Abs(length) < 0.005:
		return ""
	case w.Figures.Unit >= unit.IN:
		return fmt.Sprintf("%+.3f in", length/unit.Inch.MM())
	default:
		return fmt.Sprintf("%+.2f mm", length)
	}
}

// cut writes the figures of the piece that is really cut, which come first.
func (w *screen) cut(p solved.Piece) {
	if len(p.Shape.Sides) == 0 || !p.Shape.Spared() {
		return
	}
	var sides []string
	for _, side := range p.Shape.Sides {
		if l := side.Cut.Length(); l > 0 {
			sides = append(sides, side.Name+" "+w.Figures.Length(l))
		}
	}
	say := "from corner to corner of the cut line"
	for _, v := range p.Shape.Corners {
		if v.Cut != nil {
			say = "the straight parts of the cut line"
		}
	}
	w.print("  to cut: %s (%s)\n\n", strings.Join(sides, ", "), say)
}

func (w *screen) shape(p solved.Piece) {
	of, f := p.Shape, w.Figures
	if len(of.Sides) == 0 {
		return
	}
	w.print("\n")
	if of.Spared() {
		var each []string
		for _, side := range of.Sides {
			each = append(each, fmt.Sprintf("%s %s", side.Name, f.Signed(side.Allow)))
		}
		w.print("  cut line beyond the finished edge: %s\n", strings.Join(each, ", "))
	}
	a, holes := of.Areas(), ""
	if a.Holes > 0 {
		holes = " (holes " + lines.Area(f, a.Holes) + " taken out)"
	}
	w.print("  area finished %s%s, inside the cut line %s\n", lines.Area(f, a.Net), holes, lines.Area(f, a.Cut))
	for _, h := range of.Bores {
		c := h.Circle.Centre
		w.print("  hole Ø %s, centre %s along %s and %s above it\n", f.Length(h.Hole.Diameter), f.Length(c.X), of.Sides[0].Name, f.Length(c.Y))
	}
	if p.Grain != ([2]geom.Name{}) {
		w.print("  grain along %s\n", p.Grain[0]+p.Grain[1])
	}
	if p.Facing() != "" {
		w.print("  %s\n", p.Facing())
	}
	if w.Job.Pieces[p.Index].Shape.Pair {
		w.print("  of both hands\n")
	}
	w.print("\n")
	tab := lines.Table(template.Settings(w.templatePiece(p), w.style()))
	tab[0] = slices.Clone(tab[0])
	for k, c := range tab[0] {
		tab[0][k] = strings.ReplaceAll(c, "\n", " ")
	}
	tab.Write(&w.Builder, "l r l l r r")
	for _, say := range strings.SplitAfter(strings.Join(template.AboutSettings(w.templatePiece(p), w.style()), " "), ". ") { // a sentence a line
		w.lines([]string{strings.TrimSpace(say)})
	}
}
