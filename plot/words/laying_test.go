package words_test

import (
	"maps"
	"testing"

	"trammel/geom"
	"trammel/geom/courses"
	"trammel/geom/tiling"
	"trammel/geom/unit"
	"trammel/plot/words"
	"trammel/plot/words/laying"
)

func init() { maps.Copy(examples, layingExamples) }

// tiled is a hall laid with bricks, one layout or all of them.
func tiled(t *testing.T, aims ...tiling.Aim) laying.Laid {
	t.Helper()
	f := tiling.Floor{Walls: geom.Polygon{{}, {X: 9000}, {X: 9000, Y: 2300}, {Y: 2300}}, Gaps: []unit.Length{8, 8, 8, 8}}
	r, err := f.Region()
	if err != nil {
		t.Fatal(err)
	}
	g := tiling.Grid{Along: 600, Across: 300, Joint: 3, Kerf: 3, Pattern: tiling.Brick, Step: 1, Of: 2}
	l := laying.Laid{Plan: r.Best(t.Context(), g, tiling.Wish{Aims: aims}), Along: "AB", Gaps: f.Gaps, Parts: 2, Long: 9000, Wide: 2300, Uneven: 4}
	l.Choice = &l.Plan.Choices[0]
	l.Choice.Dropped = 1
	return l
}

func cut() []courses.Cut {
	return courses.Cuts(geom.Polygon{{}, {X: 300}, {X: 300, Y: 120}, {X: 180, Y: 300}, {X: 90, Y: 200}, {Y: 200}}, geom.Point{X: 300, Y: 300})
}

var card = laying.Card{Number: 2, Count: 3, Opposite: 1, Width: 20, Hole: true}

