package template

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/paging"
	"trammel/plot/place"
	"trammel/plot/sheet"
	"trammel/plot/words"
)

// WithNotes adds to a page that carries a whole piece what its reader would
// otherwise find on the index page: the steps by hand, saw and square, a line of
// caution, where the page, furniture and all, still has room for them, rather outside
// the piece than in it. It says whether all is there that was asked for; if not, the
// piece wants an Index. (Saw and square of a plain triangle are no reason for one:
// its angles stand in its corners.) The page given is not
// changed.
func WithNotes(page draw.Page, on paging.Sheet, p Piece, r draw.Ruler, s Style) (draw.Page, bool) {
	area := geom.Rect{Min: geom.Point{X: on.Left, Y: on.Bottom}, Max: geom.Point{X: on.Width - on.Right, Y: on.Height - on.Top}}.Grow(-toEdge)
	care := sheet.Paragraph{Words: words.In(s.Language).Cautions().OnePage()}
	computed := []sheet.Block{sheet.Gap(1.5), sheet.Paragraph{Words: "Figures in parentheses are computed."}}
	tries := [][]sheet.Block{{sheet.Heading{Words: "Take care"}, care}, {care}}
	if say := s.says().OtherHeights(p.byHand(s)); say != "" {
		also := sheet.Paragraph{Words: "Measured too: " + string(say) + "."}
		computed = append(computed, also)
		tries = append([][]sheet.Block{{sheet.Heading{Words: "Take care"}, care, sheet.Gap(1.5), also}}, tries...)
	}
	if s.Steps {
		full := []sheet.Block{sheet.Heading{Words: "By hand"}, sheet.List{Items: set(p, s), Numbered: true}}
		full = append(append(full, computed...), sheet.Heading{Words: "Take care"}, care)
		tries = append([][]sheet.Block{full}, tries...)
	}
	if p.Which != "" {
		for i := range tries {
			tries[i] = append([]sheet.Block{sheet.Paragraph{Words: p.Which}, sheet.Gap(1.5)}, tries[i]...)
		}
	}
	said, done := false, false
	for n, blocks := range tries {
		if page, done = noted(page, area, blocks, []unit.Length{90, 110, 75, 130, 62, 150, 180}, r); done {
			said = n == 0
			break
		}
	}
	if s.Settings {
		least := settingsWidth(p, s, r)
		page, done = noted(page, area, sawAndSquare(p, s, draw.NoteHeight), []unit.Length{least, max(least, 130)}, r)
		said = said && (done || !p.shaped())
	}
	return page, said
}

// noted is the page with blocks on it where it has room for them.
func noted(page draw.Page, area geom.Rect, blocks []sheet.Block, widths []unit.Length, r draw.Ruler) (draw.Page, bool) {
	taken, own := grounds(page, area, r)
	for _, t := range []struct {
		within bool
		more   unit.Length // white round it, beyond toNotes
	}{{false, 10}, {false, 4}, {false, 0}, {true, 4}, {true, 0}} {
		for _, width := range widths {
			high := sheet.Height(blocks, width, r)
			free := []*place.Ground{&taken, &own}
			if t.within {
				free = free[:1]
			}
			if at, ok := place.Highest(width, high, t.more, free...); ok {
				d, _ := sheet.Set(blocks, at, width, r)
				page.Ops = append(append([]draw.Op{}, page.Ops...), d...)
				return page, true
			}
		}
	}
	return page, false
}

const (
	groundStep unit.Length = 2
	toNotes    unit.Length = 4 // from notes to anything else
)

// grounds are what of a page is taken and what lies in the piece.
func grounds(page draw.Page, area geom.Rect, r draw.Ruler) (taken, own place.Ground) {
	whole := func(l unit.Length) unit.Length {
		return groundStep * max(0, unit.Length(math.Floor(float64(l/groundStep))))
	}
	area.Max = area.Min.Plus(geom.Point{X: whole(area.Width()), Y: whole(area.Height())})
	taken.Level(area, groundStep)
	own.Level(area, groundStep)
	for _, op := range page.Ops {
		for _, k := range place.Strokes(op, about) {
			near := toNotes + k.Half
			taken.Mark(k.Bounds().Grow(near), func(q geom.Rect) bool { return k.Distance(q.Centre()) < near+groundStep*0.71 })
		}
		switch o := op.(type) {
		case draw.Text:
			taken.Mark(o.Bounds(r).Grow(toNotes), func(geom.Rect) bool { return true })
		case draw.Polyline:
			if o.On == draw.Outline && len(o.Points) > 2 {
				own.Mark(area, func(q geom.Rect) bool { return geom.Polygon(o.Points).Has(q.Centre()) })
			}
		case draw.Path:
			if o.On == draw.Outline && o.Closed {
				own.Mark(area, func(q geom.Rect) bool { return geom.Contour(o.Segments).Has(q.Centre()) })
			}
		}
	}
	taken.Count()
	own.Count()
	return taken, own
}
