package app

import (
	"cmp"
	"fmt"
	"math"
	"runtime"
	"slices"
	"strings"
	"sync"
	"sync/atomic"

	"trammel/cmd/internal/lines"
	"trammel/cmd/internal/solved"
	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/lettering"
	"trammel/plot/paging"
	"trammel/plot/sheet"
	"trammel/plot/template"
)

// Small pieces share pages: each that has a page to itself otherwise, and its
// copies, is put on shelves with its name and, the first time, its construction by
// hand beside it, where that takes fewer pages than one each. Check bars, title
// and cautions stand once on a page.

// shared is the pieces that share pages.
type shared struct {
	blocks map[int]template.Block // by their index among the laid
	items  []item
	spots  []paging.Spot
	pages  int
	front  []draw.Page // what has no room on them
	bare   bool        // saw and square stand on a page of their own: there are fewer so
	area   paging.Shelving
}

type item struct{ laid, copy int }

// Room that is kept for check bars and title: along the foot of the page, and up
// its left edge as far as the bar along reaches.
const (
	foot   unit.Length = 24
	column unit.Length = 13
	barTop unit.Length = 108
	apart  unit.Length = 5 // between two pieces
)

func (t *layout) share() error {
	w := t.work
	single := 0 // copies that have a page to themselves
	for _, l := range t.laid {
		if len(l.plan.Cells) == 1 {
			single += w.Copies
		}
	}
	if w.Apart || single < 2 {
		return nil
	}
	with, err := t.sharing(false)
	if err != nil {
		return err
	}
	if w.style().Settings && slices.ContainsFunc(t.laid, func(l laid) bool { return len(l.piece.Shape.Sides) > 0 }) {
		bare, err := t.sharing(true)
		if err != nil {
			return err
		}
		if bare.pages > 0 && (with.pages == 0 || bare.pages+1 < with.pages) {
			with = bare
		}
	}
	t.shared = with
	if with.pages == 0 {
		return nil
	}
	for _, k := range with.items {
		t.laid[k.laid].shared = true
	}
	t.count += with.pages - len(with.items)
	return nil
}

// sharing is the pieces on the pages that they share, with saw and square or without; none
// where no page is saved.
func (t *layout) sharing(bare bool) (shared, error) {
	w := t.work
	h := shared{blocks: map[int]template.Block{}, area: w.shelves(), bare: bare}
	var things []paging.Thing
	for i, m := range t.fitter(h.area, bare).fit() {
		l := t.laid[i]
		if m.err != nil {
			return h, w.InPiece(l.piece, m.err)
		}
		if m.sizes == nil {
			continue
		}
		h.blocks[i] = m.block
		for c := range w.Copies {
			h.items = append(h.items, item{i, c})
		}
		things = append(things, m.sizes...)
	}
	if len(h.items) < 2 {
		return shared{}, nil
	}
	// The answers of one piece, and its two hands, are compared: they stay together.
	with := func(i int) bool {
		a, b := h.items[i-1], h.items[i]
		return a.laid != b.laid && t.laid[a.laid].piece.Name == t.laid[b.laid].piece.Name
	}
	if h.spots, h.pages = h.area.Put(things, with); h.pages >= len(h.items) {
		return shared{}, nil
	}
	return h, nil
}

// shelves are what a page has room for beside its bars and title. Off a roll it is not
// known yet where the foot of the page will be.
func (s stock) shelves() paging.Shelving {
	all := paging.Size{Width: s.Width - s.Left - s.Right - 2*paging.Unreliable, Height: s.Height - s.Top - s.Bottom - 2*paging.Unreliable - foot}
	notch := paging.Size{Width: column, Height: barTop - foot}
	if s.roll {
		notch.Height = all.Height
	}
	return paging.Shelving{Area: all, Gap: apart, Notch: notch}
}

// fitted is a block and how large each copy is with its words: so narrow, if that can be, that
// it goes beside the bar along as well, and as wide as a page; none where it fits no page.
type fitted struct {
	block template.Block
	sizes []paging.Thing
	err   error
}

