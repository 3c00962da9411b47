package pegging

import (
	"fmt"
	"strings"

	"trammel/geom"
	"trammel/geom/unit"
)

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
		size.Hint = "print it at full size instead: trammel template"
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
