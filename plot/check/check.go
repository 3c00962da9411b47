// Package check is the sheet of a layout that was set out and measured back: pages, text
// and table.
//
// Files, from the top floor to the ground: pages.go, text.go, plan.go, check.go.
package check

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/compare"
	"trammel/geom/pegging"
	"trammel/geom/tape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/sheet"
	"trammel/plot/words"
)

// Sheet is the sheet for the file on what was pegged against what was asked for:
// each reading with its range, the peg that stands wrong with its move on the plan
// and in words, what to measure again, and who signs for it.
type Sheet struct {
	sheet.TitleBlock
	Figures    tape.Figures
	Comparison compare.Comparison
	Outline    []geom.Name // of the piece; empty: pegs alone
	words.Ranges
	Language words.Language // nil: English at the bench
	Office   bool           // the office's copy: how the ranges are reckoned, part by part
}

// Says what became of the layout, in the language of the sheet.
func (s Sheet) Says() words.Checks { return words.In(s.Language).Checks() }

func (s Sheet) heads() words.Heads { return words.In(s.Language).Heads(pegging.Layout{}) }

// whole says that all that was read, and all ranges, are whole millimetres: so is then all
// that is printed. Who reads tenths is told tenths.
func (s Sheet) whole() bool {
	for _, r := range s.Comparison.Readings {
		for _, x := range []adjust.Figure{r.Found, r.Least, r.Greatest} {
			if far := math.Abs(math.Remainder(x.Length.MM(), 1)); r.Measurement.Kind != triangle.Angle && far > 1e-6 {
				return false
			}
		}
	}
	return true
}

// written is how lengths are printed.
func (s Sheet) written() tape.Figures {
	f := s.Figures
	if f.Unit == unit.MM && f.Decimals < 0 && !s.whole() {
		f.Decimals = 0 // down to tenths
	}
	return f
}

// Figure is a length or an angle as the sheet prints it.
func (s Sheet) Figure(m triangle.Measurement, x adjust.Figure) string {
	if m.Kind == triangle.Angle {
		return s.Figures.Style.Angle(x.Angle)
	}
	return s.written().Figure(x.Length)
}

// Off is a deviation as the sheet prints it, with its sign.
func (s Sheet) Off(m triangle.Measurement, x adjust.Figure) string {
	if m.Kind == triangle.Angle {
		return tape.Signed(x.Angle.Degrees(), strings.TrimRight(strings.TrimRight(fmt.Sprintf("%.2f", math.Abs(x.Angle.Degrees())), "0"), ".")+"°")
	}
	return tape.Signed(x.Length.MM(), s.written().Figure(unit.Length(math.Abs(x.Length.MM()))))
}

// Grains are the steps that compare.Asked rounds ranges outward to, so that
// what is printed is what a reading is judged by.
func Grains(style unit.Style) (grain, fine adjust.Figure) {
	s := tape.FiguresOf(style, tape.Instrument{})
	grain.Length, fine.Length = s.Grain(), s.Grain()
	if !s.Inches() && s.Style.Unit != unit.M {
		fine.Length /= 10
	}
	grain.Angle = unit.Degree / 10
	if style.Minutes {
		grain.Angle = unit.Degree / 60
	}
	fine.Angle = grain.Angle
	return grain, fine
}

// again are the readings to be taken anew, with their figures to write beside.
func (s Sheet) again() (all []int) {
	add := func(more ...int) {
		for _, i := range more {
			if !slices.Contains(all, i) {
				all = append(all, i)
			}
		}
	}
	c := s.Comparison
	only := len(c.Explanations) == 1
	for _, e := range c.Explanations {
		for _, m := range e.Pegs {
			if only && e.Well && e.Cause == compare.Alone {
				add(m.Then...)
			}
		}
		if only && e.Cause != compare.Alone {
			for i := range c.Readings {
				add(i)
			}
		}
		add(e.Reading...)
	}
	for i, r := range c.Readings {
		if !r.Inside || r.Rough {
			add(i)
		}
	}
	return all
}

// next are the lengths nobody measured that are worth it.
func (s Sheet) next() (all [][2]geom.Name) {
	if t := s.Comparison.Tell; t != nil {
		all = append(all, [2]geom.Name{t.From, t.To})
	}
	if n := s.Comparison.Next; n != ([2]geom.Name{}) && (len(all) == 0 || all[0] != n) {
		all = append(all, n)
	}
	return all
}

