// Package floor is the sheets that a tiler lays a floor by: the plan with every tile
// numbered, the lines to snap, the courses, a card and a template for every kind of cut,
// what comes from which tile, and what to buy.
//
// Files, from the top floor to the ground: pages.go, text.go, templates.go, rods.go, plan.go, cards.go,
// tables.go, csv.go, floor.go.
package floor

import (
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/courses"
	"trammel/geom/tiling"
	"trammel/geom/unit"
	"trammel/plot/sheet"
	"trammel/plot/words"
	"trammel/plot/words/laying"
)

// Sheet is one floor with its tiles laid.
type Sheet struct {
	sheet.TitleBlock
	Language words.Language // nil: English at the bench
	Figures  unit.Style
	Outline  geom.Outline
	Openings []tiling.Opening
	Gaps     []unit.Length // along each wall of the outline
	Plan     tiling.Plan
	Along    string // the wall that the rows run along; empty: none
	Tried    []Tried
	Box      int         // tiles in a box; 0: not said
	Given    bool        // the start was given: nothing was searched
	Single   bool        // no floor, but one tile that is cut
	Uneven   unit.Length // how far the narrowest cut may be off by how well the floor was measured
}

// Tried is a wall that rows could run along, where the best was asked for.
type Tried struct {
	Wall   string
	Across bool
	Plan   tiling.Plan
}

func (s Sheet) says() words.Laying { return words.In(s.Language).Laying() }

// drawn is the layout that the sheets are of: the one advised.
func (s Sheet) drawn() *tiling.Choice {
	i, _ := s.Plan.Advised()
	return &s.Plan.Choices[i]
}

func (s Sheet) laid() laying.Laid {
	b := s.Outline.Points.Bounds()
	rows, across := s.partings()
	return laying.Laid{PartCourses: rows, PartAcross: across, Plan: s.Plan, Choice: s.drawn(), Along: s.Along, Given: s.Given, Gaps: s.Gaps, Parts: s.Plan.Region.Parts(), Figures: s.Figures,
		Long: max(b.Width(), b.Height()), Wide: min(b.Width(), b.Height()), Uneven: s.Uneven}
}

// bay is how far a floor runs indoors between movement joints (TCNA EJ171: 25 ft).
const bay unit.Length = 7600

// partings are the joints of a straight grid that part a floor into bays alike: the courses that
// begin there, and how far from the second line.
func (s Sheet) partings() (rows []int, across []unit.Length) {
	g, c := s.Plan.Grid, s.drawn()
	start, ok := s.start()
	if !ok || g.Pattern != tiling.Straight {
		return nil, nil
	}
	b := geom.Placement{Turn: -g.Angle}.Polygon(s.Outline.Points).Bounds()
	row, _ := c.Numbers().Of(start.Tile)
	joints := func(low, high, line, pitch unit.Length) (all []int) { // in tiles from the line
		n := int(math.Ceil(float64((high - low) / bay)))
		for k := 1; k < n; k++ {
			all = append(all, int(math.Round(float64((low+(high-low)*unit.Length(k)/unit.Length(n)-line)/pitch))))
		}
		return all
	}
	for _, k := range joints(b.Min.Y, b.Max.Y, start.Rows.At, g.Across+g.Joint) {
		rows = append(rows, row+k)
	}
	for _, k := range joints(b.Min.X, b.Max.X, start.Cross.At, g.Along+g.Joint) {
		across = append(across, unit.Length(k)*(g.Along+g.Joint))
	}
	return rows, across
}

// start is how the lines come onto the floor.
func (s Sheet) start() (courses.Start, bool) {
	f := courses.Floor{Walls: s.Outline.Points, Inches: s.Figures.Unit >= unit.IN}
	for _, o := range s.Openings {
		f.Openings = append(f.Openings, o.Ring)
	}
	middle := s.Plan.Middle
	if s.Given {
		middle = geom.Placement{Turn: -s.Plan.Grid.Angle}.Polygon(s.Outline.Points).Bounds().Centre()
	}
	return courses.Find(f, s.Plan.Grid, &s.drawn().Layout, middle)
}

// startWords are its steps.
func (s Sheet) startWords() []string {
	start, ok := s.start()
	if !ok {
		return s.says().Start(laying.Walls{}, nil, s.Figures)
	}
	n := s.drawn().Numbers()
	row, _ := n.Of(start.Tile)
	rods := len(gauges{s}.rods())
	if s.Plan.Grid.Pattern == tiling.Herringbone {
		row, rods = 0, 0
	}
	return s.says().Start(laying.Walls{Wall: s.Outline.Side, Corner: func(i int) string { return string(s.Outline.Names[i]) }, Course: row, Tile: n.Spot(start.Tile), Tiles: s.block3(), Rods: rods, Joint: s.Plan.Grid.Joint}, &start, s.Figures)
}

// block3 is how large three tiles by three are with their joints; 0 where they are no block.
func (s Sheet) block3() geom.Point {
	g := s.Plan.Grid
	if g.Pattern != tiling.Straight {
		return geom.Point{}
	}
	return geom.Point{X: 3*g.Along + 2*g.Joint, Y: 3*g.Across + 2*g.Joint}
}

// buy is what there is to buy; spare is 10 % of straight floors and bricks, 15 where cuts
// run askew (from memory).
func (s Sheet) buy() laying.Buy {
	c, g := s.drawn(), s.Plan.Grid
	spare := 10
	if g.Pattern == tiling.Herringbone || math.Abs(math.Remainder(float64(g.Angle), math.Pi/2)) > float64(5*unit.Degree) && s.Along == "" {
		spare = 15
	}
	return laying.Buy{Whole: len(c.Whole), Cut: len(c.Groups), Bought: c.Bought, Least: c.Least, Box: s.Box, Spare: spare, Area: unit.Area(g.Along) * unit.Area(g.Across), Feet: s.Figures.Unit >= unit.IN}
}

// tapers of the layout, and the pieces that they tell of.
func (s Sheet) tapers() (all []courses.Taper, told map[int]bool) {
	told = map[int]bool{}
	all = courses.Tapers(s.Outline.Points, s.Gaps, s.Plan.Grid, &s.drawn().Layout)
	for _, t := range all {
		for _, x := range t.Tiles {
			told[x.Piece] = true
		}
	}
	return all, told
}

// cards are the kinds that no taper tells of, each with its first piece.
func (s Sheet) cards() (all []card) {
	c := s.drawn()
	n := c.Numbers()
	_, told := s.tapers()
	for k, kind := range c.Kinds {
		if !slices.ContainsFunc(kind.Pieces, func(i int) bool { return !told[i] }) {
			continue
		}
		one := card{tile: c.Pieces[kind.Pieces[0]].Lying()}
		one.ring, one.holes = kind.Ring()
		one.cuts = courses.Cuts(one.ring, one.tile)
		one.Card = laying.Card{Number: k + 1, Count: len(kind.Pieces), Opposite: kind.Other, Width: unit.Length(kind.Width), Figures: s.Figures, Hole: len(one.holes) > 0}
		if len(one.cuts) == 1 && len(one.ring) == 5 {
			one.Nip = one.cuts[0].Length
		}
		for _, i := range kind.Pieces {
			name := n.Piece(i)
			if c.Pieces[i].OtherHand() {
				name += "*"
			}
			one.Tiles = append(one.Tiles, name)
		}
		all = append(all, one)
	}
	return all
}

// card is one kind with its shape.
type card struct {
	laying.Card
	tile  geom.Point
	ring  geom.Polygon
	holes []geom.Polygon
	cuts  []courses.Cut
}
