package template

import (
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/legible"
	"trammel/plot/paging"
	"trammel/plot/place"
	"trammel/plot/sheet"
	"trammel/plot/words"
)

// WithNotes adds to a page that carries a whole piece what its reader would
// otherwise find on the index page: the steps by hand, saw and square, a line of
// caution, where the page, furniture and all, still has room for them, rather outside
// the piece than in it. It says whether all is there that was asked for; if not, the
// piece wants an Index. (Saw and square of a plain triangle are no reason for one: its
// angles stand in its corners.) The page given is not changed.
func WithNotes(page draw.Page, on paging.Sheet, p Piece, r draw.Ruler, s Style) (draw.Page, bool) {
	area := on.Printable().Grow(-legible.ToEdge)
	say, hand := s.says(), p.ByHand(s)
	care := []sheet.Block{sheet.Paragraph{Words: say.Cautions().OnePage()}}
	var also []sheet.Block
	if too := say.Steps().OtherHeights(hand); too != "" {
		also = []sheet.Block{sheet.Paragraph{Words: too.Sentence()}}
	}
	if p.Which != "" {
		care = append([]sheet.Block{sheet.Paragraph{Words: p.Which}, sheet.Gap(1.5)}, care...)
	}
	under := append([]sheet.Block{sheet.Heading{Words: say.Templates().Heading(words.TakeCare), Height: draw.TitleHeight}}, care...)
	all := [][][]sheet.Block{{under}} // ways to say everything, each the blocks that stand apart
	if also != nil {
		all = [][][]sheet.Block{{slices.Concat(under, []sheet.Block{sheet.Gap(1.5)}, also)}}
	}
	if s.Steps {
		list := sheet.List{Items: set(p, s), Numbered: true, Height: draw.FigureHeight}
		computed := sheet.Paragraph{Words: say.Templates().InParentheses()}
		steps := slices.Concat([]sheet.Block{sheet.Heading{Words: say.Templates().Heading(words.MadeByHand), Height: draw.TitleHeight}, list, sheet.Gap(1.5), computed}, also)
		all = [][][]sheet.Block{{slices.Concat(steps, under)}, {steps, under}, {steps, care}}
	}
	whole := false
	for n, apart := range append(all, [][]sheet.Block{under}, [][]sheet.Block{care}) {
		with, done := page, true
		for _, blocks := range apart {
			if done {
				with, done = noted(with, area, s.sizedAll(blocks), []unit.Length{90, 110, 75, 130, 62, 150, 180}, r)
			}
		}
		if done {
			page, whole = with, n < len(all)
			break
		}
	}
	if s.Settings {
		least := settingsWidth(p, s, s.sized(draw.NoteHeight), r)
		with, done := noted(page, area, sawAndSquare(p, s, draw.TitleHeight), []unit.Length{least, max(least, 130)}, r)
		page, whole = with, whole && (done || !p.shaped())
	}
	return page, whole
}

// noted is the page with blocks on it where it has room for them.
func noted(page draw.Page, area geom.Rect, blocks []sheet.Block, widths []unit.Length, r draw.Ruler) (draw.Page, bool) {
	whole := func(l unit.Length) unit.Length {
		return gridStep * max(0, unit.Length(math.Floor(float64(l/gridStep))))
	}
	squares := func(l unit.Length) unit.Length { return gridStep * unit.Length(math.Ceil(float64(l/gridStep))) }
	area.Max = area.Min.Plus(geom.Point{X: whole(area.Width()), Y: whole(area.Height())})
	inPiece, beside := freeOf(page, area, false, r), freeOf(page, area, true, r)
	for _, t := range []struct {
		grid *place.FreeGrid
		more unit.Length // white round it, beyond toNotes
	}{{beside, 10}, {beside, 4}, {beside, 0}, {inPiece, 4}, {inPiece, 0}} {
		for _, width := range widths {
			size := geom.Point{X: squares(width), Y: squares(sheet.Height(blocks, width, r))}
			block := place.Block{Rects: []geom.Rect{{Max: size}}, Top: true}
			if at, ok := t.grid.Spot(block, squares(t.more)-hair, area.Grow(hair/2), nil); ok {
				onSquare := func(l, from unit.Length) unit.Length {
					return from + gridStep*unit.Length(math.Round(float64((l-from)/gridStep)))
				}
				top := geom.Point{X: onSquare(at.X, area.Min.X), Y: onSquare(at.Y, area.Min.Y) + size.Y}
				d, _ := sheet.Set(blocks, top, width, r)
				page.Ops = slices.Concat(page.Ops, d)
				return page, true
			}
		}
	}
	return page, false
}

const (
	gridStep unit.Length = 2
	toNotes  unit.Length = 4    // from notes to anything else
	hair     unit.Length = 1e-7 // so that squares side by side do not count as one within the other
)

// freeOf is what of a page is free, outside the piece or in it too.
func freeOf(page draw.Page, area geom.Rect, outside bool, r draw.Ruler) *place.FreeGrid {
	var free place.FreeGrid
	free.Level(area, gridStep)
	for _, op := range page.Ops {
		for _, k := range place.Strokes(op, legible.About) {
			near := toNotes + k.Half
			free.Mark(k.Bounds().Grow(near), func(q geom.Rect) bool { return k.Distance(q.Centre()) < near+gridStep*0.71 })
		}
		in := geom.Contour{}
		switch o := op.(type) {
		case draw.Text:
			free.Mark(o.Bounds(r).Grow(toNotes), func(geom.Rect) bool { return true })
		case draw.Polyline:
			if len(o.Points) > 2 {
				in = geom.Polygon(o.Points).Contour()
			}
		case draw.Path:
			if o.Closed {
				in = o.Segments
			}
		}
		if outside && op.Layer() == draw.Outline && len(in) > 0 {
			free.Mark(area, func(q geom.Rect) bool { return in.Has(q.Centre()) })
		}
	}
	free.Count()
	return &free
}
