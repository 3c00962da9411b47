package app

import (
	"fmt"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/shape"
	"trammel/geom/unit"
	"trammel/plot/paging"
	"trammel/plot/template"
	"trammel/profiles/job"
)

const otherHand = "other hand"

// asked says whether a job asks for anything beyond an outline.
func asked(s job.Shape) bool {
	return len(s.Edges)+len(s.Corners)+len(s.Holes) > 0 || s.Pair || s.Face != job.AnyFace || s.Grain != [2]geom.Name{}
}

// shaped does to the outlines of a piece what the job asks for, and puts the other
// hand behind each of which there is a pair. Where nobody said yet which of two
// triangles is meant there is nothing to work on.
func shaped(of job.Piece, pieces []Piece, bare unit.Unit, figures unit.Style) ([]Piece, error) {
	s := of.Shape
	if !asked(s) {
		return pieces, nil
	}
	work, err := s.Work(bare)
	if err != nil {
		return nil, err
	}
	if len(pieces[0].Outline().Names) == 0 {
		return nil, inFile(of, &unit.Fault{What: "edges, corners, holes, grain and hand are those of an outline, and none is named", Advice: unit.Advice{Code: unit.NoEdgeShape, Names: spelled(round(*pieces[0].Net)), InFile: true}})
	}
	var all []Piece
	for _, p := range pieces {
		if err := grained(s, p.Outline()); err != nil {
			return nil, err
		}
		if !p.Picked {
			all = append(all, p)
			continue
		}
		hands := []Piece{p}
		if s.Pair {
			other, err := p.turnedOver(of.With)
			if err != nil {
				return nil, err
			}
			hands = append(hands, other)
		}
		for _, h := range hands {
			t := h.Outline()
			if h.Shape, err = shape.Make(t.Points, t.Names, work, figures); err != nil {
				return nil, inFile(of, err)
			}
			h.Grain, h.Face = s.Grain, s.Face
			if len(work.Corners) > 0 {
				sharp, err := shape.Make(t.Points, t.Names, shape.Work{Allowances: work.Allowances}, figures)
				if err == nil {
					h.sharp = sharp.Cover(coverSag)
				}
			}
			if !h.Other {
				h.Warnings = append(h.Warnings, h.Shape.Notes...)
			}
			all = append(all, h)
		}
	}
	return all, nil
}

// inFile gives a fault without a place that of the piece.
func inFile(of job.Piece, err error) error {
	if f, ok := err.(*unit.Fault); ok && f.Where == "" {
		return f.In(of.Where)
	}
	return err
}

// grained says whether the grain runs along an edge that there is.
func grained(s job.Shape, o geom.Outline) error {
	if s.Grain == ([2]geom.Name{}) {
		return nil
	}
	var edges []string
	for i, n := range o.Names {
		next := o.Names[o.Next(i)]
		if s.Grain == [2]geom.Name{n, next} || s.Grain == [2]geom.Name{next, n} {
			return nil
		}
	}
	for _, i := range around(o) {
		edges = append(edges, o.Side(i))
	}
	last := len(edges) - 1
	return &unit.Fault{
		Where: s.GrainAt, What: fmt.Sprintf("grain: %s is no edge of the piece", s.Grain[0]+s.Grain[1]),
		Hint: "the edges are " + strings.Join(edges[:last], ", ") + " and " + edges[last],
	}
}

// turnedOver is the other hand of a piece: its mirror image, every corner with its
// name, so that the baseline runs from B to A.
func (p Piece) turnedOver(with construct.Method) (Piece, error) {
	if p.Net != nil {
		o := p
		o.Other, o.Warnings, o.Construction = true, nil, p.mirrored()
		return o, nil
	}
	s := p.Solution
	a := s.Answers[p.Answer]
	t := &a.Triangle
	swap := func(x *[3]unit.Length) { x[0], x[1] = x[1], x[0] }
	t.Names[0], t.Names[1] = t.Names[1], t.Names[0]
	t.Angles[0], t.Angles[1] = t.Angles[1], t.Angles[0]
	swap(&t.Sides)
	swap(&t.Heights)
	t.Points[2].X = t.Points[1].X - t.Points[2].X
	a.Moves = nil // they hold the baseline's first corner, which is another
	s.Answers = slices.Clone(s.Answers)
	s.Answers[p.Answer] = a
	o := p
	o.Solution, o.Other, o.Warnings = s, true, nil
	var err error
	o.Construction, err = construct.Construct(s, p.Answer, with)
	return o, err
}

// face and hand are what the template says of the piece.
func (p Piece) face() string {
	if p.Face == job.AnyFace {
		return ""
	}
	return "face " + p.Face.String()
}

