package app

import (
	"math"
	"slices"

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
func (s stock) layPiece(p solved.Piece, effort paging.Effort) (paging.Plan, error) {
	plan, err := s.lay(p.Covered(), effort)
	if err != nil || len(p.Shape.Sides) == 0 {
		return plan, err
	}
	if s.Cover == paging.OutlineOnly && !shows(plan, p.Shape) {
		s.Cover = paging.Full
		before := plan.Steps
		if plan, err = s.lay(p.Covered(), effort); err != nil {
			return plan, err
		}
		plan.Steps += before
	}
	if p.Sharp != nil {
		more, err := s.lay(p.Sharp, effort)
		both := plan.Steps + more.Steps
		if err == nil && len(more.Cells) <= len(plan.Cells) && shows(more, p.Shape) {
			plan = more
		}
		plan.Steps = both
	}
	return plan, nil
}

// shows says whether the pages have all of a shape's lines and holes.
func shows(plan paging.Plan, s shape.Shape) bool {
	all := append(append(geom.Contour{}, s.Finished...), s.Cut...)
	for _, b := range s.Bores {
		all = append(all, b.Circle)
	}
	windows := plan.Windows()
	for _, g := range plan.Place.Contour(all) {
		var seen unit.Length
		for _, window := range windows {
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
			at := g.At(float64(d / g.Length()))
			if !slices.ContainsFunc(windows, func(w geom.Rect) bool { return w.Grow(1e-6).Has(at) }) {
				return false
			}
		}
	}
	return true
}

const maxPages = paging.MaxPages

// atLeast is a number of pages that a piece cannot go below, before any is laid:
// a window shows no more of its area, or of its edges, than this.
func (s stock) atLeast(p solved.Piece) float64 {
	width, height := (s.Width - s.Left - s.Right).MM(), (s.Height - s.Top - s.Bottom).MM()
	if width <= 0 || height <= 0 {
		return 0 // no window at all: whoever lays the pages says so
	}
	area, round := p.Size()
	n := float64(area) / (width * height)
	if s.Cover == paging.OutlineOnly {
		// Of a convex piece a window holds no more of the outline than its own edge is
		// long; of a hollow one, of each side no more than its diagonal.
		n = round.MM() / (2 * (width + height))
		if o := p.Outline(); o.Hollow() {
			n = o.Sides[o.Longest()].MM() / math.Hypot(width, height)
		}
	}
	return math.Floor(n)
}
