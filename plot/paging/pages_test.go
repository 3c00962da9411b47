package paging_test

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"reflect"
	"slices"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/furniture"
	"trammel/plot/lettering"
	"trammel/plot/paging"
)

var update = flag.Bool("update", false, "write the golden dumps anew; read them before keeping them")

// promised is how near every mark lies to its place, in mm.
const promised = 0.005

func isPiece(op draw.Op) bool { return op.Layer() != draw.Joins && !isNote(op) }
func isJoin(op draw.Op) bool  { return op.Layer() == draw.Joins }
func isNote(op draw.Op) bool {
	return op.Layer() == draw.Notes || op.Layer() == draw.Furniture
}

// Every place of every stroke is on every page whose window shows it, the whole
// outline is on some page, and no page has a stroke that the drawing has not.
func TestPagesShowTheDrawing(t *testing.T) {
	for _, c := range slices.Concat(cases(t), crowded(t), random(t, paging.RandomPieces)) {
		pages := pagesOf(c)
		if len(pages) != len(c.plan.Cells) {
			t.Fatalf("%s: %d pages for %d cells", c.name, len(pages), len(c.plan.Cells))
		}
		const step = 3
		all := sampledAll(c.drawing, step)
		outline := sampled(c.drawing[0], step)
		shown := make([]bool, len(outline))
		wholeLines, wholeArcs := strokesOf(c.drawing, isPiece)
		for i, p := range pages {
			w := c.plan.Cells[i].Window
			lines, arcs := strokesOf(p.Ops, isPiece)
			for k := range lines {
				lines[k] = geom.Line{From: back(c.plan, p, lines[k].From), To: back(c.plan, p, lines[k].To)}
			}
			for k := range arcs {
				arcs[k].Centre = back(c.plan, p, arcs[k].Centre)
			}
			for _, q := range all {
				if w.Grow(-0.001).Has(q) && offStrokes(q, lines, arcs) > promised {
					t.Fatalf("%s, %s: %v is on no stroke of the page", c.name, p.Label, q)
				}
			}
			for k, q := range outline {
				shown[k] = shown[k] || w.Has(q)
			}
			for _, op := range p.Ops {
				if !isPiece(op) {
					continue
				}
				for _, q := range sampled(op, step) {
					b := back(c.plan, p, q)
					if off := offStrokes(b, wholeLines, wholeArcs); off > promised {
						t.Fatalf("%s, %s: a stroke of the page is %.4f mm off the drawing at %v", c.name, p.Label, off, b)
					}
					if !w.Grow(1e-8).Has(b) {
						t.Fatalf("%s, %s: a stroke leaves the window at %v", c.name, p.Label, b)
					}
				}
			}
		}
		for k, ok := range shown {
			if !ok {
				t.Errorf("%s: the outline at %v is on no page", c.name, outline[k])
				break
			}
		}
	}
}

// Far from the origin nothing drifts: 15 m, the 60° arc over a level base among it.
func TestPagesOfFifteenMetres(t *testing.T) {
	level := unit.Angle(0)
	c := lay(t, "15 m", bySides(15000, 15000, 15000), sheetA3, &level)
	whole, wholeArcs := strokesOf(c.drawing, isPiece)
	all := sampledAll(c.drawing, 97)
	missed := len(all)
	seen := make([]bool, len(all))
	i := 0
	for p := range c.plan.Pages(c.drawing, c.f, lettering.Go()) {
		w := c.plan.Cells[i].Window
		lines, arcs := strokesOf(p.Ops, isPiece)
		for k := range lines {
			lines[k] = geom.Line{From: back(c.plan, p, lines[k].From), To: back(c.plan, p, lines[k].To)}
			for _, q := range []geom.Point{lines[k].From, lines[k].To} {
				if off := offStrokes(q, whole, wholeArcs); off > 1e-6 {
					t.Fatalf("%s: a stroke ends %g mm off the drawing", p.Label, off)
				}
			}
		}
		for k := range arcs {
			arcs[k].Centre = back(c.plan, p, arcs[k].Centre)
			for _, q := range []geom.Point{arcs[k].At(0), arcs[k].At(0.5), arcs[k].At(1)} {
				if off := offStrokes(q, whole, wholeArcs); off > 1e-6 || !w.Grow(1e-6).Has(q) {
					t.Fatalf("%s: an arc is %g mm off the drawing at %v, window %v", p.Label, off, q, w)
				}
			}
		}
		for k, q := range all {
			if w.Has(q) {
				if off := offStrokes(q, lines, arcs); off > 1e-6 {
					t.Fatalf("%s: %v is %g mm from the nearest stroke", p.Label, q, off)
				}
				if !seen[k] {
					seen[k], missed = true, missed-1
				}
			}
		}
		i++
	}
	// What is on no page is beyond the corners, where arcs run on.
	if i < 700 || missed > len(all)/2 {
		t.Errorf("%d pages, %d of %d places on none", i, missed, len(all))
	}
}

