package furniture

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/place"
)

// Rooms around furniture, in mm.
const (
	roomWide    unit.Length = 6   // from everything, where the page is empty enough
	room        unit.Length = 3   // from everything, as a rule
	RoomLeast   unit.Length = 2   // between the words of two things, always
	roomTight   unit.Length = 1   // from strokes, where the page is crowded
	roomStrip   unit.Length = 1.5 // from what a neighbour covers
	pointerStep unit.Length = 2
	pointerIn   unit.Length = 30 // how far from its edge a neighbour's label may stand
)

// Squares of the free grid are 1.5 mm, on large paper larger: at most so many of them.
const (
	square      unit.Length = 1.5
	mostSquares float64     = 60000
)

// Furnisher places the furniture of page after page.
type Furnisher struct {
	f       Furniture
	r       draw.Ruler
	multi   bool // there is more than one sheet
	small   smallMap
	outline geom.Polygon // of the piece
	grid    place.FreeGrid
	near    []place.Shape
	ladders map[laddered]place.Block // those that were made
	titles  map[way][]line
}

// laddered tells the ladders of check bars apart.
type laddered struct {
	bar
	along bool
}

// NewFurnisher furnishes the sheets of a piece, one or more, with its outline in the plane
// of the sheets.
func NewFurnisher(f Furniture, all Spread, outline geom.Polygon, r draw.Ruler) *Furnisher {
	return &Furnisher{f: f, r: r, multi: len(all.Sheets) > 1, small: newMap(all), outline: outline, ladders: map[laddered]place.Block{}, titles: map[way][]line{}}
}

// Leaf is one page to be furnished, on its own paper but for Shown.
type Leaf struct {
	Label        string
	Lay          int       // its place in the order of laying, from 0
	Next         [4]string // numbers of the neighbours left, right, above and below; empty where there is none
	Over         []int     // places of those that are laid over it
	Window, Kept geom.Rect
	Shown        geom.Rect   // the window in the plane of the sheets
	By           geom.Point  // plane of the sheets → page
	Edge         unit.Length // of the window, where printers are not to be relied on
	Strip        unit.Length // how far in from a neighbour its strip and the marks in it reach
}

// site is a leaf while it is being furnished.
type site struct {
	Leaf
	free    geom.Rect
	oneSide bool // no edge of the piece runs through the page
}

// Furnish is the furniture of a page that already bears ops, of which it keeps clear, as
// of what a neighbour covers. Bars, label and the note how to print come first, then the
// neighbours' labels, then the rest of the title. Only where a bar or the label has no
// place at all does it go into a strip, and at last it is left out.
func (w *Furnisher) Furnish(l Leaf, ops, joins []draw.Op) draw.Drawing {
	s := w.site(l)
	w.near = w.near[:0]
	for _, op := range ops {
		w.near = place.Shapes(w.near, op, w.r)
	}
	// The neighbours' numbers first, since each has an edge to stand at; if that takes the
	// place of the header with its bar, the other way round.
	w.clear(s)
	pointers := w.pointers(s)
	kit, rank := w.kit(s, ways, pointers)
	if rank > 0 && len(pointers) > 0 {
		w.clear(s)
		if better, n := w.kit(s, ways[:rank], nil); n < rank {
			kit, rank, pointers = better, n, w.pointers(s)
		}
	}
	if rank == len(ways) {
		kit, pointers = w.crowded(s, joins)
	}
	return append(kit, pointers...)
}

// site is what a leaf has free of strips and cuts; a side may be cut without a neighbour.
func (w *Furnisher) site(l Leaf) site {
	s := site{Leaf: l, free: l.Window.Grow(-l.Edge), oneSide: true}
	free, window, kept := Sides(&s.free), Sides(&l.Window), Sides(&l.Kept)
	for k, in := range Inward {
		if l.Next[k] != "" {
			*free[k] = *window[k] + in*l.Strip + in*roomStrip
		}
		if cut := *kept[k]; in*cut > in**window[k] {
			*free[k] = in * max(in**free[k], in*cut+RoomLeast)
		}
	}
	for i := range w.outline {
		_, meets := geom.ClipLine(w.outline.Edge(i), l.Shown)
		s.oneSide = s.oneSide && !meets
	}
	return s
}