// fitter makes blocks of pieces for the pages that they share, bare of saw and square or not.
type fitter struct {
	work Work
	laid []laid
	on   paging.Shelving
	bare bool
}

func (t *layout) fitter(on paging.Shelving, bare bool) fitter {
	return fitter{t.work, t.laid, on, bare}
}

// fit makes the blocks of pieces on one page, each for itself, on all processors: its
// labels take their time.
func (t fitter) fit() []fitted {
	made := make([]fitted, len(t.laid))
	var workers sync.WaitGroup
	var broke atomic.Value
	next := make(chan int)
	for range runtime.GOMAXPROCS(0) {
		workers.Go(func() {
			for i := range next {
				func() {
					defer func() {
						if b := recover(); b != nil { // it breaks where the blocks are wanted
							broke.CompareAndSwap(nil, fmt.Sprint(b))
						}
					}()
					made[i] = t.block(i)
				}()
			}
		})
	}
	done := sync.OnceFunc(func() { close(next) })
	defer done() // also where nobody waits for it any more
	for i, l := range t.laid {
		if len(l.plan.Cells) == 1 {
			t.work.tell.say("fitting pieces together", i, len(t.laid))
			next <- i
		}
	}
	done()
	workers.Wait()
	if b := broke.Load(); b != nil {
		panic(b)
	}
	return made
}

// block of a piece, level if that fits a page, else upright or as it would lie on its
// own page.
func (t fitter) block(laid int) fitted {
	l, on := t.laid[laid], t.on
	for _, turn := range []unit.Angle{0, unit.Turn / 4, l.plan.Place.Turn} {
		b, ok, err := template.NewBlock(t.work.templatePiece(l.piece), turn, on.Area, lettering.Go(), t.work.style())
		if err != nil {
			return fitted{err: err}
		}
		f := fitted{block: b}
		for c := 0; ok && c < t.work.Copies; c++ {
			wide, fits := t.arrange(b, item{laid, c}, on.Area.Width)
			narrow, thin := t.arrange(b, item{laid, c}, on.Area.Width-on.Notch.Width)
			fits, thin = fits && on.Fits(wide.Size), thin && on.Fits(narrow.Size)
			size := paging.Thing{Size: narrow.Size, Above: wide.Size}
			switch ok = fits || thin; {
			case !thin:
				size.Size = wide.Size
			case !fits:
				size.Above = narrow.Size
			}
			f.sizes = append(f.sizes, size)
		}
		if ok {
			return f
		}
	}
	return fitted{}
}

// arrange is a copy with its words, at most so wide.
func (t fitter) arrange(b template.Block, it item, width unit.Length) (template.Arranged, bool) {
	w, piece := t.work, t.laid[it.laid].piece
	say := template.Said{Name: piece.Title(), Steps: it.copy == 0, Bare: t.bare}
	if mark := w.Words().Templates().Mark(marked(w, piece)); mark != "" {
		say.Name += ", " + mark
	}
	if w.Copies > 1 {
		say.Name = fmt.Sprintf("%s, copy %d of %d", say.Name, it.copy+1, w.Copies)
	}
	if before, ok := toldBefore(t.laid, it.laid); ok {
		say.As, say.Told = before.Title(), template.Steps(w.templatePiece(before), w.style())
	}
	return b.Arrange(say, paging.Size{Width: width, Height: t.on.Area.Height}, lettering.Go())
}

// toldBefore is a piece whose steps are told before those of another: another answer to the
// same measurements, or the other hand.
func toldBefore(all []laid, i int) (solved.Piece, bool) {
	p := all[i].piece
	for _, l := range all[:i] {
		if l.piece.Name == p.Name && l.piece.Index == p.Index {
			return l.piece, true
		}
	}
	return solved.Piece{}, false
}

// arranged is the item k with its words.
func (t *layout) arranged(k int) template.Arranged {
	h := t.shared
	it, f := h.items[k], t.fitter(h.area, h.bare)
	a, ok := f.arrange(h.blocks[it.laid], it, h.area.Area.Width-h.area.Notch.Width)
	if !ok || a.Size != h.spots[k].Size {
		a, _ = f.arrange(h.blocks[it.laid], it, h.area.Area.Width)
	}
	return a
}

