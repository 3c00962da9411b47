package setout

import (
	"fmt"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/paging"
	"trammel/plot/plan"
	"trammel/plot/sheet"
	"trammel/plot/words"
)

// Layout of a page.
const (
	barHeight  unit.Length = 12.5 // the plan's scale bar and the line below it
	planMargin unit.Length = 2
	largePlan  unit.Length = 65 // the triangle on paper, to be read at arm's length
)

// Pages draws the sheet on paper: the plan above, what to hold and pull below,
// then the steps, the checks and the cautions, on as many pages as it takes. The
// plan has the largest of the standard scales that leaves room for the tables;
// where 1:500 does not, it has a page of its own. It is a *unit.Fault when the
// paper is too small, or the lettering lacks a character of the job's words.
func (s Sheet) Pages(paper paging.Sheet, r draw.Ruler) ([]draw.Page, error) {
	if err := s.Lettered(r, s.North.Name); err != nil {
		return nil, err
	}
	upright := sheet.LeafOf(paper.Width, paper.Height, paper.Printable())
	if b := upright.Body(); b.Width() < 120 || b.Height() < 90 {
		return nil, &unit.Fault{Subject: unit.Paper, Of: paper.Name, What: fmt.Sprintf("%.0f × %.0f mm to write on are too small for a setting-out sheet", b.Width(), b.Height()), Hint: "use A4 or A3"}
	}
	c := composer{Sheet: s, r: r, words: upright, front: upright, abreast: s.columnsFor(upright.Body(), r), drawn: map[int]plan.Drawn{}}
	d := c
	if !c.choose(0) {
		return nil, &unit.Fault{Subject: unit.Paper, Of: paper.Name, What: "the plan does not fit, not even at 1:1000", Hint: "use larger paper"}
	}
	pages, err := c.pages()
	if err != nil || len(pages) == 1 {
		return pages, err
	}
	// A plan one scale smaller is worth a page less to carry, where it stays large.
	if d.choose(c.plan.Scale+1) && d.plan.Scale <= 500 && s.extent() >= largePlan*unit.Length(d.plan.Scale) {
		if fewer, err := d.pages(); err == nil && len(fewer) < len(pages) {
			return fewer, nil
		}
	}
	return pages, nil
}

// bounds are round the points on their baseline.
func (s Sheet) bounds() geom.Rect {
	var all []geom.Point
	for _, p := range s.Pegs {
		all = append(all, p.At)
	}
	return geom.RectOf(all[0], all[1:]...)
}

// extent is the longer side of the rectangle round the pegs on their baseline.
func (s Sheet) extent() unit.Length {
	b := s.bounds()
	return max(b.Width(), b.Height())
}

// choose settles where the plan stands and its scale, 1:first at most: at the head of the
// first column where a larger one does not fit across the page; over the tables where it
// would be small with them below it; else on a page of its own, upright or turned, and at
// 1:1000 only when all that fails.
func (c *composer) choose(first int) bool {
	body := c.words.Body()
	room := max(body.Height()-c.below(c.column(), c.r)-2*planMargin, body.Height()*0.45)
	p, ok := c.fitPlan(body.Width(), room, first, 500)
	if c.column() < body.Width() {
		if q, also := c.fitPlan(c.column(), room, first, 500); also && q.Scale <= p.Scale {
			p, c.inColumn = q, true
		}
	}
	if ok && (p.Crowded() || c.extent() < largePlan*unit.Length(p.Scale)) {
		// Too small to be read with everything below it: what does not fit flows on,
		// and so does everything where pegs crowd.
		share := unit.Length(0.75)
		if p.Crowded() {
			share = 1
		}
		if q, also := c.fitPlan(body.Width(), body.Height()*share, first, 500); also && q.Scale < p.Scale {
			p, c.inColumn = q, false
		}
	}
	if ok {
		c.plan = p
		return true
	}
	c.apart = true
	p, ok = c.fitPlan(body.Width(), body.Height(), first, 500)
	turned := c.words.Turn()
	if q, also := c.fitPlan(turned.Body().Width(), turned.Body().Height(), first, 500); also && (!ok || q.Scale < p.Scale) {
		p, ok, c.front = q, true, turned
	}
	if !ok {
		p, ok = c.fitPlan(body.Width(), body.Height(), first, 1000)
		c.front = c.words
		c.apart = false
	}
	c.plan = p
	return ok
}

// fitPlan is the plan at the largest scale from 1:first to 1:last that fits.
func (c *composer) fitPlan(width, height unit.Length, first, last int) (plan.Drawn, bool) {
	s := c.Sheet
	for _, scale := range plan.Scales {
		k := unit.Length(1 / float64(scale))
		if scale < first {
			continue
		}
		if scale > last {
			break
		}
		if b := s.bounds(); b.Width()*k > width || b.Height()*k > height {
			continue // before the labels are placed
		}
		p, drawn := c.drawn[scale]
		if !drawn {
			what := s.planned()
			what.Wide = c.column() - sheet.Gutter
			p = what.Draw(scale, c.r)
			c.drawn[scale] = p
		}
		if p.Bounds.Width() <= width && p.Bounds.Height()+barHeight+2*planMargin <= height {
			return p, true
		}
	}
	return plan.Drawn{}, false
}

// composer puts the parts on pages.
type composer struct {
	Sheet
	r       draw.Ruler
	abreast int        // columns of words
	words   sheet.Leaf // of the pages of words
	front   sheet.Leaf // of the page that bears the plan
	apart   bool       // the plan has a page of its own
	// The plan stands in the first of two columns.
	inColumn bool
	plan     plan.Drawn
	drawn    map[int]plan.Drawn // those tried so far, by their scale
}

