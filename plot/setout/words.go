package setout

import (
	"fmt"
	"strings"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/sheet"
)

// tables are what stands below the plan: pegs, pulls and how the arcs cross.
func (s Sheet) tables() []sheet.Block {
	return []sheet.Block{tablesBlock{s}}
}

// tablesBlock sets the two tables side by side where the width allows.
type tablesBlock struct{ s Sheet }

const betweenTables unit.Length = 8

// abreast says whether the two tables stand side by side.
func abreast(pulls, pegs sheet.Table, width unit.Length, r draw.Ruler) bool {
	return pulls.Breadth(r)+pegs.Breadth(r)+betweenTables <= width
}

// below is the height of what stands below the plan in any case: both tables, or
// the pulls alone where the pegs may follow on the next page.
func (s Sheet) below(width unit.Length, r draw.Ruler) unit.Length {
	pulls, pegs := s.pullsAndPegs()
	if abreast(pulls, pegs, width, r) {
		return sheet.Height(s.tables(), width, r)
	}
	return sheet.Height([]sheet.Block{sheet.Heading{Words: "Hold and pull"}, pulls}, width, r)
}

func (b tablesBlock) Rows(width unit.Length, r draw.Ruler) []sheet.Row {
	pulls, pegs := b.s.pullsAndPegs()
	var blocks []sheet.Block
	left := []sheet.Block{sheet.Heading{Words: "Hold and pull"}, pulls}
	right := []sheet.Block{sheet.Heading{Words: "Pegs"}, pegs}
	if abreast(pulls, pegs, width, r) {
		l, p := pulls.Breadth(r), pegs.Breadth(r)
		spare := float64(width-l-p-betweenTables) / 2
		blocks = append(blocks, sheet.Beside{Stacks: [][]sheet.Block{left, right}, Shares: []float64{float64(l) + spare, float64(p) + spare}, Gutter: betweenTables})
	} else {
		blocks = append(append(blocks, left...), right...)
	}
	blocks = append(blocks, sheet.Gap(2), sheet.Paragraph{Words: b.s.crossingWords()})
	return sheet.Stack(blocks, width, r)
}

// pullsAndPegs are the two tables.
func (s Sheet) pullsAndPegs() (pulls, pegs sheet.Table) {
	pegs = sheet.Table{Height: draw.FigureHeight, Gutter: 3.5, Whole: true, Columns: []sheet.Column{
		{Head: "peg"}, {Head: "along,\nfrom " + string(s.Baseline.From), Align: s.figures()}, {Head: "square\nout", Align: s.figures()}, {Head: "what it is"},
	}}
	for _, p := range s.Pegs {
		chosen := p.Role == SquareLeg || p.Role == SquareTop
		along := s.told(p.Along, p.Along == 0 || p.Role == Corner && p.Offset == 0 && s.Baseline.Measured)
		offset := s.told(p.Offset, p.Offset == 0 || chosen || p.Role == Corner && s.fromSite(ForHeight, s.Square.At))
		pegs.Cells = append(pegs.Cells, []string{string(p.Name), along, offset, p.Note})
	}
	pulls = sheet.Table{Height: draw.FigureHeight, Gutter: 3.5, Whole: true, Columns: []sheet.Column{
		{Head: "pull", Align: sheet.ToRight}, {Head: "hold\n0 at"}, {Head: "pull\nto"}, {Head: "\nreads", Align: s.figures()}, {Head: "for"},
	}}
	for _, p := range s.allPulls() {
		pulls.Cells = append(pulls.Cells, []string{fmt.Sprint(p.Number), string(p.Hold), string(p.To), s.told(p.Length, p.Measured || p.Use == ForLeg), s.useWords(p)})
	}
	return pulls, pegs
}

// fromSite says whether the pull for a use from a mark to the apex was measured.
func (s Sheet) fromSite(u Use, hold geom.Name) bool {
	for _, w := range s.Ways {
		for _, p := range w.Pulls {
			if p.Use == u && p.Hold == hold {
				return p.Measured
			}
		}
	}
	return false
}

