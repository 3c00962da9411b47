// Package svg writes one page as an SVG file (SVG 1.1, and 2 alike) at its true
// size, for screens and for machines that cut.
//
// It has no clip paths, no transforms and no fonts, which such machines ignore or
// replace: marks are cut to the page already, and text is outlines with the words
// beside them in aria-label. Circles are cut into arcs short enough that a
// program that makes one cubic curve of each, as many do, stays true. On a page
// made for a printer every point is moved as the page's warp has it, and an arc,
// which is none any more, becomes curves.
//
// Files, from the top floor to the ground: whole.go, svg.go, path.go, page.go.
package svg

import (
	"errors"
	"fmt"
	"io"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/internal/decimal"
	"trammel/plot/lettering"
)

// places is how many decimals of a millimetre a coordinate has. A piece of an arc
// spans a quarter turn at most, so that its middle moves by no more than its ends
// do: SVG finds the centre from the ends, and near a half turn it would run away.
const places = 4

// mitreLimit is that of the PDF: the tip of a corner keeps within 2 widths of the
// pen from the corner.
const mitreLimit = 4

// hint stands in the file for whoever opens it.
const hint = "True size: one unit is one millimetre. To print on paper, print the PDF: a browser that prints an SVG by itself shrinks it."

// Write writes a page of the document.
//
// Marks lie within 0.001 mm of their place. A character that the lettering lacks
// is a *unit.Fault; errors of w are returned as they are.
func Write(w io.Writer, p draw.Page, d draw.Document) error {
	if !sized(p) {
		return fmt.Errorf("svg: a page of %g × %g mm", p.Width, p.Height)
	}
	s := page{height: p.Height, warp: p.Warp, font: lettering.Go()}
	s.head(p, d, hint)
	for _, l := range draw.Layers() {
		if l.Fixed() || !slices.Contains(d.Hide, l) {
			s.layer(l, p.Ops)
		}
	}
	s.text("</svg>\n")
	if f, ok := s.err.(*unit.Fault); ok && p.Label != "" {
		return f.In("page " + p.Label)
	}
	if s.err != nil {
		return s.err
	}
	_, err := w.Write(s.b)
	return err
}

// sized says whether a page has a width and a height.
func sized(p draw.Page) bool {
	return p.Width > 0 && p.Height > 0 && decimal.Finite(p.Width.MM()) && decimal.Finite(p.Height.MM())
}

func (s *page) head(p draw.Page, d draw.Document, hint string) {
	width, height := string(decimal.Append(nil, p.Width.MM(), places)), string(decimal.Append(nil, p.Height.MM(), places))
	s.text("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n" + `<svg xmlns="http://www.w3.org/2000/svg" version="1.1"`)
	if d.Language != "" {
		s.text(` xml:lang="` + escape(d.Language) + `"`)
	}
	s.text(` width="` + width + `mm" height="` + height + `mm" viewBox="0 0 ` + width + " " + height + "\">\n")
	if t := title(p, d); t != "" {
		s.text("<title>" + escape(t) + "</title>\n")
	}
	s.text("<desc>" + hint + "</desc>\n")
}

// title is that of the document with the piece and the page.
func title(p draw.Page, d draw.Document) string {
	t := d.Title
	for _, more := range [...]string{p.Piece, p.Label} {
		if more == "" || more == t {
			continue
		}
		if t != "" {
			t += ", "
		}
		t += more
	}
	return t
}

func (s *page) layer(l draw.Layer, ops []draw.Op) {
	s.group(l.String(), func() {
		for _, op := range ops {
			if op.Layer() == l {
				s.op(op)
			}
		}
	})
}

// group writes a group if there is anything in it.
func (s *page) group(name string, fill func()) {
	before := len(s.b)
	s.b = fmt.Appendf(s.b, "<g id=\"%s\" class=\"%[1]s\" fill=\"none\" stroke=\"#000\" stroke-linecap=\"butt\" stroke-linejoin=\"miter\" stroke-miterlimit=\"%d\">\n", name, mitreLimit)
	empty := len(s.b)
	if fill(); len(s.b) == empty {
		s.b = s.b[:before]
		return
	}
	s.text("</g>\n")
}

func (s *page) op(op draw.Op) {
	switch o := op.(type) {
	case draw.Text:
		s.words(o)
	default:
		p, ok := draw.Stroked(op)
		if !ok {
			panic(fmt.Sprintf("svg: no way to write a %T", op))
		}
		s.path(p, draw.Solid(op))
	}
}

// words draws the outlines of the letters where they stand on the page.
func (s *page) words(o draw.Text) {
	if o.Words == "" {
		return
	}
	if !(o.Height > 0) {
		s.fail(fmt.Errorf("svg: words %g mm high: %q", o.Height, o.Words))
		return
	}
	if err := s.font.Check(o.Words); err != nil {
		s.fail(err)
		return
	}
	m := geom.Placement{Turn: o.Turn, Shift: o.At}
	if o.Align != draw.Left {
		m.Shift = o.At.Toward(o.Turn, -o.Align.Before(s.font.Width(o.Words, o.Height, o.Bold)))
	}
	contours := s.font.Outline(o.Words, o.Height, o.Bold)
	if len(contours) == 0 {
		return // nothing but spaces
	}
	s.text(`<path role="img" aria-label="` + escape(o.Words) + `" fill="#000" stroke="none" d="`)
	for _, c := range contours {
		s.to('M', m.Apply(c.Start))
		for _, g := range c.Segments {
			if g.Curved {
				s.to('Q', m.Apply(g.Control))
				s.to(' ', m.Apply(g.To))
			} else {
				s.to('L', m.Apply(g.To))
			}
		}
		s.text("Z")
	}
	s.text("\"/>\n")
}

var errStray = errors.New("svg: a coordinate is not a number")