func (p Piece) hand() string {
	if p.Other {
		return otherHand
	}
	return ""
}

// size of what the pages show at least.
func (p Piece) size() (unit.Area, unit.Length) {
	if len(p.Shape.Sides) > 0 {
		return p.Shape.Areas().Finished, p.Shape.Finished.Length()
	}
	if p.Net != nil {
		return p.Outline().Area(), p.Outline().Perimeter()
	}
	t := p.Triangle()
	return t.Area, t.Perimeter
}

// coverSag is how far a page may be wanted for a place just outside a rounding.
const coverSag unit.Length = 0.5

// outline is what pages must show all of.
func (p Piece) outline() geom.Polygon {
	if len(p.Shape.Sides) > 0 {
		return p.Shape.Cover(coverSag)
	}
	return p.Outline().Points
}

// layPiece is where the pages of a piece lie. Corners that are cut off are shown
// too where that takes no page more, since lengths run to them. Pages that carry the
// edges alone may leave out a hole, or a finished edge far within the cut one: then
// all are printed.
func (w Work) layPiece(p Piece) (paging.Plan, error) {
	plan, err := w.lay(p.outline())
	if err != nil || len(p.Shape.Sides) == 0 {
		return plan, err
	}
	if w.Cover == paging.OutlineOnly && !shows(plan, p.Shape) {
		w.Cover = paging.Full
		before := plan.Steps
		if plan, err = w.lay(p.outline()); err != nil {
			return plan, err
		}
		plan.Steps += before
	}
	if p.sharp != nil {
		more, err := w.lay(p.sharp)
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

// cutText writes the figures of the piece that is really cut, which come first.
func (w Work) cutText(b *strings.Builder, p Piece) {
	s := p.Shape
	if len(s.Sides) == 0 || !s.Spared() {
		return
	}
	var sides []string
	for _, side := range s.Sides {
		if l := side.Cut.Length(); l > 0 {
			sides = append(sides, side.Name+" "+w.Figures.Length(l))
		}
	}
	say := "from corner to corner of the cut line"
	for _, v := range s.Corners {
		if v.Cut != nil {
			say = "the straight parts of the cut line"
		}
	}
	fmt.Fprintf(b, "  to cut: %s (%s)\n\n", strings.Join(sides, ", "), say)
}

// shapeText writes what is done to a piece for a person at a terminal.
func (w Work) shapeText(b *strings.Builder, p Piece) {
	s := p.Shape
	if len(s.Sides) == 0 {
		return
	}
	var says []string
	if s.Spared() {
		var each []string
		for _, side := range s.Sides {
			each = append(each, fmt.Sprintf("%s %s", side.Name, signed(side.Allow, w.Figures)))
		}
		says = append(says, "cut line beyond the finished edge: "+strings.Join(each, ", "))
	}
	a := s.Areas()
	area := "area finished " + w.area(a.Net)
	if a.Holes > 0 {
		area += " (holes " + w.area(a.Holes) + " taken out)"
	}
	says = append(says, area+", inside the cut line "+w.area(a.Cut))
	for _, h := range s.Bores {
		c := h.Circle.Centre
		says = append(says, fmt.Sprintf("hole Ø %s, centre %s along %s and %s above it", w.Figures.Length(h.Hole.Diameter), w.Figures.Length(c.X), s.Sides[0].Name, w.Figures.Length(c.Y)))
	}
	if p.Grain != ([2]geom.Name{}) {
		says = append(says, "grain along "+string(p.Grain[0]+p.Grain[1]))
	}
	for _, say := range []string{p.face(), map[bool]string{true: "one of each hand"}[w.paired(p)]} {
		if say != "" {
			says = append(says, say)
		}
	}
	b.WriteString("\n")
	for _, say := range says {
		b.WriteString("  " + say + "\n")
	}
	b.WriteString("\n")
	rows := template.Settings(w.templatePiece(p), w.style())
	tab := table{}
	for i, row := range rows {
		if i == 0 {
			row = slices.Clone(row)
			for k := range row {
				row[k] = strings.ReplaceAll(row[k], "\n", " ")
			}
		}
		tab = append(tab, row)
	}
	tab.write(b, "l r l l r r")
	for _, say := range strings.SplitAfter(strings.Join(template.AboutSettings(w.templatePiece(p), w.style()), " "), ". ") { // a sentence a line
		b.WriteString("  " + strings.TrimSpace(say) + "\n")
	}
}

// paired says whether the other hand of a piece is made too.
func (w Work) paired(p Piece) bool { return w.Job.Pieces[p.Index].Shape.Pair }

func signed(l unit.Length, s unit.Style) string {
	if l < 0 {
		return "−" + s.Length(-l)
	}
	return "+" + s.Length(l)
}