// figures is how a column of lengths stands.
func (s Sheet) figures() sheet.Align {
	if inches(s.Style) {
		return sheet.ToRight
	}
	return sheet.OnPoint
}

// kept is a gap between two things that must not be parted.
type kept unit.Length

func (b kept) Rows(unit.Length, draw.Ruler) []sheet.Row {
	return []sheet.Row{{Height: unit.Length(b), Keep: true}}
}

// careBlock sets the cautions in two columns where the width allows.
type careBlock struct{ s Sheet }

func (b careBlock) Rows(width unit.Length, r draw.Ruler) []sheet.Row {
	items := b.s.Cautions
	if width < 170 {
		return sheet.List{Items: items}.Rows(width, r)
	}
	half := (len(items) + 1) / 2
	return sheet.Beside{Stacks: [][]sheet.Block{{sheet.List{Items: items[:half]}}, {sheet.List{Items: items[half:]}}}, Gutter: 6}.Rows(width, r)
}

// checksBlock is the table of checks; on narrow paper in smaller letters, and where
// that does not do without its last column, which only says what the letters say.
type checksBlock struct{ sheet.Table }

func (b checksBlock) Rows(width unit.Length, r draw.Ruler) []sheet.Row {
	if b.Breadth(r) > width {
		b.Height = draw.NoteHeight
	}
	if b.Breadth(r) > width {
		last := len(b.Columns) - 1
		b.Columns = b.Columns[:last]
		cells := make([][]string, len(b.Cells))
		for i, c := range b.Cells {
			cells[i] = c[:last]
		}
		b.Cells = cells
	}
	rows := b.Table.Rows(width, r)
	rows[len(rows)-1].Keep = b.Whole // with who set out
	return rows
}

func (s Sheet) checksTable() sheet.Table {
	// A box is 1 mm lower than its row.
	t := sheet.Table{Height: draw.FigureHeight, Row: 9.1, Gutter: 3.5, Columns: []sheet.Column{
		{Head: "check", Align: sheet.ToRight}, {Head: "from"}, {Head: "to"}, {Head: "should\nread", Align: s.figures()},
		{Head: "accept\nfrom", Align: s.figures()}, {Head: "accept\nto", Align: s.figures()}, {Head: "found", Align: sheet.Box, Width: 26}, {Head: "what it is", Fill: true},
	}}
	for _, c := range s.Checks {
		t.Cells = append(t.Cells, []string{fmt.Sprint(c.Number), string(c.From), string(c.To),
			s.told(c.Value, c.Measured), s.Figure(c.Least), s.Figure(c.Greatest), "", c.Note})
	}
	return t
}

// blocks are the words below the tables, in the order of the work, its steps and
// its checks each kept together or not.
func (s Sheet) blocks(stepsWhole, checksWhole bool) []sheet.Block {
	steps := sheet.List{Numbered: true, Height: draw.FigureHeight, Gap: 0.9, Whole: stepsWhole}
	for _, x := range s.Steps {
		steps.Items = append(steps.Items, x.Words)
	}
	checks := s.checksTable()
	checks.Whole = checksWhole
	out := []sheet.Block{
		sheet.Heading{Words: "Take care"},
		careBlock{s},
		sheet.Heading{Words: "Steps"},
		sheet.Paragraph{Words: "Bring: " + strings.Join(s.Bring, "; ") + ".", Keep: true},
		kept(1),
		steps,
		sheet.Heading{Words: "Checks, with what was not used to set out"},
		checksBlock{checks},
		sheet.Entries{Labels: []string{"set out by", "helper", "tape", "date"}, Height: 10.5},
		sheet.Gap(2),
	}
	return append(out, sheet.Paragraph{Words: strings.Join(s.Basis, " ")})
}
