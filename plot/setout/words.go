package setout

import (
	"fmt"
	"strings"

	"trammel/geom"
	"trammel/geom/pegging"
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

// short is how many rows a table may have to stand in one piece, beside another.
const short = 24

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
	if words := b.s.crossingWords(); words != "" {
		blocks = append(blocks, sheet.Gap(2), sheet.Paragraph{Words: words})
	}
	return sheet.Stack(blocks, width, r)
}

// pullsAndPegs are the two tables.
func (s Sheet) pullsAndPegs() (pulls, pegs sheet.Table) {
	both := s.bothSides()
	out := "square\nout"
	if !both {
		out = "square\nout, " + s.oneSide().String()
	}
	pegs = sheet.Table{Height: draw.FigureHeight, Gutter: 3.5, Whole: len(s.Pegs) <= short, Columns: []sheet.Column{
		{Head: "", Align: sheet.ToRight}, {Head: "peg"}, {Head: "along,\nfrom " + string(s.Baseline.From), Align: sheet.Lengths(s.Inches())}, {Head: out, Align: sheet.Lengths(s.Inches())}, {Head: "side"}, {Head: "what it is"},
	}}
	for _, p := range s.Pegs {
		along, offset := s.pegFigures(p)
		pegs.Cells = append(pegs.Cells, []string{fmt.Sprint(p.Number), string(p.Name), along, offset, p.Side.String(), s.pegNote(p)})
	}
	if !both {
		pegs = without(pegs, 4)
	}
	pulls = sheet.Table{Height: draw.FigureHeight, Gutter: 3.5, Whole: len(s.Pulls) <= short, Columns: []sheet.Column{
		{Head: "pull", Align: sheet.ToRight}, {Head: "hold\n0 at"}, {Head: "pull\nto"}, {Head: "true", Align: sheet.Lengths(s.Inches())}, {Head: "tape\nreads", Align: sheet.Lengths(s.Inches())}, {Head: "for"},
	}}
	for _, p := range s.Pulls {
		known := p.Measured || p.Use == pegging.ForLeg
		reads := bracketed(s.Figure(p.Reads), known && !s.Corrected)
		length := bracketed(s.Figure(p.Length), known)
		if p.Use == pegging.ForAngle {
			reads, length = s.toldAngle(p), ""
		}
		pulls.Cells = append(pulls.Cells, []string{fmt.Sprint(p.Number), string(p.Hold), string(p.To), length, reads, s.useWords(p)})
	}
	if !s.Corrected {
		pulls = without(pulls, 3)
		pulls.Columns[3].Head = "\nreads"
	}
	return pulls, pegs
}

func (s Sheet) toldAngle(p pegging.Pull) string {
	if !p.Measured {
		return "(" + s.Turned(p.Angle) + ")"
	}
	return s.Turned(p.Angle)
}

// pegFigures are a peg's running distance and offset, as the plan and the table have
// them: bare where they were measured or chosen.
func (s Sheet) pegFigures(p pegging.Mark) (along, offset string) {
	chosen := p.Role == pegging.SquareLeg || p.Role == pegging.SquareTop
	along = bracketed(s.Figure(max(p.Along, -p.Along)), s.alongMeasured(p))
	if p.Along < 0 && s.Figure(-p.Along) != s.Figure(0) {
		along = "−" + along
	}
	offset = bracketed(s.Figure(p.Offset), p.Side == pegging.OnLine || chosen || p.Role == pegging.Corner && s.offsetTold(p.Name))
	return along, offset
}

func (s Sheet) alongMeasured(p pegging.Mark) bool {
	switch {
	case max(p.Along, -p.Along) <= pegging.SameMark:
		return true
	case p.Name == s.Baseline.To:
		return s.Baseline.Measured
	}
	return p.Role == pegging.Corner && p.Side == pegging.OnLine && s.PullTo(p.Name).Measured
}

// offsetTold says whether a corner's offset was measured.
func (s Sheet) offsetTold(n geom.Name) bool {
	for _, p := range s.Pulls {
		if p.Use == pegging.ForHeight && p.To == n {
			return p.Measured
		}
	}
	return false
}

// bothSides says whether pegs stand on either side of the baseline; oneSide is the
// one on which all stand.
func (s Sheet) bothSides() bool {
	seen := map[pegging.Side]bool{}
	for _, p := range s.Pegs {
		seen[p.Side] = true
	}
	return seen[pegging.Left] && seen[pegging.Right]
}

