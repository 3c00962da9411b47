// Package png writes one page as a picture for the screen. It is the only place
// where y points down. A picture is for looking, never for measuring.
package png

import (
	"bytes"
	"errors"
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
// picture of more than MostPixels on a side is a *unit.Fault; errors of w are
// returned as they are.
func Write(w io.Writer, p draw.Page, pixel unit.Length) error {
	scale := 1 / pixel.MM()
	width, height := math.Round(p.Width.MM()*scale), math.Round(p.Height.MM()*scale)
	if !(width >= 1 && height >= 1 && width <= MostPixels && height <= MostPixels) {
		return &unit.Fault{
			What: fmt.Sprintf("a picture of %.0f by %.0f pixels is not between 1 and %d", width, height, MostPixels),
			Hint: "choose fewer pixels for a millimetre",
		}
	}
	b := brush{Context: gg.NewContext(int(width), int(height)), scale: scale, height: height, font: lettering.Go()}
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
	if b.err != nil {
		return b.err
	}
	// One write: nothing is sent before the whole picture is made.
	var made bytes.Buffer
	if err := png.Encode(&made, b.Image()); err != nil {
		return err
	}
	_, err := w.Write(made.Bytes())
	return err
}

// brush paints in page millimetres; after a mark that cannot be painted err is set.
type brush struct {
	*gg.Context
	scale, height float64
	font          lettering.Font
	err           error
}

var errStray = errors.New("png: a mark lies where nothing can be painted")

// at is the place in pixels. One that is no number would keep the painter busy for
// ever, and it counts to 2^25 pixels.
func (b *brush) at(p geom.Point) (x, y float64) {
	x, y = p.X.MM()*b.scale, b.height-p.Y.MM()*b.scale
	if !(math.Abs(x) < 1<<25 && math.Abs(y) < 1<<25) {
		b.err = errStray
		return 0, 0
	}
	return x, y
}

func (b *brush) moveTo(p geom.Point) { b.MoveTo(b.at(p)) }
func (b *brush) lineTo(p geom.Point) { b.LineTo(b.at(p)) }

// trace makes a path of lines and arcs, each from where the one before it ends.
func (b *brush) trace(path draw.Path) {
	for i, s := range path.Segments {
		if i == 0 {
			b.moveTo(s.At(0))
		}
		switch s := s.(type) {
		case geom.Line:
			b.lineTo(s.To)
		case geom.Arc:
			for _, c := range draw.Cubics(s) {
				x1, y1 := b.at(c.Control1)
				x2, y2 := b.at(c.Control2)
				x, y := b.at(c.To)
				b.CubicTo(x1, y1, x2, y2, x, y)
			}
		}
	}
	if path.Closed {
		b.ClosePath()
	}
}

func (b *brush) stroke(pen draw.Pen) {
	b.SetLineWidth(max(hairline, pen.Width.MM()*b.scale))
	var lengths []float64
	if pen.Width > 0 { // dashes of no length would never reach the end
		for _, l := range pen.Dash.Lengths(pen.Width) {
			lengths = append(lengths, l.MM()*b.scale)
		}
	}
	b.SetDash(lengths...)
	b.SetDashOffset(pen.Phase.MM() * b.scale)
	b.Stroke()
}

func (b *brush) paint(op draw.Op) {
	switch o := op.(type) {
	case draw.Text:
		b.letters(o)
	default:
		p, ok := draw.Stroked(op)
		if !ok {
			panic(fmt.Sprintf("png: no way to paint a %T", op))
		}
		b.trace(p)
		if draw.Solid(op) {
			b.Fill()
		} else {
			b.stroke(p.Pen)
		}
	}
}

// letters fills the outlines of a line of words.
func (b *brush) letters(o draw.Text) {
	back := o.Align.Before(b.font.Width(o.Words, o.Height, o.Bold))
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
