package setout

import (
	"fmt"
	"strings"

	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/sheet"
)

// correctionBlocks are the readings of the tape, broken down.
func (s Sheet) correctionBlocks() []sheet.Block {
	if !s.Corrected {
		return nil
	}
	t := sheet.Table{Gutter: 3.5, Whole: len(s.Pulls) <= short, Columns: []sheet.Column{
		{Head: "pull", Align: sheet.ToRight}, {Head: "from"}, {Head: "to"}, {Head: "true", Align: sheet.Lengths(s.Inches())}, {Head: "correction", Align: sheet.OnPoint}, {Head: "lay off", Align: sheet.Lengths(s.Inches())}, {Head: "because of", Fill: true},
	}}
	for _, p := range s.Pulls {
		if !s.corrects(p) {
			continue
		}
		t.Cells = append(t.Cells, []string{fmt.Sprint(p.Number), string(p.Hold), string(p.To), s.Figure(p.Length), s.signed(p.By.Sum()), s.Figure(p.Reads), s.Says().Broken(p)})
	}
	return []sheet.Block{sheet.Heading{Words: "Tape corrections"}, sheet.Paragraph{Words: s.Says().Taping(), Keep: true}, sheet.KeptGap(1), narrowing{Table: t}}
}

// markBlocks are the tables of the marks along the edges and of the profile boards.
func (s Sheet) markBlocks() (out []sheet.Block) {
	if len(s.Marks) > 0 {
		t := sheet.Table{Height: draw.FigureHeight, Gutter: 3.5, Columns: []sheet.Column{
			{Head: "edge"}, {Head: "from its\nfirst", Align: sheet.Lengths(s.Inches())}, {Head: "along,\nfrom " + string(s.Baseline.From), Align: sheet.Lengths(s.Inches())}, {Head: "square\nout", Align: sheet.Lengths(s.Inches())}, {Head: "side"},
		}}
		for _, m := range s.Marks {
			t.Cells = append(t.Cells, s.markFigures(m))
		}
		out = append(out, sheet.Heading{Words: "Marks along the edges, every " + s.Style.LengthUnit(s.Every)}, columned{t, sheet.BetweenTables})
	}
	if len(s.Nails) > 0 {
		t := sheet.Table{Height: draw.FigureHeight, Gutter: 3.5, Columns: []sheet.Column{
			{Head: "string"}, {Head: "beyond"}, {Head: "from the\ncorner", Align: sheet.Lengths(s.Inches())}, {Head: "along,\nfrom " + string(s.Baseline.From), Align: sheet.Lengths(s.Inches())}, {Head: "square\nout", Align: sheet.Lengths(s.Inches())}, {Head: "side"},
		}}
		for _, n := range s.Nails {
			t.Cells = append(t.Cells, []string{edge(n.Edge), string(n.Beyond), s.laid(n.Past, 0), s.laidAlong(n.Along, 0), s.laid(n.Offset, 0), n.Side.String()})
		}
		out = append(out, sheet.Heading{Words: "Nails in the profile boards, clear of the digging by " + s.Style.LengthUnit(s.Boards)}, columned{t, sheet.BetweenTables})
		if missing := 2*len(s.Outline) - len(s.Nails); missing > 0 {
			out = append(out, sheet.Paragraph{Words: fmt.Sprintf("%d more would stand too far off: there an edge runs nearly straight on past its corner.", missing)})
		}
	}
	if len(s.Strings) > 0 {
		t := sheet.Table{Height: draw.FigureHeight, Gutter: 3.5, Columns: []sheet.Column{
			{Head: "string"}, {Head: "nail to\nnail", Align: sheet.Lengths(s.Inches())}, {Head: "crosses"}, {Head: "at", Align: sheet.Lengths(s.Inches())}, {Head: "crosses"}, {Head: "at", Align: sheet.Lengths(s.Inches())},
		}}
		for _, x := range s.Strings {
			t.Cells = append(t.Cells, []string{edge(x.Edge), s.laid(x.Length, 0), edge(x.With[0]), s.laid(x.Corners[0], 0), edge(x.With[1]), s.laid(x.Corners[1], 0)})
		}
		out = append(out, sheet.Heading{Words: "Strings, and where they cross, from the first nail"}, columned{t, sheet.BetweenTables})
	}
	return out
}

// tables are what stands below the plan: pegs, pulls and how the arcs cross.
func (s Sheet) tables() []sheet.Block {
	return []sheet.Block{tablesBlock{s}}
}

// tablesBlock sets the two tables side by side where the width allows.
type tablesBlock struct{ s Sheet }

// abreast says whether the two tables stand side by side.
func abreast(pulls, pegs sheet.Table, width unit.Length, r draw.Ruler) bool {
	return pulls.Breadth(r)+pegs.Breadth(r)+sheet.BetweenTables <= width && len(pulls.Cells) <= short
}

// below is the height of what stands below the plan in any case: both tables, or
// the pulls alone where the pegs may follow on the next page, or of long ones the
// beginning.
func (s Sheet) below(width unit.Length, r draw.Ruler) unit.Length {
	pulls, pegs := s.pullsAndPegs()
	if abreast(pulls, pegs, width, r) {
		return sheet.Height(s.tables(), width, r)
	}
	if len(pulls.Cells) > short {
		pulls.Cells = pulls.Cells[:short/2]
	}
	return sheet.Height([]sheet.Block{sheet.Heading{Words: pullsHead}, pulls}, width, r)
}

