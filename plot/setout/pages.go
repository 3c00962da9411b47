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
	planMargin unit.Length = 3
	leastPlan              = 0.3 // of a page's height, where the rest leaves so much
	standGap   unit.Length = 2.5 // above the sentence below the plan
)

// Pages draws the sheet on paper as leaves of two sides: what is looked at in front, what is
// done at the back. What does not fit so flows on, in as few pages as it takes. With Office
// a page follows on how sure it all is. It is a *unit.Fault when the paper is too small, or
// the lettering lacks a character of the job's words.
func (s Sheet) Pages(paper paging.Sheet, r draw.Ruler) ([]draw.Page, error) {
	if err := s.Lettered(r, s.North.Name); err != nil {
		return nil, err
	}
	l := sheet.LeafOf(paper.Width, paper.Height, paper.Printable())
	if b := l.Body(); b.Width() < 120 || b.Height() < 90 {
		return nil, &unit.Fault{Subject: unit.Paper, Of: paper.Name, What: fmt.Sprintf("%.0f × %.0f mm to write on are too small for a setting-out sheet", b.Width(), b.Height()), Hint: "use A4 or A3"}
	}
	c := composer{Sheet: s, r: r, leaf: l, abreast: 1}
	if l.Body().Width() >= sheet.Wide {
		c.abreast = 2
	}
	site, err := c.site()
	if roomy := c; err == nil && !c.large() { // more room where it costs no page
		roomy.roomy = true
		if more, no := roomy.site(); no == nil && len(more.pages) <= len(site.pages) {
			site = more
		}
	}
	if err != nil {
		return nil, fmt.Errorf("paper %.0f × %.0f mm: %w", l.Width, l.Height, err)
	}
	if !site.fits {
		return nil, &unit.Fault{Subject: unit.Paper, Of: paper.Name, What: fmt.Sprintf("a plan of %d pegs has no room on %.0f × %.0f mm", len(s.Pegs), l.Body().Width(), l.Body().Height()), Hint: "use A3, or write it as text: -o sheet.txt"}
	}
	pages := c.dressed(site.pages, false)
	pages[0].Places = []draw.Place{{Piece: s.Index, Matrix: c.matrix(site.plan, site.origin)}}
	if s.Office {
		more, err := sheet.Even(s.officeBlocks(), c.areas(false), r)
		if err != nil {
			return nil, fmt.Errorf("paper %.0f × %.0f mm: %w", l.Width, l.Height, err)
		}
		pages = append(pages, c.dressed(more, true)...)
	}
	return pages, nil
}

// composer puts the parts on pages.
type composer struct {
	Sheet
	r       draw.Ruler
	leaf    sheet.Leaf
	abreast int  // columns
	roomy   bool // more room between steps, larger letters for cautions
}

// composed is the pages of a site, and where its plan stands on the first.
type composed struct {
	pages  []draw.Drawing
	plan   plan.Drawn
	origin geom.Point
	fits   bool // the plan has room
}

// large is a site whose sheet is many pages in any case: it is tried in one way alone, since
// each drawing of its plan takes long.
func (c composer) large() bool { return len(c.Sure) > mostFeet }

// areas of each page.
func (c composer) areas(next bool) func(int) []geom.Rect {
	return func(n int) []geom.Rect {
		body := c.leaf.Body()
		if n > 0 || next {
			body = c.leaf.Next()
		}
		return sheet.Columns(c.leaf.Whole(body), c.abreast, sheet.Gutter)
	}
}

// site is the pages with the largest plan, of those that are the fewest and well filled.
func (c composer) site() (best composed, err error) {
	first := c.areas(false)(0)
	width, high := first[0].Width(), first[0].Height()
	front, back := c.laid(c.frontBlocks(), width), c.laid(c.backBlocks(), width)
	rest := sheet.Height(front, width, c.r)
	rooms := []unit.Length{high - rest, high, high * 0.7, high * 0.5, high * leastPlan}
	if c.abreast > 1 {
		rooms = []unit.Length{high, high * 0.7, high * 0.5}
	}
	if c.large() {
		rooms = []unit.Length{high}
	}
	score := math.Inf(1)
	for i, room := range rooms {
		if room < high*leastPlan {
			continue
		}
		figure, drawn, at, fits := c.figure(width, room)
		turned := []bool{false} // the back begins a page of its own
		if i == 0 {
			turned = []bool{true, false}
		}
		for _, leaf := range turned {
			pages, e := c.flow(slices.Concat([]sheet.Block{figure}, c.details(drawn, width), front), back, leaf)
			if err = e; e != nil {
				continue
			}
			cost := float64(len(pages)) + 0.1*float64(i) + 3*sheet.Emptiness(pages, c.areas(false), c.r)
			if leaf {
				cost -= 0.05
			}
			if !fits {
				cost += overflows
			}
			if cost < score-1e-9 {
				origin := first[0].Min.Plus(geom.Point{Y: first[0].Height()}).Plus(at)
				score, best = cost, composed{pages, drawn, origin, fits}
			}
		}
		if score < 2 { // one leaf, well filled
			break
		}
	}
	if best.pages != nil {
		return best, nil
	}
	return best, err
}

