package pdf_test

import (
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/readback"
)

// told is two pages with a part of every kind, on layers that are painted in another
// order than they are read in.
func told() []draw.Page {
	line := func(y unit.Length, on draw.Layer, of *draw.Tag) draw.Op {
		return draw.Line{Line: geom.Line{From: at(10, y), To: at(90, y)}, Pen: draw.Narrow, On: on, Of: of}
	}
	y := unit.Length(280)
	text := func(words string, turn unit.Angle, on draw.Layer, of *draw.Tag) draw.Op {
		y -= 10
		return draw.Text{At: at(20, y), Height: 3.5, Turn: turn, Words: words, On: on, Of: of}
	}
	title, para, ornament := &draw.Tag{Role: draw.AsTitle, First: true}, &draw.Tag{}, &draw.Tag{Role: draw.AsOrnament}
	list := &draw.Tag{Role: draw.AsList}
	item := &draw.Tag{Role: draw.AsItem, In: list}
	label, body := &draw.Tag{Role: draw.AsLabel, In: item}, &draw.Tag{Role: draw.AsItemBody, In: item}
	table := &draw.Tag{Role: draw.AsTable}
	row := func(r draw.Role) *draw.Tag {
		t := &draw.Tag{Role: draw.AsRow, In: table}
		t.Holds = []*draw.Tag{{Role: r, In: t}, {Role: r, In: t}}
		return t
	}
	heads, cells := row(draw.AsHead), row(draw.AsCell)
	part := &draw.Tag{Role: draw.AsSection}
	heading := &draw.Tag{Role: draw.AsHeading, In: part}
	part.Holds = []*draw.Tag{heading}
	first := []draw.Op{
		line(5, draw.Notes, ornament),
		text("12", 0, draw.Dimension, nil), text("34", 1, draw.Dimension, nil), text("56", 0, draw.Dimension, nil),
		line(100, draw.Outline, nil), line(110, draw.Construction, nil),
		text("check bar", 0, draw.Furniture, nil), text("turned bar", 1, draw.Furniture, nil), line(8, draw.Furniture, nil),
		text("hidden", 0, draw.Joins, nil), text("hidden as well", 0, draw.Joins, &draw.Tag{Role: draw.AsHeading}),
		text("A paragraph that", 0, draw.Notes, para), text("goes on", 0, draw.Notes, para),
		text("1", 0, draw.Notes, label), text("Cut the sheet.", 0, draw.Notes, body),
		text("side", 0, draw.Notes, heads.Holds[0]), text("length", 0, draw.Notes, heads.Holds[1]),
		text("600", 0, draw.Notes, cells.Holds[1]),
	}
	first = append(first, draw.Pictured(draw.Drawing{line(120, draw.Outline, nil), text("A", 0, draw.Outline, nil)}, "A line (with its end).", part)...)
	first = append(first, text("Brace", 0, draw.Furniture, heading), text("The title", 0, draw.Notes, title))
	second := []draw.Op{line(100, draw.Outline, nil), text("on the next page.", 0, draw.Furniture, para)}
	return []draw.Page{
		{Width: 210, Height: 297, Ops: first, Alt: "Two lines, größer."},
		{Width: 210, Height: 297, Ops: second},
		{Width: 210, Height: 297},
		{Width: 210, Height: 297, Ops: first[4:5], Alt: "One line."},
	}
}

// What a document says is read in its order, whatever is painted first: each word in
// its part, nothing of what is only furniture, nothing of a layer that is left out.
func TestWhatIsSaid(t *testing.T) {
	const want = `Document
  H1 "The title"
  P "12" "34" "56"
  Figure [Two lines, größer.]
  P "A paragraph that goes on" "on the next page."
  L
    LI
      Lbl "1"
      LBody "Cut the sheet."
  Table
    TR
      TH "side"
      TH "length"
    TR
      TD
      TD "600"
  Sect
    H2 "Brace"
    Figure [A line (with its end).]
    P "A"
  Figure [One line.]
`
	file := write(t, draw.Document{Pages: pages(told()...), Hide: []draw.Layer{draw.Joins}})
	if got := readback.Structure(t, file).String(); got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
	if !strings.HasPrefix(string(file), "%PDF-2.0\n") || !strings.Contains(string(file), "/PrintScaling /None /Enforce [/PrintScaling]") {
		t.Error("the print dialogue may scale (ISO 32000-2, table 147)")
	}
}

// A document without anything to say still has its tree.
func TestNothingIsSaid(t *testing.T) {
	if got := readback.Structure(t, write(t, draw.Document{Pages: pages(draw.Page{Width: 50, Height: 50})})); got.String() != "Document\n" {
		t.Errorf("%s", got)
	}
}
