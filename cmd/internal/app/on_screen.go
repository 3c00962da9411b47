package app

import (
	"math"

	"trammel/cmd/internal/solved"
	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/paging"
	"trammel/plot/setout"
	"trammel/plot/template"
	"trammel/plot/words"
)

// What a screen shows of a job before anything is made of it.

// Steps are the sentences of a piece's construction by hand, one a step.
func (w Work) Steps(i int) []string { return template.Steps(w.templatePiece(w.Pieces[i]), w.style()) }

// ByHand is a piece as it is made by hand.
func (w Work) ByHand(i int) words.ByHand { return w.templatePiece(w.Pieces[i]).ByHand(w.style()) }

// SetOut is the setting-out sheet of a piece. The errors are those of the document.
func (w Work) SetOut(i int) (setout.Sheet, error) { return w.sheet(i, w.Pieces[i]) }

// SheetMap is where the sheets of a template lie.
type SheetMap struct {
	Sheet     paging.Sheet
	Count     int // of all pages, instructions too
	Pieces    []OnSheets
	Summary   []string
	Otherwise []Otherwise
}

// OnSheets is one piece on its sheets. Of a piece that shares a page there are none.
type OnSheets struct {
	Piece      int // of Work.Pieces
	Pages      int
	Rows, Cols int
	Turn       unit.Angle
	Labels     []string
	Windows    [][4]geom.Point // what each sheet shows, in the piece's own coordinates
}

// Sheets lays a template out without drawing what is on its pages. The errors are those
// of MakeTemplate.
func (w Work) Sheets() (SheetMap, error) {
	t, err := w.template()
	if err != nil {
		return SheetMap{}, err
	}
	m := SheetMap{Sheet: w.Sheet, Count: t.count, Summary: t.told(), Otherwise: t.otherwise()}
	for _, l := range t.laid {
		p := OnSheets{Piece: l.index, Pages: len(l.plan.Cells), Rows: l.plan.Rows, Cols: l.plan.Cols, Turn: l.plan.Place.Turn}
		for _, c := range l.plan.Cells {
			p.Labels, p.Windows = append(p.Labels, c.Label), append(p.Windows, back(l.plan.Place, c.Window))
		}
		m.Pieces = append(m.Pieces, p)
	}
	return m, nil
}

// back is a window of the plane of the sheets as the piece has it.
func back(p geom.Placement, r geom.Rect) (at [4]geom.Point) {
	s, c := math.Sincos(float64(-p.Turn))
	for i, q := range [4]geom.Point{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}} {
		d := q.Minus(p.Shift)
		at[i] = geom.Point{X: unit.Length(float64(d.X)*c - float64(d.Y)*s), Y: unit.Length(float64(d.X)*s + float64(d.Y)*c)}
	}
	return at
}

// Compared is what was found of one piece, in words.
type Compared struct {
	Piece    int // of the job
	Title    string
	Passed   bool
	Verdict  string
	Advice   []string // the move of a wrong peg first
	Readings []ReadBack
}

// ReadBack is one reading that was found.
type ReadBack struct {
	Token, Says string
	Inside      bool
	Off         float64 // mm or degrees: found less wanted
}

// Compared holds what was found against what was asked. The errors are those of the
// check sheet.
func (w Work) Compared(f Findings) (all []Compared, err error) {
	c, err := w.check(f)
	if err != nil {
		return nil, err
	}
	for i, s := range c.all {
		one := Compared{Piece: c.of[i].Index, Title: s.Piece, Passed: s.Comparison.Passed, Verdict: s.Says().Verdict(s.Comparison), Advice: append([]string{}, s.Says().Advice(s.Comparison, s.Figures.Style)...)}
		for _, r := range s.Comparison.Readings {
			one.Readings = append(one.Readings, ReadBack{r.Measurement.Text, s.Says().Reading(r), r.Inside, solved.Figure(r.Measurement.Kind, r.Off)})
		}
		all = append(all, one)
	}
	return all, nil
}