// crowded is the furniture of a page that has no place for a header: bars, note and
// number apart from one another, stubs of bars as a last resort.
func (w *Furnisher) crowded(s site, joins []draw.Op) (kit, pointers draw.Drawing) {
	own, bars := len(w.near), w.f.bars()
	apart := func(bars []bar) (draw.Drawing, bool) {
		w.near = w.near[:own]
		for _, op := range joins { // what stands in the strips matters only now
			w.near = place.Shapes(w.near, op, w.r)
		}
		w.clear(s)
		return w.scatter(s, bars)
	}
	kit, all := apart(bars)
	if !all {
		if small, ok := apart(bars[stubBar:]); ok {
			kit = small
		} else {
			kit, _ = apart(bars)
		}
	}
	pointers = w.pointers(s)
	return append(kit, w.restOfTitle(s)...), pointers
}

// clear makes the free grid of a page with nothing on it but the drawing.
func (w *Furnisher) clear(s site) {
	step := max(square, unit.Length(math.Sqrt(float64(s.Window.Width()*s.Window.Height())/mostSquares)))
	w.grid.Level(s.Window, step)
	for i := range w.near {
		more := unit.Length(0)
		if w.near[i].Text {
			more = RoomLeast - roomTight
		}
		w.grid.Take(w.near[i].P[:w.near[i].N], w.near[i].Pad+more)
	}
	w.grid.Count()
}

// put draws a block at p and takes its place.
func (w *Furnisher) put(b place.Block, p geom.Point) (d draw.Drawing) {
	for _, r := range b.Rects {
		box := r.Shift(p).Grow(RoomLeast - roomTight).Corners()
		w.grid.Take(box[:], 0)
	}
	w.grid.Count()
	for _, op := range b.Ops {
		d = append(d, draw.Shift(op, p))
	}
	return d
}

// pointers are the neighbours' labels, each at the middle of its edge or as near
// to it as the drawing lets it.
func (w *Furnisher) pointers(s site) (d draw.Drawing) {
	middle := s.Window.Centre()
	for side, label := range s.Next {
		if label == "" {
			continue
		}
		b := w.f.pointer(label, side, w.r)
		at, in, along := middle, inward(side), geom.Point{Y: 1}
		if side < Above {
			at.X = *Sides(&s.free)[side]
		} else {
			at.Y, along = *Sides(&s.free)[side], geom.Point{X: 1}
		}
		reach := max(s.free.Width(), s.free.Height()) / 2
	search:
		for deep := unit.Length(0); deep <= pointerIn; deep += 2.5 * pointerStep {
			for k := unit.Length(0); k <= reach; k += pointerStep {
				for _, way := range [2]unit.Length{k, -k} {
					p := at.Plus(in.Times(float64(deep))).Plus(along.Times(float64(way)))
					if w.grid.Fits(b, p, RoomLeast, s.free) {
						d = append(d, w.put(b, p)...)
						break search
					}
				}
			}
		}
	}
	return d
}

// way is one way to set the header.
type way struct {
	hung  bool // from its check bar, all beside each other
	say   int
	width unit.Length
}

// ways from the best to the last.
var ways = []way{
	{true, sayAll, 100},
	{false, sayAll, 72}, {false, sayAll, 52}, {false, sayAll, 36}, {false, sayPiece, 52}, {false, sayPiece, 36}, {false, sayLeast, 52}, {false, sayLeast, 30},
}

// kit is header and bars, and how far down the list of ways it had to go: to its end where
// there is no place. What stands there already is kept clear of.
func (w *Furnisher) kit(s site, ways []way, there draw.Drawing) (d draw.Drawing, rank int) {
	bars := w.f.bars()
	for i, y := range ways {
		var hung *bar
		if y.hung {
			hung = &bars[0]
		}
		if y.width = w.f.Sized(y.width); y.hung {
			y.width = max(bars[0].length, min(y.width, s.free.Width()-2*RoomLeast))
		}
		f := w.emptiest(w.header(s.Leaf, hung, y), s)
		if !f.ok {
			continue
		}
		d := w.put(f.b, f.p)
		alone := []bool{true} // bars to be placed, along or across
		if !y.hung {
			alone = []bool{true, false}
		}
		for _, along := range alone {
			ladder, ok := w.ladder(s, bars[:stubBar], along)
			if !ok {
				d = nil
				break
			}
			d = append(d, ladder...)
		}
		if d != nil {
			return d, i
		}
		w.clear(s)
		for _, op := range there {
			box := op.Bounds(w.r).Grow(RoomLeast - roomTight).Corners()
			w.grid.Take(box[:], 0)
		}
		w.grid.Count()
	}
	return nil, len(ways)
}

// ladder places the longest bar that has a place by itself.
func (w *Furnisher) ladder(s site, bars []bar, along bool) (draw.Drawing, bool) {
	for _, b := range bars {
		if f := w.emptiest(w.laddered(b, along), s); f.ok {
			return w.put(f.b, f.p), true
		}
	}
	return nil, false
}