// columns of words.
func (c composer) columns(area geom.Rect) []geom.Rect {
	return sheet.Columns(area, c.abreast, sheet.Gutter)
}

// columnsFor is two where the widest table fits a column in letters of full size, else one.
func (s Sheet) columnsFor(area geom.Rect, r draw.Ruler) int {
	if area.Width() >= sheet.Wide && s.checksTable().Breadth(r) <= sheet.Columns(area, 2, sheet.Gutter)[0].Width() {
		return 2
	}
	return 1
}

func (c composer) column() unit.Length { return c.columns(c.words.Body())[0].Width() }

func (c composer) pages() ([]draw.Page, error) {
	page := func(l sheet.Leaf) draw.Page {
		return draw.Page{Kind: draw.Setout, Piece: c.Piece, Width: l.Width, Height: l.Height}
	}
	first := page(c.front)
	rest := c.setPlan(&first)
	out := []draw.Page{first}
	leaves := []sheet.Leaf{c.front}
	if c.apart {
		rest = c.words.Next()
		out, leaves = append(out, page(c.words)), append(leaves, c.words)
	}
	begin := len(out) - 1
	areas := func(n int) []geom.Rect {
		switch {
		case n > 0:
		case c.inColumn:
			cols := c.columns(c.words.Body())
			cols[0].Max.Y = rest.Max.Y
			return cols
		default:
			return c.columns(rest)
		}
		return c.columns(c.words.Next())
	}
	words, err := c.flow(areas)
	if err != nil {
		return nil, fmt.Errorf("paper %.0f × %.0f mm: %w", c.words.Width, c.words.Height, err)
	}
	for i, d := range words {
		if begin+i == len(out) {
			out, leaves = append(out, page(c.words)), append(leaves, c.words)
		}
		out[begin+i].Ops = append(out[begin+i].Ops, d...)
	}
	for i := range out {
		out[i].Ops = append(out[i].Ops, c.margin().Draw(leaves[i], i+1, len(out), c.r)...)
	}
	return out, nil
}

// flow sets the words, in as few pages as it takes without how sure it is: that is
// in tables, or where they alone would take another page, in words. Steps and checks
// are each read in one piece, unless parting the steps saves a page or the paper is
// too small for it.
func (c composer) flow(areas func(int) []geom.Rect) ([]draw.Drawing, error) {
	details := c.details()
	set := func(f sureForm) (words []draw.Drawing, err error) {
		for _, w := range []struct{ steps, checks bool }{{true, true}, {false, true}, {false, false}} {
			d, e := sheet.Flow(slices.Concat(details, []sheet.Block{block(c.tables)}, c.blocks(w.steps, w.checks, f)), areas, c.r)
			if err = e; e == nil && (words == nil || w.checks && len(d) < len(words)) {
				words = d
			}
		}
		if words != nil {
			return words, nil
		}
		return nil, err
	}
	tables, err := set(sureTables)
	if err != nil {
		return nil, err
	}
	bare, err := set(sureNot)
	if err != nil || len(bare) == len(tables) {
		return tables, err
	}
	forms := []sureForm{waysInWords, sureInWords}
	if !c.Lone() {
		forms = forms[:1]
	}
	for _, f := range forms {
		if less, err := set(f); err == nil && len(less) < len(tables) {
			return less, nil
		}
	}
	return tables, nil
}

// details follow the plan: where its pegs crowd, they have their names there.
func (c composer) details() []sheet.Block {
	d := c.planned().DetailsOf(c.plan, c.r, min(c.column(), c.words.Next().Height()))
	if len(d) == 0 {
		return nil
	}
	return []sheet.Block{sheet.Gap(plan.DetailGap), d}
}

// setPlan puts the plan on its page and is what it leaves below it.
func (c composer) setPlan(page *draw.Page) geom.Rect {
	body := c.front.Body()
	if c.inColumn {
		body = c.columns(body)[0]
	}
	h := c.plan.Bounds.Height() + barHeight + 2*planMargin
	top := body.Max.Y
	if c.apart {
		top -= (body.Height() - h) / 2
	}
	origin := geom.Point{
		X: body.Centre().X - c.plan.Bounds.Centre().X,
		Y: top - planMargin - c.plan.Bounds.Max.Y,
	}
	var pegs []geom.Name
	for _, p := range c.Pegs {
		pegs = append(pegs, p.Name)
	}
	bar := c.scaleBar(geom.Point{X: body.Min.X, Y: top - h + barHeight})
	last := len(bar) - 1 // what it says is no part of the picture
	plan := append(sheet.Shift(c.plan.Ops, origin), bar[:last]...)
	page.Ops = append(page.Ops, draw.Tagged(plan, &draw.Tag{Role: draw.AsFigure, Alt: words.In(c.Language).Aloud().Plan(pegs, c.plan.Scale)})...)
	page.Ops = append(page.Ops, bar[last])
	page.Places = []draw.Place{{Piece: c.Index, Matrix: c.matrix(origin)}}
	body.Max.Y = top - h - planMargin
	return body
}

// matrix leads from the piece's own plane to the page, the plan's scale included.
func (c composer) matrix(origin geom.Point) draw.Matrix {
	k := 1 / float64(c.plan.Scale)
	sin, cos := math.Sincos(float64(c.Place.Turn))
	shift := c.Place.Shift.Times(k).Plus(origin)
	return draw.Matrix{k * cos, k * sin, -k * sin, k * cos, shift.X.MM(), shift.Y.MM()}
}
