package byhand

import (
	"fmt"
	"strings"

	"trammel/geom"
	"trammel/geom/shape"
	"trammel/geom/unit"
)

// Shaping is what is done to the outline when it is drawn: corners, holes, and last the
// offsets to the line that is cut.
func (v Voice) Shaping(h Piece) (say []string) {
	s := h.Shape
	tell := func(f *figures, words string) {
		if len(f.computed) > 0 {
			words += " " + v.computed(f.computed)
		}
		say = append(say, words)
	}
	for _, c := range s.Corners {
		f := &figures{Piece: h, place: v.place}
		switch arc, round := c.Finished.(geom.Arc); {
		case c.Do == shape.Cut:
			tell(f, fmt.Sprintf("Corner %s: measure %s from %s along both edges. %s from mark to mark.", c.Name, f.told(c.By, true), c.Name, capital(v.draw())))
		case c.Do == shape.Round && round:
			tell(f, fmt.Sprintf("Corner %s: round it with radius %s. The arc touches both edges %s from %s.", c.Name, f.told(arc.Radius, true), f.told(c.At.Distance(arc.At(0)), false), c.Name))
		}
	}
	for _, b := range s.Bores {
		f := &figures{Piece: h, place: v.place}
		d := f.told(b.Hole.Diameter, true)
		switch c := b.Hole.Centre.(type) {
		case shape.FromEdge:
			tell(f, fmt.Sprintf("Hole Ø %s: measure %s from %s along %s. From there go %s square into the piece to its centre.", d, f.told(c.Along, true), c.From, c.Edge[0]+c.Edge[1], f.told(c.Square, true)))
		case shape.FromCorners:
			tell(f, fmt.Sprintf("Hole Ø %s: swing %s from %s and %s from %s. Its centre is where the arcs cross.", d, f.told(c.Arms[0], true), c.Corners[0], f.told(c.Arms[1], true), c.Corners[1]))
		}
	}
	if s.Spared() {
		f := &figures{Piece: h, place: v.place}
		tell(f, v.offsets(f))
	}
	return say
}

// offsets is the last step: the lines that are cut, and what they measure.
func (v Voice) offsets(f *figures) string {
	s := f.Shape
	by := func(allow unit.Length, of string) string {
		switch {
		case allow > 0:
			return f.told(allow, true) + " outside " + of
		case allow < 0:
			return f.told(-allow, true) + " inside " + of
		}
		return "along " + of
	}
	var lines, lengths []string
	for i, e := range s.Sides {
		lines = append(lines, by(e.Allow, e.Name))
		if l := e.Cut.Length(); l > 0 {
			lengths = append(lengths, fmt.Sprintf("%s %s", s.Sides[i].Name, f.plain(l)))
		}
	}
	for _, c := range s.Corners {
		switch cut := c.Cut.(type) {
		case geom.Line:
			if c.Do == shape.Blunt {
				lines = append(lines, fmt.Sprintf("straight across %s beyond %s", f.told(c.By, true), c.Name))
			} else {
				lines = append(lines, by(c.Allow, "the cut at "+string(c.Name)))
			}
		case geom.Arc:
			lines = append(lines, fmt.Sprintf("at %s an arc of radius %s that touches its neighbours", c.Name, f.told(cut.Radius, cut.Radius == c.By)))
		}
	}
	return fmt.Sprintf("Offsets: %s the line that is cut, parallel to the finished edges: %s. Measure that line from corner to corner, or to where it stops being straight: it should read %s.",
		v.draw(), strings.Join(lines, ", "), strings.Join(lengths, ", "))
}

func capital(word string) string { return strings.ToUpper(word[:1]) + word[1:] }
