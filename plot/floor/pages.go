package floor

import (
	"fmt"

	"trammel/geom"
	"trammel/geom/tiling"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/paging"
	"trammel/plot/sheet"
	"trammel/plot/words"
	"trammel/plot/words/laying"
)

// Pages draws the sheets on paper. It is a *unit.Fault when the paper is too small, or the
// lettering lacks a character of the job's words.
func (s Sheet) Pages(paper paging.Sheet, r draw.Ruler) ([]draw.Page, error) {
	if err := s.Lettered(r); err != nil {
		return nil, err
	}
	l := sheet.LeafOf(paper.Width, paper.Height, paper.Printable())
	if b := l.Body(); b.Width() < 120 || b.Height() < 120 {
		return nil, &unit.Fault{Subject: unit.Paper, Of: paper.Name, What: fmt.Sprintf("%.0f × %.0f mm to write on are too small for the sheets of a floor", b.Width(), b.Height()), Hint: "use A4 or A3"}
	}
	templates, large := s.templatePages(l.Next(), r)
	flown, err := sheet.Flow(s.blocks(l.Body().Height()*0.62, large), func(n int) []geom.Rect {
		if n == 0 {
			return []geom.Rect{l.Body()}
		}
		return []geom.Rect{l.Next()}
	}, r)
	if err != nil {
		return nil, fmt.Errorf("paper %.0f × %.0f mm: %w", l.Width, l.Height, err)
	}
	var pages []draw.Page
	add := func(kind draw.Kind, all ...draw.Drawing) {
		for _, d := range all {
			pages = append(pages, draw.Page{Kind: kind, Piece: s.Piece, Width: l.Width, Height: l.Height, Ops: d})
		}
	}
	add(draw.Setout, flown...)
	if !s.Single {
		add(draw.Template, gauges{s}.rodPages(l.Next())...)
	}
	for _, t := range templates {
		add(draw.Template, append(bars(l.Next(), s.inches()), t...))
	}
	for i := range pages {
		pages[i].Ops = append(pages[i].Ops, s.margin().Draw(l, i+1, len(pages), r)...)
	}
	return pages, nil
}

func (s Sheet) margin() sheet.Margin {
	name := s.Piece
	if name == "" {
		name = s.says().Title()
	}
	return sheet.Margin{Title: name, Second: []string{s.says().Title(), s.Job, s.Date}, Third: []string{s.says().Tile(s.laid())}, Language: s.Language}
}

// blocks of all that is no drawing at true scale.
func (s Sheet) blocks(plan unit.Length, large []int) []sheet.Block {
	say, laid := s.says(), s.laid()
	head := func(p laying.Part) sheet.Block { return sheet.Heading{Words: say.Heading(p)} }
	list := func(items []string) sheet.Block { return sheet.List{Items: items, Gap: 0.6} }
	if s.Single {
		return single(s, large)
	}
	out := []sheet.Block{onPlan{s}.planFigure(plan), sheet.Gap(2), list(append([]string{say.Gap(laid)}, say.Counts(laid)...))}
	out = append(out, head(laying.TheStarts), tables{s}.starts(), sheet.KeptGap(1.5), list([]string{say.Best(laid), say.Proof(laid)}))
	if tried := (tables{s}).triedWords(); len(tried) > 0 {
		out = append(out, sheet.Gap(1), list(tried))
	}
	out = append(out, head(laying.TheLines), sheet.List{Items: s.startWords(), Numbered: true, Height: draw.FigureHeight, Gap: 0.9})
	if start, ok := s.start(); ok && s.Plan.Grid.Pattern != tiling.Herringbone {
		out = append(out, head(laying.TheCourses), sheet.Paragraph{Words: say.Courses(), Keep: true}, sheet.KeptGap(1), tables{s}.coursesTable(start))
	}
	out = append(out, head(laying.TheRods), list(say.Rods(laid)))
	if len(s.drawn().Pieces) > 0 {
		out = append(out, head(laying.TheCuts), list(say.Cards(s.laid())), sheet.Gap(2))
		for _, c := range s.cards() {
			out = append(out, s.block(c), sheet.Gap(3))
		}
		tapers, _ := s.tapers()
		for _, t := range tapers {
			how, _ := say.Taper(s.Outline.Side(t.Wall), t.Side)
			out = append(out, head(laying.TheTapers), sheet.Paragraph{Words: how, Keep: true}, sheet.KeptGap(1), tables{s}.taperTable(t))
		}
		template := say.Templates(laid, large)
		out = append(out, head(laying.TheTemplates), list(template))
		out = append(out, head(laying.TheTiles), sheet.Paragraph{Words: say.Sawing(laid), Keep: true}, sheet.KeptGap(1), tables{s}.tilesTable())
	}
	return append(out, head(laying.TheBuying), list(say.Buying(s.buy())), head(laying.TheLimits), list(say.Limits(laid)),
		head(laying.Before), list(words.In(s.Language).Cautions().SetOut(false)))
}

// single is the card of one tile that is cut, and how its template is used.
func single(s Sheet, large []int) (out []sheet.Block) {
	say := s.says()
	out = append(out, sheet.List{Items: say.Cards(s.laid()), Gap: 0.6}, sheet.Gap(3))
	for _, c := range s.cards() {
		out = append(out, s.block(c), sheet.Gap(3))
	}
	template := say.Templates(s.laid(), large)
	return append(out, sheet.Heading{Words: say.Heading(laying.TheTemplates)}, sheet.List{Items: template, Gap: 0.6},
		sheet.Heading{Words: say.Heading(laying.Before)}, sheet.List{Items: words.In(s.Language).Cautions().SetOut(false), Gap: 0.6})
}
