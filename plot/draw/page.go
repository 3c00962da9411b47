package draw

import (
	"iter"

	"trammel/geom"
	"trammel/geom/unit"
)

// Kind is what a page is for.
type Kind string

const (
	Template    Kind = "template"
	Index       Kind = "index"
	Setout      Kind = "setout"
	Calibration Kind = "calibration"
	Task        Kind = "task" // of a class, without its answer
	Key         Kind = "key"
	Answer      Kind = "answer"
	Overlay     Kind = "overlay"
	Model       Kind = "model"
)

// Matrix maps a piece, or what is to be on the paper, to mm from the page's bottom
// left corner, y up.
type Matrix = geom.Affine

// Place says that a piece lies on a page, and where.
type Place struct {
	Piece  int // index of the piece in the job
	Copy   int // counted from 0
	Matrix Matrix
}

// Page is one sheet of paper. Its operations are in page coordinates, from the
// bottom left corner, as they are to be on the paper, and already cut to what the
// page shows.
type Page struct {
	Label         string // "7", the number of the sheet in the order of laying; empty on any other page
	Kind          Kind
	Piece         string // name of the piece it belongs to, for bookmarks
	Width, Height unit.Length
	Places        []Place
	Ops           []Op
	Alt           string // one sentence that says what the strokes without a tag show; empty: nothing that is told
	// Cuts are the lines that the sheet is cut along before it is joined to others, each
	// straight through, what is kept to the left of it. Lay is its place in the order in
	// which the sheets of one template are laid, from 1; 0 where nothing is laid.
	Cuts []geom.Line
	Lay  int
	// Warp says where marks lie in the file so that a certain printer puts them where
	// Ops has them; the zero value: where Ops has them. A picture for the screen passes
	// it over. The matrices of Places and the Cuts include it.
	Warp Matrix
}

// Warped is the page made ready for a printer, its places and cuts too.
func (p Page) Warped(by Matrix) Page {
	places := make([]Place, len(p.Places))
	for i, q := range p.Places {
		q.Matrix = by.After(q.Matrix)
		places[i] = q
	}
	cuts := make([]geom.Line, len(p.Cuts))
	for i, c := range p.Cuts {
		cuts[i] = geom.Line{From: by.Apply(c.From), To: by.Apply(c.To)}
	}
	p.Places, p.Cuts, p.Warp = places, cuts, by
	return p
}

// Bounds of the page itself.
func (p Page) Bounds() geom.Rect {
	return geom.Rect{Max: geom.Point{X: p.Width, Y: p.Height}}
}

// Kept is the part of the paper that is left when all cuts are made, in page
// coordinates, counter-clockwise: the whole page where there are none. It is convex,
// since every cut goes straight through.
func (p Page) Kept() geom.Polygon {
	kept := geom.Polygon{{}, {X: p.Width}, {X: p.Width, Y: p.Height}, {Y: p.Height}}
	for _, c := range p.Cuts {
		kept = leftOf(kept, c)
	}
	return kept
}

// leftOf is the part of a convex polygon to the left of a line (Sutherland and
// Hodgman 1974, for one line).
func leftOf(p geom.Polygon, l geom.Line) (left geom.Polygon) {
	along := l.To.Minus(l.From)
	side := func(a geom.Point) unit.Length {
		b := a.Minus(l.From)
		return along.X*b.Y - along.Y*b.X
	}
	for i, a := range p {
		b := p[(i+1)%len(p)]
		from, to := side(a), side(b)
		if from >= 0 {
			left = append(left, a)
		}
		if from > 0 && to < 0 || from < 0 && to > 0 {
			left = append(left, geom.Line{From: a, To: b}.At(float64(from/(from-to))))
		}
	}
	return left
}

// Document is what a writer writes: pages one after the other, made as they are
// asked for, so that a thousand of them need not be held at once.
type Document struct {
	Title      string
	Subject    string
	Language   string // "en"
	Date       string // as the job states it (YYYY-MM-DD), or empty
	Pages      iter.Seq[Page]
	Attachment *Attachment // the job as it was read; nil for none
	Hide       []Layer     // layers left out; one that is Fixed stays
}

// Attachment is a file carried inside a document.
type Attachment struct {
	Name string
	Data []byte
}
