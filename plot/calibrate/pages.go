package calibrate

import (
	"fmt"
	"math"
	"strings"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/sheet"
	"trammel/plot/words"
)

// Pages of the sheet: one, or where the paper is small, one and what is left of
// the instructions. A *unit.Fault names a paper that is too small, or a character
// that the lettering does not have.
func (s Sheet) Pages(r draw.Ruler) ([]draw.Page, error) {
	if err := s.check(); err != nil {
		return nil, err
	}
	for _, w := range []string{s.Printer, s.Paper, s.Margin} {
		if c := r.Missing(w); c != 0 {
			return nil, &unit.Fault{Subject: unit.Written, Of: w, What: fmt.Sprintf("the lettering has no character %q (%U)", c, c), Hint: "write it with other letters"}
		}
	}
	rect := s.Rectangle()
	area := geom.Rect{Min: geom.Point{Y: rect.Min.Y + clear}, Max: geom.Point{Y: rect.Max.Y - clear}}
	wide := min(s.Width-2*(MostEdge+8), textWide)
	area.Min.X, area.Max.X = (s.Width-wide)/2, (s.Width+wide)/2
	var laid []draw.Drawing
	for _, h := range []unit.Length{draw.FigureHeight, draw.NoteHeight} {
		blocks := s.blocks(h, wide, r)
		var err error
		if laid, err = sheet.Flow(blocks, func(int) []geom.Rect { return []geom.Rect{area} }, r); err != nil {
			return nil, &unit.Fault{Subject: unit.Paper, Of: s.Paper, What: "the paper is too small for the instructions", Hint: "use A5 or larger"}
		}
		if len(laid) == 1 {
			break
		}
	}
	var pages []draw.Page
	for i, d := range laid {
		p := draw.Page{Kind: draw.Calibration, Piece: s.title(), Width: s.Width, Height: s.Height}
		if i == 0 {
			drawn := marks(rect, s.Number > 1)
			if s.Number < 2 {
				drawn = append(drawn, rulers(s.Width, s.Height)...)
			}
			p.Ops = draw.Tagged(drawn, &draw.Tag{Role: draw.AsFigure, Alt: s.aloud().Crosses(s.Number)})
		}
		p.Ops = append(p.Ops, d...)
		if s.Number > 1 {
			p.Warp = Warp(s.Corrected, s.Width, s.Height)
		}
		pages = append(pages, p)
	}
	return pages, nil
}

// clear is how far words keep from the crosses.
const clear unit.Length = 29

func (s Sheet) title() string { return s.says().Title(s.Printer, s.Number) }

func (s Sheet) says() words.Calibration { return words.In(s.Language).Calibration() }

func (s Sheet) aloud() words.Aloud { return words.In(s.Language).Aloud() }

func (s Sheet) blocks(h, wide unit.Length, r draw.Ruler) []sheet.Block {
	para := func(words string) sheet.Block { return sheet.Paragraph{Words: words, Height: h} }
	say := s.says()
	measure, edges, found := say.Headings()
	all := []sheet.Block{
		sheet.Paragraph{Words: s.title(), Height: draw.TitleHeight, Bold: true, Keep: true, Of: &draw.Tag{Role: draw.AsTitle, First: true}},
		para(say.Facts(s.Paper, s.Number)),
		sheet.Heading{Words: measure},
	}
	items := say.Measure(unit.Length(s.rule()), s.Number)
	table := sheet.Table{Height: h, Row: 9, Gutter: 3, Columns: []sheet.Column{{}, {}, {Align: sheet.Box, Width: 38}}}
	for _, l := range say.Lengths() {
		table.Cells = append(table.Cells, []string{l[0], l[1], "mm"})
	}
	list := sheet.List{Items: items, Numbered: true, Height: h, Gap: 1}
	all = append(all, list, sheet.Gap(3))
	ratio := float64(s.Width / s.Height)
	if wide >= 130 {
		all = append(all, sheet.Beside{Stacks: [][]sheet.Block{{table}, {s.sketch(ratio, 42)}}, Shares: []float64{0.68, 0.32}, Gutter: 6})
	} else {
		all = append(all, table)
	}
	if s.Number < 2 {
		all = append(all,
			sheet.Heading{Words: edges},
			sheet.List{Items: []string{say.Edges()}, Numbered: true, First: len(items) + 1, Height: h},
			sheet.Gap(2),
			s.edgeBoxes(say.Sides(), h, wide),
		)
	}
	all = append(all, sheet.Heading{Words: found})
	for _, c := range s.typed(wide, r) {
		all = append(all, sheet.Paragraph{Words: c, Height: draw.NoteHeight, Keep: true})
	}
	all = append(all, sheet.Gap(1.5), para(say.Typed()))
	return all
}

