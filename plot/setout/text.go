package setout

import (
	"fmt"
	"io"

	"trammel/plot/phone"
	"trammel/plot/sheet"
	"trammel/plot/words"
)

// Text writes the sheet as plain text for a phone: UTF-8, lines of at most 40
// characters ended by a line feed, every figure as on the paper.
func (s Sheet) Text(out io.Writer) error {
	var t phone.Text
	h := s.heads()
	if title := s.Title(); title != "" {
		t.Para("", title)
	}
	t.Para("", h.Title(false)+". "+h.Units(false, s.Style)[2])
	if s.Date != "" {
		t.Para("", s.Date)
	}

	s.listed(&t, words.PartBring, s.Bring)
	s.listed(&t, words.PartCare, s.Cautions)
	if len(s.Doubts) > 0 {
		s.listed(&t, words.PartDoubts, s.Doubts)
	}
	t.Line("")
	t.Para("", s.Says().Stand())
	s.textPegs(&t)
	s.head(&t, words.PartSteps)
	for i, x := range s.Steps {
		t.Para(fmt.Sprintf("%2d. ", i+1), x)
	}
	s.textMarks(&t)
	if len(s.Checks) > 0 {
		s.head(&t, words.PartChecks)
	}
	for _, c := range s.siteChecks() {
		reads, good, found := h.Check(c)
		t.Para(fmt.Sprintf("%2d. ", c.Number), reads)
		t.Para("    ", good)
		t.Line("    " + found + " ________________")
	}
	t.Line("")
	if said := s.Says().Outside(); said != "" {
		t.Para("", said)
	}
	t.Para("", s.Says().Within())
	if s.Office {
		s.textOffice(&t)
	}
	_, err := t.WriteTo(out)
	return err
}

// head begins a part.
func (s Sheet) head(t *phone.Text, of words.Part) {
	heading, columns := s.heads().OnPhone(of)
	t.Head(heading)
	if columns != "" {
		t.Para("", columns)
	}
}

func (s Sheet) listed(t *phone.Text, of words.Part, items []string) {
	s.head(t, of)
	t.List(items)
}

// bare is rows of a table of the paper's, some of their columns.
func bare(cells [][]string, columns ...int) (rows [][]string) {
	for _, c := range cells {
		var row []string
		for _, i := range columns {
			if i < len(c) {
				row = append(row, sheet.Plain(c[i]))
			}
		}
		rows = append(rows, row)
	}
	return rows
}

// textPegs are the places of the pegs, the pulls and the corrections.
func (s Sheet) textPegs(t *phone.Text) {
	columns := []int{0, 1, 2, 3}
	if !s.BothSides() {
		columns = columns[:3]
	}
	s.head(t, words.PartPegs)
	t.Table(bare(s.pegsTable().Cells, columns...))
	s.head(t, words.PartPulls)
	rows := bare(s.pullsTable(false).Cells, 0, 1, 2, 3, 4, 5)
	for i, c := range rows {
		rows[i] = []string{c[0], c[1] + " " + c[2], c[len(c)-2], c[len(c)-1]}
	}
	t.Table(rows)
	for _, said := range s.Says().Aside() {
		t.Line("")
		t.Para("", said)
	}
}

// textOffice is what the office wants to know.
func (s Sheet) textOffice(t *phone.Text) {
	if said := s.Says().Crossing(); said != "" {
		t.Line("")
		t.Para("", said)
	}
	t.Line("")
	for _, x := range s.Basis {
		t.Para("", x)
	}
	s.textSure(t)
	if s.Corrected {
		s.head(t, words.PartCorrections)
		t.Para("", s.Says().Taping())
		for _, p := range s.Pulls {
			if s.corrects(p) {
				t.Para(fmt.Sprintf("%2d. ", p.Number), s.heads().Corrected(p))
			}
		}
	}
	if steps := s.Says().SecondWay(); len(steps) > 0 {
		s.head(t, words.PartSecond)
		t.List(steps)
	}
}

// textSure is how sure each peg is, and each way.
func (s Sheet) textSure(t *phone.Text) {
	s.head(t, words.PartSure)
	rows := bare(s.sureTable().Cells, 0, 3, 4, 5, 7, 6)
	for i, row := range rows {
		if len(row) > 4 {
			rows[i] = append(row[:4], row[4]+" "+row[5])
		}
	}
	t.Table(rows)
	t.Para("", s.Says().HowSure())
	s.head(t, words.PartWays)
	for i, x := range s.Ranking.Best {
		t.Para("- ", s.heads().Way(x, i == s.Ranking.Used))
	}
	t.Para("", s.Says().Rank())
}

// textMarks are marks, nails and strings.
func (s Sheet) textMarks(t *phone.Text) {
	columns := []int{0, 1, 2, 3, 4, 5}
	if len(s.Marks) > 0 {
		s.head(t, words.PartMarks)
		if !s.BothSides() && len(s.Nails) == 0 {
			columns = columns[:4]
		}
		t.Table(bare(s.marksTable().Cells, columns...))
	}
	if len(s.Nails) > 0 {
		s.head(t, words.PartNails)
		t.Table(bare(s.nailsTable().Cells, columns...))
	}
	if said := missingNails(s.written); said != "" {
		t.Para("", said)
	}
	if len(s.Strings) > 0 {
		s.head(t, words.PartStrings)
		for _, x := range s.Strings {
			t.Para("- ", s.heads().String(x))
		}
	}
}
