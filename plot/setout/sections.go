package setout

import (
	"strings"

	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/sheet"
	"trammel/plot/words"
)

// block is one that has to know the width.
type block func(width unit.Length, r draw.Ruler) []sheet.Row

func (b block) Rows(width unit.Length, r draw.Ruler) []sheet.Row { return b(width, r) }

func (s written) heading(of words.Part) sheet.Heading {
	return sheet.Heading{Words: s.heads().Heading(of)}
}

// correctionBlocks are the readings of the tape, broken down.
func (s Sheet) correctionBlocks() []sheet.Block {
	if !s.Corrected {
		return nil
	}
	return []sheet.Block{s.heading(words.PartCorrections), sheet.Paragraph{Words: s.Says().Taping(), Keep: true}, sheet.KeptGap(1), narrowing{Table: s.correctionsTable()}}
}

// markBlocks are the tables of the marks along the edges and of the profile boards.
func (s Sheet) markBlocks() (out []sheet.Block) {
	add := func(of words.Part, t sheet.Table) {
		if t.Whole = false; len(t.Cells) > 0 {
			out = append(out, s.heading(of), columned{t})
		}
	}
	add(words.PartMarks, s.marksTable())
	add(words.PartNails, s.nailsTable())
	if missing := 2*len(s.Outline) - len(s.Nails); missing > 0 && len(s.Nails) > 0 {
		out = append(out, sheet.Paragraph{Words: s.heads().TooFar(missing)})
	}
	add(words.PartStrings, s.stringsTable())
	return out
}

// abreast says whether pulls and pegs stand side by side.
func abreast(pulls, pegs sheet.Table, width unit.Length, r draw.Ruler) bool {
	return pulls.Breadth(r)+pegs.Breadth(r)+sheet.BetweenTables <= width && len(pulls.Cells) <= short
}

// beside sets two stacks side by side, so wide and half of the room to spare.
func beside(left, right []sheet.Block, l, p, width unit.Length) sheet.Beside {
	spare := float64(width-l-p-sheet.BetweenTables) / 2
	return sheet.Beside{Stacks: [][]sheet.Block{left, right}, Shares: []float64{float64(l) + spare, float64(p) + spare}, Gutter: sheet.BetweenTables}
}

// below is the height of what stands below the plan in any case: both tables, or the pulls
// alone, or the beginning of long ones.
func (s Sheet) below(width unit.Length, r draw.Ruler) unit.Length {
	pulls := s.pullsTable()
	if abreast(pulls, s.pegsTable(), width, r) {
		return sheet.Height([]sheet.Block{block(s.tables)}, width, r)
	}
	if len(pulls.Cells) > short {
		pulls.Cells = pulls.Cells[:short/2]
	}
	return sheet.Height([]sheet.Block{s.heading(words.PartPulls), pulls}, width, r)
}

// tables are what stands below the plan: pegs and pulls, and how the arcs cross.
func (s Sheet) tables(width unit.Length, r draw.Ruler) []sheet.Row {
	pulls, pegs := s.pullsTable(), s.pegsTable()
	left, right := []sheet.Block{s.heading(words.PartPulls), pulls}, []sheet.Block{s.heading(words.PartPegs), pegs}
	blocks := append(right, left...)
	if abreast(pulls, pegs, width, r) {
		blocks = []sheet.Block{beside(left, right, pulls.Breadth(r), pegs.Breadth(r), width)}
	}
	if words := s.Says().Crossing(); words != "" {
		blocks = append(blocks, sheet.Gap(2), sheet.Paragraph{Words: words})
	}
	return sheet.Stack(blocks, width, r)
}

// care sets the cautions in two columns where the width allows.
func (s Sheet) care(width unit.Length, r draw.Ruler) []sheet.Row {
	if width < 170 {
		return sheet.List{Items: s.Cautions}.Rows(width, r)
	}
	half := (len(s.Cautions) + 1) / 2
	return sheet.Beside{Stacks: [][]sheet.Block{{sheet.List{Items: s.Cautions[:half]}}, {sheet.List{Items: s.Cautions[half:]}}}, Gutter: 6}.Rows(width, r)
}

// sureForm is how the sheet says how sure it is.
type sureForm uint8

const (
	sureTables  sureForm = iota
	waysInWords          // where that saves a page
	sureInWords          // the same, of a triangle
	sureNot              // only to see what the rest takes
)

// told is a table with its heading, and a paragraph below it.
func (s written) told(of words.Part, t sheet.Table, words string) []sheet.Block {
	return []sheet.Block{s.heading(of), narrowing{Table: t}, sheet.Gap(1), sheet.Paragraph{Words: words}}
}

func (s Sheet) sureBlocks(f sureForm) []sheet.Block {
	switch f {
	case sureTables:
		return []sheet.Block{block(s.sureness)}
	case waysInWords:
		sure := s.sureTable()
		sure.Height = draw.NoteHeight
		return append(s.told(words.PartSure, sure, s.Says().HowSure()), sheet.Gap(1.5), sheet.Paragraph{Words: s.Says().Ways()})
	}
	return nil
}

// sureness is the two tables of how sure it is, side by side where the width allows.
func (s Sheet) sureness(width unit.Length, r draw.Ruler) []sheet.Row {
	sure, ways := s.sureTable(), s.waysTable()
	wide := func() bool { return sure.Breadth(r)+ways.Breadth(r)+sheet.BetweenTables > width }
	if wide() {
		sure.Height, ways.Height = draw.NoteHeight, draw.NoteHeight
	}
	left, right := s.told(words.PartSure, sure, s.Says().HowSure()), s.told(words.PartWays, ways, s.Says().Rank())
	if wide() || len(s.Sure) > short {
		return sheet.Stack(append(left, right...), width, r)
	}
	return beside(left, right, sure.Breadth(r), ways.Breadth(r), width).Rows(width, r)
}

// blocks are the words below the tables, in the order of the work.
func (s Sheet) blocks(stepsWhole, checksWhole bool, f sureForm) []sheet.Block {
	steps := sheet.List{Numbered: true, Height: draw.FigureHeight, Gap: 0.9, Whole: stepsWhole, Items: s.Steps}
	checks := s.checksTable()
	checks.Whole = checksWhole
	out := s.correctionBlocks()
	if len(s.Doubts) > 0 {
		out = append(out, s.heading(words.PartDoubts), sheet.List{Items: s.Doubts})
	}
	out = append(out,
		s.heading(words.PartCare), block(s.care),
		s.heading(words.PartSteps), sheet.Paragraph{Words: s.heads().Bring(), Keep: true}, sheet.KeptGap(1), steps)
	out = append(out, s.markBlocks()...)
	out = append(out,
		s.heading(words.PartChecks), narrowing{Table: checks, less: true, after: true},
		sheet.Entries{Labels: s.heads().Sign(false), Height: 10}, sheet.Gap(1.5))
	basis := strings.Join(s.Basis, " ")
	if f == sureInWords { // one paragraph has one broken line
		return append(out, sheet.Paragraph{Words: basis + " " + s.Says().SureInBrief()})
	}
	return append(append(out, sheet.Paragraph{Words: basis}), s.sureBlocks(f)...)
}
