package app

import (
	"cmp"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/furniture"
	"trammel/plot/lettering"
	"trammel/plot/paging"
	"trammel/plot/template"
)

// On a roll a page is as long as what stands on it, in whole millimetres. A piece
// is turned so that it takes the fewest pages, and of these turns the one that
// takes least of the roll; what is longer than a page may be (stock.Height) is
// joined as on any paper.

// stock is what pages are printed on: sheets of one size, or a roll, and what of a
// piece they carry.
type stock struct {
	paging.Sheet
	Cover paging.Cover
	roll  bool
	turn  *unit.Angle // of the baseline that was asked for
}

// lay is where the pages of a piece lie.
func (s stock) lay(outline geom.Polygon, effort paging.Effort) (paging.Plan, error) {
	plan, err := paging.Lay(outline, s.Sheet, s.Cover, s.turn, effort)
	if err != nil {
		return plan, err
	}
	if s.roll && s.turn == nil {
		plan = s.layOnRoll(outline, plan, effort)
	}
	return template.Settle(plan), nil
}

// layOnRoll takes the turn with an edge along or across the roll that takes least
// of it, or the free one that it is given where that has fewer pages or is a tenth
// shorter. Pages in several rows are then as long as each other.
func (s stock) layOnRoll(outline geom.Polygon, free paging.Plan, effort paging.Effort) paging.Plan {
	best := free
	saves := 0.9 // what the free turn must take at most of what another does
	steps := free.Steps
	quick := effort
	quick.Most = max(leastSteps, quick.Most/8) // there are many turns, and each has its shifts alone to search
	for _, turn := range rollTurns(outline) {
		p, err := paging.Turned(free, outline, turn, quick)
		steps += p.Steps
		if err == nil && (len(p.Cells) < len(best.Cells) || len(p.Cells) == len(best.Cells) && float64(takes(p))*saves < float64(takes(best))) {
			best, saves = p, 1
		}
	}
	if rows := unit.Length(best.Rows); rows > 1 {
		const words unit.Length = 15 // what pages in several rows are longer than the piece needs
		inner := (best.Outline.Bounds().Height()+(rows-1)*s.Overlap)/rows + 2*paging.Unreliable + words
		on := s.Sheet
		on.Height = min(s.Height, unit.Length(math.Ceil((inner + s.Top + s.Bottom).MM())))
		p, err := paging.Lay(outline, on, s.Cover, &best.Place.Turn, effort)
		steps += p.Steps
		if err == nil && len(p.Cells) <= len(best.Cells) {
			best = p
		}
	}
	best.Steps = steps
	return best
}

// rollTurns lay an edge along or across the roll, of many edges the longest.
func rollTurns(outline geom.Polygon) (turns []unit.Angle) {
	const most = 8
	edges := make([]geom.Line, len(outline))
	for i := range outline {
		edges[i] = outline.Edge(i)
	}
	slices.SortStableFunc(edges, func(a, b geom.Line) int { return cmp.Compare(b.Length(), a.Length()) })
	for _, e := range edges[:min(most, len(edges))] {
		turns = append(turns, -e.Direction(), unit.Turn/4-e.Direction())
	}
	return turns
}

// takes is how much of the roll a plan takes.
func takes(p paging.Plan) unit.Length {
	if p.Rows > 1 {
		return p.Sheet.Height * unit.Length(p.Rows)
	}
	return p.Outline.Bounds().Height()
}

// cut is the plan on pages no longer than the drawing and the furniture need.
// Pages in several rows keep their length, since their joins are where they are.
func (s stock) cut(plan paging.Plan, d draw.Drawing, f furniture.Furniture) paging.Plan {
	if !s.roll || plan.Rows != 1 {
		return plan
	}
	const (
		white unit.Length = 2  // past words, so that nothing relies on the edge
		step  unit.Length = 10 // by which a page grows for its furniture
	)
	box := needed(d, plan.Outline).Grow(white)
	sheet := plan.Sheet
	for height := box.Height() + sheet.Top + sheet.Bottom; ; height += step {
		sheet.Height = min(unit.Length(math.Ceil(height.MM()-1e-6)), plan.Sheet.Height)
		short := plan
		short.Sheet, short.Cells = sheet, slices.Clone(plan.Cells)
		for i := range short.Cells {
			window := &short.Cells[i].Window
			window.Max.Y = box.Max.Y
			window.Min.Y = box.Max.Y - (sheet.Height - sheet.Top - sheet.Bottom)
		}
		if sheet.Height >= plan.Sheet.Height || furnished(short, d, f) {
			return short
		}
	}
}

// needed is the rectangle round the piece and all words about it. Arcs and rays may
// run off the page, as they do on any paper.
func needed(d draw.Drawing, outline geom.Polygon) geom.Rect {
	const small unit.Length = 60 // the sign of an angle, a prick point
	box := outline.Bounds()
	for _, op := range d {
		b := op.Bounds(lettering.Go())
		if _, ok := op.(draw.Text); ok || op.Layer() == draw.Outline || max(b.Width(), b.Height()) < small {
			box = box.Join(b)
		}
	}
	return box
}

// furnished says whether every page has check bars of 100 mm or 4 in, across and along.
func furnished(plan paging.Plan, d draw.Drawing, f furniture.Furniture) bool {
	for p := range plan.Pages(d, f, lettering.Go()) {
		across, along := false, false
		for _, op := range p.Ops {
			if length, up, ok := furniture.Ladder(op); ok && length > 100-1e-6 {
				across, along = across || !up, along || up
			}
		}
		if !across || !along {
			return false
		}
	}
	return true
}
