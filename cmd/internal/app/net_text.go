package app

import (
	"fmt"
	"math"
	"strings"

	"trammel/cmd/internal/lines"
	"trammel/cmd/internal/solved"
	"trammel/geom"
	"trammel/geom/net"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// netText writes a net for a person at a terminal.
func (w Work) netText(b *strings.Builder, p solved.Piece) {
	a, o := *p.Net, p.Outline()
	head := []string{p.Name, fmt.Sprintf("net of %d points", len(a.Names))}
	if p.Several != nil {
		head = append(head, fmt.Sprintf("%d of %d that fit", p.Answer+1, len(p.Several.Answers)))
	}
	if p.Quantity > 1 {
		head = append(head, fmt.Sprintf("%d off", p.Quantity))
	}
	b.WriteString(strings.Join(append(head, w.Figures.Name()), "   ") + "\n\n")
	w.cutText(b, p)

	w.pointTable(p).Write(b, "l r r r l r l r")
	if len(o.Names) > 0 {
		fmt.Fprintf(b, "\n  area %s, perimeter %s; corners counter-clockwise, %s along x\n", lines.Area(w.Figures, o.Area()), w.Figures.Length(o.Perimeter()), a.Base[0]+a.Base[1])
	} else {
		fmt.Fprintf(b, "\n  no outline named; %s along x\n", a.Base[0]+a.Base[1])
	}

	w.wayText(b, p)
	b.WriteString("\n")
	w.measuredTable(a).Write(b, "l r r r r r l")
	if a.Freedom > 0 {
		b.WriteString("\n  off by: adjusted less measured; σ: of one reading, 2σ hold 95 of 100;\n  shows: how much of a slip would show; of σ: off by in its own σ, over 3.3 is hardly chance\n")
	}
	for i, s := range w.Agreement(a) {
		if i == 0 {
			b.WriteString("\n")
		}
		b.WriteString("  " + s + "\n")
	}

	b.WriteString("\n  found one by one, then adjusted together:\n")
	for _, f := range a.Placed[:min(len(a.Placed), mostFound)] {
		b.WriteString("    " + string(w.Says().Nets().Found(a, f)) + "\n")
	}
	if n := len(a.Placed) - mostFound; n > 0 {
		fmt.Fprintf(b, "    and %d more\n", n)
	}
	w.shapeText(b, p)
	for _, s := range p.Cares() {
		b.WriteString("\n  take care: " + s + "\n")
	}
}

// wayText says in which of several ways the points lie.
func (w Work) wayText(b *strings.Builder, p solved.Piece) {
	a := *p.Net
	if len(a.Others) == 0 || a.Disputed || len(a.Mine.Sides) == 0 {
		return
	}
	fmt.Fprintf(b, "  this one has %s\n", w.Says().Nets().Placement(a.Mine))
	if p.Several != nil {
		return
	}
	for _, o := range a.Others {
		fmt.Fprintf(b, "  what was measured fits as well with %s\n", w.Placement(o))
	}
}

// mostFound is how many points are told how they were found.
const mostFound = 40

// pointTable is a row a point: where it lies and how sure, and for a corner the
// angle inside and the side to the next.
func (w Work) pointTable(p solved.Piece) lines.Table {
	a, o := *p.Net, p.Outline()
	tab := lines.Table{{"point", "x", "y", "95 % within", "", "angle", "side", "length"}}
	row := func(n geom.Name, at geom.Point) []string {
		within := "held"
		if n != a.Base[0] {
			within = lines.SmallLength(w.Figures, a.Covariance(n).Figure95())
		}
		return []string{string(n), w.Figures.Length(at.X), w.Figures.Length(at.Y), within, "", "", "", ""}
	}
	for _, i := range solved.Around(o) {
		r := row(o.Names[i], o.Points[i])
		n := len(o.Names)
		r[5], r[6], r[7] = lines.AngleKnown(w.Figures, o.Angles[i], a.Corner(o.Names[(i+n-1)%n], o.Names[i], o.Names[(i+1)%n])), o.Side(i), w.Figures.Length(o.Sides[i])
		tab = append(tab, r)
	}
	for _, s := range p.Construction.Inner {
		tab = append(tab, row(s.Name, s.At))
	}
	return tab
}

// measuredTable is a row a measurement: what the adjustment made of it.
func (w Work) measuredTable(a net.Adjusted) lines.Table {
	tab := lines.Table{{"measured", "adjusted", "off by", "σ", "shows", "of σ", ""}}
	suspect := map[int]string{}
	for i, s := range a.Suspects {
		if i == 0 || s.Alike {
			suspect[s.Index] = "read again"
		}
	}
	for i, r := range a.Results {
		k := r.Measurement.Kind
		row := []string{lines.Token(r.Measurement.Text), w.Figures.Length(r.Adjusted.Length), "", lines.SmallLength(w.Figures, r.Sigma.Length), "", "", suspect[i]}
		if d := r.Residual.Length; math.Abs(d.MM()) >= 0.05 {
			row[2] = lines.SignedSmall(w.Figures, d)
		}
		if k == triangle.Angle {
			row[1], row[3] = w.Figures.Angle(r.Adjusted.Angle), fmt.Sprintf("%.2f°", r.Sigma.Angle.Degrees())
			if d := r.Residual.Angle.Degrees(); math.Abs(d) >= 0.005 {
				row[2] = fmt.Sprintf("%+.2f°", d)
			}
			if r.Sigma.Angle < lines.SecondsBelow {
				row[1], row[3] = unit.Seconds(r.Adjusted.Angle), fmt.Sprintf("%.1f″", r.Sigma.Angle.Degrees()*3600)
				if row[2] = ""; math.Abs(r.Residual.Angle.Degrees()*3600) >= 0.5 {
					row[2] = fmt.Sprintf("%+.0f″", r.Residual.Angle.Degrees()*3600)
				}
			}
		}
		switch {
		case a.Freedom == 0:
		case r.Redundancy < net.Checked:
			row[4] = "nothing"
		default:
			row[4], row[5] = fmt.Sprintf("%.0f %%", 100*r.Redundancy), fmt.Sprintf("%.1f", math.Abs(r.W))
		}
		tab = append(tab, row)
	}
	if a.Freedom == 0 {
		tab[0][2], tab[0][4], tab[0][5] = "", "", ""
	}
	return tab
}
