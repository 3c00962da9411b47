package app

import (
	"fmt"
	"math"

	"trammel/cmd/internal/lines"
	"trammel/cmd/internal/solved"
	"trammel/geom"
	"trammel/geom/net"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// net writes a net, and how its points were found.
func (w *screen) net(p solved.Piece) {
	a, o := *p.Net, p.Outline()
	w.pointTable(p).Write(&w.Builder, "l r r r l r l r")
	if len(o.Names) > 0 {
		w.print("\n  area %s, perimeter %s; corners counter-clockwise, %s along x\n", lines.Area(w.Figures, o.Area()), w.Figures.Length(o.Perimeter()), a.Base[0]+a.Base[1])
	} else {
		w.print("\n  no outline named; %s along x\n", a.Base[0]+a.Base[1])
	}
	w.placement(p)
	w.print("\n")
	w.measuredTable(a).Write(&w.Builder, "l r r r r r l")
	if a.Freedom > 0 {
		w.print("\n  off by: adjusted less measured; keeps: what one reading keeps 2 times in 3, and twice that 95 in 100;\n  shows: how much of a slip would show; times: off by counted in what it may be off itself, over 3.3 is hardly chance\n")
	}
	if said := w.Agreement(a); len(said) > 0 {
		w.print("\n")
		w.lines(said)
	}
	w.print("\n  found one by one, then adjusted together:\n")
	for _, f := range a.Placed[:min(len(a.Placed), mostFound)] {
		w.print("    %s\n", w.Words().Nets().Found(a, f))
	}
	if n := len(a.Placed) - mostFound; n > 0 {
		w.print("    and %d more\n", n)
	}
}

func (w *screen) placement(p solved.Piece) {
	a := *p.Net
	if len(a.Others) == 0 || a.Disputed || len(a.Mine.Sides) == 0 {
		return
	}
	w.print("  this one has %s\n", w.Words().Nets().Placement(a.Mine))
	if p.Several != nil {
		return
	}
	for _, o := range a.Others {
		w.print("  what was measured fits as well with %s\n", w.Placement(o))
	}
}

// mostFound is how many points are told how they were found.
const mostFound = 40

// pointTable is a row a point: where it lies and how sure, and for a corner the
// angle inside and the side to the next.
func (w *screen) pointTable(p solved.Piece) lines.Table {
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
func (w *screen) measuredTable(a net.Adjusted) lines.Table {
	tab := lines.Table{{"measured", "adjusted", "off by", "keeps", "shows", "times", ""}}
	suspect := map[int]string{}
	for i, s := range a.Suspects {
		if i == 0 || s.Alike {
			suspect[s.Index] = "read again"
		}
	}
	for i, r := range a.Results {
		adjusted, off, sigma := w.Figures.Length(r.Adjusted.Length), lines.SignedSmall(w.Figures, r.Residual.Length), lines.SmallLength(w.Figures, r.Sigma.Length)
		size, seen := math.Abs(r.Residual.Length.MM()), 0.05
		switch d, of := r.Residual.Angle.Degrees(), r.Sigma.Angle.Degrees(); {
		case r.Measurement.Kind != triangle.Angle:
		case r.Sigma.Angle < lines.SecondsBelow:
			adjusted, off, sigma = unit.Seconds(r.Adjusted.Angle), fmt.Sprintf("%+.0f″", d*3600), fmt.Sprintf("%.1f″", of*3600)
			size, seen = math.Abs(d*3600), 0.5
		default:
			adjusted, off, sigma = w.Figures.Angle(r.Adjusted.Angle), fmt.Sprintf("%+.2f°", d), fmt.Sprintf("%.2f°", of)
			size, seen = math.Abs(d), 0.005
		}
		if size < seen {
			off = ""
		}
		row := []string{unit.Cut(r.Measurement.Text, most), adjusted, off, sigma, "", "", suspect[i]}
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
