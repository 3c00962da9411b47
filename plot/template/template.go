// Package template turns a solved piece into a true-scale drawing: outline, arcs,
// prick points, dimensions, the steps to construct it by hand, and the page that
// says how to put the sheets together.
//
// Files, from the top floor to the ground: overview.go, notes.go, block.go, index.go, before.go, constructed.go,
// template.go, shape_labels.go, inside.go, angles.go, running.go, lines.go, shape.go, labels.go, figures.go,
// together.go, accept.go, on_sheets.go, settings.go, map.go, piece.go.
package template

import (
	"trammel/geom"
	"trammel/plot/draw"
	"trammel/plot/legible"
	"trammel/plot/paging"
	"trammel/plot/words"
)

// Steps are the construction by hand in words, of the very steps whose lines Draw draws.
func Steps(p Piece, s Style) []string { return words.InWords(s.says().Steps(), p.ByHand(s)) }

// Draw is the piece in the plane of the sheets, true to scale. Every corner lies
// where plan.Place puts it, to the rounding of float64 (under 1e-9 mm at 20 m).
// Words are kept whole within the window of one page, 1 mm from its edge, clear
// of lines and 2 mm from other words. A *unit.Fault names a character that the
// lettering does not have.
func Draw(p Piece, plan paging.Plan, r draw.Ruler, s Style) (draw.Drawing, error) {
	d, _, err := drawn(p, plan, r, s)
	return d, err
}

// drawn is Draw, and which labels found no room.
func drawn(p Piece, plan paging.Plan, r draw.Ruler, s Style) (draw.Drawing, []string, error) {
	if err := Ready(p, r); err != nil {
		return nil, nil, err
	}
	o := p.Outline
	f := face{
		onSheets: onSheets{piece: p, plan: plan, style: s, corners: o, outline: plan.Place.Polygon(o.Points)},
		figured:  make([]geom.Point, len(o.Names)),
		scene:    legible.NewScene(plan.Windows(), plan.Trimmed(), r),
	}
	f.drawLines()
	edging{&f}.tickSides()
	f.letterCorners()
	f.letterInner()
	f.figureSides()
	f.figureAngles()
	f.figureHeight()
	f.figureArcs()
	f.figureShape()
	edging{&f}.nameLines()
	saying{&f}.sayInside()
	edging{&f}.runAlongSides()
	edging{&f}.allowAlongSides()
	return f.scene.Drawing, f.missed, nil
}

// face is a piece while it is being drawn.
type face struct {
	onSheets
	height       geom.Line // the height that is drawn, if any, from the corner to the foot
	heightFigure string
	figured      []geom.Point // where each side has its length
	runs         []run        // ticks along the sides
	scene        *legible.Scene
	missed       []string // words for which there was no room at all
}
