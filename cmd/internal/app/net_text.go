package app

import (
	"fmt"
	"math"
	"strings"

	"trammel/geom"
	"trammel/geom/net"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/words"
)

// around is the corners of an outline once round from the first in the alphabet.
func around(o geom.Outline) []int {
	first := 0
	for i, n := range o.Names {
		if alphabet(n, o.Names[first]) < 0 {
			first = i
		}
	}
	order := make([]int, len(o.Names))
	for k := range order {
		order[k] = (first + k) % len(o.Names)
	}
	return order
}

// agrees says whether nothing is doubtful in what was measured more than once.
func agrees(a net.Adjusted) bool { return a.Global.Passed && len(a.Suspects) == 0 }

// findings are what is said of an adjustment: what is good to know, and what to take
// care of.
func (w Work) findings(a net.Adjusted) (info, cares []string) {
	n := w.says().Nets()
	info, cares = remarks(n.Findings(a, w.Figures)), remarks(n.Doubts(a))
	if !agrees(a) {
		return nil, append(info, cares...)
	}
	return info, cares
}

func remarks(all []words.Remark) (said []string) {
	for _, r := range all {
		said = append(said, string(r))
	}
	return said
}

// agreement is what is good to know of an adjustment.
func (w Work) agreement(a net.Adjusted) []string {
	info, _ := w.findings(a)
	if s, ok := rectangle(a); ok {
		info = append(info, string(w.says().Nets().Rectangle(s, w.Figures)))
	}
	for i, s := range info {
		info[i] = sentence(s)
	}
	return info
}

