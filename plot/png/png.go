// Package png writes one page as a picture for the screen. It is the only place
// where y points down. A picture is for looking, never for measuring.
package png

import (
	"bytes"
	"fmt"
	"image/png"
	"io"
	"math"

	"github.com/fogleman/gg"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/lettering"
)

// MostPixels is the largest side of a picture: 12 000 pixels are 576 MB of
// picture in memory where both sides have them, and no screen shows more.
const MostPixels = 12000

// hairline is the thinnest stroke in pixels that still looks black on a screen.
const hairline = 0.9

// Write paints the page on white, each pixel a square with the given side. A
// picture of more than MostPixels on a side is a *unit.Fault.
func Write(w io.Writer, p draw.Page, pixel unit.Length) error {
	scale := 1 / pixel.MM()
	width, height := math.Round(p.Width.MM()*scale), math.Round(p.Height.MM()*scale)
	if !(width >= 1 && height >= 1 && width <= MostPixels && height <= MostPixels) {
		return &unit.Fault{
			What: fmt.Sprintf("a picture of %.0f by %.0f pixels is not between 1 and %d", width, height, MostPixels),
			Hint: "choose fewer pixels for a millimetre",
		}
	}
	b := brush{gg.NewContext(int(width), int(height)), scale, height, lettering.Go()}
	b.SetRGB(1, 1, 1)
	b.Clear()
	b.SetRGB(0, 0, 0)
	b.SetLineCapButt()
	for _, layer := range draw.Layers() {
		for _, op := range p.Ops {
			if op.Layer() == layer {
				b.paint(op)
			}
		}
	}
	// One write: nothing is sent before the whole picture is made.
	var made bytes.Buffer
	if err := png.Encode(&made, b.Image()); err != nil {
		return err
	}
	_, err := w.Write(made.Bytes())
	return err
}

// brush paints in page millimetres.
type brush struct {
	*gg.Context
	scale, height float64
	font          lettering.Font
}

func (b brush) at(p geom.Point) (x, y float64) {
	return p.X.MM() * b.scale, b.height - p.Y.MM()*b.scale
}

func (b brush) moveTo(p geom.Point) { b.MoveTo(b.at(p)) }
func (b brush) lineTo(p geom.Point) { b.LineTo(b.at(p)) }

func (b brush) curveTo(c draw.Cubic) {
	x1, y1 := b.at(c.Control1)
	x2, y2 := b.at(c.Control2)
	x, y := b.at(c.To)
	b.CubicTo(x1, y1, x2, y2, x, y)
}

func (b brush) stroke(pen draw.Pen) {
	b.SetLineWidth(max(hairline, pen.Width.MM()*b.scale))
	var lengths []float64
	for _, l := range pen.Dash.Lengths(pen.Width) {
		lengths = append(lengths, l.MM()*b.scale)
	}
	b.SetDash(lengths...)
	b.SetDashOffset(pen.Phase.MM() * b.scale)
	b.Stroke()
}

func (b brush) paint(op draw.Op) {
	switch o := op.(type) {
	case draw.Line:
		b.moveTo(o.From)
		b.lineTo(o.To)
		b.stroke(o.Pen)
	case draw.Arc:
		b.moveTo(o.Arc.At(0))
		for _, c := range draw.Cubics(o.Arc) {
			b.curveTo(c)
		}
		b.stroke(o.Pen)
	case draw.Polyline:
		b.moveTo(o.Points[0])
		for _, p := range o.Points[1:] {
			b.lineTo(p)
		}
		if o.Closed || o.Solid {
			b.ClosePath()
		}
		if o.Solid {
			b.Fill()
		} else {
			b.stroke(o.Pen)
		}
	case draw.Path:
		for i, s := range o.Segments {
			if i == 0 {
				b.moveTo(s.At(0))
			}
			switch s := s.(type) {
			case geom.Line:
				b.lineTo(s.To)
			case geom.Arc:
				for _, c := range draw.Cubics(s) {
					b.curveTo(c)
				}
			}
		}
		if o.Closed {
			b.ClosePath()
		}
		b.stroke(o.Pen)
	case draw.Text:
		b.letters(o)
	}
}

// letters fills the outlines of a line of words.
func (b brush) letters(o draw.Text) {
	back := o.Align.Share() * b.font.Width(o.Words, o.Height, o.Bold)
	m := geom.Placement{Turn: o.Turn, Shift: o.At}
	place := func(p geom.Point) geom.Point { return m.Apply(geom.Point{X: p.X - back, Y: p.Y}) }
	for _, c := range b.font.Outline(o.Words, o.Height, o.Bold) {
		b.NewSubPath()
		b.moveTo(place(c.Start))
		for _, s := range c.Segments {
			if !s.Curved {
				b.lineTo(place(s.To))
				continue
			}
			x1, y1 := b.at(place(s.Control))
			x, y := b.at(place(s.To))
			b.QuadraticTo(x1, y1, x, y)
		}
		b.ClosePath()
	}
	b.Fill()
}