func (s Sheet) oneSide() pegging.Side {
	for _, p := range s.Pegs {
		if p.Side != pegging.OnLine {
			return p.Side
		}
	}
	return pegging.Left
}

// without leaves a column out.
func without(t sheet.Table, column int) sheet.Table {
	t.Columns = append(append([]sheet.Column(nil), t.Columns[:column]...), t.Columns[column+1:]...)
	cells := make([][]string, len(t.Cells))
	for i, c := range t.Cells {
		cells[i] = append(append([]string(nil), c[:column]...), c[column+1:]...)
	}
	t.Cells = cells
	return t
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

// narrowing is a table that on narrow paper is set in smaller letters, and where that
// does not do without its last column.
type narrowing struct {
	sheet.Table
	less  bool // the last column may go: it only says what the letters say
	after bool // not parted from what follows
}

func (b narrowing) Rows(width unit.Length, r draw.Ruler) []sheet.Row {
	if b.Breadth(r) > width {
		b.Height = draw.NoteHeight
	}
	if b.less && b.Breadth(r) > width {
		b.Table = without(b.Table, len(b.Columns)-1)
	}
	rows := b.Table.Rows(width, r)
	rows[len(rows)-1].Keep = b.after && b.Whole
	return rows
}

func (s Sheet) checksTable() sheet.Table {
	// A box is 1 mm lower than its row.
	t := sheet.Table{Height: draw.FigureHeight, Row: 9.1, Gutter: 3.5, Columns: []sheet.Column{
		{Head: "check", Align: sheet.ToRight}, {Head: "from"}, {Head: "to"}, {Head: "should\nread", Align: sheet.Lengths(s.Inches())},
		{Head: "accept\nfrom", Align: sheet.Lengths(s.Inches())}, {Head: "accept\nto", Align: sheet.Lengths(s.Inches())}, {Head: "found", Align: sheet.Box, Width: 26}, {Head: "what it is", Fill: true},
	}}
	for _, c := range s.Checks {
		t.Cells = append(t.Cells, []string{fmt.Sprint(c.Number), string(c.From), string(c.To),
			bracketed(s.Figure(c.Reads), c.Measured && !s.Corrected), s.Figure(c.Least), s.Figure(c.Greatest), "", checkNote(c)})
	}
	return t
}

// sureTable says how far off each peg may be.
func (s Sheet) sureTable() sheet.Table {
	u := s.SmallUnit()
	t := sheet.Table{Height: draw.FigureHeight, Gutter: 3.5, Whole: len(s.Sure) <= short, Columns: []sheet.Column{
		{Head: "peg"}, {Head: "σ along,\n" + u, Align: sheet.OnPoint}, {Head: "σ across,\n" + u, Align: sheet.OnPoint},
		{Head: "95 %: as\nmeasured", Align: sheet.OnPoint}, {Head: "as set\nout", Align: sheet.OnPoint}, {Head: "both,\n" + u, Align: sheet.OnPoint},
		{Head: "may be\noff, " + u, Align: sheet.OnPoint}, {Head: ""},
	}}
	for _, x := range s.Sure {
		t.Cells = append(t.Cells, []string{string(x.Peg), s.Small(x.Along), s.Small(x.Across), s.Small(x.Measured), s.Small(x.SetOut), s.Small(x.Both), s.Small(x.Permitted), sureNote(x)})
	}
	if s.Permitted == 0 {
		t = without(without(t, 7), 6)
	}
	return t
}

// rankTable compares the ways.
func (s Sheet) rankTable() sheet.Table {
	t := sheet.Table{Height: draw.FigureHeight, Gutter: 3.5, Whole: true, Columns: []sheet.Column{
		{Head: "way"}, {Head: "from"}, {Head: "worst\npeg"}, {Head: "95 %,\n" + s.SmallUnit(), Align: sheet.OnPoint}, {Head: "times", Align: sheet.OnPoint}, {Head: ""},
	}}
	for i, x := range s.Ranking.Best {
		used := ""
		if i == s.Ranking.Used {
			used = "used"
		}
		t.Cells = append(t.Cells, []string{wayWords(x.Method), string(x.Base[0] + x.Base[1]), string(x.Pegs[x.Worst].Name), s.Small(x.Figure), fmt.Sprintf("%.1f", x.Times), used})
	}
	return t
}

func wayWords(m pegging.Method) string {
	return [...]string{"two arcs", "offset by 3-4-5", "angle and distance"}[m]
}

// sureWords say what the figures of how sure it is mean.
func (s Sheet) sureWords() string {
	words := fmt.Sprintf("Seen from %s, with the line to %s held: 95 of 100 times a peg lies within the figure below %q of its place. σ is two fifths of that or less, along %s%s and across it.",
		s.Baseline.From, s.Baseline.To, "both", s.Baseline.From, s.Baseline.To)
	if s.Permitted > 0 {
		words += fmt.Sprintf(" Permitted is ±%s√L mm, L in metres from the nearer end of the baseline, and ±%s mm below 5 m.", unit.Decimals(s.Permitted.MM(), 2), unit.Decimals(2*s.Permitted.MM(), 2))
	}
	return words
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
			sheet.Heading{Words: "How sure"}, narrowing{Table: sure}, sheet.Gap(1), sheet.Paragraph{Words: s.sureWords()},
			sheet.Gap(1.5), sheet.Paragraph{Words: s.waysInWords()},
		}
	}
	return nil
}

