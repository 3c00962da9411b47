package template

import (
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/legible"
	"trammel/plot/paging"
	"trammel/plot/sheet"
)

// white is left free about the map of sheets, for the letters of the corners or the
// numbers of the ends of rows.
const white unit.Length = 8

// picture is the map of pages with the shape over it.
func (x index) picture(of Hand, highest unit.Length) sheet.Block {
	alt := x.style.says().Aloud().Map(of.Piece.Name, len(of.Plan.Cells))
	return sheet.Figure{Alt: alt, Draw: func(width unit.Length, r draw.Ruler) (draw.Drawing, unit.Length) {
		all := of.Plan.Cells[0].Window
		for _, c := range of.Plan.Cells {
			all = all.Join(c.Window)
		}
		white := x.style.sized(white)
		k := min(float64((width-2*white)/all.Width()), float64((highest-2*white)/all.Height()))
		high := unit.Length(k)*all.Height() + 2*white
		made := mapOf{&of.Plan.Cells[0], width, k}
		if d, ok := x.maps[made]; ok {
			return d, high
		}
		m := chart{
			scale: k, from: all.Min, to: geom.Point{X: white, Y: -white - unit.Length(k)*all.Height()},
			scene: legible.NewScene(nil, nil, r), plan: of.Plan, style: x.style,
		}
		room := geom.Rect{Min: geom.Point{Y: -high}, Max: geom.Point{X: width}}
		numbered := m.draw(of.Piece, room)
		if x.style.Lengths {
			m.sides(of.Piece, x.style, false)
		}
		if !numbered {
			m.numberRows()
		}
		x.maps[made] = m.scene.Drawing
		return m.scene.Drawing, high
	}}
}

// mapOf tells the small pictures of a piece apart.
type mapOf struct {
	first *paging.Cell // of the plan that a map shows; nil is the construction
	width unit.Length
	scale float64
}

// chart is the map of pages while it is drawn, at a scale.
type chart struct {
	style    Style
	scale    float64
	from, to geom.Point // a point of the plane of the sheets, and where it lies on the map
	scene    *legible.Scene
	plan     paging.Plan
}

func (m chart) at(p geom.Point) geom.Point { return p.Minus(m.from).Times(m.scale).Plus(m.to) }

// share is what a page is drawn as: its window, up to the middle of the strips
// that it has in common with its neighbours.
func (m chart) share(c paging.Cell) geom.Rect {
	half := m.plan.Sheet.Overlap / 2
	w := c.Window
	if c.LeftOf != "" {
		w.Min.X += half
	}
	if c.RightOf != "" {
		w.Max.X -= half
	}
	if c.Below != "" {
		w.Min.Y += half
	}
	if c.Above != "" {
		w.Max.Y -= half
	}
	return geom.Rect{Min: m.at(w.Min), Max: m.at(w.Max)}
}

// draw draws the sheets and the shape, the corners' letters and, where all have room, the
// sheets' numbers, and says whether they had.
func (m chart) draw(p Piece, room geom.Rect) (numbered bool) {
	line := func(x0, y0, x1, y1 unit.Length) { m.scene.Add(sheet.NoteLine(x0, y0, x1, y1, draw.Fine)) }
	var shares []geom.Rect
	for _, c := range m.plan.Cells {
		s := m.share(c)
		shares = append(shares, s)
		line(s.Min.X, s.Min.Y, s.Min.X, s.Max.Y)
		line(s.Min.X, s.Max.Y, s.Max.X, s.Max.Y)
		if c.RightOf == "" {
			line(s.Max.X, s.Min.Y, s.Max.X, s.Max.Y)
		}
		if c.Below == "" {
			line(s.Min.X, s.Min.Y, s.Max.X, s.Min.Y)
		}
	}
	var shape geom.Polygon
	for _, q := range p.corners(m.plan) {
		shape = append(shape, m.at(q))
	}
	if p.shaped() {
		m.shape(p)
	} else {
		m.scene.Add(draw.Polyline{Points: shape, Closed: true, Pen: draw.Wide, On: draw.Notes})
	}
	lines := slices.Clip(m.scene.Drawing)
	again := func() bool {
		*m.scene = *legible.NewScene(nil, nil, m.scene.Ruler)
		m.scene.Add(lines...)
		return true
	}
	numbered = slices.ContainsFunc(numberHeights, func(h unit.Length) bool {
		h = m.style.sized(h)
		return m.holdNumbers(shares, h) && again() && m.numberSheets(shares, h)
	}) || !again()
	m.scene.Only(room)
	for i, at := range shape {
		out := geom.Line{From: shape.Edge(p.Outline.Before(i)).At(0.5).Plus(shape.Edge(i).At(0.5)).Times(0.5), To: at}.Direction()
		m.name(p.Outline.Names[i], legible.Anchor{Point: at, Best: out}, legible.Fan[:], 2000)
	}
	return numbered
}

