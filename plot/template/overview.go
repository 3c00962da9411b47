package template

import (
	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/legible"
	"trammel/plot/paging"
	"trammel/plot/place"
	"trammel/plot/sheet"
)

// The picture of a whole piece is laid out as if on paper of this size, so that
// lettering and lines come out as on a page.
const (
	overviewWidth unit.Length = 240
	overviewLeast unit.Length = 60 // of the shape's height, so that a needle has room for its words
	overviewMost  unit.Length = 180
	overviewWhite unit.Length = 14 // about the shape, for words
)

// Overview is one picture of the whole piece with its page grid, for the screen: the
// pages, the shape over them with its construction, the lengths of its sides. It
// is reduced; its Places say by how much. A *unit.Fault names a character that
// the lettering does not have.
func Overview(p Piece, plan paging.Plan, r draw.Ruler, s Style) (draw.Page, error) {
	if err := Ready(p, r); err != nil {
		return draw.Page{}, err
	}
	all := plan.Outline.Bounds()
	for _, c := range plan.Cells {
		all = all.Join(c.Window)
	}
	k := min(float64((overviewWidth-2*overviewWhite)/all.Width()), float64(overviewMost/all.Height()))
	high := max(overviewLeast, unit.Length(k)*all.Height()) + 2*overviewWhite
	m := chart{scale: k, from: all.Centre(), to: geom.Point{X: overviewWidth / 2, Y: high / 2}, scene: legible.NewScene(nil, nil, r), plan: plan, style: s}
	room := geom.Rect{Max: geom.Point{X: overviewWidth, Y: high}}.Grow(-1)

	if s.Arcs {
		m.construction(p.Construction, room)
	}
	numbered := m.draw(p, room)
	m.inner(p)
	if s.Lengths {
		m.sides(p, s, true)
	}
	if !numbered {
		m.numberRows()
	}
	return draw.Page{
		Kind: draw.Template, Piece: p.Name, Width: overviewWidth, Height: high, Ops: m.scene.Drawing,
		Places: []draw.Place{{Matrix: m.matrix()}},
	}, nil
}

// inner marks the points of a net that are no corners, with their letters.
func (m chart) inner(p Piece) {
	for _, s := range p.Inner {
		at := m.at(m.plan.Place.Apply(s.At))
		m.scene.Add(draw.Arc{Arc: geom.Arc{Centre: at, Radius: 1, Sweep: unit.Turn}, Pen: draw.Narrow, On: draw.Notes})
		m.name(s.Name, legible.Anchor{Point: at, Best: unit.Turn / 8}, legible.Round[:], place.Never)
	}
}

// matrix leads from the piece's own coordinates to the picture.
func (m chart) matrix() draw.Matrix {
	o := m.at(m.plan.Place.Apply(geom.Point{}))
	x := m.at(m.plan.Place.Apply(geom.Point{X: 1})).Minus(o)
	y := m.at(m.plan.Place.Apply(geom.Point{Y: 1})).Minus(o)
	return draw.Matrix{x.X.MM(), x.Y.MM(), y.X.MM(), y.Y.MM(), o.X.MM(), o.Y.MM()}
}

// construction draws the arcs and lines of the steps that cross the shape,
// what of them lies in the picture.
func (m chart) construction(c construct.Construction, room geom.Rect) {
	for _, step := range c.Steps {
		switch step.(type) {
		case construct.DrawBase, construct.Join: // the outline shows them
			continue
		}
		for _, op := range sheet.Move(Marks(step), m.plan.Place) {
			switch o := op.(type) {
			case draw.Line:
				if part, ok := geom.ClipLine(m.small(o.Line).(geom.Line), room); ok {
					m.scene.Add(draw.Line{Line: part, Pen: o.Pen, On: o.On})
				}
			case draw.Arc:
				for _, part := range geom.ClipArc(m.small(o.Arc).(geom.Arc), room) {
					m.scene.Add(draw.Arc{Arc: part, Pen: o.Pen, On: o.On})
				}
			}
		}
	}
}

// gridless is the scene without the page grid, for words that find no room beside
// it: figures over a fine line are read, and missing ones are not.
func (m chart) gridless() *legible.Scene {
	s := m.scene.Bare()
	for _, op := range m.scene.Drawing {
		if l, ok := op.(draw.Line); !ok || l.Pen != draw.Fine {
			s.Add(op)
		}
	}
	return s
}

// sides writes the length of each side beside it, outside where there is room; over the
// page grid only where it may.
func (m chart) sides(p Piece, s Style, over bool) {
	outline := p.corners(m.plan)
	for i := range outline {
		line := m.small(outline.Edge(i)).(geom.Line)
		w := legible.Label{Say: p.edgeFigure(i, s), Height: s.sized(draw.FigureHeight), Bold: false}
		var all []legible.Candidate
		for k := range 17 {
			share := 0.5 + 0.05*legible.EitherSide(k)
			all = append(all,
				legible.Candidate{Text: legible.BesideLine(line, share, -1, draw.Wide.Width, w), Cost: float64(k)},
				legible.Candidate{Text: legible.BesideLine(line, share, 1, draw.Wide.Width, w), Cost: float64(k) + 12})
		}
		if m.scene.Place(all) || !over {
			continue
		}
		if bare := m.gridless(); bare.Place(all) {
			m.scene.Add(bare.Drawing[len(bare.Drawing)-1])
		}
	}
}
