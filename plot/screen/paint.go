package screen

import (
	"fmt"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

const (
	// PerMM is the pixels of a picture for a mm of a drawing on paper.
	PerMM = 4

	heavy unit.Length = 0.6 // a pen so wide draws what is new
)

// Paint is a drawing for paper, in mm from its lower left corner, on a screen: lines as wide
// as their pens in the style sheet's colours, what is drawn heavy as what is new, words as
// words.
func Paint(d draw.Drawing, wide, high unit.Length, r draw.Ruler) Picture {
	v := view{scale: PerMM, from: geom.Point{X: wide / 2, Y: high / 2}, to: geom.Point{X: wide * PerMM / 2, Y: high * PerMM / 2}, width: wide * PerMM, height: high * PerMM}
	var w writer
	w.head(v.width, v.height, "hand painted")
	for _, op := range d {
		if t, ok := op.(draw.Text); ok {
			w.words(t, v, r)
			continue
		}
		p, ok := draw.Stroked(op)
		if !ok {
			continue
		}
		switch {
		case draw.Solid(op):
			w.mark("solid", op, v)
		case p.Pen.Width >= heavy:
			w.b.WriteString(`<g class="new">`)
			w.mark("line", op, v)
			w.close()
		default:
			fmt.Fprintf(&w.b, `<g stroke-width="%s">`, number(p.Pen.Width*PerMM))
			w.mark("stroke", op, v)
			w.close()
		}
	}
	return scene{view: v}.data(Picture{SVG: w.end(), Width: float64(v.width), Height: float64(v.height)})
}

// words stand where they do on paper and as wide, whatever letters the screen has.
func (w *writer) words(t draw.Text, v view, r draw.Ruler) {
	at := v.at(t.At)
	anchor := [...]string{draw.Left: "start", draw.Middle: "middle", draw.Right: "end"}[t.Align]
	weight := 400
	if t.Bold {
		weight = 700
	}
	const capital = 0.72 // of the size of letters is the height of a capital
	fmt.Fprintf(&w.b, `<text x="%s" y="%s" font-size="%s" font-weight="%d" text-anchor="%s" textLength="%s" lengthAdjust="spacingAndGlyphs"`,
		number(at.X), number(at.Y), number(t.Height*PerMM/capital), weight, anchor, number(r.Width(t.Words, t.Height, t.Bold)*PerMM))
	if t.Turn != 0 {
		fmt.Fprintf(&w.b, ` transform="rotate(%.2f %s %s)"`, -t.Turn.Degrees(), number(at.X), number(at.Y))
	}
	fmt.Fprintf(&w.b, ">%s</text>", escaped.Replace(t.Words))
}