func sampledAll(d draw.Drawing, step float64) (all []geom.Point) {
	for _, op := range d {
		all = append(all, sampled(op, step)...)
	}
	return all
}

// Words and solid shapes are whole on a page or not on it.
func TestWordsAreWholeOrAbsent(t *testing.T) {
	r := lettering.Go()
	for _, c := range cases(t) {
		for i, p := range pagesOf(c) {
			w := c.plan.Cells[i].Window
			want := 0
			for _, op := range c.drawing {
				if o, ok := op.(draw.Text); ok {
					b := o.Bounds(r)
					if w.Has(b.Min) && w.Has(b.Max) {
						want++
					}
				}
			}
			got := 0
			for _, op := range p.Ops {
				o, ok := op.(draw.Text)
				if !ok || !isPiece(op) {
					continue
				}
				got++
				b := o.Bounds(r)
				if back := shift(b, w.Min.Minus(at(10, 10))); !w.Grow(1e-8).Has(back.Min) || !w.Grow(1e-8).Has(back.Max) {
					t.Errorf("%s, %s: %q leaves the window", c.name, p.Label, o.Words)
				}
			}
			if got != want {
				t.Errorf("%s, %s: %d labels of the drawing, want %d", c.name, p.Label, got, want)
			}
		}
	}
}

func shift(r geom.Rect, by geom.Point) geom.Rect {
	return geom.Rect{Min: r.Min.Plus(by), Max: r.Max.Plus(by)}
}

// byHand is a plan of rows and columns whose windows are written down here.
func byHand(s paging.Sheet, rows, cols int, outline geom.Polygon) paging.Plan {
	w, h := s.Width-s.Left-s.Right, s.Height-s.Top-s.Bottom
	p := paging.Plan{Sheet: s, Outline: outline, Rows: rows, Cols: cols}
	name := func(row, col int) string {
		if row < 0 || col < 0 || row >= rows || col >= cols {
			return ""
		}
		return fmt.Sprint(row*cols + col + 1)
	}
	for row := range rows {
		for col := range cols {
			low := geom.Point{X: unit.Length(col) * (w - s.Overlap), Y: unit.Length(rows-1-row) * (h - s.Overlap)}
			p.Cells = append(p.Cells, paging.Cell{Row: row, Col: col, Label: name(row, col),
				Window: geom.Rect{Min: low, Max: low.Plus(geom.Point{X: w, Y: h})},
				LeftOf: name(row, col-1), RightOf: name(row, col+1), Above: name(row-1, col), Below: name(row+1, col)})
		}
	}
	return p
}

// A window of 190 by 277 at 0, 0 on paper with margins of 10: plane and page
// differ by (10, 10). All expected values by hand.
func TestCutByHand(t *testing.T) {
	plan := byHand(sheetA4, 1, 2, geom.Polygon{at(20, 20), at(330, 20), at(20, 200)})
	dashed := draw.Pen{Width: 0.25, Dash: draw.LongDashDotted}
	d := draw.Drawing{
		draw.Line{Line: geom.Line{From: at(100, 50), To: at(300, 50)}, Pen: dashed, On: draw.Dimension},
		draw.Polyline{Points: []geom.Point{at(60, 60), at(60, 100), at(300, 100)}, Pen: dashed, On: draw.Dimension},
		draw.Polyline{Points: []geom.Point{at(170, 120), at(230, 120), at(200, 150)}, Closed: true, Pen: draw.Wide},
		draw.Polyline{Points: []geom.Point{at(170, 160), at(191, 160), at(180, 170)}, Closed: true, Solid: true},
		draw.Polyline{Points: []geom.Point{at(181, 160), at(189, 160), at(185, 170)}, Closed: true, Solid: true},
		draw.Arc{Arc: geom.Arc{Centre: at(190, 200), Radius: 30, Start: 0, Sweep: unit.Turn / 2}, Pen: dashed, On: draw.Construction},
	}
	want := []string{`dimensions line 110.000,60.000 200.000,60.000 0.25 long-dashed dotted
dimensions line 70.000,70.000 70.000,110.000 0.25 long-dashed dotted
dimensions line 70.000,110.000 200.000,110.000 0.25 long-dashed dotted from 40.000
outline polyline 200.000,150.000 180.000,130.000 200.000,130.000 closed=false solid=false 0.70 continuous
outline polyline 191.000,170.000 199.000,170.000 195.000,180.000 closed=true solid=true 0.00 continuous
construction arc 200.000,210.000 r 30.000 from 90.000° through 90.000° 0.25 long-dashed dotted from 47.124
`, `dimensions line 10.000,60.000 130.000,60.000 0.25 long-dashed dotted from 80.000
dimensions line 10.000,110.000 130.000,110.000 0.25 long-dashed dotted from 160.000
outline polyline 10.000,130.000 60.000,130.000 30.000,160.000 10.000,140.000 closed=false solid=false 0.70 continuous
outline polyline 11.000,170.000 19.000,170.000 15.000,180.000 closed=true solid=true 0.00 continuous
construction arc 20.000,210.000 r 30.000 from 0.000° through 109.471° 0.25 long-dashed dotted
`}
	i := 0
	for p := range plan.Pages(d, furniture.Furniture{}, lettering.Go()) {
		var own draw.Drawing
		for _, op := range p.Ops {
			if isPiece(op) {
				own = append(own, op)
			}
		}
		if got := draw.Dump(own); got != want[i] {
			t.Errorf("page %d:\n%swant\n%s", i, got, want[i])
		}
		i++
	}
}

