package template

import (
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/paging"
	"trammel/plot/place"
	"trammel/plot/sheet"
	"trammel/plot/words"
)

// white is left free about the map of pages, for the letters of the corners or
// of rows and columns.
const white unit.Length = 6

// picture is the map of pages with the shape over it.
func (x index) picture(highest unit.Length) sheet.Block {
	alt := words.In(x.style.Language).Aloud().Map(x.piece.Name, len(x.plan.Cells))
	return sheet.Figure{Alt: alt, Draw: func(width unit.Length, r draw.Ruler) (draw.Drawing, unit.Length) {
		all := x.plan.Cells[0].Window
		for _, c := range x.plan.Cells {
			all = all.Join(c.Window)
		}
		k := min(float64((width-2*white)/all.Width()), float64((highest-2*white)/all.Height()))
		m := chart{
			scale: k, from: all.Min, to: geom.Point{X: white, Y: -white - unit.Length(k)*all.Height()},
			scene: newScene(nil, nil, r), plan: x.plan,
		}
		high := unit.Length(k)*all.Height() + 2*white
		m.draw(x.piece, geom.Rect{Min: geom.Point{Y: -high}, Max: geom.Point{X: width}})
		return m.scene.drawing, high
	}}
}

// chart is the map of pages while it is drawn, at a scale.
type chart struct {
	scale    float64
	from, to geom.Point // a point of the plane of the sheets, and where it lies on the map
	scene    *scene
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

func (m chart) draw(p Piece, room geom.Rect) {
	line := func(x0, y0, x1, y1 unit.Length) { m.scene.add(sheet.NoteLine(x0, y0, x1, y1, draw.Fine)) }
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
		m.scene.add(draw.Polyline{Points: shape, Closed: true, Pen: draw.Wide, On: draw.Notes})
	}
	if lines := slices.Clip(m.scene.drawing); !m.labelPages(shares) {
		// Too small for a number in every page: the first of each row beside it, where
		// the corners' letters leave room. The scene is made again without the words.
		*m.scene = *newScene(nil, nil, m.scene.ruler)
		m.scene.add(lines...)
		defer m.labelRows(shares)
	}
	m.scene.panes = place.NewIndex[pane](about)
	m.scene.panes.Put(room, pane{room, room})
	for i, at := range shape {
		out := geom.Line{From: shape.Edge(p.Outline.Before(i)).At(0.5).Plus(shape.Edge(i).At(0.5)).Times(0.5), To: at}.Direction()
		m.name(p.Outline.Names[i], anchor{Point: at, toward: out}, fan[:], 2000)
	}
}

// name writes a point's name beside it; the less turns matter, the larger.
func (m chart) name(n geom.Name, a anchor, turns []unit.Angle, less float64) {
	w := label{string(n), draw.FigureHeight, true}
	all := w.ring(a, 2, 11, turns, func(_ geom.Point, turn unit.Angle) float64 {
		return turn.Degrees() * turn.Degrees() / less
	}).make(nil)
	for k := range all {
		all[k].text.On = draw.Notes
	}
	m.scene.place(all)
}

// shape draws the contours and holes of a piece on the map.
func (m chart) shape(p Piece) {
	add := func(path []geom.Segment, pen draw.Pen) {
		small := make([]geom.Segment, len(path))
		for i, s := range path {
			small[i] = m.small(s)
		}
		m.scene.add(draw.Path{Segments: small, Closed: true, Pen: pen, On: draw.Notes})
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

// labelPages writes each page's label where the shape leaves room in it, and says
// whether all had room.
func (m chart) labelPages(shares []geom.Rect) bool {
	for _, s := range shares {
		m.scene.panes.Put(s, pane{s, s})
	}
	for i, s := range shares {
		w := label{m.plan.Cells[i].Label, draw.NoteHeight, false}
		dx, dy := s.Width()/2-m.scene.ruler.Width(w.say, w.height, false)/2-1.1, s.Height()/2-w.height*0.85-1.1
		if dx < 0 || dy < 0 {
			return false
		}
		if !slices.ContainsFunc(inPage, func(at [2]unit.Length) bool {
			text := w.at(s.Centre().Plus(geom.Point{X: at[0] * dx, Y: at[1]*dy + w.height*0.17}), 0)
			text.On = draw.Notes
			return m.scene.put(candidate{text: text}, whole)
		}) {
			return false
		}
	}
	return true
}

// labelRows writes beside the rows the number of their first sheet, as many of them as
// have room.
func (m chart) labelRows(shares []geom.Rect) {
	all := shares[0]
	for _, s := range shares {
		all = all.Join(s)
	}
	var corners []geom.Rect
	for _, op := range m.scene.drawing {
		if o, ok := op.(draw.Text); ok {
			corners = append(corners, o.Bounds(m.scene.ruler).Grow(1.5))
		}
	}
	put := func(say string, at geom.Point, a draw.Align) bool {
		o := sheet.Note(say, at.X, at.Y, a)
		if b := o.Bounds(m.scene.ruler); b.Min.X < 0 || slices.ContainsFunc(corners, b.Meets) {
			return false
		}
		m.scene.add(o)
		return true
	}
	const from = 1.2
	row, last := -1, unit.Length(1e9)
	for i, c := range m.plan.Cells {
		middle := shares[i].Centre()
		if c.Row != row && last-middle.Y >= draw.NoteHeight*2 && put(c.Label, geom.Point{X: all.Min.X - from, Y: middle.Y - draw.NoteHeight/2}, draw.Right) {
			last = middle.Y
		}
		row = c.Row
	}
}
