package laying

import (
	"fmt"
	"math"

	"trammel/geom/courses"
	"trammel/geom/tiling"
	"trammel/geom/unit"
)

func (English) Start(w Walls, s *courses.Start, f unit.Style) []string {
	if s == nil {
		return []string{"No whole tile has room for two lines that are measured from walls and squared by 3-4-5: lay the first course dry and adjust it by the plan."}
	}
	mark := func(m courses.Mark) string {
		return fmt.Sprintf("%s square off %s at %s from %s", f.Length(m.Off), w.Wall(m.Wall), f.Length(m.Along), w.Corner(m.From))
	}
	slant := func(l courses.Line) string {
		if d := l.Slant; d > 0.5 || d < -0.5 {
			return " The two differ, since the wall leans: set off both, never one."
		}
		return ""
	}
	a, b, q := s.Rows.Marks, s.Cross.Marks, s.Square
	of := fmt.Sprintf("the tiles of course %d", w.Course)
	if w.Course == 0 {
		of = "tile " + w.Tile
	}
	rows, cross := "to the left", "towards you"
	if q.Right {
		rows = "to the right"
	}
	if q.Away {
		cross = "away from you"
	}
	out := []string{
		fmt.Sprintf("Line 1 is the near edge of %s. Mark %s, and %s; snap it through both.%s", of, mark(a[0]), mark(a[1]), slant(s.Rows)),
		fmt.Sprintf("Line 2 is the left edge of tile %s. Mark %s, and %s; snap it through both.%s", w.Tile, mark(b[0]), mark(b[1]), slant(s.Cross)),
		fmt.Sprintf("Prove it by 3-4-5: from where they cross mark %s along line 1 %s, towards %s, and %s along line 2 %s, towards %s. Between the two marks it must pull %s. If not, measure the marks of both lines again; if they are right, keep line 1 and turn line 2 about the crossing until it pulls so.",
			f.Length(q.OnRows), rows, w.Wall(q.Towards[0]), f.Length(q.OnCross), cross, w.Wall(q.Towards[1]), f.LengthUnit(q.Between)),
	}
	if q.Fourth != nil {
		out = append(out, fmt.Sprintf("Close it to a rectangle: from the mark on line 1 strike %s, from the mark on line 2 strike %s, both on the side away from the crossing; where they meet is its fourth corner. From there to the crossing it must pull %s too.", f.Length(q.OnCross), f.Length(q.OnRows), f.LengthUnit(q.Between)))
	}
	if w.Rods > 0 {
		second := "the same rod"
		if w.Rods > 1 {
			second = "rod B"
		}
		out = append(out, fmt.Sprintf("Mark the joints with the gauge rods: rod A along line 1, its 0 on line 2, its arrow to the right; for the courses %s along line 2, its 0 on line 1, its arrow away from you. The other way turn the rod round, its 0 a joint (%s) beyond the line.", second, f.LengthUnit(w.Joint)))
	}
	out = append(out, fmt.Sprintf("Lay tile %s whole with its near left corner on the crossing, edges on both lines; lay on from there by the numbers of the plan.", w.Tile))
	if w.Tiles.X > 0 {
		out = append(out, fmt.Sprintf("Check the first tiles: three and their two joints must measure %s along and %s across, and both diagonals of three by three %s.",
			f.Length(w.Tiles.X), f.Length(w.Tiles.Y), f.LengthUnit(unit.Length(math.Hypot(float64(w.Tiles.X), float64(w.Tiles.Y))))))
	}
	return out
}

func (English) Courses() string {
	return "Distances off line 1 count away from you, off line 2 to the right; a minus goes the other way. Where a course is cut along a wall, that edge lies in the wall: set it off by its other edge. Every third joint is marked on the floor before tiles are laid."
}

func (English) Rods(l Laid) []string {
	g, f := l.Plan.Grid, l.Figures
	out := []string{
		"Cut the strips out, join them end to end where both bear the same pair (A1|A2), and glue them to a straight lath. The first begins at its 0, the arrow shows which way it runs.",
		fmt.Sprintf("Two marks a joint: where a tile ends and where the next begins. A tile and a joint are %s; the number at a mark counts tiles, every third is long.", f.LengthUnit(g.Along+g.Joint)),
	}
	if g.Along != g.Across {
		out = append(out, fmt.Sprintf("The other rod is for the courses: a tile and a joint are %s.", f.LengthUnit(g.Across+g.Joint)))
	}
	if g.Pattern == tiling.Brick {
		out = append(out, "Short ticks on rod A show where tiles of the next course away from you begin, with the arrow to the right.")
	}
	return out
}
