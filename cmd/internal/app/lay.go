package app

import (
	"math"

	"trammel/cmd/internal/solved"
	"trammel/geom"
	"trammel/geom/shape"
	"trammel/geom/unit"
	"trammel/plot/paging"
)

// layPiece is where the pages of a piece lie. Corners that are cut off are shown
// too where that takes no page more, since lengths run to them. Pages that carry the
// edges alone may leave out a hole, or a finished edge far within the cut one: then
// all are printed.
func (w Work) layPiece(p solved.Piece) (paging.Plan, error) {
	plan, err := w.lay(p.Covered())
	if err != nil || len(p.Shape.Sides) == 0 {
		return plan, err
	}
	if w.Cover == paging.OutlineOnly && !shows(plan, p.Shape) {
		w.Cover = paging.Full
		before := plan.Steps
		if plan, err = w.lay(p.Covered()); err != nil {
			return plan, err
		}
		plan.Steps += before
	}
	if p.Sharp != nil {
		more, err := w.lay(p.Sharp)
		both := plan.Steps + more.Steps
		if err == nil && len(more.Cells) <= len(plan.Cells) && shows(more, p.Shape) {
			plan = more
		}
		plan.Steps = both
	}
	return plan, nil
}

// allPages says where more pages are printed than were asked for.
func (w Work) allPages(plan paging.Plan) string {
	if w.Cover == paging.OutlineOnly && plan.Cover == paging.Full {
		return "; all of them, since those of the edges alone would miss a hole or a line"
	}
	return ""
}

// shows says whether the pages have all of a shape's lines and holes.
func shows(plan paging.Plan, s shape.Shape) bool {
	all := append(append(geom.Contour{}, s.Finished...), s.Cut...)
	for _, b := range s.Bores {
		all = append(all, b.Circle)
	}
	for _, g := range plan.Place.Contour(all) {
		var seen unit.Length
		for _, window := range plan.Windows() {
			for _, run := range geom.ClipPath([]geom.Segment{g}, false, window) {
				seen += geom.Contour(run).Length()
			}
		}
		// What neighbours show twice only adds; a gap could hide behind that, so that
		// places along it are asked for as well.
		if seen < g.Length()-1e-6 {
			return false
		}
		const step unit.Length = 2
		for d := unit.Length(0); d <= g.Length(); d += step {
			if !shown(plan, g.At(float64(d/g.Length()))) {
				return false
			}
		}
	}
	return true
}

func shown(plan paging.Plan, p geom.Point) bool {
	for _, c := range plan.Cells {
		if c.Window.Grow(1e-6).Has(p) {
			return true
		}
	}
	return false
}

// maxPages is the most pages that one document may have.
const maxPages = paging.MaxPages

// atLeast is a number of pages that a piece cannot go below, before any is laid:
// a window shows no more of its area, or of its edges, than this.
func (w Work) atLeast(p solved.Piece) float64 {
	s := w.Sheet
	width, height := (s.Width - s.Left - s.Right).MM(), (s.Height - s.Top - s.Bottom).MM()
	if width <= 0 || height <= 0 {
		return 0 // no window at all: whoever lays the pages says so
	}
	area, round := p.Size()
	n := float64(area) / (width * height)
	if w.Cover == paging.OutlineOnly {
		// Of a convex piece a window holds no more of the outline than its own edge is
		// long; of a hollow one, of each side no more than its diagonal.
		n = round.MM() / (2 * (width + height))
		if o := p.Outline(); o.Hollow() {
			n = o.Sides[o.Longest()].MM() / math.Hypot(width, height)
		}
	}
	return math.Floor(n) * float64(p.Quantity)
}

func (w Work) tooMany(p solved.Piece, pages float64, more bool, before int) error {
	name := p.Title()
	if before > 0 {
		name = "the job up to " + name
	}
	return w.InPiece(p, paging.TooMany(name, float64(before)+pages, more, w.Sheet))
}
