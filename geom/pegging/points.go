package pegging

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/net"
	"trammel/geom/passage"
	"trammel/geom/tape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// Points are those of a net as measured and adjusted, in the order of walking round.
type Points struct {
	tape.Figures // what is measured and what is computed is told apart by what is written
	Net          net.Adjusted
	Outline      []geom.Name // once round, counter-clockwise; empty: the points have no edge

	order []geom.Name              // the outline, then the other points
	at    map[geom.Name]geom.Point // in the net's own plane
	open  passage.Passage          // which lines may be pulled, where some may not
}

func pointsOf(n net.Adjusted, f tape.Figures) Points {
	p := Points{Figures: f, Net: n, Outline: n.Outline, at: map[geom.Name]geom.Point{}}
	for i, name := range n.Names {
		p.at[name] = n.Points[i]
	}
	p.order = append(p.order, n.Outline...)
	for _, name := range n.Names {
		if !slices.Contains(p.order, name) {
			p.order = append(p.order, name)
		}
	}
	return p
}

func (p Points) pegs() (all []Peg) {
	for _, n := range p.order {
		all = append(all, Peg{Name: n, At: p.at[n]})
	}
	return all
}

func (p Points) distance(a, b geom.Name) unit.Length { return p.at[a].Distance(p.at[b]) }

// Triangle says that there are three points.
func (p Points) Triangle() bool { return len(p.order) == 3 }

// runs says whether an edge of the outline runs from a to b.
func (p Points) runs(a, b geom.Name) bool {
	i := slices.Index(p.Outline, a)
	return i >= 0 && p.Outline[(i+1)%len(p.Outline)] == b
}

// walked says whether a line is named as the piece is walked round.
func (p Points) walked(b [2]geom.Name) bool {
	return p.runs(b[0], b[1]) || !p.runs(b[1], b[0]) && slices.Index(p.order, b[0]) < slices.Index(p.order, b[1])
}

// Edge says whether an edge of the outline joins two points.
func (p Points) Edge(a, b geom.Name) bool { return p.runs(a, b) || p.runs(b, a) }

// WasMeasured says whether the distance was measured and is written as it was: one
// that an adjustment has moved counts as computed.
func (p Points) WasMeasured(a, b geom.Name, is unit.Length) bool {
	return slices.ContainsFunc(p.Net.Results, func(r net.Result) bool {
		m := r.Measurement
		return m.Kind == triangle.Distance && SameLine([2]geom.Name{m.At[0], m.At[1]}, [2]geom.Name{a, b}) && p.Figure(r.Measured.Length) == p.Figure(is)
	})
}

// SameLine says whether two lines join the same two points.
func SameLine(a, b [2]geom.Name) bool { return a == b || a[0] == b[1] && a[1] == b[0] }

// few is up to how many points every line between two of them is tried as a baseline.
const few = 30

// lines that are tried as baselines, from either end: all, or of many points the one
// that was named, the edges and the lines between those that lie outermost.
func (p Points) lines(named [2]geom.Name) (all [][2]geom.Name) {
	add := func(a, b geom.Name) {
		for _, l := range [][2]geom.Name{{a, b}, {b, a}} {
			if !slices.Contains(all, l) {
				all = append(all, l)
			}
		}
	}
	outer := p.order
	if len(p.order) > few {
		if named != ([2]geom.Name{}) {
			add(named[0], named[1])
		}
		for i, a := range p.Outline {
			add(a, p.Outline[(i+1)%len(p.Outline)])
		}
		outer = p.hull()
	}
	for i, a := range outer {
		for _, b := range outer[:i] {
			add(b, a)
		}
	}
	return all
}

// mostOuter is how many of the outermost points are tried with each other.
const mostOuter = 12

// hull is the points that lie outermost in so many directions (mostOuter).
func (p Points) hull() (outer []geom.Name) {
	for i := range mostOuter {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / mostOuter)
		far := p.order[0]
		reach := func(n geom.Name) float64 { return float64(p.at[n].X)*cos + float64(p.at[n].Y)*sin }
		for _, n := range p.order {
			if reach(n) > reach(far) {
				far = n
			}
		}
		if !slices.Contains(outer, far) {
			outer = append(outer, far)
		}
	}
	return outer
}

// What a setting-out is reckoned for. Below, paper does it better; above, one pull of a
// tape does not reach and an instrument is wanted.
const (
	Least unit.Length = 1 * unit.Metre
	Most  unit.Length = 100 * unit.Metre
)

// fit refuses what is too small or too large, and a baseline that is no line.
func (p Points) fit(base [2]geom.Name) error {
	names := p.order
	var ends [2]geom.Name
	longest := unit.Length(0)
	for i, a := range names {
		for _, b := range names[i+1:] {
			if d := p.distance(a, b); d >= longest*(1-1e-12) { // of equal ones the last
				longest, ends = d, [2]geom.Name{a, b}
			}
		}
	}
	if p.Triangle() && p.runs(ends[1], ends[0]) { // as the triangle is walked round
		ends[0], ends[1] = ends[1], ends[0]
	}
	what := map[bool]string{true: "side", false: "distance"}[p.Triangle()]
	name := string(ends[0] + ends[1])
	const hair = 1e-6 // on the limit but for rounding
	size := &unit.Fault{What: fmt.Sprintf("the longest %s, %s, is %s: a setting-out sheet is for 1 m to 100 m", what, name, metres(longest))}
	switch {
	case longest < Least-hair:
		size.Hint, size.Code = "print it at full size instead", unit.AtFullSize
		return size
	case longest > Most+hair:
		size.Hint = "divide it into triangles of at most 100 m a side, or have it set out by instrument"
		return size
	case base == [2]geom.Name{}:
		return nil
	}
	_, first := p.at[base[0]]
	_, second := p.at[base[1]]
	side := string(base[0] + base[1])
	if !first || !second || base[0] == base[1] {
		f := &unit.Fault{Subject: unit.Base, Of: side, What: "the net has no such two points", Hint: "name two of " + list(names)}
		if p.Triangle() {
			n := names
			f.What = fmt.Sprintf("the triangle %s%s%s has no such side", n[0], n[1], n[2])
			f.Hint = fmt.Sprintf("name one of %s%s, %s%s, %s%s", n[0], n[1], n[1], n[2], n[2], n[0])
		}
		return f
	}
	if d := p.distance(base[0], base[1]); d < Least-hair {
		return &unit.Fault{
			Subject: unit.Base, Of: side,
			What: fmt.Sprintf("%s is %s, too short to set out from: a baseline is 1 m at least", side, metres(d)),
			Hint: fmt.Sprintf("use the longest %s, %s (%s)", what, name, metres(longest)),
		}
	}
	return nil
}

// list names points in words, not all of many.
func list(names []geom.Name) string {
	var words []string
	for i, n := range names {
		if i == 12 && len(names) > 14 {
			words = append(words, fmt.Sprintf("%d more", len(names)-i))
			break
		}
		words = append(words, string(n))
	}
	return strings.Join(words, ", ")
}

// metres is a length in metres for a message: to 0.1 mm, no trailing zeros, and
// with enough digits more that a length just outside a limit does not read as
// the limit itself.
func metres(l unit.Length) string {
	for decimals := 4; ; decimals++ {
		text := fmt.Sprintf("%.*f", decimals, l.MM()/1000)
		back := 0.0
		fmt.Sscan(text, &back)
		outside := l < Least || l > Most
		if decimals == 9 || outside == (unit.Length(back*1000) < Least || unit.Length(back*1000) > Most) {
			return strings.TrimRight(strings.TrimRight(text, "0"), ".") + " m"
		}
	}
}
