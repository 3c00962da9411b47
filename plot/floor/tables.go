package floor

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"trammel/geom/courses"
	"trammel/geom/unit"
	"trammel/plot/sheet"
	"trammel/plot/words/laying"
)

// tables of a sheet.
type tables struct{ Sheet }

// starts are the layouts side by side.
func (s tables) starts() sheet.Table {
	t := sheet.Headed(s.says().Columns(laying.TheStarts), sheet.ToLeft, sheet.ToRight, sheet.ToRight, sheet.ToRight, sheet.Lengths(s.inches()), sheet.ToRight, sheet.ToRight, sheet.ToRight, sheet.ToRight)
	for _, c := range s.Plan.Choices {
		t.Cells = append(t.Cells, []string{s.says().Aim(c.Aim), fmt.Sprint(len(c.Whole)), fmt.Sprint(len(c.Pieces)), fmt.Sprint(len(c.Kinds)), s.Figures.Length(unit.Length(c.Measures.Narrowest)),
			fmt.Sprint(c.UnderHalf), fmt.Sprint(c.Measures.Slivers), fmt.Sprint(c.Bought), fmt.Sprint(c.Least)})
	}
	return t
}

func (s Sheet) inches() bool { return s.Figures.Unit >= unit.IN }

// triedWords are the walls that were tried.
func (s tables) triedWords() []string {
	var all []laying.Tried
	for _, t := range s.Tried {
		n, _ := t.Plan.Advised()
		c := t.Plan.Choices[n]
		all = append(all, laying.Tried{Wall: t.Wall, Across: t.Across, Cuts: len(c.Pieces), Slivers: c.Measures.Slivers, Narrowest: unit.Length(c.Measures.Narrowest), Taken: t.Plan.Grid.Angle == s.Plan.Grid.Angle})
	}
	return s.says().Tried(all, s.Figures)
}

// coursesTable is each row: where its edge and its first joint lie, how its ends are cut.
func (s tables) coursesTable(start courses.Start) sheet.Table {
	a := sheet.Lengths(s.inches())
	t := sheet.Headed(s.says().Columns(laying.TheCourses), sheet.ToRight, a, a, sheet.ToRight, sheet.ToRight, a, a, a)
	cut := func(l unit.Length) string {
		if l == 0 {
			return s.says().Whole()
		}
		return s.Figures.Length(l)
	}
	for _, c := range courses.Courses(s.Plan.Grid, &s.drawn().Layout, start) {
		t.Cells = append(t.Cells, []string{fmt.Sprint(c.Number), signed(s.Figures, c.From), signed(s.Figures, c.From+s.Plan.Grid.Across), fmt.Sprint(c.Whole), fmt.Sprint(c.Cuts), signed(s.Figures, c.First), cut(c.Left), cut(c.Right)})
	}
	slices.Reverse(t.Cells) // as they lie on the plan
	return t
}

func signed(f unit.Style, l unit.Length) string {
	if l < 0 {
		return "−" + f.Length(-l)
	}
	return f.Length(l)
}

// taperTable is the cuts along one wall.
func (s tables) taperTable(t courses.Taper) sheet.Table {
	a := sheet.Lengths(s.inches())
	_, columns := s.says().Taper(s.Outline.Side(t.Wall), t.Side)
	out := sheet.Headed(columns, sheet.ToLeft, a, a)
	n := s.drawn().Numbers()
	for _, x := range t.Tiles {
		out.Cells = append(out.Cells, []string{n.Piece(x.Piece), s.Figures.Length(x.From), s.Figures.Length(x.To)})
	}
	return out
}

// groupRows say which kinds come from one tile, tiles alike in one row.
func (s tables) groupRows() (rows [][]string) {
	c := s.drawn()
	n := c.Numbers()
	type group struct {
		kinds string
		tiles []string
	}
	var all []group
	for _, g := range c.Groups {
		var kinds, names []string
		for _, l := range g {
			p := c.Pieces[l.Piece]
			kinds, names = append(kinds, fmt.Sprintf("%d/%d", p.Kind+1, l.Quarters)), append(names, s.says().FromTile(n.Piece(l.Piece), l.Quarters))
		}
		key := strings.Join(kinds, " + ")
		k := slices.IndexFunc(all, func(o group) bool { return o.kinds == key })
		if k < 0 {
			k, all = len(all), append(all, group{kinds: key})
		}
		all[k].tiles = append(all[k].tiles, strings.Join(names, " + "))
	}
	slices.SortStableFunc(all, func(a, b group) int { return cmp.Compare(len(b.tiles), len(a.tiles)) })
	for _, g := range all {
		rows = append(rows, []string{fmt.Sprint(len(g.tiles)), strings.Join(g.tiles, ", ")})
	}
	return rows
}

func (s tables) tilesTable() sheet.Table {
	t := sheet.Headed(s.says().Columns(laying.TheTiles), sheet.ToRight, sheet.ToLeft)
	t.Columns[1].Fill = true
	t.Cells = s.groupRows()
	return t
}