// name writes a point's name beside it; the less turns matter, the larger.
func (m chart) name(n geom.Name, a legible.Anchor, turns []unit.Angle, less float64) {
	w := legible.Label{Say: string(n), Height: m.style.sized(draw.TitleHeight), Bold: true}
	all := w.Ring(a, 2, 11, turns, func(_ geom.Point, turn unit.Angle) float64 {
		return turn.Degrees() * turn.Degrees() / less
	}).Make(nil)
	for k := range all {
		all[k].Text.On = draw.Notes
	}
	m.scene.Place(all)
}

// shape draws the contours and holes of a piece on the map.
func (m chart) shape(p Piece) {
	add := func(path []geom.Segment, pen draw.Pen) {
		small := make([]geom.Segment, len(path))
		for i, s := range path {
			small[i] = m.small(s)
		}
		m.scene.Add(draw.Path{Segments: small, Closed: true, Pen: pen, On: draw.Notes})
	}
	add(m.plan.Place.Contour(p.Shape.Cut), draw.Wide)
	for _, b := range p.Shape.Bores {
		add([]geom.Segment{m.plan.Place.Arc(b.Circle)}, draw.Narrow)
	}
}

// small is a line or an arc of the plane of the sheets as it lies on the map.
func (m chart) small(s geom.Segment) geom.Segment {
	if a, ok := s.(geom.Arc); ok {
		a.Centre, a.Radius = m.at(a.Centre), a.Radius*unit.Length(m.scale)
		return a
	}
	return geom.Line{From: m.at(s.At(0)), To: m.at(s.At(1))}
}

// inPage is where in a page its label is tried, the middle first, up to its rim.
var inPage = [][2]unit.Length{
	{0, 0}, {0, 1}, {0, -1}, {1, 0}, {-1, 0}, {-1, 1}, {1, 1}, {-1, -1}, {1, -1},
	{0, .5}, {0, -.5}, {.5, 0}, {-.5, 0}, {.5, .5}, {-.5, .5}, {.5, -.5}, {-.5, -.5},
}

// numberHeights are those that the numbers on the map may have, all alike.
var numberHeights = []unit.Length{draw.CornerHeight, draw.TitleHeight, draw.FigureHeight, draw.NoteHeight}

// holdNumbers says whether each sheet is large enough for its number, the shape aside.
func (m chart) holdNumbers(shares []geom.Rect, height unit.Length) bool {
	for i, s := range shares {
		if free := m.aroundNumber(s, i, height); free.X < 0 || free.Y < 0 {
			return false
		}
	}
	return true
}

// aroundNumber is how far a sheet's number may lie from the middle of the sheet.
func (m chart) aroundNumber(share geom.Rect, i int, height unit.Length) geom.Point {
	wide := m.scene.Ruler.Width(m.plan.Cells[i].Label, height, true)
	return geom.Point{X: share.Width()/2 - wide/2 - 1.1, Y: share.Height()/2 - height*0.85 - 1.1}
}

// numberSheets writes each sheet's number where the shape leaves room in it, and says
// whether all had room; each is large enough.
func (m chart) numberSheets(shares []geom.Rect, height unit.Length) bool {
	for _, s := range shares {
		m.scene.Show(s)
	}
	for i, s := range shares {
		w := legible.Label{Say: m.plan.Cells[i].Label, Height: height, Bold: true}
		free := m.aroundNumber(s, i, height)
		if !slices.ContainsFunc(inPage, func(at [2]unit.Length) bool {
			text := w.At(s.Centre().Plus(geom.Point{X: at[0] * free.X, Y: at[1]*free.Y + w.Height*0.17}), 0)
			text.On = draw.Notes
			return m.scene.Put(legible.Candidate{Text: text}, legible.Whole)
		}) {
			return false
		}
	}
	return true
}

// numberRows writes beside each row the numbers of the sheets at its ends, as many of
// them as have room: the map is too small for one in every sheet.
func (m chart) numberRows() {
	type row struct{ first, last int }
	rows := map[int]row{}
	for i, c := range m.plan.Cells {
		r, ok := rows[c.Row]
		if !ok {
			r = row{i, i}
		}
		if c.Col < m.plan.Cells[r.first].Col {
			r.first = i
		}
		if c.Col > m.plan.Cells[r.last].Col {
			r.last = i
		}
		rows[c.Row] = r
	}
	for k := range m.plan.Rows {
		r, ok := rows[k]
		if !ok {
			continue
		}
		beside := func(i int, at unit.Length, a draw.Align) {
			o := sheet.Note(m.plan.Cells[i].Label, at, m.share(m.plan.Cells[i]).Centre().Y, a)
			o.Height = m.style.sized(draw.NoteHeight)
			o.At.Y -= o.Height / 2
			m.scene.Put(legible.Candidate{Text: o}, legible.Whole)
		}
		beside(r.first, m.share(m.plan.Cells[r.first]).Min.X-1.2, draw.Right)
		beside(r.last, m.share(m.plan.Cells[r.last]).Max.X+1.2, draw.Left)
	}
}
