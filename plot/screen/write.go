package screen

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// writer writes SVG of shapes alone: names that come in are never markup, since they are
// letters and figures, and are escaped all the same.
type writer struct{ b strings.Builder }

func (w *writer) head(width, height unit.Length, class string) {
	fmt.Fprintf(&w.b, `<svg xmlns="http://www.w3.org/2000/svg" class="%s" viewBox="0 0 %s %s" aria-hidden="true" focusable="false">`, class, number(width), number(height))
}

func (w *writer) end() string {
	w.b.WriteString("</svg>")
	return w.b.String()
}

// of is the attribute that says what a line is of.
func of(name string) string {
	if name == "" {
		return ""
	}
	return ` data-of="` + escaped.Replace(name) + `"`
}

var escaped = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;")

func (w *writer) line(class, name string, l geom.Line) {
	fmt.Fprintf(&w.b, `<line class="%s"%s pathLength="1" x1="%s" y1="%s" x2="%s" y2="%s"/>`, class, of(name), number(l.From.X), number(l.From.Y), number(l.To.X), number(l.To.Y))
}

func (w *writer) dot(class, name string, p geom.Point, r unit.Length) {
	fmt.Fprintf(&w.b, `<circle class="%s"%s cx="%s" cy="%s" r="%s"/>`, class, of(name), number(p.X), number(p.Y), number(r))
}

// letter is a corner's name, in the middle of its box.
func (w *writer) letter(name string, at geom.Point) {
	fmt.Fprintf(&w.b, `<text class="letter" x="%s" y="%s">%s</text>`, number(at.X), number(at.Y+7), escaped.Replace(name))
}

// path is segments one after the other; what does not begin where the last one ended
// begins anew.
func (w *writer) path(class, name string, c []geom.Segment, closed bool) {
	fmt.Fprintf(&w.b, `<path class="%s"%s pathLength="1" d="`, class, of(name))
	last := geom.Point{X: unit.Length(math.NaN())}
	for _, s := range c {
		if start := s.At(0); !(start.Distance(last) < 0.01) {
			fmt.Fprintf(&w.b, "M%s %s", number(start.X), number(start.Y))
		}
		switch k := s.(type) {
		case geom.Line:
			fmt.Fprintf(&w.b, "L%s %s", number(k.To.X), number(k.To.Y))
		case geom.Arc:
			w.arc(k)
		}
		last = s.At(1)
	}
	if closed {
		w.b.WriteByte('Z')
	}
	w.b.WriteString(`"/>`)
}

// arc goes on to the end of an arc, in quarter turns at most.
func (w *writer) arc(a geom.Arc) {
	n := max(1, math.Ceil(math.Abs(float64(a.Sweep))/(math.Pi/2)-1e-9))
	way := 0
	if a.Sweep > 0 { // y points down: what turns to greater angles turns clockwise to the eye
		way = 1
	}
	for i := range int(n) {
		to := a.At(float64(i+1) / n)
		fmt.Fprintf(&w.b, "A%s %s 0 0 %d %s %s", number(a.Radius), number(a.Radius), way, number(to.X), number(to.Y))
	}
}

func (w *writer) polygon(class string, p []geom.Point) {
	fmt.Fprintf(&w.b, `<polygon class="%s" points="`, class)
	for i, q := range p {
		if i > 0 {
			w.b.WriteByte(' ')
		}
		w.b.WriteString(number(q.X) + "," + number(q.Y))
	}
	w.b.WriteString(`"/>`)
}

// mark is an operation of a drawing.
func (w *writer) mark(class string, op draw.Op, v view) {
	if p, ok := draw.Stroked(op); ok {
		moved := make([]geom.Segment, len(p.Segments))
		for i, s := range p.Segments {
			moved[i] = v.segment(s)
		}
		w.path(class, "", moved, p.Closed)
	}
}

// number is a length to a tenth of a pixel.
func number(l unit.Length) string {
	return strconv.FormatFloat(tenth(float64(l)), 'f', -1, 64)
}

func (w *writer) open(step int) { fmt.Fprintf(&w.b, `<g data-step="%d">`, step) }
func (w *writer) close()        { w.b.WriteString("</g>") }

// number is the number of a sheet, as large as there is room for; none where nobody could
// read it.
func (w *writer) number(say string, at geom.Point, room unit.Length) {
	size := min(room*0.5, 26) * min(1, 2.5/unit.Length(len(say)))
	if size < 9 {
		return
	}
	fmt.Fprintf(&w.b, `<text class="number" x="%s" y="%s" font-size="%s">%s</text>`, number(at.X), number(at.Y+size*0.35), number(size), escaped.Replace(say))
}