// laid are blocks that are set once, however often they flow.
func (c composer) laid(blocks []sheet.Block, width unit.Length) []sheet.Block {
	return []sheet.Block{sheet.Laid(sheet.Stack(blocks, width, c.r))}
}

// flow sets front and back, the back on a page of its own or behind the front.
func (c composer) flow(front, back []sheet.Block, leaf bool) ([]draw.Drawing, error) {
	if !leaf {
		return sheet.Even(slices.Concat(front, back), c.areas(false), c.r)
	}
	pages, err := sheet.Even(front, c.areas(false), c.r)
	if err != nil {
		return nil, err
	}
	more, err := sheet.Even(back, c.areas(true), c.r)
	return append(pages, more...), err
}

// overflows is more than any pages cost.
const overflows = 1e6

// figure is the plan as large as the room allows, with how one stands to it; at is its
// origin from the top left corner; it fits, or reaches out of the room.
func (c composer) figure(width, room unit.Length) (f sheet.Figure, p plan.Drawn, at geom.Point, fits bool) {
	stand := sheet.Paragraph{Words: c.Says().Stand(), Height: draw.FigureHeight}
	said := sheet.Height([]sheet.Block{stand}, width, c.r) + standGap
	p, fits = c.planned().Fit(width, room-said-2*planMargin, c.r)
	at = geom.Point{X: width/2 - p.Bounds.Centre().X, Y: -planMargin - p.Bounds.Max.Y}
	var pegs []geom.Name
	for _, q := range c.sitePegs() {
		pegs = append(pegs, q.Name)
	}
	marks := draw.Tagged(sheet.Shift(p.Ops, at), &draw.Tag{Role: draw.AsFigure, Alt: words.In(c.Language).Aloud().Plan(pegs)})
	h := p.Bounds.Height() + planMargin + standGap
	lines, more := sheet.Set([]sheet.Block{stand}, geom.Point{Y: -h}, width, c.r)
	marks = append(marks, lines...)
	return sheet.Figure{Draw: func(unit.Length, draw.Ruler) (draw.Drawing, unit.Length) { return marks, h + more + planMargin }}, p, at, fits
}

// dressed are pages with their heads and feet.
func (c composer) dressed(all []draw.Drawing, office bool) (pages []draw.Page) {
	m := c.margin(len(all), office)
	for i, d := range all {
		p := draw.Page{Kind: draw.Setout, Piece: c.Piece, Width: c.leaf.Width, Height: c.leaf.Height, Ops: d}
		p.Ops = append(p.Ops, m.Draw(c.leaf, i+1, len(all), c.r)...)
		pages = append(pages, p)
	}
	return pages
}

// margin is the head and the foot of every page.
func (c composer) margin(pages int, office bool) sheet.Margin {
	name := c.Piece
	if name == "" {
		for _, n := range c.Outline[:min(len(c.Outline), 12)] {
			name += string(n)
		}
	}
	h := c.heads()
	m := sheet.Margin{
		Title: name, Second: []string{h.Title(false), c.Job, c.Date}, Language: c.Language,
		Third: h.Units(false, c.Style)[:2], Picture: h.NoScale(),
	}
	switch {
	case office:
		side, other := h.ForOffice()
		for range pages {
			m.Sides = append(m.Sides, [2]string{side, other})
		}
	case pages == 2:
		for _, back := range []bool{false, true} {
			side, other := h.Turn(back)
			m.Sides = append(m.Sides, [2]string{side, other})
		}
	}
	return m
}

// matrix leads from the piece's own plane to the page, the plan's scale included.
func (c composer) matrix(p plan.Drawn, origin geom.Point) draw.Matrix {
	k := 1 / p.Scale
	sin, cos := math.Sincos(float64(c.Place.Turn))
	shift := c.Place.Shift.Times(k).Plus(origin)
	return draw.Matrix{k * cos, k * sin, -k * sin, k * cos, shift.X.MM(), shift.Y.MM()}
}

// extent is the longer side of the rectangle round the pegs on their baseline.
func (s Sheet) extent() unit.Length {
	var all []geom.Point
	for _, p := range s.Pegs {
		all = append(all, p.At)
	}
	b := geom.RectOf(all[0], all...)
	return max(b.Width(), b.Height())
}
