// Package laying says what is said of a tiled floor: where it starts, what is cut, what to
// buy. It is a subject of plot/words, in a room of its own.
//
// Files, from the top floor to the ground: laying.go, start.go, cuts.go, buying.go.
package laying

import (
	"fmt"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/courses"
	"trammel/geom/tiling"
	"trammel/geom/unit"
)

// Part is a part of the sheets.
type Part int

const (
	ThePlan Part = iota
	TheStarts
	TheLines
	TheCourses
	TheRods
	TheCuts
	TheTapers
	TheTemplates
	TheTiles
	TheBuying
	TheLimits
	Before
	Parts // how many there are
)

// Says is all that is said of a floor.
type Says interface {
	// Title of the sheets, and Heading of a part.
	Title() string
	Heading(Part) string
	// Columns are the heads of a part's table.
	Columns(Part) []string
	// Aim is a layout's name; Whole what a cell says of a row end that is not cut.
	Aim(tiling.Aim) string
	Whole() string
	// Tile says size, joint, pattern and how the rows run, in a line.
	Tile(Laid) string
	// Gap is what lies between tiles and walls, and what of it is left free.
	Gap(Laid) string
	// Best says which layout is drawn and why; Proof what the search has shown of it.
	Best(Laid) string
	Proof(Laid) string
	// Counts of the layout that is drawn.
	Counts(Laid) []string
	// Tried says which walls the rows could run along, and what each gives.
	Tried([]Tried, unit.Style) []string
	// Start is the steps by which both lines come onto the floor; nil: there is no room for
	// them, and it says what to do.
	Start(Walls, *courses.Start, unit.Style) []string
	// Courses is how the table of courses is read, Rods how the gauge rod is used.
	Courses() string
	Rods(Laid) []string
	// Kind is a card's head, Marks its figures, of one cut each.
	Kind(Card) string
	Marks([]courses.Cut, unit.Style) []string
	// Care is what to mind at a card; empty where nothing is.
	Care(Card) string
	// Cards is how cards are read, Templates how templates are used and which kinds have no room.
	Cards(Laid) []string
	Templates(l Laid, large []int) []string
	// Taper is how the cuts along a wall are marked, which is at that side of its tiles, and the
	// heads of their figures.
	Taper(wall string, at courses.Side) (how string, columns []string)
	// FromTile is a piece, and how it is turned in the tile that it is cut from.
	FromTile(piece string, quarters int) string
	// OnTemplate is what stands in the piece of a template: its kind and which way it lies.
	OnTemplate(Card) string
	// Sawing is how pieces come from tiles; Buying what to buy; Limits what standards say of such floors.
	Sawing(Laid) string
	Buying(Buy) []string
	Limits(Laid) []string
}

// Laid is a floor with the layout that is drawn.
type Laid struct {
	Plan    tiling.Plan
	Choice  *tiling.Choice
	Along   string // wall; empty: none
	Given   bool
	Gaps    []unit.Length
	Parts   int
	Figures unit.Style
	// Part is where joints of a straight grid may part a large floor: before which courses, and how
	// far from line 2 to the right.
	PartCourses []int
	PartAcross  []unit.Length
	// Long and Wide are how far the floor runs each way.
	Long, Wide unit.Length
	Uneven     unit.Length // how far the narrowest cut may be off by how well the floor was measured; 0: not known
}

// Tried is a wall that the rows could run along.
type Tried struct {
	Wall          string
	Across        bool
	Cuts, Slivers int
	Narrowest     unit.Length
	Taken         bool
}

// Walls names walls and corners by number.
type Walls struct {
	Wall   func(int) string
	Corner func(int) string
	Course int // of the start tile; 0: the pattern has no courses
	Tile   string
	Rods   int // gauge rods; 0: none for lines like these
	Joint  unit.Length
	Tiles  geom.Point // three tiles and two joints, along and across; 0: the pattern has no such block
}