func (t *layout) sharedPage(n int) draw.Page {
	w, h, r := t.work, t.shared, lettering.Go()
	on := w.Sheet
	if w.roll {
		inner := max(h.used(n)+foot, barTop) + 2*paging.Unreliable
		on.Height = unit.Length(math.Ceil((inner + on.Top + on.Bottom).MM()))
	}
	corner := geom.Point{X: paging.Unreliable, Y: on.Height - on.Top - on.Bottom - paging.Unreliable} // of the area, in the window
	var d draw.Drawing
	var outlines []geom.Polygon
	var places []draw.Place
	var names, notes []string
	for k, it := range h.items {
		if h.spots[k].Page != n {
			continue
		}
		l := t.laid[it.laid]
		a := t.arranged(k)
		by := geom.Placement{Shift: corner.Plus(h.spots[k].At)}
		d = append(d, sheet.Move(a.Drawing, by)...)
		outlines = append(outlines, by.Polygon(a.Outline))
		a.Place.Shift = a.Place.Shift.Plus(by.Shift)
		places = append(places, draw.Place{Piece: l.index, Copy: it.copy, Matrix: paging.Plan{Sheet: on, Place: a.Place}.Matrix(paging.Cell{})})
		if m := w.Words().Templates().Measures(l.piece.Shape); m != "" && !slices.Contains(notes, m) {
			notes = append(notes, m)
		}
		if name := l.piece.Title(); !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	f := t.furniture(t.laid[h.items[0].laid], 0, len(h.front)+n+1)
	f.Job, f.Copies, f.Mark, f.Sheets, f.Note = "", 0, "", h.pages, strings.Join(notes, "; ")
	f.Piece = cmp.Or(w.Title, lines.Plural(len(places), "piece"))
	f.Figures += ", computed figures in parentheses"
	plan := onePage(on, joined(outlines))
	plan.Cells[0].Label = fmt.Sprint(n + 1)
	page := cautioned(w, theOnly(plan.Pages(d, f, r)), on, h.used(n))
	const most = 80 // letters of a bookmark
	page.Piece, page.Places = unit.Cut(strings.Join(names, ", "), most), places
	return page
}

// used is how far down a page pieces reach, from the top of the area.
func (h shared) used(n int) unit.Length {
	used := unit.Length(0)
	for _, p := range h.spots {
		if p.Page == n {
			used = max(used, p.Height-p.At.Y)
		}
	}
	return used
}

// cautioned is the page with the cautions, below the pieces if there is room.
func cautioned(w Work, page draw.Page, on paging.Sheet, used unit.Length) draw.Page {
	below := on
	below.Top += used
	for _, s := range []paging.Sheet{below, on} {
		p, _ := template.WithNotes(page, s, template.Piece{}, lettering.Go(), template.Style{Language: w.Language, Lettering: w.Trade.Lettering})
		if len(p.Ops) > len(page.Ops) {
			return p
		}
	}
	return page
}

// joined is one polygon that surrounds what any of several does, by the even-odd
// rule: from the first of them to each other one and back along the same line.
func joined(all []geom.Polygon) geom.Polygon {
	var one geom.Polygon
	for _, p := range all {
		one = append(append(one, p...), p[0])
		one = append(one, all[0][0])
	}
	return one
}

// sharedShown are the shared pages as pictures, each within the edge of its paper.
func (t *layout) sharedShown() (shown []draw.Page) {
	for n := range t.shared.pages {
		p := t.work.shown(t.sharedPage(n))
		edge := geom.Rect{Max: geom.Point{X: p.Width, Y: p.Height}}.Grow(-draw.Fine.Width)
		p.Ops = append(p.Ops, draw.Polyline{
			Points: []geom.Point{edge.Min, {X: edge.Max.X, Y: edge.Min.Y}, edge.Max, {X: edge.Min.X, Y: edge.Max.Y}},
			Closed: true, Pen: draw.Fine, On: draw.Furniture,
		})
		p.Piece = ""
		shown = append(shown, p)
	}
	return shown
}