// laddered is the ladder of a bar, made once.
func (w *Furnisher) laddered(b bar, along bool) place.Block {
	l := laddered{b, along}
	if _, ok := w.ladders[l]; !ok {
		w.ladders[l] = b.ladder(along, w.r)
	}
	return w.ladders[l]
}

// found is a place for a block, and how far it lies from the corner of the page
// that it belongs to, with what turning it about costs.
type found struct {
	b    place.Block
	p    geom.Point
	cost unit.Length
	ok   bool
}

func (f *found) better(o found) {
	if o.ok && (!f.ok || o.cost < f.cost) {
		*f = o
	}
}

// emptiest is a place outside the piece with wide room, else with ordinary room, else the
// same inside it, else with the least room anywhere; of the corners the one it lies best in.
func (w *Furnisher) emptiest(b place.Block, s site) found {
	var inside found
	for _, r := range [3]unit.Length{roomWide, room, RoomLeast} {
		if r == RoomLeast && inside.ok {
			break
		}
		out, in := w.search(b, s, r)
		if out.ok {
			return out
		}
		if !inside.ok {
			inside = in
		}
	}
	return inside
}

// near is how far from its corner a block may lie to be in it.
const near unit.Length = 5

// search is the best place outside the piece and the best of those inside that
// come first.
func (w *Furnisher) search(b place.Block, s site, room unit.Length) (out, in found) {
	for i := range 4 {
		if out.ok && out.cost <= near {
			break
		}
		b.Right, b.Top = i&1 == 0, i&2 == 0 // the upper right corner first
		at := func(p geom.Point) found {
			box := b.Rects[0].Shift(p)
			off := box.Min.Minus(s.free.Min)
			if b.Right {
				off.X = s.free.Max.X - box.Max.X
			}
			if b.Top {
				off.Y = s.free.Max.Y - box.Max.Y
			}
			return found{b, p, off.Distance(geom.Point{}), true}
		}
		first := true
		outside := func(p geom.Point) bool {
			if !w.outline.Has(p.Minus(s.By)) {
				return true
			}
			if first {
				in.better(at(p))
				first = false
			}
			return false
		}
		if s.oneSide {
			outside = nil
		}
		if p, ok := w.grid.Spot(b, room, s.free, outside); ok {
			out.better(at(p))
		}
	}
	return out, in
}

// scatter places bars, note and number one by one where no header has a place. It says
// whether all have one.
func (w *Furnisher) scatter(s site, bars []bar) (d draw.Drawing, all bool) {
	all = true
	first := func(blocks ...place.Block) int {
		for _, within := range [2]geom.Rect{s.free, s.Window.Grow(-s.Edge)} {
			for i, b := range blocks {
				for _, room := range [2]unit.Length{RoomLeast, roomTight} {
					if p, ok := w.grid.Spot(b, room, within, nil); ok {
						d = append(d, w.put(b, p)...)
						return i
					}
				}
			}
		}
		all = false
		return len(blocks)
	}
	var across, along, notes, labels []place.Block
	for _, b := range bars {
		across, along = append(across, w.laddered(b, false)), append(along, w.laddered(b, true))
	}
	first(across...)
	first(along...)
	for _, width := range []unit.Length{88, 30, 22} {
		notes = append(notes, titleBlock(w.f.howToPrint(width, w.r), w.r))
	}
	first(notes...)
	if w.multi {
		for _, h := range []unit.Length{w.f.Sized(draw.LabelHeight), w.f.Sized(draw.CornerHeight), w.f.Sized(draw.FigureHeight)} {
			labels = append(labels, titleBlock([]line{{words: s.Label, height: h, bold: true}}, w.r))
		}
		if first(labels...) == len(labels)-1 { // so small a number is not one to look for
			all = false
		}
	}
	return d, all
}

// restOfTitle is as much of the title as has a place beside what scatter placed.
func (w *Furnisher) restOfTitle(s site) draw.Drawing {
	for _, y := range []way{{say: sayAll, width: 88}, {say: sayAll, width: 36}, {say: sayPiece, width: 52}, {say: sayPiece, width: 30}} {
		note := len(w.f.howToPrint(y.width, w.r))
		lines := w.f.title(y.say, y.width, w.r)
		lines = lines[:len(lines)-note]
		if len(lines) == 0 {
			continue
		}
		b := titleBlock(lines, w.r)
		if p, ok := w.grid.Spot(b, RoomLeast, s.free, nil); ok {
			return w.put(b, p)
		}
	}
	return nil
}
