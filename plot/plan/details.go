package plan

import (
	"fmt"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/tape"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/sheet"
	"trammel/plot/words"
)

// detail is an enlarged view of where pegs crowd, with its name above it.
type detail struct {
	name   string // i, ii, iii …
	alt    string // a sentence that says what it shows
	scale  int
	ops    draw.Drawing
	bounds geom.Rect
}

// detailScales are the scales of details, the largest first.
var detailScales = []int{1, 2, 5, 10, 20, 50, 100, 200, 500, 1000}

// How far pegs of a detail lie from each other on paper where that can be had: the
// more where the detail is then still handy.
const (
	apartEnough unit.Length = 3.2
	wellApart   unit.Length = 10
	handyDetail unit.Length = 55
)

// DetailsOf are the enlarged views of a plan's clusters, each no wider and higher than
// most where that is possible at twice the plan's scale.
func (p Plan) DetailsOf(of Drawn, r draw.Ruler, most unit.Length) Details {
	var out Details
	p = p.turned()
	for _, c := range of.crowds {
		d := p.detail(c, of, r, most)
		d.alt = words.In(p.Language).Aloud().Detail(d.name)
		out = append(out, d)
	}
	return out
}

// detail is drawn at the smallest scale that parts its pegs and has room for all names.
func (p Plan) detail(c cluster, of Drawn, r draw.Ruler, most unit.Length) detail {
	var can []int
	for _, s := range slices.Backward(detailScales) {
		if float64(2*s) <= of.Scale && (len(can) == 0 || 2*c.radius*unit.Length(of.Scale)/unit.Length(s) <= most) {
			can = append(can, s)
		}
	}
	if len(can) == 0 {
		can = []int{1} // of a plan 1:1
	}
	gap, first := p.leastGap(c), 0
	for ; first < len(can)-1; first++ {
		d, wide := gap/unit.Length(can[first]), 2*c.radius*unit.Length(of.Scale)/unit.Length(can[first+1])
		if d >= apartEnough && (d >= wellApart || wide > handyDetail) {
			break
		}
	}
	fits := func(v *view) bool { return max(v.bounds.Width(), v.bounds.Height()+titleHeight) <= most }
	for i := first; i < len(can); i++ {
		v := p.detailAt(c, of, can[i], r, false)
		if !fits(v) {
			break
		}
		if first = i; len(v.unnamed) == 0 {
			return v.detail(c.name, can[i])
		}
	}
	for i := first; i >= 0; i-- {
		if v := p.detailAt(c, of, can[i], r, true); fits(v) {
			return v.detail(c.name, can[i])
		}
	}
	// Labels that had to go far out made it too large: those without room stay in the tables.
	return p.detailAt(c, of, can[0], r, false).detail(c.name, can[0])
}

// leastGap is the least distance on the ground of two pegs that do not share one.
func (p Plan) leastGap(c cluster) unit.Length {
	least := unit.Length(math.Inf(1))
	for i, a := range p.Pegs {
		for _, b := range p.Pegs[:i] {
			if d := a.At.Distance(b.At); d > tape.OnePeg && slices.Contains(c.names, a.Name) && slices.Contains(c.names, b.Name) {
				least = min(least, d)
			}
		}
	}
	return least
}

// detailAt draws the detail of a plan at 1:s.
func (p Plan) detailAt(c cluster, of Drawn, s int, r draw.Ruler, lastResort bool) *view {
	v := p.view(float64(s), r)
	v.inRun, v.letters = of.inRun, of.letters
	grow := of.Scale / float64(s)
	v.in = &disc{c.centre.Times(grow), c.radius * unit.Length(grow)}
	v.shown = slices.DeleteFunc(v.shown, func(peg Peg) bool { return !v.in.has(peg.At) })
	v.lastResort, v.onlyWhole = lastResort, !lastResort
	v.all()
	return v
}

// detail is the view as a detail.
func (v *view) detail(name string, scale int) detail {
	v.title(name)
	return detail{name: name, scale: scale, ops: v.ops, bounds: v.bounds}
}

// titleHeight is what the title takes above a detail.
const titleHeight unit.Length = 12

// title writes the name above a detail.
func (v *view) title(name string) {
	at := geom.Point{X: v.in.centre.X, Y: v.bounds.Max.Y + labelGap + 0.35*draw.NoteHeight}
	if v.enlarged > 0 {
		v.text(draw.Text{At: at, Height: draw.NoteHeight, Align: draw.Middle, Words: fmt.Sprintf("ellipses %.10g times enlarged", v.enlarged), On: draw.Notes})
		at.Y += draw.NoteHeight + labelGap + 0.35*draw.FigureHeight
	}
	v.text(draw.Text{At: at, Height: draw.FigureHeight, Bold: true, Align: draw.Middle, Words: "Detail " + name, On: draw.Notes})
}

// Details are set in rows, as many beside each other as there is room for.
type Details []detail

// DetailGap is what parts details from each other and from what is above them.
const DetailGap unit.Length = 6

func (b Details) Rows(width unit.Length, _ draw.Ruler) []sheet.Row {
	var rows []sheet.Row
	x := unit.Length(0)
	for _, d := range b {
		if w := d.bounds.Width(); len(rows) == 0 || x+w > width {
			rows, x = append(rows, sheet.Row{}), 0
		}
		row := &rows[len(rows)-1]
		moved := sheet.Shift(d.ops, geom.Point{X: x - d.bounds.Min.X, Y: -d.bounds.Max.Y})
		row.Marks = append(row.Marks, draw.Tagged(moved, &draw.Tag{Role: draw.AsFigure, Alt: d.alt})...)
		row.Height = max(row.Height, d.bounds.Height()+DetailGap)
		x += d.bounds.Width() + DetailGap
	}
	return rows
}