const pullsHead = "Hold and pull"

func (b tablesBlock) Rows(width unit.Length, r draw.Ruler) []sheet.Row {
	pulls, pegs := b.s.pullsAndPegs()
	var blocks []sheet.Block
	left := []sheet.Block{sheet.Heading{Words: pullsHead}, pulls}
	right := []sheet.Block{sheet.Heading{Words: "Pegs"}, pegs}
	if abreast(pulls, pegs, width, r) {
		l, p := pulls.Breadth(r), pegs.Breadth(r)
		spare := float64(width-l-p-sheet.BetweenTables) / 2
		blocks = append(blocks, sheet.Beside{Stacks: [][]sheet.Block{left, right}, Shares: []float64{float64(l) + spare, float64(p) + spare}, Gutter: sheet.BetweenTables})
	} else {
		blocks = append(append(blocks, right...), left...)
	}
	if words := b.s.Says().Crossing(); words != "" {
		blocks = append(blocks, sheet.Gap(2), sheet.Paragraph{Words: words})
	}
	return sheet.Stack(blocks, width, r)
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

// sureForm is how the sheet says how sure it is.
type sureForm uint8

const (
	sureTables  sureForm = iota
	waysInWords          // where that saves a page
	sureInWords          // the same, of a triangle
	sureNot              // only to see what the rest takes
)

func (s Sheet) sureBlocks(f sureForm) []sheet.Block {
	switch f {
	case sureTables:
		return []sheet.Block{sureBlock{s}}
	case waysInWords:
		sure := s.sureTable()
		sure.Height = draw.NoteHeight
		return []sheet.Block{
			sheet.Heading{Words: "How sure"}, narrowing{Table: sure}, sheet.Gap(1), sheet.Paragraph{Words: s.Says().HowSure()},
			sheet.Gap(1.5), sheet.Paragraph{Words: s.Says().Ways()},
		}
	}
	return nil
}

// sureBlock is the two tables of how sure it is, side by side where the width allows.
type sureBlock struct{ s Sheet }

func (b sureBlock) Rows(width unit.Length, r draw.Ruler) []sheet.Row {
	s := b.s
	sure, rank := s.sureTable(), s.rankTable()
	left := []sheet.Block{sheet.Heading{Words: "How sure"}, narrowing{Table: sure}, sheet.Gap(1), sheet.Paragraph{Words: s.Says().HowSure()}}
	right := []sheet.Block{sheet.Heading{Words: "Which way is surest"}, narrowing{Table: rank}, sheet.Gap(1), sheet.Paragraph{Words: s.Says().Rank()}}
	l, p := sure.Breadth(r), rank.Breadth(r)
	if l+p+sheet.BetweenTables > width {
		sure.Height, rank.Height = draw.NoteHeight, draw.NoteHeight
		left[1], right[1] = narrowing{Table: sure}, narrowing{Table: rank}
		l, p = sure.Breadth(r), rank.Breadth(r)
	}
	if l+p+sheet.BetweenTables > width || len(s.Sure) > short {
		return sheet.Stack(append(left, right...), width, r)
	}
	spare := float64(width-l-p-sheet.BetweenTables) / 2
	return sheet.Beside{Stacks: [][]sheet.Block{left, right}, Shares: []float64{float64(l) + spare, float64(p) + spare}, Gutter: sheet.BetweenTables}.Rows(width, r)
}

// blocks are the words below the tables, in the order of the work, its steps and
// its checks each kept together or not.
func (s Sheet) blocks(stepsWhole, checksWhole bool, f sureForm) []sheet.Block {
	steps := sheet.List{Numbered: true, Height: draw.FigureHeight, Gap: 0.9, Whole: stepsWhole, Items: s.Steps}
	checks := s.checksTable()
	checks.Whole = checksWhole
	out := s.correctionBlocks()
	if len(s.Doubts) > 0 {
		out = append(out, sheet.Heading{Words: "Before setting out"}, sheet.List{Items: s.Doubts})
	}
	out = append(out,
		sheet.Heading{Words: "Take care"},
		careBlock{s},
		sheet.Heading{Words: "Steps"},
		sheet.Paragraph{Words: "Bring: " + strings.Join(s.Bring, "; ") + ".", Keep: true},
		sheet.KeptGap(1),
		steps)
	out = append(out, s.markBlocks()...)
	out = append(out,
		sheet.Heading{Words: "Checks, with what was not used to set out"},
		narrowing{Table: checks, less: true, after: true},
		sheet.Entries{Labels: []string{"set out by", "helper", "tape", "date"}, Height: 10},
		sheet.Gap(1.5))
	basis := strings.Join(s.Basis, " ")
	if f == sureInWords { // one paragraph has one broken line
		return append(out, sheet.Paragraph{Words: basis + " " + s.Says().SureInBrief()})
	}
	return append(append(out, sheet.Paragraph{Words: basis}), s.sureBlocks(f)...)
}