// Card is one kind of cut.
type Card struct {
	Number, Count, Opposite int
	Width                   unit.Length
	Figures                 unit.Style
	Hole                    bool        // an opening lies wholly in it
	Nip                     unit.Length // the longest cut edge of a corner that is only nipped; 0: none
	Standing                bool
	Tiles                   []string
}

// English says it.
type English struct{}

func (English) Title() string { return "Laying a tiled floor" }

func (English) Heading(p Part) string {
	return [Parts]string{"Plan", "Three ways to start", "Lines to snap", "Courses", "Gauge rod", "Cuts", "Cuts along a leaning wall", "Templates", "What comes from which tile", "What to buy", "Limits and movement joints", "Before work"}[p]
}

func (English) Columns(p Part) []string {
	switch p {
	case TheStarts:
		return []string{"start", "whole", "cuts", "kinds", "narrowest", "under half", "under a quarter", "bought", "no fewer than"}
	case TheCourses:
		return []string{"course", "near edge off line 1", "far edge", "whole", "cuts", "first tile after a joint off line 2", "cut left", "cut right"}
	case TheTapers:
		return []string{"tile", "on one edge", "on the other"}
	case TheTiles:
		return []string{"tiles", "pieces cut from each"}
	}
	return nil
}

func (English) Aim(a tiling.Aim) string {
	switch a {
	case tiling.Balanced:
		return "balanced"
	case tiling.Widest:
		return "widest cuts"
	case tiling.Fewest:
		return "fewest cuts"
	}
	return "as given"
}

func (English) Whole() string { return "whole" }

// pattern in words.
func pattern(g tiling.Grid) string {
	switch g.Pattern {
	case tiling.Brick:
		return fmt.Sprintf("brick, each course %d/%d of a tile further on", g.Step, g.Of)
	case tiling.Herringbone:
		return "herringbone"
	}
	return "straight"
}

func (English) Tile(l Laid) string {
	g, f := l.Plan.Grid, l.Figures
	along := fmt.Sprintf("rows turned %s° against the baseline", strings.TrimSuffix(fmt.Sprintf("%.1f", g.Angle.Degrees()), ".0"))
	if l.Along != "" {
		along = "rows along " + l.Along
	}
	return fmt.Sprintf("Tile %s × %s as measured, joint %s, %s, %s.", f.Length(g.Along), f.LengthUnit(g.Across), f.LengthUnit(g.Joint), pattern(g), along)
}

func (English) Gap(l Laid) string {
	least, most := l.Gaps[0], l.Gaps[0]
	for _, g := range l.Gaps {
		least, most = min(least, g), max(most, g)
	}
	switch {
	case most == 0:
		return "No gap at the walls was asked for: tiles would run hard against them."
	case least == most:
		return fmt.Sprintf("Gap at every wall %s: leave it open, never fill it with grout.", l.Figures.LengthUnit(most))
	}
	return fmt.Sprintf("Gaps at the walls from %s to %s as the plan says: leave them open, never fill them with grout.", l.Figures.Length(least), l.Figures.LengthUnit(most))
}

func (e English) Best(l Laid) string {
	if l.Given {
		return "Drawn as it was given: nothing was searched for."
	}
	if len(l.Plan.Choices) == 1 {
		return "Drawn: " + e.Aim(l.Choice.Aim) + ", as the job asks."
	}
	_, slivers := l.Plan.Advised()
	switch {
	case l.Choice.Aim == tiling.Balanced:
		return "Drawn and advised: balanced, since no piece is under a quarter of a tile and both sides of the middle look alike."
	case slivers:
		return "Drawn and advised: widest cuts, since the balanced start leaves pieces under a quarter of a tile."
	}
	return "Drawn and advised: " + e.Aim(l.Choice.Aim) + "."
}

