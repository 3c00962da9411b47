// Package furniture is what every page of a template bears beside the drawing: its label,
// what it belongs to, its neighbours and the bars to check the print by, placed where a
// page has room for them. Lengths are mm on paper.
//
// Files, from the top floor to the ground: page.go, header.go, map.go, bars.go, furniture.go.
package furniture

import (
	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/place"
	"trammel/plot/words"
)

// Furniture is what every page bears beside the drawing: its label, what it
// belongs to, its neighbours, and the bars to check the print by.
type Furniture struct {
	Job, Piece string
	PieceIndex int            // of the piece in the job
	Sheets     int            // of which this is one that joins no other; 0 and 1 say nothing
	Copy       int            // which copy of the template this is, counted from 0
	Copies     int            // how many copies are printed; 0 and 1 say nothing
	Mark       string         // how many pieces are marked from it; empty says nothing
	Inches     bool           // check bars in inches
	Figures    string         // the unit of the figures, "millimetres"; empty says nothing
	Date       string         // as the job states it; empty says nothing
	Note       string         // one more line; empty says nothing
	Printer    string         // the one that the pages are made for; empty: any
	Lettering  unit.Length    // of figures, which the words of the header follow; 0 is draw.FigureHeight
	Language   words.Language // nil: English at the bench
}

// Sized is a lettering height of draw in the ratio of the figures that are wanted.
func (f Furniture) Sized(h unit.Length) unit.Length {
	if f.Lettering == 0 {
		return h
	}
	return max(h*f.Lettering/draw.FigureHeight, draw.NoteHeight)
}

func (f Furniture) says() words.Pages { return words.In(f.Language).Pages() }

// Sides of a page.
const (
	LeftOf = iota
	RightOf
	Above
	Below
)

// Sides of a rectangle, each to be read and moved.
func Sides(r *geom.Rect) [4]*unit.Length {
	return [4]*unit.Length{&r.Min.X, &r.Max.X, &r.Max.Y, &r.Min.Y}
}

// Inward is which way along its axis a side moves in.
var Inward = [4]unit.Length{1, -1, -1, 1}

// inward is the way in from a side.
func inward(side int) geom.Point {
	if side < Above {
		return geom.Point{X: Inward[side]}
	}
	return geom.Point{Y: Inward[side]}
}

// Sizes of a neighbour's arrow, in mm.
const (
	wedge    unit.Length = 3.5 // length and width
	wedgeGap unit.Length = 1.2
)

// pointer is the number of the neighbour at a side and a wedge towards it, the wedge's
// tip at the origin.
func (f Furniture) pointer(label string, side int, r draw.Ruler) place.Block {
	in := inward(side)
	foot, half := in.Times(float64(wedge)), geom.Point{X: -in.Y * wedge / 2, Y: in.X * wedge / 2}
	text := draw.Text{At: in.Times(float64(wedge + wedgeGap)), Height: f.Sized(draw.TitleHeight), Bold: true, Words: label, On: draw.Furniture,
		Align: [4]draw.Align{draw.Left, draw.Right, draw.Middle, draw.Middle}[side]}
	text.At.Y -= [4]unit.Length{0.5, 0.5, 1, 0}[side] * text.Height
	arrow := draw.Polyline{Points: []geom.Point{{}, foot.Minus(half), foot.Plus(half)}, Closed: true, Solid: true, On: draw.Furniture}
	return place.Block{Rects: []geom.Rect{arrow.Bounds(r).Join(text.Bounds(r))}, Ops: draw.Drawing{arrow, text}}
}