func (s Sheet) readingsTable() sheet.Table {
	a := sheet.Lengths(s.Figures.Inches())
	t := sheet.Headed(s.heads().Columns(words.PartFound), sheet.ToLeft, a, a, a, a, a)
	for _, r := range s.Comparison.Readings {
		m := r.Measurement
		t.Cells = append(t.Cells, []string{m.Subject(), s.Figure(m, r.Wanted), s.Figure(m, r.Least), s.Figure(m, r.Greatest), s.Figure(m, r.Found), s.Off(m, r.Off), s.Says().Reading(r)})
	}
	return t
}

// againTable is to be filled in.
func (s Sheet) againTable() sheet.Table {
	t := sheet.Headed(s.heads().Columns(words.PartAgain), sheet.ToLeft, sheet.Lengths(s.Figures.Inches()), sheet.Box)
	t.Row, t.Columns[2].Width = 9.1, 30
	const most = 24 // beyond, all is measured again on a sheet of its own
	again := s.again()
	for _, i := range again[:min(most, len(again))] {
		r := s.Comparison.Readings[i]
		t.Cells = append(t.Cells, []string{r.Measurement.Subject(), s.Figure(r.Measurement, r.Wanted), ""})
	}
	for _, n := range s.next() {
		t.Cells = append(t.Cells, []string{string(n[0] + n[1]), s.written().Figure(s.Comparison.ShouldRead(n[0], n[1])), ""})
	}
	return t
}

// glued is advice in which no line ends between a reading and its figure.
func (s Sheet) glued(advice []string) (all []string) {
	for _, said := range advice {
		for _, r := range s.Comparison.Readings {
			subject, figure := r.Measurement.Subject(), s.Figure(r.Measurement, r.Wanted)
			said = strings.ReplaceAll(said, subject+" "+figure, subject+"\u00a0"+figure)
		}
		all = append(all, said)
	}
	return all
}

// held is what readings were held to.
func (s Sheet) held() string {
	if s.Office {
		return s.Says().Basis(s.Ranges, s.Figures, s.Comparison)
	}
	return s.Says().Held(s.Ranges)
}

// blocks below the head, what to do beside the plan or below it.
func (s Sheet) blocks(f figure, aside bool) []sheet.Block {
	c := s.Comparison
	plan := sheet.Figure{Draw: func(unit.Length, draw.Ruler) (draw.Drawing, unit.Length) { return f.marks, f.high }}
	out := []sheet.Block{sheet.Paragraph{Words: s.Says().Verdict(c), Height: draw.FigureHeight, Bold: true, Keep: true}, sheet.KeptGap(2)}
	var todo []sheet.Block
	if advice := s.Says().Advice(c, s.written().Style); len(advice) > 0 {
		todo = []sheet.Block{sheet.Heading{Words: s.heads().Heading(words.PartAdvice)}, sheet.List{Items: s.glued(advice), Numbered: true, Height: draw.FigureHeight, Gap: 0.9}}
	}
	if aside {
		out = append(out, sheet.Beside{Stacks: [][]sheet.Block{{plan}, todo}, Shares: []float64{planAside, 1 - planAside}, Gutter: sheet.BetweenTables})
	} else {
		out = append(append(out, plan), todo...)
	}
	out = append(out, tablesBlock{s})
	return append(out,
		sheet.Heading{Words: s.heads().Heading(words.PartBefore)}, sheet.List{Items: words.In(s.Language).Cautions().Check(s.Comparison.Passed), Whole: true}, sheet.Gap(2),
		sheet.Paragraph{Words: s.held(), Keep: true},
		sheet.Entries{Labels: s.heads().Sign(true), Height: 10.5})
}

// tablesBlock sets what was found and what is measured again side by side where
// the width allows and they are short, else one below the other.
type tablesBlock struct{ Sheet }

const shortTable = 14

func (b tablesBlock) Rows(width unit.Length, r draw.Ruler) []sheet.Row {
	found, again := b.readingsTable(), b.againTable()
	if found.Breadth(r) > width { // narrow paper
		found.Height = draw.NoteHeight
	}
	left := []sheet.Block{sheet.Heading{Words: b.heads().Heading(words.PartFound)}, found}
	right := []sheet.Block{sheet.Heading{Words: b.heads().Heading(words.PartAgain)}, again}
	switch room := width - found.Breadth(r) - sheet.BetweenTables; {
	case len(again.Cells) == 0:
		return sheet.Stack(left, width, r)
	case len(found.Cells) > shortTable || len(again.Cells) > shortTable*2/3 || room < again.Breadth(r):
		return sheet.Stack(append(right, left...), width, r)
	default:
		shares := []float64{float64(found.Breadth(r)), float64(room)}
		return sheet.Beside{Stacks: [][]sheet.Block{left, right}, Shares: shares, Gutter: sheet.BetweenTables}.Rows(width, r)
	}
}
