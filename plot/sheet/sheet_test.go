package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// fixed is a ruler whose every letter is 0.8 of a capital height wide.
type fixed struct{}

func (fixed) Width(words string, height unit.Length, bold bool) unit.Length {
	return 0.8 * height * unit.Length(utf8.RuneCountInString(words))
}
func (fixed) Missing(string) rune { return 0 }

func TestWrapKeepsEveryWordWithinWidth(t *testing.T) {
	for _, words := range []string{
		"", "one", "Compasses at A, radius 450: swing an arc above the line.",
		"a wordthatismuchlongerthananylineandmustbebroken in two", "ééééééééééééééééééééé",
	} {
		for _, width := range []unit.Length{1, 3, 10, 25, 400} {
			lines := Wrap(words, width, 2.5, false, fixed{})
			for _, line := range lines {
				if w := (fixed{}).Width(line, 2.5, false); w > width && utf8.RuneCountInString(line) > 1 {
					t.Errorf("%q at %v: line %q is %v wide", words, width, line, w)
				}
			}
			strip := func(s string) string { return strings.ReplaceAll(s, " ", "") }
			if got := strip(strings.Join(lines, "")); got != strip(words) {
				t.Errorf("%q at %v became %q", words, width, got)
			}
		}
	}
}

func TestWrapKeepsNoBreakSpacesTogether(t *testing.T) {
	got := Wrap("they cross at\u00a0C", 12*0.8*2.5, 2.5, false, fixed{})
	if want := []string{"they cross", "at C"}; !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}

// sample has one of each block.
func sample(n int) []Block {
	blocks := []Block{Heading{Words: "Before cutting"}, Paragraph{Words: "Measure the bar: it must be 100 long."}}
	list := List{Numbered: true, Gap: 1}
	table := Table{Columns: []Column{{Head: "side"}, {Head: "length", Align: OnPoint}, {Head: "found", Align: Box}, {Head: "note", Fill: true}}, Row: 9}
	for i := range n {
		list.Items = append(list.Items, fmt.Sprintf("step%03d of the work, with enough words to run over the end of one line and on to the next", i))
		table.Cells = append(table.Cells, []string{fmt.Sprintf("row%03d", i), "100.5", "mm", "a note that may wrap in its column"})
	}
	return append(blocks, list, Gap(4), Heading{Words: "Table"}, table, Entries{Labels: []string{"by", "date"}},
		Beside{Stacks: [][]Block{{Paragraph{Words: "left"}}, {Paragraph{Words: "right"}}}, Gutter: 5})
}

func TestFlowLosesNothingAndStaysInside(t *testing.T) {
	area := geom.Rect{Min: geom.Point{X: 10, Y: 10}, Max: geom.Point{X: 200, Y: 287}}
	areas := func(int) []geom.Rect { return Columns(area, 2, 8) }
	for _, n := range []int{1, 3, 17, 80} {
		pages, err := Flow(sample(n), areas, fixed{})
		if err != nil {
			t.Fatal(err)
		}
		seen := map[string]int{}
		for p, d := range pages {
			var boxes []geom.Rect
			for _, op := range d {
				b := op.Bounds(fixed{})
				if !area.Grow(1e-6).Has(b.Min) || !area.Grow(1e-6).Has(b.Max) {
					t.Errorf("%d items, page %d: %v lies outside the area", n, p, op)
				}
				if o, ok := op.(draw.Text); ok {
					for _, w := range strings.Fields(o.Words) {
						seen[w]++
					}
					for _, c := range boxes {
						if b.Grow(-1e-6).Meets(c) {
							t.Errorf("%d items, page %d: %q lies on other words", n, p, o.Words)
						}
					}
					boxes = append(boxes, b)
				}
			}
		}
		for i := range n {
			if a, b := seen[fmt.Sprintf("step%03d", i)], seen[fmt.Sprintf("row%03d", i)]; a != 1 || b != 1 {
				t.Errorf("%d items: step %d is there %d times, row %d %d times", n, i, a, i, b)
			}
		}
		if n == 80 && (len(pages) < 2 || seen["length"] < 2) {
			t.Errorf("a parted table must set its head again: %d heads on %d pages", seen["length"], len(pages))
		}
	}
}

func TestFlowHeadingStaysWithWhatFollows(t *testing.T) {
	// Room for the first paragraph and the heading, but not for what it heads.
	area := geom.Rect{Max: geom.Point{X: 100, Y: 4.25 + 4 + 1 + 5.95 + 0.8 + 2}}
	blocks := []Block{Paragraph{Words: "first"}, Heading{Words: "Heading"}, Paragraph{Words: "second"}}
	pages, err := Flow(blocks, func(int) []geom.Rect { return []geom.Rect{area} }, fixed{})
	if err != nil {
		t.Fatal(err)
	}
	if len(pages) != 2 || !strings.Contains(fmt.Sprint(pages[1]), "Heading") {
		t.Errorf("the heading must move with its paragraph: %v", pages)
	}
}

