package template

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/paging"
	"trammel/plot/sheet"
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
	care := sheet.Paragraph{Words: "Check the bars before cutting. Eye and dust protection, hands clear of the blade. This is geometry, not strength: braces, gussets and roofs need a qualified person. Local codes prevail."}
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
	ground := newGround(page, area, r)
	for _, t := range []struct {
		within bool
		more   unit.Length // white round it, beyond toNotes
	}{{false, 10}, {false, 4}, {false, 0}, {true, 4}, {true, 0}} {
		for _, width := range widths {
			high := sheet.Height(blocks, width, r)
			if at, ok := ground.room(width, high, t.more, t.within); ok {
				d, _ := sheet.Set(blocks, at, width, r)
				page.Ops = append(append([]draw.Op{}, page.Ops...), d...)
				return page, true
			}
		}
	}
	return page, false
}

// ground is a page in small squares: which are taken, and which lie in the piece.
type ground struct {
	area       geom.Rect
	nx, ny     int
	taken, own []int // sums over all squares below and to the left
}

const (
	groundStep unit.Length = 2
	toNotes    unit.Length = 4 // from notes to anything else
)

func newGround(page draw.Page, area geom.Rect, r draw.Ruler) ground {
	g := ground{area: area, nx: int(area.Width() / groundStep), ny: int(area.Height() / groundStep)}
	if g.nx <= 0 || g.ny <= 0 {
		return ground{}
	}
	taken, own := make([]bool, g.nx*g.ny), make([]bool, g.nx*g.ny)
	mark := func(b geom.Rect, is func(geom.Rect) bool) {
		n := func(l unit.Length) int { return int(math.Floor(float64(l / groundStep))) }
		for i := max(0, n(b.Min.X-area.Min.X)); i <= min(g.nx-1, n(b.Max.X-area.Min.X)); i++ {
			for j := max(0, n(b.Min.Y-area.Min.Y)); j <= min(g.ny-1, n(b.Max.Y-area.Min.Y)); j++ {
				if at := j*g.nx + i; !taken[at] && is(g.square(i, j)) {
					taken[at] = true
				}
			}
		}
	}
	for _, op := range page.Ops {
		for _, k := range strokesOf(op) {
			near := toNotes + k.half
			mark(geom.RectOf(k.From, k.To).Grow(near), func(q geom.Rect) bool { return pointToLine(q.Centre(), k.Line) < near+groundStep*0.71 })
		}
		switch o := op.(type) {
		case draw.Text:
			mark(o.Bounds(r).Grow(toNotes), func(geom.Rect) bool { return true })
		case draw.Polyline:
			if o.On == draw.Outline && len(o.Points) > 2 {
				for i := range own {
					own[i] = own[i] || inside(o.Points, g.square(i%g.nx, i/g.nx).Centre())
				}
			}
		case draw.Path:
			if o.On == draw.Outline && o.Closed {
				for i := range own {
					own[i] = own[i] || geom.Contour(o.Segments).Has(g.square(i%g.nx, i/g.nx).Centre())
				}
			}
		}
	}
	g.taken, g.own = g.sums(taken), g.sums(own)
	return g
}

func (g ground) square(i, j int) geom.Rect {
	at := g.area.Min.Plus(geom.Point{X: unit.Length(i) * groundStep, Y: unit.Length(j) * groundStep})
	return geom.Rect{Min: at, Max: at.Plus(geom.Point{X: groundStep, Y: groundStep})}
}

func (g ground) sums(in []bool) []int {
	w := g.nx + 1
	s := make([]int, w*(g.ny+1))
	for j := range g.ny {
		for i := range g.nx {
			n := 0
			if in[j*g.nx+i] {
				n = 1
			}
			s[(j+1)*w+i+1] = n + s[j*w+i+1] + s[(j+1)*w+i] - s[j*w+i]
		}
	}
	return s
}

// room is the top left corner of a free rectangle with so much more white round
// it (off the page there is white enough), the highest and then leftmost one;
// within says that it may lie in the piece.
func (g ground) room(width, high, more unit.Length, within bool) (geom.Point, bool) {
	squares := func(l unit.Length) int { return int(math.Ceil(float64(l / groundStep))) }
	w, h, m := squares(width), squares(high), squares(more)
	none := func(s []int, i, j int) bool {
		x0, y0, x1, y1 := max(0, i-m), max(0, j-m), min(g.nx, i+w+m), min(g.ny, j+h+m)
		n := g.nx + 1
		return s[y1*n+x1]-s[y0*n+x1]-s[y1*n+x0]+s[y0*n+x0] == 0
	}
	for j := g.ny - h; j >= 0; j-- {
		for i := 0; i+w <= g.nx; i++ {
			if none(g.taken, i, j) && (within || none(g.own, i, j)) {
				q := g.square(i, j)
				return geom.Point{X: q.Min.X, Y: q.Min.Y + unit.Length(h)*groundStep}, true
			}
		}
	}
	return geom.Point{}, false
}

func inside(shape []geom.Point, p geom.Point) bool {
	in := false
	for i, a := range shape {
		b := shape[(i+1)%len(shape)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(b.X-a.X)*((p.Y-a.Y)/(b.Y-a.Y)) {
			in = !in
		}
	}
	return in
}
