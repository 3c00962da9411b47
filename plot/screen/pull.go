package screen

import (
	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/place"
)

// Pegs are points as they are set out, and the lines between them that are worth seeing.
type Pegs struct {
	Names []geom.Name
	At    []geom.Point
	Lines [][2]geom.Name
	Base  [2]geom.Name // lies level
}

// Pull is a small plan of the pegs with one pull in bold, each peg with its letter; a pull
// from or to something that is no peg is not drawn.
func Pull(p Pegs, from, to geom.Name, width float64) Picture {
	at := map[geom.Name]geom.Point{}
	for i, n := range p.Names {
		at[n] = p.At[i]
	}
	level := unit.Angle(0)
	if a, ok := at[p.Base[0]]; ok && p.Base[1] != "" {
		level = geom.Line{From: a, To: at[p.Base[1]]}.Direction()
	}
	f := frameOf(unit.Length(width))
	f.about, f.highest = 40, min(f.highest, 260)
	v := viewOf(listed(at), level, f)
	k := known{spots: map[geom.Name]geom.Point{}}
	for n, q := range at {
		k.spots[n] = v.at(q)
	}
	b := newBoard(v)
	var w writer
	w.head(v.width, v.height, "pegs")
	line := func(class string, a, b geom.Name) (geom.Line, bool) {
		l, m := k.spots[a], k.spots[b]
		_, first := k.spots[a]
		_, second := k.spots[b]
		if first && second {
			w.line(class, string(a+b), geom.Line{From: l, To: m})
		}
		return geom.Line{From: l, To: m}, first && second
	}
	for _, l := range p.Lines {
		if drawn, ok := line("string", l[0], l[1]); ok {
			b.ink(drawn, place.NoLine-1)
		}
	}
	line("pull", from, to)
	s := scene{view: v, known: k}
	letters := s.letters(b)
	for _, n := range named(k.spots) {
		class := "spot"
		if n == from || n == to {
			class = "spot end"
		}
		w.dot(class, string(n), k.spots[n], 4)
		if at, ok := letters[n]; ok {
			w.letter(string(n), at)
		}
	}
	return s.data(Picture{SVG: w.end(), Width: float64(v.width), Height: float64(v.height)})
}
