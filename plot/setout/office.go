package setout

import (
	"slices"
	"strings"

	"trammel/geom/pegging"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/sheet"
	"trammel/plot/words"
)

// officeBlocks are what the office wants to know: how sure each peg is, the ways compared,
// corrections part by part, how ranges are reckoned, a second way to the same corner.
func (s Sheet) officeBlocks() []sheet.Block {
	out := []sheet.Block{block(s.sureness)}
	if said := s.Says().Crossing(); said != "" {
		out = append(out, sheet.Gap(2), sheet.Paragraph{Words: said})
	}
	out = append(out, sheet.Gap(2), sheet.Paragraph{Words: strings.Join(s.Basis, " ")})
	if more := s.officeChecks(); len(more) > 0 {
		t := s.checksTable(more)
		t.Whole = false
		out = append(out, s.heading(words.PartChecks), narrowing{Table: t})
	}
	if s.Corrected {
		t := s.correctionsTable()
		out = append(out, s.heading(words.PartCorrections), sheet.Paragraph{Words: s.Says().Taping(), Keep: true}, sheet.KeptGap(1), narrowing{Table: t})
	}
	if steps := s.Says().SecondWay(); len(steps) > 0 {
		pulls, list := s.pullsTable(true), sheet.List{Numbered: true, Items: steps, Whole: true}
		list.First = 1 + slices.IndexFunc(s.Pulls, func(p pegging.Pull) bool { return p.Part == pegging.SecondWay })
		out = append(out, s.heading(words.PartSecond), pulls, sheet.KeptGap(1.5), list)
	}
	return out
}

// told is a table with its heading, and a paragraph below it.
func (s written) told(of words.Part, t sheet.Table, words string) []sheet.Block {
	return []sheet.Block{s.heading(of), narrowing{Table: t}, sheet.Gap(1), sheet.Paragraph{Words: words}}
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