// Two pages side by side and two above one another, whole: see the files.
func TestGoldenPages(t *testing.T) {
	level := unit.Angle(0)
	for _, c := range []struct {
		file string
		laid laid
	}{
		{"beside", laid{plan: byHand(sheetA4, 1, 2, geom.Polygon{at(20, 20), at(330, 20), at(20, 200)}), f: someFurniture}},
		{"above", laid{plan: byHand(sheetLetter, 2, 1, geom.Polygon{at(20, 20), at(180, 20), at(20, 420)}),
			f: furniture.Furniture{Job: "Tool board", Piece: "Shelf", Inches: true, Figures: "inches"}}},
		{"one", lay(t, "one", bySides(150, 90, 120), sheetA4, &level)},
	} {
		c.laid.drawing = draw.Drawing{draw.Polyline{Points: c.laid.plan.Outline, Closed: true, Pen: draw.Wide}}
		var b bytes.Buffer
		for _, p := range pagesOf(c.laid) {
			fmt.Fprintf(&b, "page %q of %s, %g by %g mm, matrix %.3f\n%s", p.Label, p.Piece, p.Width, p.Height, p.Places[0].Matrix, draw.Dump(p.Ops))
		}
		name := "testdata/pages_" + c.file + ".txt"
		if *update {
			if err := os.WriteFile(name, b.Bytes(), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if b.String() != string(want) {
			t.Errorf("%s differs; now\n%s", name, b.String())
		}
	}
}

func TestPagesAreTheSameAgainAndStop(t *testing.T) {
	c := lay(t, "level", bySides(900, 640, 700), sheetA4, nil)
	if !reflect.DeepEqual(pagesOf(c), pagesOf(c)) {
		t.Error("two runs differ")
	}
	n := 0
	for range c.plan.Pages(c.drawing, c.f, lettering.Go()) {
		if n++; n == 2 {
			break
		}
	}
	if n != 2 {
		t.Errorf("stopped after %d pages", n)
	}
}

func TestPageNames(t *testing.T) {
	c := lay(t, "level", bySides(900, 640, 700), sheetA4, nil)
	c.f.PieceIndex, c.f.Copy = 3, 1
	for i, p := range pagesOf(c) {
		if p.Label != c.plan.Cells[i].Label || p.Kind != draw.Template || p.Piece != "Brace plate" || p.Width != 210 || p.Height != 297 {
			t.Errorf("page %d is %q %q of %q, %g by %g", i, p.Label, p.Kind, p.Piece, p.Width, p.Height)
		}
		if w := (draw.Place{Piece: 3, Copy: 1, Matrix: c.plan.Matrix(c.plan.Cells[i])}); len(p.Places) != 1 || p.Places[0] != w {
			t.Errorf("page %d bears %v, want %v", i, p.Places, w)
		}
	}
	one := pagesOf(lay(t, "one", bySides(150, 90, 120), sheetA4, nil))
	if len(one) != 1 || one[0].Label != "1" {
		t.Errorf("a single page has the label %q", one[0].Label)
	}
}

// A hundred cells take a hundred times what one takes, no more.
func BenchmarkPages(b *testing.B) {
	level := unit.Angle(0)
	for _, size := range []float64{1, 2, 4, 8} {
		c := lay(b, "", bySides(1000*size, 750*size, 625*size), sheetA4, &level)
		n := len(c.plan.Cells)
		b.Run(fmt.Sprintf("%d pages", n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				k := 0
				for p := range c.plan.Pages(c.drawing, c.f, lettering.Go()) {
					k += min(1, len(p.Ops))
				}
				if k != n {
					b.Fatalf("%d pages of %d", k, n)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n), "ns/page")
		})
	}
	crowd := crowded(b)[:2]
	for _, c := range crowd {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				pagesOf(c)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(len(c.plan.Cells)), "ns/page")
		})
	}
}