func (English) Proof(l Laid) string {
	c := l.Choice
	switch {
	case l.Given:
		return "No search: the start was given."
	case c.Aim == tiling.Balanced:
		return fmt.Sprintf("Of %d starts with a joint or the middle of a tile on both middle lines this is the best.", c.Boxes)
	case c.Proven:
		return fmt.Sprintf("Proven: of all starts to half a millimetre no other is better (%d boxes of starts looked into).", c.Boxes)
	case c.CutsAtLeast > 0:
		return fmt.Sprintf("Not proven: the search was ended; no start has fewer than %d pieces under a quarter, and of those none fewer than %d cuts.", c.SliversAtLeast, c.CutsAtLeast)
	}
	if c.SliversAtLeast == 0 {
		return "Not proven: the search was ended, and there may be a better start."
	}
	return fmt.Sprintf("Not proven: the search was ended; no start has fewer than %d pieces under a quarter.", c.SliversAtLeast)
}

func (English) Counts(l Laid) []string {
	c, f := l.Choice, l.Figures
	out := []string{fmt.Sprintf("%s whole, %s of %s.", tiles(len(c.Whole)), pieces(len(c.Pieces)), kinds(len(c.Kinds)))}
	if i, ok := c.Narrowest(); ok {
		n := c.Numbers()
		line := fmt.Sprintf("The narrowest is %s, %s wide over all", n.Piece(i), f.LengthUnit(unit.Length(c.Pieces[i].Width)))
		if l.Uneven > 0 {
			line += fmt.Sprintf(" if the corners are where the tape says; they are known to about %s", f.LengthUnit(l.Uneven))
			if w := c.Pieces[i].Width - quarter(l); w > -float64(l.Uneven) && w < float64(l.Uneven) {
				line += ", and a quarter of a tile is no further off than that: measure that wall again"
			}
		}
		out = append(out, line+".")
	}
	if c.UnderHalf > 0 {
		out = append(out, fmt.Sprintf("Under half a tile less a joint: %d; under a quarter: %d.", c.UnderHalf, c.Measures.Slivers))
	}
	if slices.ContainsFunc(c.Pieces, askew) {
		out = append(out, "Widths, and what counts as under half or a quarter, are over all across the narrow way of a piece, of an L across its narrowest leg: one that tapers is narrower at one end, as its card or table says.")
	}
	if c.Dropped > 0 {
		out = append(out, fmt.Sprintf("Left to the gap, since they are under half a millimetre: %s.", pieces(c.Dropped)))
	}
	if l.Parts > 1 {
		out = append(out, fmt.Sprintf("The floor falls into %d parts: one grid lies over all of them.", l.Parts))
	}
	return out
}

// askew says whether a piece has an edge that is neither level nor upright.
func askew(p tiling.Piece) bool {
	ring, _ := p.OwnRings()
	for i := range ring {
		if d := ring.Edge(i).To.Minus(ring.Edge(i).From); min(max(d.X, -d.X), max(d.Y, -d.Y)) > tiling.Slack {
			return true
		}
	}
	return false
}

func (English) Tried(all []Tried, f unit.Style) (out []string) {
	for _, t := range all {
		how := "Rows along " + t.Wall
		if t.Across {
			how = "Rows square to " + t.Wall
		}
		line := fmt.Sprintf("%s: %s, narrowest %s", how, cuts(t.Cuts), f.LengthUnit(t.Narrowest))
		if t.Slivers > 0 {
			line += fmt.Sprintf(", %d under a quarter", t.Slivers)
		}
		if t.Taken {
			line += "; taken"
		}
		out = append(out, line+".")
	}
	return out
}

func count(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %ss", n, one)
}

func tiles(n int) string  { return count(n, "tile") }
func pieces(n int) string { return count(n, "cut piece") }
func kinds(n int) string  { return count(n, "kind") }
func cuts(n int) string   { return count(n, "cut") }

// quarter of a tile's shorter side, mm.
func quarter(l Laid) float64 { return float64(min(l.Plan.Grid.Along, l.Plan.Grid.Across)) / 4 }
