package laying

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"trammel/geom/courses"
	"trammel/geom/tiling"
	"trammel/geom/unit"
)

func (English) Kind(c Card) string {
	line := fmt.Sprintf("Kind %d: %d off", c.Number, c.Count)
	if c.Opposite > 0 {
		line = fmt.Sprintf("Kind %d: %d as drawn + %d opposite hand", c.Number, c.Count-c.Opposite, c.Opposite)
	}
	return line
}

// sides of a tile that lies with its arrow pointing away.
var sides = [...]string{courses.Near: "near edge", courses.Right: "right edge", courses.Far: "far edge", courses.Left: "left edge"}

// end of a cut: where on which edge.
func end(e courses.End, f unit.Style) string {
	switch e.Side {
	case courses.Within:
		return fmt.Sprintf("inside, %s from the left and %s from the near edge", f.Length(e.Before), f.Length(e.After))
	case courses.Near, courses.Far:
		return fmt.Sprintf("%s, %s from the left corner (%s from the right)", sides[e.Side], f.Length(e.Before), f.Length(e.After))
	}
	return fmt.Sprintf("%s, %s from the near corner (%s from the far)", sides[e.Side], f.Length(e.Before), f.Length(e.After))
}

func (English) Marks(all []courses.Cut, f unit.Style) (out []string) {
	for _, c := range all {
		out = append(out, fmt.Sprintf("Cut from the %s, to the %s: %s long.", end(c.From, f), end(c.To, f), f.LengthUnit(c.Length)))
	}
	return out
}

// Under this width a hand cutter is likely to break the piece, and a corner shorter than that is
// nipped (from memory).
const (
	narrow unit.Length = 30
	nipped unit.Length = 15
)

func (English) Care(c Card) string {
	switch {
	case c.Hole:
		return "The opening lies within the tile: split it through the hole where it is narrowest, and lay both parts."
	case c.Nip > 0 && c.Nip < nipped:
		return "Nip this corner off with pincers: it is too small to saw."
	case c.Width < narrow:
		return "A narrow piece: cut it wet with a saw, or start elsewhere."
	}
	return ""
}

func (English) Cards(l Laid) []string {
	first := "Joint and gap are taken off already: cut to these figures, nothing to deduct."
	if gap := slices.Min(append([]unit.Length{math.MaxFloat64}, l.Gaps...)); l.Uneven > gap {
		first = fmt.Sprintf("Measure every cut at a wall in place before it is cut: the corners are known to about %s, and the gap is but %s. The figures here, joint and gap taken off, are for ordering and as a check.", l.Figures.Length(l.Uneven), l.Figures.LengthUnit(gap))
	}
	out := []string{
		first,
		"Each tile lies with its arrow pointing away, face up. Thick edges are the factory's: they go to a joint. Thin ones are cut: they go to a wall or an opening.",
	}
	if len(l.Choice.Pieces) > 1 {
		line := "Pieces of a kind are cut alike and then turned into their places."
		if hands(l) {
			line += " Opposite hand, with a star: the same marks from the opposite corner, face up."
		}
		out = append(out, line)
	}
	if l.Plan.Grid.Pattern == tiling.Herringbone {
		out = append(out, "All are drawn with their long side level: one that stands is cut so and then turned a quarter to the left.")
	}
	return out
}

// hands says whether pieces of a kind are of both hands.
func hands(l Laid) bool { return slices.ContainsFunc(l.Choice.Pieces, tiling.Piece.OtherHand) }

func (English) Templates(l Laid, large []int) []string {
	lie := "Lay it face up with the arrow as the plan's."
	if hands(l) {
		lie = "Lay it face up with the arrow as the plan's; for the opposite hand turn the paper over."
	}
	out := []string{"True scale: measure the bar before use. Cut out along the line; thick edges lie on the tile's own edges.", lie}
	if len(large) == 0 {
		return out
	}
	numbers := make([]string, len(large))
	for i, n := range large {
		numbers[i] = fmt.Sprint(n)
	}
	return append(out, "Larger than this paper, so without a template here: kinds "+strings.Join(numbers, ", ")+". Mark them by the figures of their cards, or print on larger paper.")
}

// tapers say, for the side of a tile that a wall cuts off, which edges are marked, from
// which corners, and what is kept.
var tapers = [...]struct{ edges, corners, kept, one, other string }{
	courses.Near:  {"left and the right edge", "far corners", "far part", "on left edge", "on right edge"},
	courses.Far:   {"left and the right edge", "near corners", "near part", "on left edge", "on right edge"},
	courses.Left:  {"near and the far edge", "right corners", "right part", "on near edge", "on far edge"},
	courses.Right: {"near and the far edge", "left corners", "left part", "on near edge", "on far edge"},
}

func (English) Taper(wall string, at courses.Side) (how string, columns []string) {
	t := tapers[at]
	how = fmt.Sprintf("Along %s every cut is its own, and these tiles have no card. Each lying with its arrow pointing away, mark its %s, from its %s, join the marks, cut, and keep the %s; or lay a whole tile dry and mark it in place.", wall, t.edges, t.corners, t.kept)
	return how, []string{"tile", t.one, t.other}
}

func (English) FromTile(piece string, quarters int) string {
	switch quarters {
	case 1:
		return piece + " turned a quarter to the left"
	case 2:
		return piece + " turned half round"
	case 3:
		return piece + " turned a quarter to the right"
	}
	return piece
}

func (English) OnTemplate(c Card) string {
	if c.Opposite > 0 {
		return fmt.Sprintf("%d: %d + %d opp.", c.Number, c.Count-c.Opposite, c.Opposite)
	}
	return fmt.Sprintf("%d: %d off", c.Number, c.Count)
}
