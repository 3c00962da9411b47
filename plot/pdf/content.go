package pdf

import (
	"errors"
	"fmt"
	"math"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/internal/decimal"
	"trammel/plot/lettering"
)

// toPoints is 72/25.4: the content of a page is written in millimetres, and one
// matrix at its head makes them points; that matrix also has the page's warp.
const toPoints = "2.834645669291339"

// mitreLimit keeps the tip of a sharp corner within 2 widths of the pen from the
// corner itself (1 mm of the wide pen): below 29° the corner is cut off square
// there. The corner is where the middles of the two lines meet.
const mitreLimit = 4

// content is the marks of one page.
type content struct {
	b     []byte
	font  lettering.Font
	fonts *[2]embedded
	used  map[draw.Layer]bool
	says  *structure
	texts []labelled // of a layer

	pen  draw.Pen    // of the last stroke
	bold bool        // of the last text
	size unit.Length // of the last text; 0 for none yet
	// What is drawn belongs to part, or to none, while marked.
	marked bool
	part   *part
	err    error // the first mark that cannot be written
}

// marks writes the operations of the layers that are shown, layer after layer.
func (c *content) marks(ops []draw.Op, warp draw.Matrix, hidden func(draw.Layer) bool) {
	c.b = c.b[:0]
	if warp == (draw.Matrix{}) {
		c.b = append(c.b, toPoints+" 0 0 "+toPoints+" 0 0 cm\n"...)
	} else {
		// 12 decimals: the last one moves the far end of the longest page by 1e-8 mm.
		for _, v := range warp {
			c.value(v*72/25.4, 12)
		}
		c.b = append(c.b, "cm\n"...)
	}
	c.b = fmt.Appendf(c.b, "%d M\n", mitreLimit)
	c.pen, c.size = draw.Pen{}, 0
	for _, l := range draw.Layers() {
		if hidden(l) && !l.Fixed() {
			continue
		}
		begun := false
		begin := func() {
			if !begun && !l.Fixed() {
				c.b = append(c.b, "/OC /"+l.String()+" BDC\n"...)
				begun, c.used[l] = true, true
			}
		}
		// Strokes before words, so that what belongs together is seldom parted.
		c.texts = c.texts[:0]
		for _, op := range ops {
			if op.Layer() != l {
				continue
			}
			begin()
			if o, ok := op.(draw.Text); ok {
				c.texts = append(c.texts, labelled{o, c.says.partOf(op)})
				continue
			}
			c.under(c.says.partOf(op))
			c.op(op)
		}
		for i, t := range c.texts {
			said := t.Words
			if i+1 < len(c.texts) && t.part != nil && t.part == c.texts[i+1].part {
				said += " " // else the two would be read as one word
			}
			if inLine(t.Turn) {
				c.under(t.part)
				c.words(t.Text, said)
				continue
			}
			c.turned(t, said)
		}
		c.close()
		if begun {
			c.b = append(c.b, "EMC\n"...)
		}
	}
}

// labelled is words and the part that they belong to.
type labelled struct {
	draw.Text
	part *part
}

// under opens the marked content of a part, or of none, where it is not open.
func (c *content) under(p *part) {
	if c.marked && c.part == p {
		return
	}
	c.close()
	if c.marked, c.part = true, p; p == nil {
		c.b = append(c.b, "/Artifact BMC\n"...)
		return
	}
	c.b = fmt.Appendf(c.b, "/%s <</MCID %d>> BDC\n", roles[p.role], c.says.mark(p))
}

// turned writes words that stand in no line of letters: software that
// takes words out finds them whole in a span that says what they are. The span of a
// part is no mark within another: some readers would lose what follows in that one.
func (c *content) turned(t labelled, said string) {
	mark := ""
	if t.part != nil {
		c.close()
		mark = fmt.Sprintf("/MCID %d", c.says.mark(t.part))
	} else {
		c.under(nil)
	}
	c.b = append(c.b, "/Span <<"+mark+"/ActualText"+text(said)+">> BDC\n"...)
	c.words(t.Text, said)
	c.b = append(c.b, "EMC\n"...)
}

func inLine(turn unit.Angle) bool {
	return math.Abs(math.Remainder(turn.Radians(), 2*math.Pi)) < 1e-6
}

func (c *content) close() {
	if c.marked {
		c.b = append(c.b, "EMC\n"...)
	}
	c.marked, c.part = false, nil
}

