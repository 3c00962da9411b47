package app

import (
	"fmt"
	"slices"
	"strings"

	"trammel/cmd/internal/lines"
	"trammel/cmd/internal/solved"
	"trammel/geom"
	"trammel/plot/template"
)

// cutText writes the figures of the piece that is really cut, which come first.
func (w Work) cutText(b *strings.Builder, p solved.Piece) {
	s := p.Shape
	if len(s.Sides) == 0 || !s.Spared() {
		return
	}
	var sides []string
	for _, side := range s.Sides {
		if l := side.Cut.Length(); l > 0 {
			sides = append(sides, side.Name+" "+w.Figures.Length(l))
		}
	}
	say := "from corner to corner of the cut line"
	for _, v := range s.Corners {
		if v.Cut != nil {
			say = "the straight parts of the cut line"
		}
	}
	fmt.Fprintf(b, "  to cut: %s (%s)\n\n", strings.Join(sides, ", "), say)
}

// shapeText writes what is done to a piece for a person at a terminal.
func (w Work) shapeText(b *strings.Builder, p solved.Piece) {
	s := p.Shape
	if len(s.Sides) == 0 {
		return
	}
	var says []string
	if s.Spared() {
		var each []string
		for _, side := range s.Sides {
			each = append(each, fmt.Sprintf("%s %s", side.Name, lines.Signed(w.Figures, side.Allow)))
		}
		says = append(says, "cut line beyond the finished edge: "+strings.Join(each, ", "))
	}
	a := s.Areas()
	say := "area finished " + lines.Area(w.Figures, a.Net)
	if a.Holes > 0 {
		say += " (holes " + lines.Area(w.Figures, a.Holes) + " taken out)"
	}
	says = append(says, say+", inside the cut line "+lines.Area(w.Figures, a.Cut))
	for _, h := range s.Bores {
		c := h.Circle.Centre
		says = append(says, fmt.Sprintf("hole Ø %s, centre %s along %s and %s above it", w.Figures.Length(h.Hole.Diameter), w.Figures.Length(c.X), s.Sides[0].Name, w.Figures.Length(c.Y)))
	}
	if p.Grain != ([2]geom.Name{}) {
		says = append(says, "grain along "+string(p.Grain[0]+p.Grain[1]))
	}
	for _, say := range []string{p.Facing(), map[bool]string{true: "one of each hand"}[w.paired(p)]} {
		if say != "" {
			says = append(says, say)
		}
	}
	b.WriteString("\n")
	for _, say := range says {
		b.WriteString("  " + say + "\n")
	}
	b.WriteString("\n")
	rows := template.Settings(w.templatePiece(p), w.style())
	tab := lines.Table{}
	for i, row := range rows {
		if i == 0 {
			row = slices.Clone(row)
			for k := range row {
				row[k] = strings.ReplaceAll(row[k], "\n", " ")
			}
		}
		tab = append(tab, row)
	}
	tab.Write(b, "l r l l r r")
	for _, say := range strings.SplitAfter(strings.Join(template.AboutSettings(w.templatePiece(p), w.style()), " "), ". ") { // a sentence a line
		b.WriteString("  " + strings.TrimSpace(say) + "\n")
	}
}