func TestFlowRefusesWhatCannotFit(t *testing.T) {
	tall := Figure{Draw: func(unit.Length, draw.Ruler) (draw.Drawing, unit.Length) { return nil, 500 }}
	_, err := Flow([]Block{Paragraph{Words: "x"}, tall}, func(int) []geom.Rect { return []geom.Rect{{Max: geom.Point{X: 100, Y: 100}}} }, fixed{})
	if err == nil || !strings.Contains(err.Error(), "500 mm") {
		t.Errorf("got %v", err)
	}
}

func TestFiguresStandOnTheirPoint(t *testing.T) {
	cells := []string{"2400", "12\u2009345.5", "(83.1°)", "7.25", "35°"}
	b := Table{Columns: []Column{{Head: "length", Align: OnPoint}}}
	for _, c := range cells {
		b.Cells = append(b.Cells, []string{c})
	}
	d, _ := Set([]Block{b}, geom.Point{}, 100, fixed{})
	var at []unit.Length // the right end of the last digit before the point
	for _, op := range d {
		if o, ok := op.(draw.Text); ok && o.Words != "length" {
			_, rest := atPoint(o.Words)
			at = append(at, o.At.X-(fixed{}).Width(rest, o.Height, false))
		}
	}
	if len(at) != len(cells) {
		t.Fatalf("%d of %d cells drawn", len(at), len(cells))
	}
	for i := range at {
		if math.Abs(float64(at[i]-at[0])) > 1e-9 {
			t.Errorf("%q has its point at %v, %q at %v", cells[i], at[i], cells[0], at[0])
		}
	}
	for cell, want := range map[string]string{`7'-10 1/2"`: "", "35°30′": "", "2400": "", "12.5": ".5", "(83.1°)": ".1°)", "35°": "°", "−12": "", "": "", "٣": "٣"} {
		if _, rest := atPoint(cell); rest != want {
			t.Errorf("atPoint(%q) leaves %q, want %q", cell, rest, want)
		}
	}
}

func TestMoveTurnsEveryOperation(t *testing.T) {
	m := geom.Placement{Turn: unit.Turn / 4, Shift: geom.Point{X: 10}}
	for _, op := range draw.OpTypes() {
		if o, ok := op.(draw.Polyline); ok {
			o.Points = []geom.Point{{X: 1}, {X: 2}, {X: 2, Y: 1}}
			op = o
		}
		if o, ok := op.(draw.Path); ok {
			o.Segments = []geom.Segment{geom.Line{From: geom.Point{X: 1}, To: geom.Point{X: 3}}, geom.Arc{Centre: geom.Point{X: 3, Y: 2}, Radius: 2, Start: -unit.Turn / 4, Sweep: unit.Turn / 4}}
			op = o
		}
		if o, ok := op.(draw.Text); ok {
			o.Words, o.Height = "words", 3
			op = o
		}
		// A rectangle turned by a quarter is one again, and its corners are known.
		b := op.Bounds(fixed{})
		want, got := geom.RectOf(m.Apply(b.Min), m.Apply(b.Max)), Move(draw.Drawing{op}, m)[0].Bounds(fixed{})
		if want.Min.Distance(got.Min) > 1e-9 || want.Max.Distance(got.Max) > 1e-9 {
			t.Errorf("%T lies in %v, want %v", op, got, want)
		}
	}
}

func TestWholeListIsNotParted(t *testing.T) {
	area := geom.Rect{Max: geom.Point{X: 100, Y: 5 * 4.25}}
	blocks := []Block{Paragraph{Words: "first"}, Paragraph{Words: "second"}, List{Items: []string{"a", "b", "c", "d"}, Numbered: true, Whole: true}}
	pages, err := Flow(blocks, func(int) []geom.Rect { return []geom.Rect{area} }, fixed{})
	if err != nil {
		t.Fatal(err)
	}
	if len(pages) != 2 || len(pages[0]) != 2 || len(pages[1]) != 8 {
		t.Errorf("the list is parted: %d marks, %v", len(pages[0]), pages)
	}
}

// Rows kept together that are higher than any page are parted rather than refused;
// a single row that is too high is refused.
func TestFlowPartsWhatIsHigherThanAPage(t *testing.T) {
	var rows []Row
	for i := range 12 {
		rows = append(rows, Row{Height: 10, Keep: i < 11, Marks: draw.Drawing{mark(i)}})
	}
	pages, err := Flow([]Block{given(rows)}, area(50), nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(pages) != 3 || len(pages[0]) != 5 || len(pages[1]) != 5 || len(pages[2]) != 2 {
		t.Errorf("%d pages: %v", len(pages), pages)
	}
	if _, err := Flow([]Block{given(rows[:1])}, area(9), nil); err == nil {
		t.Error("a row of 10 mm stands on a page of 9")
	}
}

// given is rows as they are.
type given []Row

func (g given) Rows(unit.Length, draw.Ruler) []Row { return g }

func mark(i int) draw.Op {
	return draw.Line{Line: geom.Line{To: geom.Point{X: unit.Length(i + 1)}}, Pen: draw.Narrow, On: draw.Notes}
}

func area(height unit.Length) func(int) []geom.Rect {
	return func(int) []geom.Rect { return []geom.Rect{{Max: geom.Point{X: 100, Y: height}}} }
}