func sentence(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// nearlySquare is how far the angles of four corners may be from right ones for the
// question to arise whether they are a rectangle.
const nearlySquare = 5 * unit.Degree

// rectangle says whether four corners are a rectangle, where they look like one or
// all of them was measured.
func rectangle(a net.Adjusted) (net.Squareness, bool) {
	if len(a.Outline) != 4 {
		return net.Squareness{}, false
	}
	s := a.Rectangle([4]geom.Name(a.Outline))
	for _, angle := range geom.OutlineOf(a.Outline, a.Polygon()).Angles {
		if math.Abs(float64(angle-unit.Turn/4)) > float64(nearlySquare) {
			return s, s.Measured && s.Diagonals.Alike // that alone would mislead
		}
	}
	return s, true
}

// checked is the adjustment of a net, or of a triangle of which more was measured than
// needed.
func (p Piece) checked() (net.Adjusted, bool) {
	switch {
	case p.Net != nil:
		return *p.Net, true
	case p.adjusted != nil:
		return *p.adjusted, true
	}
	return net.Adjusted{}, false
}

// netText writes a net for a person at a terminal.
func (w Work) netText(b *strings.Builder, p Piece) {
	a, o := *p.Net, p.Outline()
	head := []string{p.Name, fmt.Sprintf("net of %d points", len(a.Names))}
	if p.several != nil {
		head = append(head, fmt.Sprintf("%d of %d that fit", p.Answer+1, len(p.several.Answers)))
	}
	if p.Quantity > 1 {
		head = append(head, fmt.Sprintf("%d off", p.Quantity))
	}
	b.WriteString(strings.Join(append(head, w.Figures.Name()), "   ") + "\n\n")
	w.cutText(b, p)

	w.pointTable(p).write(b, "l r r r l r l r")
	if len(o.Names) > 0 {
		fmt.Fprintf(b, "\n  area %s, perimeter %s; corners counter-clockwise, %s along x\n", w.area(o.Area()), w.Figures.Length(o.Perimeter()), a.Base[0]+a.Base[1])
	} else {
		fmt.Fprintf(b, "\n  no outline named; %s along x\n", a.Base[0]+a.Base[1])
	}

	w.wayText(b, p)
	b.WriteString("\n")
	w.measuredTable(a).write(b, "l r r r r r l")
	if a.Freedom > 0 {
		b.WriteString("\n  off by: adjusted less measured; σ: of one reading, 2σ hold 95 of 100;\n  shows: how much of a slip would show; of σ: off by in its own σ, over 3.3 is hardly chance\n")
	}
	for i, s := range w.agreement(a) {
		if i == 0 {
			b.WriteString("\n")
		}
		b.WriteString("  " + s + "\n")
	}

	b.WriteString("\n  found one by one, then adjusted together:\n")
	for _, f := range a.Found[:min(len(a.Found), mostFound)] {
		b.WriteString("    " + string(w.says().Nets().Found(a, f)) + "\n")
	}
	if n := len(a.Found) - mostFound; n > 0 {
		fmt.Fprintf(b, "    and %d more\n", n)
	}
	w.shapeText(b, p)
	for _, s := range p.cares() {
		b.WriteString("\n  take care: " + s + "\n")
	}
}

// wayText says in which of several ways the points lie.
func (w Work) wayText(b *strings.Builder, p Piece) {
	a := *p.Net
	if len(a.Others) == 0 || a.Disputed || len(a.Mine.Sides) == 0 {
		return
	}
	fmt.Fprintf(b, "  this one has %s\n", w.says().Nets().Placement(a.Mine))
	if p.several != nil {
		return
	}
	for _, o := range a.Others {
		fmt.Fprintf(b, "  what was measured fits as well with %s\n", w.placement(o))
	}
}

// mostFound is how many points are told how they were found.
const mostFound = 40

// pointTable is a row a point: where it lies and how sure, and for a corner the
// angle inside and the side to the next.
func (w Work) pointTable(p Piece) table {
	a, o := *p.Net, p.Outline()
	tab := table{{"point", "x", "y", "95 % within", "", "angle", "side", "length"}}
	row := func(n geom.Name, at geom.Point) []string {
		within := "held"
		if n != a.Base[0] {
			within = w.smallLength(a.Covariance(n).Figure95())
		}
		return []string{string(n), w.Figures.Length(at.X), w.Figures.Length(at.Y), within, "", "", "", ""}
	}
	for _, i := range around(o) {
		r := row(o.Names[i], o.Points[i])
		n := len(o.Names)
		r[5], r[6], r[7] = w.angleKnown(o.Angles[i], a.Corner(o.Names[(i+n-1)%n], o.Names[i], o.Names[(i+1)%n])), o.Side(i), w.Figures.Length(o.Sides[i])
		tab = append(tab, r)
	}
	for _, s := range p.Construction.Inner {
		tab = append(tab, row(s.Name, s.At))
	}
	return tab
}

// measuredTable is a row a measurement: what the adjustment made of it.
func (w Work) measuredTable(a net.Adjusted) table {
	tab := table{{"measured", "adjusted", "off by", "σ", "shows", "of σ", ""}}
	suspect := map[int]string{}
	for i, s := range a.Suspects {
		if i == 0 || s.Alike {
			suspect[s.Index] = "read again"
		}
	}
	for i, r := range a.Results {
		k := r.Measurement.Kind
		row := []string{token(r.Measurement.Text), w.Figures.Length(r.Adjusted.Length), "", w.smallLength(r.Sigma.Length), "", "", suspect[i]}
		if d := r.Residual.Length; math.Abs(d.MM()) >= 0.05 {
			row[2] = w.signedSmall(d)
		}
		if k == triangle.Angle {
			row[1], row[3] = w.Figures.Angle(r.Adjusted.Angle), fmt.Sprintf("%.2f°", r.Sigma.Angle.Degrees())
			if d := r.Residual.Angle.Degrees(); math.Abs(d) >= 0.005 {
				row[2] = fmt.Sprintf("%+.2f°", d)
			}
			if r.Sigma.Angle < secondsBelow {
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

// secondsBelow is the uncertainty below which an angle is written to the second.
const secondsBelow = unit.Degree / 60

// angleKnown is an angle as figures have it, and where those are in minutes and it is
// known to less than one, to the second.
func (w Work) angleKnown(a, sigma unit.Angle) string {
	if w.Figures.Minutes && sigma < secondsBelow {
		return unit.Seconds(a)
	}
	return w.Figures.Angle(a)
}

// smallLength is a few millimetres to a tenth, or where inches are read, to a hundredth
// of one.
func (w Work) smallLength(l unit.Length) string {
	if w.Figures.Unit >= unit.IN {
		return fmt.Sprintf("%.2f in", float64(l/unit.Inch))
	}
	return fmt.Sprintf("%.1f mm", l.MM())
}

// signedSmall is the same with its sign.
func (w Work) signedSmall(l unit.Length) string {
	if l < 0 {
		return "-" + w.smallLength(-l)
	}
	return "+" + w.smallLength(l)
}