// rule is the length of a rule that spans the diagonal, a round one.
func (s Sheet) rule() float64 {
	r := s.Rectangle()
	d := math.Hypot(r.Width().MM(), r.Height().MM()) * 1.03
	for _, l := range []float64{300, 500, 600, 1000, 1500, 2000} {
		if d <= l-10 {
			return l
		}
	}
	return math.Ceil(d/500) * 500
}

// typed is the command in lines that are no wider than they may be.
func (s Sheet) typed(wide unit.Length, r draw.Ruler) []string {
	name := strings.ReplaceAll(s.Printer, " ", "-")
	say := func(of unit.Subject, value string) string { return " " + s.Says.Of(of, value, false) }
	c := "trammel calibrate" + say(unit.Printer, name)
	if s.Number > 1 {
		c += say(unit.Again, "") + say(unit.Reread, fmt.Sprint(s.Number))
	} else {
		c += say(unit.Paper, strings.ReplaceAll(s.Paper, " ", "-"))
	}
	if s.Margin != "" {
		c += say(unit.Margin, strings.ReplaceAll(s.Margin, " ", ""))
	}
	const gap = "______"
	lines := []string{c + say(unit.Rule, "__"), s.Says.Of(unit.Found, "", false) + " "}
	parts := []string{"width=" + gap, ",height=" + gap, ",diagonal=" + gap, ",diagonal=" + gap}
	if s.Number < 2 {
		parts = append(parts, ",edges=__,__,__,__")
	}
	for _, p := range parts {
		last := &lines[len(lines)-1]
		if r.Width(*last+p, draw.NoteHeight, false) <= wide {
			*last += p
			continue
		}
		*last += ","
		lines = append(lines, strings.TrimPrefix(p, ","))
	}
	return lines
}

// edgeBoxes are four boxes in the order of edges=, in a row or two.
func (s Sheet) edgeBoxes(sides [4]string, h, wide unit.Length) sheet.Block {
	abreast := 4
	if wide < 120 {
		abreast = 2
	}
	return sheet.Figure{Alt: s.aloud().Boxes(sides[:]), Draw: func(width unit.Length, r draw.Ruler) (draw.Drawing, unit.Length) {
		const high, row, gutter, most = 8, 9, 4, 18
		each := (width+gutter)/unit.Length(abreast) - gutter
		before := r.Width(sides[3], h, false) + 1.5
		var d draw.Drawing
		for i, n := range sides {
			x, y := unit.Length(i%abreast)*(each+gutter), -row*unit.Length(i/abreast)
			d = append(d, word(n, geom.Point{X: x, Y: y - high/2 - h/2}, h, draw.Left))
			d = append(d, sheet.Frame(geom.Rect{Min: geom.Point{X: x + before, Y: y - high}, Max: geom.Point{X: x + min(each, before+most), Y: y}}))
		}
		return d, row * unit.Length(4/abreast)
	}}
}

// sketch says which length is which.
func (s Sheet) sketch(ratio float64, high unit.Length) sheet.Block {
	return sheet.Figure{Alt: s.aloud().Lengths(), Draw: func(width unit.Length, r draw.Ruler) (draw.Drawing, unit.Length) {
		const h, edge = draw.NoteHeight, 5
		w := (high - 2*edge) * unit.Length(ratio)
		tall := high - 2*edge
		if most := width - 2*edge; w > most {
			w, tall = most, most/unit.Length(ratio)
		}
		x, y := (width-w)/2, -edge-tall
		c := geom.Rect{Min: geom.Point{X: x, Y: y}, Max: geom.Point{X: x + w, Y: y + tall}}.Corners()
		var d draw.Drawing
		for _, k := range [][2]int{{0, 1}, {0, 3}, {0, 2}, {1, 3}} {
			d = append(d, sheet.NoteLine(c[k[0]].X, c[k[0]].Y, c[k[1]].X, c[k[1]].Y, draw.Narrow))
		}
		for i, p := range c {
			off := [...]geom.Point{{X: -1, Y: -h - 0.8}, {X: 1, Y: -h - 0.8}, {X: 1, Y: 0.8}, {X: -1, Y: 0.8}}[i]
			t := word("ABCD"[i:i+1], p.Plus(off), h, [...]draw.Align{draw.Right, draw.Left, draw.Left, draw.Right}[i])
			t.Bold = true
			d = append(d, t)
		}
		return d, tall + 2*edge
	}}
}
