// Package draw holds a drawing as data, in millimetres with y up, before any
// writer sees it. Each operation carries its own pen and layer; there is no
// state, so a drawing can be cut, moved, compared and tested as text.
//
// Files, from the top floor to the ground: dump.go, page.go, tag.go, move.go, draw.go,
// path.go, bounds.go, cubic.go, remembered.go, wrap.go.
package draw

import (
	"trammel/geom"
	"trammel/geom/unit"
)

// Layer groups operations that a viewer can switch on and off together, unless it
// is Fixed.
type Layer uint8

const (
	Outline Layer = iota
	Construction
	Marks // corners, centres of holes: what is pricked through
	Dimension
	Joins
	Notes
	Furniture // what no sheet of paper can be without: check bars, how to print, what the page is called
)

// Layers lists all layers in the order they are painted.
func Layers() []Layer {
	return []Layer{Outline, Construction, Marks, Dimension, Joins, Notes, Furniture}
}

func (l Layer) String() string {
	return [...]string{"outline", "construction", "marks", "dimensions", "joins", "notes", "furniture"}[l]
}

// Fixed says that no viewer may switch the layer off, and no writer leave it out.
func (l Layer) Fixed() bool { return l == Furniture }

// Dash is a line type after ISO 128-2; its lengths are multiples of the pen's width.
type Dash uint8

const (
	Continuous           Dash = iota // 01
	Dashed                           // 02
	LongDashDotted                   // 04
	LongDashDoubleDotted             // 05
	Loose                            // 3 mm on, 1.5 mm off at a width of 0.18
)

// Lengths of the marks and gaps of a line type drawn with a pen of the width,
// mark first, in the order in which they repeat; nil for a continuous line.
//
// They are the multiples of the line width that ISO 128-2 gives for lines drawn with butt
// ends: dash 12, long dash 24, gap 3. Its dots, of not more than 0.5, are lost by a tired
// toner where the line is narrow, so they are leastDot at least. A line that another sheet
// covers is no line type of its: it only has to be told from one to cut along.
func (d Dash) Lengths(width unit.Length) []unit.Length {
	var l []unit.Length
	for _, k := range dashes[d] {
		switch k {
		case dot:
			l = append(l, max(width*k, leastDot))
		default:
			l = append(l, width*k)
		}
	}
	return l
}

const (
	dot      = 0.5
	gap      = 3
	dash     = 12
	longDash = 24

	leastDot unit.Length = 0.5
)

var dashes = [...][]unit.Length{
	Continuous:           nil,
	Dashed:               {dash, gap},
	LongDashDotted:       {longDash, gap, dot, gap},
	LongDashDoubleDotted: {longDash, gap, dot, gap, dot, gap},
	Loose:                {3 / 0.18, 1.5 / 0.18},
}

// Pen is how a line is drawn. There is one ink, black.
type Pen struct {
	Width unit.Length
	Dash  Dash
	// Phase is how far into its dashes the stroke starts, in mm, so that a line
	// cut at the edge of a page goes on where it left off; 0 if Continuous.
	Phase unit.Length
}

// The pens, of widths of ISO 128: what is cut stands out of all else.
var (
	Wide   = Pen{Width: 0.7, Dash: Continuous}            // 01.2 what is cut
	Behind = Pen{Width: 0.35, Dash: LongDashDoubleDotted} // 05.1 the finished edge beside a cut, folds
	Trim   = Pen{Width: 0.35, Dash: Continuous}           // where paper is cut, not the piece
	Narrow = Pen{Width: 0.25, Dash: Continuous}           // 01.1 dimension lines, ticks along edges
	Hidden = Pen{Width: 0.25, Dash: Dashed}               // 02.1
	Thin   = Pen{Width: 0.18, Dash: Continuous}           // construction, marks, leaders
	Centre = Pen{Width: 0.18, Dash: LongDashDotted}       // 04.1 centre lines, heights
	Covers = Pen{Width: 0.18, Dash: Loose}                // where the edge of another sheet comes to lie
	Fine   = Pen{Width: 0.13, Dash: Continuous}           // what is read to a tenth of a millimetre
)

// Lettering heights of ISO 3098, of a capital letter.
const (
	NoteHeight   unit.Length = 2.5
	FigureHeight unit.Length = 3.5
	TitleHeight  unit.Length = 5
	CornerHeight unit.Length = 7
	LabelHeight  unit.Length = 14
)

// Op is one operation of a drawing; see OpTypes for the whole list.
type Op interface {
	// Bounds is the smallest upright rectangle round the centre lines of the
	// marks; for Text it needs the ruler.
	Bounds(Ruler) geom.Rect
	// Layer is the layer that the operation lies on.
	Layer() Layer
	// Tag is the part of what the document says that the operation belongs to; nil: a
	// stroke belongs to what Page.Alt speaks of, words are a paragraph, and furniture is
	// not read out.
	Tag() *Tag
	op()
}

// Line is a straight stroke with butt ends.
type Line struct {
	geom.Line
	Pen Pen
	On  Layer
	Of  *Tag
}

// Arc is a circular stroke with butt ends.
type Arc struct {
	geom.Arc
	Pen Pen
	On  Layer
	Of  *Tag
}

// Polyline is a run of straight strokes with mitred corners, closed or open, or
// with Solid a filled shape without a stroke (a wedge, a square dot).
type Polyline struct {
	Points []geom.Point
	Closed bool
	Solid  bool
	Pen    Pen
	On     Layer
	Of     *Tag
}

// Align says which point of a line of text stands at Text.At.
type Align uint8

const (
	Left Align = iota
	Middle
	Right
)

// Text is one line of words. At lies on the base line of the letters; Height is
// that of a capital letter; Turn is counter-clockwise about At.
type Text struct {
	At     geom.Point
	Height unit.Length
	Turn   unit.Angle
	Align  Align
	Bold   bool
	Words  string
	On     Layer
	Of     *Tag
}

func (Line) op()     {}
func (Arc) op()      {}
func (Polyline) op() {}
func (Text) op()     {}

func (o Line) Layer() Layer     { return o.On }
func (o Arc) Layer() Layer      { return o.On }
func (o Polyline) Layer() Layer { return o.On }
func (o Text) Layer() Layer     { return o.On }

// OpTypes has one of each kind of operation; tests range over it.
func OpTypes() []Op { return []Op{Line{}, Arc{}, Polyline{}, Path{}, Text{}} }

// Ruler measures lettering. plot/lettering has the one that counts.
type Ruler interface {
	// Width is the advance of a line of words at a capital height.
	Width(words string, height unit.Length, bold bool) unit.Length
	// Missing returns the first character that the lettering does not have, or 0.
	Missing(words string) rune
}

// Drawing is a list of operations, painted in order.
type Drawing []Op
