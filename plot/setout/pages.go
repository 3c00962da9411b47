package setout

import (
	"cmp"
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
	mostPlan               = 0.6 // that it is to have where the width does not end it before
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
	c := composer{Sheet: s, r: r, leaf: l, abreast: 1, drawn: map[unit.Length]figured{}}
	if l.Body().Width() >= sheet.Wide {
		c.abreast = 2
	}
	site, err := c.site()
	if err != nil {
		return nil, fmt.Errorf("paper %.0f × %.0f mm: %w", l.Width, l.Height, err)
	}
	if !site.fits {
		return nil, &unit.Fault{Subject: unit.Paper, Of: paper.Name, What: fmt.Sprintf("a plan of %d pegs has no room on %.0f × %.0f mm", len(s.Pegs), l.Body().Width(), l.Body().Height()), Hint: "use A3, or write it as text: -o sheet.txt"}
	}
	pages := c.dressed(site.pages, false)
	pages[0].Places = []draw.Place{{Piece: s.Index, Matrix: c.matrix(site.plan, site.origin)}}
	if s.Office {
		more, _, err := sheet.Even(s.officeBlocks(), c.areas(false), r)
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
	abreast int                     // columns
	drawn   map[unit.Length]figured // by the height of its room
	way
}

// way is how the parts are set.
type way struct {
	roomy    bool // more room between steps, larger letters for cautions
	short    bool // both arcs of a peg are one step
	careBack bool // cautions stand at the back, before the steps
}

// ways are tried in the order of what is liked best. A sheet of many pages in any case is
// tried in one alone, since each drawing of its plan takes long.
func (c composer) ways() []way {
	switch {
	case c.large():
		return []way{{short: true}}
	case len(c.Steps) > short/2:
		return []way{{short: true}, {short: true, careBack: true}}
	}
	return []way{{roomy: true}, {roomy: true, careBack: true}, {}, {careBack: true}, {short: true}, {short: true, careBack: true}}
}

// large is a site whose sheet is many pages in any case.
func (c composer) large() bool { return len(c.Sure) > mostFeet }

// composed is the pages of a site, and where its plan stands on the first.
type composed struct {
	pages  []draw.Drawing
	plan   plan.Drawn
	origin geom.Point
	fits   bool // the plan has room
	cost   float64
}

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

// What a site costs, beside its pages.
const (
	overflows = 1e6  // more than any pages: the plan has no room
	smaller   = 0.6  // of a plan that is nothing; one as large as the page would let it be costs none
	notFirst  = 0.03 // of each way that is not the one liked best
	onFlowing = 0.05 // of a back that begins on the front
	emptied   = 3    // of a page that is filled less than by half
	mostDrawn = 4    // plans that are drawn, of those that are worth it
)

// trial is a way with a room for the plan, the back on a page of its own or behind the
// front, and about what it costs.
type trial struct {
	way
	room unit.Length
	leaf bool
	late float64 // what it costs not to be the way liked best
	cost float64
}

// site is the fewest pages, well filled, with the largest plan. What does not look cheaper
// than what was drawn before is not drawn.
func (c composer) site() (best composed, err error) {
	best.cost = math.Inf(1)
	fits := false
	for _, t := range c.trials() {
		if t.cost >= best.cost || fits && len(c.drawn) == mostDrawn {
			break
		}
		c.way = t.way
		got, e := c.composed(t)
		if e != nil {
			err = e
			continue
		}
		if fits = fits || got.fits; got.cost < best.cost {
			best = got
		}
	}
	if best.pages != nil {
		return best, nil
	}
	return best, err
}

// trials are those that there are, what looks cheapest first: the plan is taken to be as
// high as its room, or as its width would let it be.
func (c composer) trials() (all []trial) {
	first := c.areas(false)(0)
	width, high := first[0].Width(), first[0].Height()
	e := c.planned().Extent()
	natural := width*e.Height()/max(e.Width(), 1) + lettersTake
	for i, w := range c.ways() {
		c.way = w
		front, back := sheet.Blank(sheet.Stack(c.frontBlocks(), width, c.r)), sheet.Blank(sheet.Stack(c.backBlocks(), width, c.r))
		for _, room := range c.rooms(high, sheet.Height([]sheet.Block{front}, width, c.r)) {
			size := float64(min(room, natural) / min(high*mostPlan, natural))
			for _, leaf := range []bool{true, false} {
				pages, empty, err := c.flow([]sheet.Block{sheet.Blank([]sheet.Row{{Height: min(room, natural)}}), front}, []sheet.Block{back}, leaf)
				if err != nil {
					continue
				}
				late := notFirst * float64(i)
				if !leaf {
					late += onFlowing
				}
				all = append(all, trial{w, room, leaf, late, late + smaller*max(0, 1-size) + float64(len(pages)) + emptied*empty})
			}
		}
	}
	slices.SortStableFunc(all, func(a, b trial) int { return cmp.Compare(a.cost, b.cost) })
	return all
}

// lettersTake is what a plan's letters and its tape line take beside the pegs, about.
const lettersTake unit.Length = 38

// rooms that the plan may have: what the rest of the front leaves, or shares of a page.
func (c composer) rooms(high, rest unit.Length) (all []unit.Length) {
	if c.large() {
		return []unit.Length{high}
	}
	if room := high - rest; room >= high*leastPlan && c.abreast == 1 {
		all = append(all, room)
	}
	for _, share := range []unit.Length{1, 0.7, 0.5, leastPlan} {
		if share > leastPlan || c.abreast == 1 {
			all = append(all, high*share)
		}
	}
	return all
}

// composed is the pages of a trial, with what they cost when all is drawn.
func (c composer) composed(t trial) (composed, error) {
	first := c.areas(false)(0)
	width := first[0].Width()
	f := c.figure(width, t.room)
	pages, empty, err := c.flow(slices.Concat([]sheet.Block{f}, f.details, c.frontBlocks()), c.backBlocks(), t.leaf)
	if err != nil {
		return composed{}, err
	}
	e := c.planned().Extent()
	size := float64(e.Height()) / f.plan.Scale / float64(min(first[0].Height()*mostPlan-lettersTake, width*e.Height()/max(e.Width(), 1)))
	cost := float64(len(pages)) + emptied*empty + smaller*max(0, 1-size) + t.late
	if !f.fits {
		cost += overflows
	}
	return composed{pages, f.plan, first[0].Min.Plus(geom.Point{Y: first[0].Height()}).Plus(f.at), f.fits, cost}, nil
}

// flow sets front and back, the back on a page of its own or behind the front; empty is by
// how much pages are filled less than by half.
func (c composer) flow(front, back []sheet.Block, leaf bool) (pages []draw.Drawing, empty float64, err error) {
	if !leaf {
		if pages, empty, err = sheet.Even(slices.Concat(front, back), c.areas(false), c.r); len(pages) == 1 {
			empty = 0
		}
		return pages, empty, err
	}
	if pages, empty, err = sheet.Even(front, c.areas(false), c.r); err != nil {
		return nil, 0, err
	}
	more, alsoEmpty, err := sheet.Even(back, c.areas(true), c.r)
	return append(pages, more...), empty + alsoEmpty, err
}

// figured is the plan with how one stands to it: its marks from the top left corner down,
// its origin from there.
type figured struct {
	sheet.Figure
	plan plan.Drawn
	at   geom.Point
	fits bool // or it reaches out of the room

	details []sheet.Block // that follow it
}

// figure is the plan as large as the room allows.
func (c composer) figure(width, room unit.Length) (f figured) {
	if f, ok := c.drawn[room]; ok {
		return f
	}
	stand := sheet.Paragraph{Words: c.Says().Stand(), Height: draw.FigureHeight}
	said := sheet.Height([]sheet.Block{stand}, width, c.r) + standGap
	f.plan, f.fits = c.planned().Fit(width, room-said-2*planMargin, c.r)
	b := f.plan.Bounds
	f.at = geom.Point{X: width/2 - b.Centre().X, Y: -planMargin - b.Max.Y}
	var pegs []geom.Name
	for _, q := range c.sitePegs() {
		pegs = append(pegs, q.Name)
	}
	marks := draw.Tagged(sheet.Shift(f.plan.Ops, f.at), &draw.Tag{Role: draw.AsFigure, Alt: words.In(c.Language).Aloud().Plan(pegs)})
	h := b.Height() + planMargin + standGap
	lines, more := sheet.Set([]sheet.Block{stand}, geom.Point{Y: -h}, width, c.r)
	marks = append(marks, lines...)
	f.Draw = func(unit.Length, draw.Ruler) (draw.Drawing, unit.Length) { return marks, h + more + planMargin }
	f.details = c.details(f.plan, width)
	c.drawn[room] = f
	return f
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
	sin, cos := math.Sincos(float64(c.Place.Turn + c.Turn))
	shift := geom.Placement{Turn: c.Turn}.Apply(c.Place.Shift.Times(k)).Plus(origin)
	return draw.Matrix{k * cos, k * sin, -k * sin, k * cos, shift.X.MM(), shift.Y.MM()}
}

// extent is the longer side of the rectangle round the pegs on their baseline.
func extentOf(s Sheet) unit.Length {
	var all []geom.Point
	for _, p := range s.Pegs {
		all = append(all, p.At)
	}
	b := geom.RectOf(all[0], all...)
	return max(b.Width(), b.Height())
}
