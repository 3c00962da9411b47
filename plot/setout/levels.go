package setout

import (
	"fmt"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/pegging"
)

// levelWords say what the falls are reckoned from.
func (s Sheet) levelWords() string {
	if !s.Falls {
		return ""
	}
	var said []string
	for _, p := range s.Pegs {
		if p.Role == pegging.Corner && !slices.Contains(s.Ground.Assumed, p.Name) {
			said = append(said, string(p.Name)+" "+s.signedLevel(p.Name))
		}
	}
	words := "Levels in " + s.Style.Name() + ": " + strings.Join(said, ", ") + "."
	if all := s.assumed(); all != "" {
		words += " " + all
	}
	return words + " Between marks the ground is taken as straight: along the baseline from peg to peg and on beyond its ends, from a foot to its peg, along an edge from corner to corner. Over a fall the tape reads √(level² + fall²). What was measured is taken as level; boards, their nails and strings are set level."
}

// assumed says of which pegs the level is not known and what it is taken for.
func (s Sheet) assumed() string {
	var all []string
	for _, p := range s.Pegs {
		if slices.Contains(s.Ground.Assumed, p.Name) {
			all = append(all, string(p.Name)+" "+s.signedLevel(p.Name))
		}
	}
	if len(all) == 0 {
		return ""
	}
	return fmt.Sprintf("Not levelled, and assumed: %s, %s.", strings.Join(all, ", "), s.Ground.Plane)
}

func (s Sheet) signedLevel(n geom.Name) string {
	if l := s.Level(n); l < 0 && s.Figure(-l) != s.Figure(0) {
		return "−" + s.Figure(-l)
	}
	return s.Figure(max(0, s.Level(n)))
}
