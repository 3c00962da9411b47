package words

import (
	"fmt"
	"strings"

	"trammel/geom"
	"trammel/geom/shape"
	"trammel/geom/unit"
)

func (w steps) Shaping(h ByHand) (say []string) {
	s := h.Shape
	for _, v := range s.Corners {
		switch arc, round := v.Finished.(geom.Arc); {
		case v.Do == shape.Cut:
			say = append(say, fmt.Sprintf("Corner %s: mark off %s from %s along both edges and join the marks.", v.Name, h.length(v.By, true), v.Name))
		case v.Do == shape.Round && round:
			say = append(say, fmt.Sprintf("Corner %s: round it with radius %s; the arc touches both edges %s from %s.", v.Name, h.length(arc.Radius, true), h.length(v.At.Distance(arc.At(0)), false), v.Name))
		}
	}
	for _, b := range s.Bores {
		d := h.length(b.Hole.Diameter, true)
		switch c := b.Hole.Centre.(type) {
		case shape.FromEdge:
			say = append(say, fmt.Sprintf("Hole Ø %s: from %s mark off %s along %s, and from there %s square into the piece.", d, c.From, h.length(c.Along, true), c.Edge[0]+c.Edge[1], h.length(c.Square, true)))
		case shape.FromCorners:
			say = append(say, fmt.Sprintf("Hole Ø %s: its centre is where arcs of %s from %s and %s from %s cross.", d, h.length(c.Arms[0], true), c.Corners[0], h.length(c.Arms[1], true), c.Corners[1]))
		}
	}
	if s.Spared() {
		say = append(say, w.offsets(h))
	}
	return say
}

// offsets is the last step: the lines that are cut, and what they measure.
func (w steps) offsets(h ByHand) string {
	s := h.Shape
	by := func(allow unit.Length, of string) string {
		switch {
		case allow > 0:
			return h.length(allow, true) + " outside " + of
		case allow < 0:
			return h.length(-allow, true) + " inside " + of
		}
		return "along " + of
	}
	var lines, lengths []string
	for i, e := range s.Sides {
		lines = append(lines, by(e.Allow, e.Name))
		if l := e.Cut.Length(); l > 0 {
			lengths = append(lengths, fmt.Sprintf("%s %s", s.Sides[i].Name, h.length(l, false)))
		}
	}
	for _, v := range s.Corners {
		switch cut := v.Cut.(type) {
		case geom.Line:
			if v.Do == shape.Blunt {
				lines = append(lines, fmt.Sprintf("straight across %s beyond %s", h.length(v.By, true), v.Name))
			} else {
				lines = append(lines, by(v.Allow, "the cut at "+string(v.Name)))
			}
		case geom.Arc:
			lines = append(lines, fmt.Sprintf("at %s an arc of radius %s that touches its neighbours", v.Name, h.length(cut.Radius, false)))
		}
	}
	return "Offsets: draw the line that is cut, parallel to the finished edges: " + strings.Join(lines, ", ") +
		". Check: from corner to corner of that line, or to where it stops being straight, " + strings.Join(lengths, ", ") + "."
}