// sureBlock is the two tables of how sure it is, side by side where the width allows.
type sureBlock struct{ s Sheet }

func (b sureBlock) Rows(width unit.Length, r draw.Ruler) []sheet.Row {
	s := b.s
	sure, rank := s.sureTable(), s.rankTable()
	left := []sheet.Block{sheet.Heading{Words: "How sure"}, narrowing{Table: sure}, sheet.Gap(1), sheet.Paragraph{Words: s.sureWords()}}
	right := []sheet.Block{sheet.Heading{Words: "Which way is surest"}, narrowing{Table: rank}, sheet.Gap(1), sheet.Paragraph{Words: s.rankWords()}}
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

// sureInWords is what the two tables say, in less room.
func (s Sheet) sureInWords() string {
	var both, measured, out, along, across []string
	for _, x := range s.Sure[1:] { // the zero end is where it is
		words := string(x.Peg) + " " + s.Small(x.Both)
		if s.Permitted > 0 {
			words += fmt.Sprintf(" (%s what is permitted, %s)", sureNote(x), s.Small(x.Permitted))
		}
		both, measured, out = append(both, words), append(measured, s.Small(x.Measured)), append(out, s.Small(x.SetOut))
		along, across = append(along, s.Small(x.Along)), append(across, s.Small(x.Across))
	}
	row := func(figures []string) string { return strings.Join(figures, ", ") }
	return fmt.Sprintf("How sure, 95 %% in %s, seen from %s along %s%s: %s; of it as measured %s, as set out %s; σ along %s, across %s. %s",
		s.SmallUnit(), s.Baseline.From, s.Baseline.From, s.Baseline.To, row(both), row(measured), row(out), row(along), row(across), s.waysInWords())
}

// waysInWords is the ranking in a paragraph.
func (s Sheet) waysInWords() string {
	const told = 3 // of the ways
	var ways []string
	for i, x := range s.Ranking.Best {
		if i >= told && i != s.Ranking.Used {
			continue
		}
		words := fmt.Sprintf("%s from %s %s", wayWords(x.Method), edge(x.Base), s.Small(x.Figure))
		if i == s.Ranking.Used {
			words += " (used)"
		}
		ways = append(ways, words)
	}
	return fmt.Sprintf("Ways by their worst peg: %s. %s", strings.Join(ways, ", "), s.why())
}

func (s Sheet) rankWords() string {
	return strings.TrimSpace(fmt.Sprintf("%d ways compared, by the peg that each places worst. %s", s.Ranking.Of, s.why()))
}

// blocks are the words below the tables, in the order of the work, its steps and
// its checks each kept together or not.
func (s Sheet) blocks(stepsWhole, checksWhole bool, f sureForm) []sheet.Block {
	steps := sheet.List{Numbered: true, Height: draw.FigureHeight, Gap: 0.9, Whole: stepsWhole}
	for _, x := range s.Steps {
		steps.Items = append(steps.Items, x.Words)
	}
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
		return append(out, sheet.Paragraph{Words: basis + " " + s.sureInWords()})
	}
	return append(append(out, sheet.Paragraph{Words: basis}), s.sureBlocks(f)...)
}
