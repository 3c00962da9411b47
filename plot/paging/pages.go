package paging

import (
	"iter"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/furniture"
	"trammel/plot/place"
)

// Pages is the plan's pages in the order of Cells, each made when it is asked for: the
// drawing, given in the plane of the sheets, cut to what the page shows; the marks of its
// joins; its furniture. A stroke ends on the window's edge to 1e-9 mm and is elsewhere
// unchanged but for the shift.
func (p Plan) Pages(d draw.Drawing, f furniture.Furniture, r draw.Ruler) iter.Seq[draw.Page] {
	return func(yield func(draw.Page) bool) {
		s := newSpread(p, d, r)
		w := furniture.NewFurnisher(f, p.spread(), p.Outline, r)
		for i := range p.Cells {
			if !yield(s.page(i, f, w)) {
				return
			}
		}
	}
}

// spread is a drawing dealt out to the cells of a plan.
type spread struct {
	plan  Plan
	ops   draw.Drawing
	boxes []geom.Rect // of the operations
	on    [][]int32   // for each cell, the operations that it may show
	at    map[[2]int]int
	kept  []geom.Rect
	r     draw.Ruler
}

func newSpread(p Plan, d draw.Drawing, r draw.Ruler) *spread {
	s := &spread{plan: p, ops: d, r: r, boxes: make([]geom.Rect, len(d)), on: make([][]int32, len(p.Cells)), at: cellsAt(p.Cells), kept: p.Trimmed()}
	for k, op := range d {
		b := op.Bounds(r)
		s.boxes[k] = b
		for i, c := range p.Cells {
			if c.Window.Meets(b) && (!whole(op) || c.Window.Holds(b)) {
				s.on[i] = append(s.on[i], int32(k))
			}
		}
	}
	return s
}

func (s *spread) page(i int, f furniture.Furniture, w *furniture.Furnisher) draw.Page {
	p, c := s.plan, s.plan.Cells[i]
	corner := geom.Point{X: p.Sheet.Left, Y: p.Sheet.Bottom}
	by := corner.Minus(c.Window.Min)
	out := draw.Page{Label: c.Label, Kind: draw.Template, Piece: f.Piece, Width: p.Sheet.Width, Height: p.Sheet.Height, Lay: i + 1,
		Places: []draw.Place{{Piece: f.PieceIndex, Copy: f.Copy, Matrix: p.Matrix(c)}}}
	for _, k := range s.on[i] {
		out.Ops = cut(out.Ops, s.ops[k], s.boxes[k], c.Window, by)
	}
	own := len(out.Ops)
	trims := cuts(p.paper(c), s.kept[i])
	var marks draw.Drawing // a line to cut along ends where it can no longer be printed on
	for _, l := range trims {
		out.Cuts = append(out.Cuts, geom.Line{From: l.From.Plus(by), To: l.To.Plus(by)})
		marks = append(marks, draw.Line{Line: l, Pen: draw.Trim, On: draw.Joins})
	}
	for _, op := range append(marks, s.joins(i, f)...) {
		out.Ops = cut(out.Ops, op, op.Bounds(s.r), c.Window, by)
	}
	leaf := furniture.Leaf{
		Label: c.Label, Lay: i, Next: c.next(), Over: s.over(i),
		Window: c.Window.Shift(by), Kept: s.kept[i].Shift(by), Shown: c.Window, By: by, Edge: Unreliable,
		// Marks reach out of a narrow strip.
		Strip: max(p.Sheet.Overlap, p.Sheet.Overlap/2+max(armAcross+armRoom, offLine+f.Sized(draw.NoteHeight)*(1+wordTail))),
	}
	out.Ops = append(out.Ops, w.Furnish(leaf, out.Ops[:own], out.Ops[own:])...)
	out.Ops = append(out.Ops, scissors(out.Cuts, c.Window.Shift(by), out.Ops, s.r)...)
	return out
}

// spread is how the sheets lie beside each other.
func (p Plan) spread() furniture.Spread {
	w := p.Cells[0].Window
	all := furniture.Spread{Width: w.Width() - p.Sheet.Overlap, Height: w.Height() - p.Sheet.Overlap}
	for _, c := range p.Cells {
		all.Sheets = append(all.Sheets, [2]int{c.Row, c.Col})
	}
	return all
}

// over is the neighbours that are laid over a sheet.
func (s *spread) over(i int) (all []int) {
	c := s.plan.Cells[i]
	for _, n := range besides {
		if k, ok := s.at[[2]int{c.Row + n[0], c.Col + n[1]}]; ok && k > i {
			all = append(all, k)
		}
	}
	return all
}

// joins is what a page bears of its joins, in the plane of the sheets.
func (s *spread) joins(i int, f furniture.Furniture) (d draw.Drawing) {
	c := s.plan.Cells[i]
	for _, n := range besides {
		k, ok := s.at[[2]int{c.Row + n[0], c.Col + n[1]}]
		if !ok {
			continue
		}
		under, over := min(i, k), max(i, k) // cells come in the order of laying
		j := joinOf(s.plan.Cells[under], s.plan.Cells[over])
		j.near, j.f, j.r = s.near(j.strip().Grow(nearStrip), under, over), f, s.r
		d = append(d, j.ops(over == i)...)
	}
	return d
}

// nearStrip is how far from a strip anything can be in the way of what stands in it.
const nearStrip unit.Length = 3

// near is the shapes of what two neighbours show in or close to a rectangle, the
// same whichever of the two asks.
func (s *spread) near(r geom.Rect, under, over int) (all []place.Shape) {
	var part []draw.Op
	shown := slices.Concat(s.on[under], s.on[over])
	slices.Sort(shown)
	for _, k := range slices.Compact(shown) {
		op := s.ops[k]
		if !s.boxes[k].Meets(r) {
			continue
		}
		part = append(part[:0], op)
		if !whole(op) { // else also where it only hangs into the strip
			part = cut(part[:0], op, s.boxes[k], r, geom.Point{})
		}
		for _, op := range part {
			all = place.Shapes(all, op, s.r)
		}
	}
	return all
}
