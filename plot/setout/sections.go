package setout

import (
	"fmt"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/plan"
	"trammel/plot/sheet"
	"trammel/plot/words"
)

// block is one that has to know the width.
type block func(width unit.Length, r draw.Ruler) []sheet.Row

func (b block) Rows(width unit.Length, r draw.Ruler) []sheet.Row { return b(width, r) }

func (s written) heading(of words.Part) sheet.Heading {
	return sheet.Heading{Words: s.heads().Heading(of)}
}

// frontBlocks are what is looked at, below the plan.
func (c composer) frontBlocks() []sheet.Block {
	out := []sheet.Block{block(c.tables)}
	for _, said := range c.Says().Aside() {
		out = append(out, sheet.Gap(1), sheet.Paragraph{Words: said, Height: draw.FigureHeight})
	}
	if len(c.Doubts) > 0 {
		out = append(out, c.heading(words.PartDoubts), sheet.List{Items: c.Doubts, Whole: true})
	}
	if !c.careBack {
		out = append(out, c.careBlocks()...)
	}
	return out
}

func (c composer) careBlocks() []sheet.Block {
	care := sheet.List{Items: c.Cautions, Whole: true}
	if c.roomy {
		care.Height = draw.FigureHeight
	}
	return []sheet.Block{c.heading(words.PartCare), care}
}

// steps in the order of the work; of short ones each says for which of the pulls it is.
func (c composer) steps() sheet.List {
	list := sheet.List{Numbered: true, Height: draw.FigureHeight, Gap: 1.2, Items: c.Steps}
	if c.roomy {
		list.Gap = 3
	}
	if c.short {
		list.Items = nil
		n := 1
		for _, x := range c.Says().Short() {
			sign := fmt.Sprint(n)
			if n += x.Pulls; x.Pulls > 1 {
				sign += "–" + fmt.Sprint(n-1)
			}
			list.Items, list.Signs = append(list.Items, x.Words), append(list.Signs, sign)
		}
	}
	list.Whole = len(list.Items) <= short/2
	return list
}

// backBlocks are what is done, in the order of the work.
func (c composer) backBlocks() []sheet.Block {
	h := c.heads()
	var out []sheet.Block
	if c.careBack {
		out = c.careBlocks()
	}
	out = append(out, c.heading(words.PartBring), sheet.Paragraph{Words: h.Bring(), Height: draw.FigureHeight}, c.heading(words.PartSteps), c.steps())
	out = append(out, c.markBlocks()...)
	if len(c.Checks) > 0 {
		out = append(out, c.heading(words.PartChecks), block(c.checks), sheet.KeptGap(3.5),
			sheet.Paragraph{Words: c.Says().Outside(), Height: draw.FigureHeight, Keep: true}, sheet.KeptGap(0.8))
	}
	return append(out,
		sheet.Paragraph{Words: c.Says().Within(), Height: draw.FigureHeight, Keep: true},
		sheet.Entries{Labels: h.Sign(false), Height: 13})
}

// markBlocks are the tables of the marks along the edges and of the profile boards.
func (s Sheet) markBlocks() (out []sheet.Block) {
	add := func(of words.Part, t sheet.Table) {
		if t.Whole = len(t.Cells) <= short; len(t.Cells) > 0 {
			out = append(out, s.heading(of), columned{t})
		}
	}
	add(words.PartMarks, s.marksTable())
	add(words.PartNails, s.nailsTable())
	if said := missingNails(s.written); said != "" {
		out = append(out, sheet.Paragraph{Words: said})
	}
	add(words.PartStrings, s.stringsTable())
	return out
}

// beside sets two stacks side by side, so wide and half of the room to spare.
func beside(left, right []sheet.Block, l, p, width unit.Length) sheet.Beside {
	spare := float64(width-l-p-sheet.BetweenTables) / 2
	return sheet.Beside{Stacks: [][]sheet.Block{left, right}, Shares: []float64{float64(l) + spare, float64(p) + spare}, Gutter: sheet.BetweenTables}
}

// tables are what stands below the plan: pulls and pegs, side by side where there is room.
func (s Sheet) tables(width unit.Length, r draw.Ruler) []sheet.Row {
	pulls, pegs := s.pullsTable(false), s.pegsTable()
	left, right := []sheet.Block{s.heading(words.PartPulls), pulls}, []sheet.Block{s.heading(words.PartPegs), pegs}
	if l, p := pulls.Breadth(r), pegs.Breadth(r); l+p+sheet.BetweenTables <= width && pulls.Whole {
		return beside(left, right, l, p, width).Rows(width, r)
	}
	left[1], right[1] = narrowing{Table: pulls}, narrowing{Table: pegs}
	if !pulls.Whole && len(pulls.Cells) <= halved {
		left[1] = columned{pulls}
	}
	return sheet.Stack(append(left, right...), width, r)
}

// halved is how many rows of letters of full size may stand in two halves on a page.
const halved = 72

// checks stand in two halves where they are many and there is room; of few a small plan
// stands beside them, with the lines that they are pulled along.
func (c composer) checks(width unit.Length, r draw.Ruler) []sheet.Row {
	all := c.siteChecks()
	t := c.checksTable(all)
	n := (len(all) + 1) / 2
	left, right := halfTable(c.checksTable(all[:n])), halfTable(c.checksTable(all[n:]))
	if len(all) > manyChecks && left.Breadth(r)+right.Breadth(r)+betweenHalves <= width {
		return sheet.Beside{Stacks: [][]sheet.Block{{left}, {right}}, Gutter: betweenHalves, Shares: []float64{float64(left.Breadth(r)), float64(right.Breadth(r))}}.Rows(width, r)
	}
	room := width - t.Breadth(r) - sheet.BetweenTables
	if len(all) > mostRings || room < leastSmall {
		return narrowing{Table: t}.Rows(width, r)
	}
	drawn := fitted(c.checked(all), room, max(highSmall, checkRow*unit.Length(len(all))), r)
	if drawn.Crammed {
		return narrowing{Table: t}.Rows(width, r)
	}
	small := sheet.Figure{Alt: words.In(c.Language).Aloud().Checked(len(all)), Draw: func(w unit.Length, _ draw.Ruler) (draw.Drawing, unit.Length) {
		at := geom.Point{X: (w-drawn.Bounds.Width())/2 - drawn.Bounds.Min.X, Y: -planMargin - drawn.Bounds.Max.Y}
		return sheet.Shift(drawn.Ops, at), drawn.Bounds.Height() + 2*planMargin
	}}
	return sheet.Beside{
		Stacks: [][]sheet.Block{{t}, {small}}, Gutter: sheet.BetweenTables,
		Shares: []float64{float64(t.Breadth(r)), float64(room)},
	}.Rows(width, r)
}

// halfTable is checks that stand beside others.
func halfTable(t sheet.Table) sheet.Table {
	t.Gutter, t.Columns[len(t.Columns)-1].Width = 2, 20
	return t
}

const (
	manyChecks             = 8
	mostRings              = 12
	highSmall  unit.Length = 55 // of that plan at most, beside few checks
	leastSmall unit.Length = 40
	// Boxes part two halves of a table.
	betweenHalves unit.Length = 4.5
)

// details follow the plan: where its pegs crowd, they have their names there.
func (c composer) details(of plan.Drawn, width unit.Length) []sheet.Block {
	d := c.planned().DetailsOf(of, c.r, min(width, c.leaf.Next().Height()))
	if len(d) == 0 {
		return nil
	}
	return []sheet.Block{sheet.Gap(plan.DetailGap), d}
}
