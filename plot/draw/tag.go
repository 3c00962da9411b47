package draw

// Role is what a part of a page is to whoever has it read out: a structure type of
// ISO 32000-1, 14.8.4.
type Role uint8

const (
	AsParagraph Role = iota
	AsTitle
	AsHeading
	AsSection // what belongs together
	AsList
	AsItem     // of a list: its number or dash, and its words
	AsLabel    // the number or dash
	AsItemBody // the words
	AsTable
	AsRow
	AsHead // a cell that says what its column holds
	AsCell
	AsFigure
	AsOrnament // a rule, a frame, what stands again on each page: nothing to be read out
)

// Tag is a part of what a document says. Operations with the same Tag belong together,
// on one page or on several; parts are read in the order in which their operations
// come. It changes nothing of how an operation looks.
type Tag struct {
	Role  Role
	First bool   // it is read before all that is not, on the page where it begins
	Alt   string // of a figure: one sentence that says what is drawn
	In    *Tag   // the part that it belongs to; nil: the document
	Holds []*Tag // parts of it that are read first, even where nothing is drawn of them: the cells of a row
}

func (o Line) Tag() *Tag     { return o.Of }
func (o Arc) Tag() *Tag      { return o.Of }
func (o Polyline) Tag() *Tag { return o.Of }
func (o Path) Tag() *Tag     { return o.Of }
func (o Text) Tag() *Tag     { return o.Of }

// Tagged is the drawing with a tag on every operation that has none.
func Tagged(d Drawing, t *Tag) Drawing {
	out := make(Drawing, len(d))
	for i, op := range d {
		if out[i] = op; op.Tag() == nil {
			out[i] = changed(op, func(_ *Layer, of **Tag) { *of = t })
		}
	}
	return out
}

// Pictured is a drawing as a figure, with its words as a paragraph after it, both part
// of in.
func Pictured(d Drawing, alt string, in *Tag) Drawing {
	figure, words := &Tag{Role: AsFigure, Alt: alt, In: in}, &Tag{In: in}
	out := make(Drawing, len(d))
	for i, op := range d {
		t := figure
		if _, ok := op.(Text); ok {
			t = words
		}
		out[i] = Tagged(Drawing{op}, t)[0]
	}
	return out
}