func (c *content) op(op draw.Op) {
	switch o := op.(type) {
	case draw.Arc:
		if !decimal.Finite(o.Sweep.Radians()) {
			c.fail(errStray)
			return
		}
		c.stroke(o.Pen)
		c.point(o.Arc.At(0), 'm')
		c.curves(draw.Cubics(o.Arc))
		if draw.Whole(o.Arc) {
			c.b = append(c.b, "h "...)
		}
		c.b = append(c.b, "S\n"...)
	default:
		p, ok := draw.Stroked(op)
		if !ok {
			panic(fmt.Sprintf("pdf: no way to write a %T", op))
		}
		c.path(p, draw.Solid(op))
	}
}

func (c *content) path(o draw.Path, solid bool) {
	if len(o.Segments) == 0 {
		return
	}
	if !solid {
		c.stroke(o.Pen)
	}
	first := o.Segments[0].At(0)
	c.point(first, 'm')
	for i, s := range o.Segments {
		closing := o.Closed && i == len(o.Segments)-1
		switch s := s.(type) {
		case geom.Line:
			if !closing { // else s draws it
				c.point(s.To, 'l')
			}
		case geom.Arc:
			if !decimal.Finite(s.Sweep.Radians()) {
				c.fail(errStray)
				return
			}
			curves := draw.Cubics(s)
			if closing { // in the very point, so that nothing is left to close
				curves[len(curves)-1].To = first
			}
			c.curves(curves)
		}
	}
	switch {
	case solid:
		c.b = append(c.b, "f\n"...)
	case o.Closed:
		c.b = append(c.b, "s\n"...) // closes and strokes
	default:
		c.b = append(c.b, "S\n"...)
	}
}

func (c *content) curves(curves []draw.Cubic) {
	for _, q := range curves {
		c.xy(q.Control1)
		c.xy(q.Control2)
		c.point(q.To, 'c')
	}
}

// stroke sets the pen where it differs from the last one.
func (c *content) stroke(p draw.Pen) {
	if p.Width < 0 {
		c.fail(fmt.Errorf("a pen %g mm wide", p.Width))
	}
	if p.Width != c.pen.Width {
		c.num(p.Width)
		c.b = append(c.b, "w\n"...)
	}
	if p.Dash == draw.Continuous {
		p.Phase = 0
	}
	if p.Dash != c.pen.Dash || p.Phase != c.pen.Phase || p.Dash != draw.Continuous && p.Width != c.pen.Width {
		c.b = append(c.b, '[')
		for _, l := range p.Dash.Lengths(p.Width) {
			c.num(l)
		}
		c.b = append(c.b, "] "...)
		c.num(p.Phase)
		c.b = append(c.b, "d\n"...)
	}
	c.pen = p
}

// words writes a line of words, said with or without a space behind it.
func (c *content) words(o draw.Text, said string) {
	if o.Words == "" {
		return
	}
	if !(o.Height > 0) {
		c.fail(fmt.Errorf("words %g mm high: %q", o.Height, o.Words))
		return
	}
	if err := c.font.Check(o.Words); err != nil {
		c.fail(err)
		return
	}
	at := o.At
	if o.Align != draw.Left {
		w := c.font.Width(o.Words, o.Height, o.Bold)
		if o.Align == draw.Middle {
			w /= 2
		}
		at = at.Toward(o.Turn, -w)
	}
	f, name := &c.fonts[0], "/Regular "
	if o.Bold {
		f, name = &c.fonts[1], "/Bold "
	}
	c.b = append(c.b, "BT "...)
	if size := c.font.Em(o.Height, o.Bold); size != c.size || o.Bold != c.bold {
		c.b = append(c.b, name...)
		c.value(size.MM(), 6)
		c.b = append(c.b, "Tf "...)
		c.size, c.bold = size, o.Bold
	}
	sin, cos := math.Sincos(o.Turn.Radians())
	for _, v := range [...]float64{cos, sin, -sin, cos} {
		c.value(v, 7)
	}
	c.point(at, 'T')
	c.b[len(c.b)-1] = 'm' // "Tm " of "T "
	c.b = append(c.b, " <"...)
	for _, r := range said {
		c.b = hex16(c.b, f.code(r))
	}
	c.b = append(c.b, "> Tj ET\n"...)
}

func (c *content) xy(p geom.Point) { c.num(p.X); c.num(p.Y) }

func (c *content) point(p geom.Point, operator byte) {
	c.xy(p)
	c.b = append(c.b, operator, ' ')
}

// places is how many decimals of a millimetre a coordinate has: at most 0.00005 mm off.
const places = 4

func (c *content) num(l unit.Length) { c.value(l.MM(), places) }

func (c *content) value(v float64, decimals int) {
	if !decimal.Finite(v) {
		c.fail(errStray)
		v = 0
	}
	c.b = append(decimal.Append(c.b, v, decimals), ' ')
}

func (c *content) fail(err error) {
	if c.err == nil {
		c.err = err
	}
}

var errStray = errors.New("a coordinate is not a number")