// layingExamples are those of a floor.
var layingExamples = map[string]example{
	"Laying.Title": {label: true, say: func(_ *testing.T, l words.Language) []string { return one(l.Laying().Title()) }},
	"Laying.Heading": {label: true, say: func(_ *testing.T, l words.Language) (all []string) {
		for p := range laying.Parts {
			all = append(all, l.Laying().Heading(p))
		}
		return all
	}},
	"Laying.Columns": {label: true, say: func(_ *testing.T, l words.Language) (all []string) {
		for p := range laying.Parts {
			all = append(all, l.Laying().Columns(p)...)
		}
		return all
	}},
	"Laying.Aim": {label: true, say: func(_ *testing.T, l words.Language) (all []string) {
		for _, a := range append([]tiling.Aim{"given"}, tiling.Aims...) {
			all = append(all, l.Laying().Aim(a))
		}
		return all
	}},
	"Laying.Whole": {label: true, say: func(_ *testing.T, l words.Language) []string { return one(l.Laying().Whole()) }},
	"Laying.Tile":  {say: func(t *testing.T, l words.Language) []string { return one(l.Laying().Tile(tiled(t, tiling.Balanced))) }},
	"Laying.Gap": {say: func(_ *testing.T, l words.Language) (all []string) {
		for _, gaps := range [][]unit.Length{{0, 0}, {8, 8}, {5, 8}} {
			all = append(all, l.Laying().Gap(laying.Laid{Gaps: gaps}))
		}
		return all
	}},
	"Laying.Best": {say: func(t *testing.T, l words.Language) []string {
		return []string{l.Laying().Best(tiled(t)), l.Laying().Best(tiled(t, tiling.Widest)), l.Laying().Best(laying.Laid{Given: true})}
	}},
	"Laying.Proof": {say: func(t *testing.T, l words.Language) (all []string) {
		a := tiled(t)
		for i := range a.Plan.Choices {
			a.Choice = &a.Plan.Choices[i]
			all = append(all, l.Laying().Proof(a))
		}
		a.Choice.Proven = false
		all = append(all, l.Laying().Proof(a))
		a.Choice.CutsAtLeast = 20
		return append(all, l.Laying().Proof(a), l.Laying().Proof(laying.Laid{Given: true}))
	}},
	"Laying.Counts": {say: func(t *testing.T, l words.Language) []string { return l.Laying().Counts(tiled(t, tiling.Balanced)) }},
	"Laying.Tried": {say: func(_ *testing.T, l words.Language) []string {
		return l.Laying().Tried([]laying.Tried{{Wall: "AB", Cuts: 1, Narrowest: 90, Taken: true}, {Wall: "BC", Across: true, Cuts: 9, Slivers: 2, Narrowest: 20}}, unit.Style{})
	}},
	"Laying.Start": {say: func(_ *testing.T, l words.Language) []string {
		name := func(int) string { return "A" }
		s := courses.Start{Square: courses.Square{OnRows: 1200, OnCross: 900, Between: 1500, Fourth: &geom.Point{}}}
		s.Cross.Slant = 12
		w := laying.Walls{Wall: func(int) string { return "AB" }, Corner: name, Course: 3, Tile: "3.4", Tiles: geom.Point{X: 906, Y: 906}, Rods: 2, Joint: 3}
		return append(l.Laying().Start(w, &s, unit.Style{}), l.Laying().Start(w, nil, unit.Style{})...)
	}},
	"Laying.Courses": {say: func(_ *testing.T, l words.Language) []string { return one(l.Laying().Courses()) }},
	"Laying.Rods":    {say: func(t *testing.T, l words.Language) []string { return l.Laying().Rods(tiled(t, tiling.Balanced)) }},
	"Laying.Kind":    {label: true, say: func(_ *testing.T, l words.Language) []string { return one(l.Laying().Kind(card)) }},
	"Laying.Marks":   {say: func(_ *testing.T, l words.Language) []string { return l.Laying().Marks(cut(), unit.Style{}) }},
	"Laying.Care": {say: func(_ *testing.T, l words.Language) []string {
		return []string{l.Laying().Care(card), l.Laying().Care(laying.Card{Width: 20}), l.Laying().Care(laying.Card{Width: 90, Nip: 9})}
	}},
	"Laying.Cards": {say: func(t *testing.T, l words.Language) []string {
		a := tiled(t, tiling.Balanced)
		a.Plan.Grid.Pattern = tiling.Herringbone
		return l.Laying().Cards(a)
	}},
	"Laying.Templates": {say: func(t *testing.T, l words.Language) []string {
		return l.Laying().Templates(tiled(t, tiling.Balanced), []int{1, 4})
	}},
	"Laying.Taper": {say: func(_ *testing.T, l words.Language) (all []string) {
		for _, at := range []courses.Side{courses.Near, courses.Right, courses.Far, courses.Left} {
			how, _ := l.Laying().Taper("FA", at)
			all = append(all, how)
		}
		return all
	}},
	"Laying.FromTile": {label: true, say: func(_ *testing.T, l words.Language) (all []string) {
		for q := range 4 {
			all = append(all, l.Laying().FromTile("1.7", q))
		}
		return all
	}},
	"Laying.OnTemplate": {label: true, say: func(_ *testing.T, l words.Language) []string { return one(l.Laying().OnTemplate(card)) }},
	"Laying.Sawing": {say: func(t *testing.T, l words.Language) []string {
		return one(l.Laying().Sawing(tiled(t, tiling.Balanced)))
	}},
	"Laying.Buying": {say: func(_ *testing.T, l words.Language) []string {
		return l.Laying().Buying(laying.Buy{Whole: 48, Cut: 32, Bought: 80, Least: 79, Box: 11, Spare: 10, Area: 90000})
	}},
	"Laying.Limits": {say: func(t *testing.T, l words.Language) []string {
		a := tiled(t, tiling.Balanced)
		a.PartCourses, a.PartAcross = []int{14}, []unit.Length{-1818, 3636}
		return l.Laying().Limits(a)
	}},
}
