package plan

import (
	"fmt"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/sheet"
)

// detail is an enlarged view of where pegs crowd, on paper in mm, with its name
// and scale above it.
type detail struct {
	name   string // i, ii, iii …
	scale  int
	ops    draw.Drawing
	bounds geom.Rect
	names  []geom.Name // of the pegs that it names, but for those that the running figures name
	untold []string    // lengths that found no place
}

// detailScales are the scales of details, the largest first.
var detailScales = append([]int{1, 2}, Scales...)

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
	for _, c := range of.crowds {
		out = append(out, p.detail(c, of, r, most))
	}
	return out
}

// detail is drawn at the smallest scale that parts its pegs and has room for all
// names, twice the plan's at least.
func (p Plan) detail(c cluster, of Drawn, r draw.Ruler, most unit.Length) detail {
	var can []int
	for _, s := range slices.Backward(detailScales) {
		if 2*s <= of.Scale && (len(can) == 0 || 2*c.radius*unit.Length(of.Scale)/unit.Length(s) <= most) {
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

// leastGap is the least distance of two pegs of a cluster on the ground that do
// not share one.
func (p Plan) leastGap(c cluster) unit.Length {
	least := unit.Length(math.Inf(1))
	for i, a := range p.Pegs {
		for _, b := range p.Pegs[:i] {
			if d := a.At.Distance(b.At); d > sharedPeg && slices.Contains(c.names, a.Name) && slices.Contains(c.names, b.Name) {
				least = min(least, d)
			}
		}
	}
	return least
}

// detailAt draws the detail of a plan at 1:s.
func (p Plan) detailAt(c cluster, of Drawn, s int, r draw.Ruler, lastResort bool) *view {
	v := p.view(s, r)
	v.inRun = of.inRun
	grow := float64(of.Scale) / float64(s)
	v.in = &disc{c.centre.Times(grow), c.radius * unit.Length(grow)}
	v.shown = slices.DeleteFunc(v.shown, func(peg Peg) bool { return !v.in.has(peg.At) })
	v.lastResort, v.onlyWhole = lastResort, !lastResort
	v.all()
	return v
}

// detail is the view as a detail.
func (v *view) detail(name string, scale int) detail {
	v.title(name, scale)
	var names []geom.Name
	for _, peg := range v.shown {
		if peg.Name != "" && !v.byRunning(peg) {
			names = append(names, peg.Name)
		}
	}
	return detail{name: name, scale: scale, ops: v.ops, bounds: v.bounds, names: names, untold: v.untold}
}

// titleHeight is what name and scale take above a detail.
const titleHeight unit.Length = 12

// title writes name and scale above a detail.
func (v *view) title(name string, scale int) {
	at := geom.Point{X: v.in.centre.X, Y: v.bounds.Max.Y + labelGap + 0.35*draw.NoteHeight}
	if v.enlarged > 0 {
		v.text(draw.Text{At: at, Height: draw.NoteHeight, Align: draw.Middle, Words: fmt.Sprintf("ellipses %.10g times enlarged", v.enlarged), On: draw.Notes})
		at.Y += draw.NoteHeight + labelGap + 0.35*draw.FigureHeight
	}
	v.text(draw.Text{At: at, Height: draw.FigureHeight, Bold: true, Align: draw.Middle, Words: fmt.Sprintf("Detail %s   1:%d", name, scale), On: draw.Notes})
}

// Details are set in rows, as many beside each other as the width has
// room for.
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
		row.Marks = append(row.Marks, sheet.Shift(d.ops, geom.Point{X: x - d.bounds.Min.X, Y: -d.bounds.Max.Y})...)
		row.Height = max(row.Height, d.bounds.Height()+DetailGap)
		x += d.bounds.Width() + DetailGap
	}
	return rows
}

// disc is the part of the plane that a detail shows.
type disc struct {
	centre geom.Point
	radius unit.Length
}

func (d disc) has(p geom.Point) bool { return d.centre.Distance(p) <= d.radius }

// clip is the part of a line within the disc.
func (d disc) clip(l geom.Line) (geom.Line, bool) {
	dx, dy := float64(l.To.X-l.From.X), float64(l.To.Y-l.From.Y)
	fx, fy := float64(l.From.X-d.centre.X), float64(l.From.Y-d.centre.Y)
	a, b, c := dx*dx+dy*dy, fx*dx+fy*dy, fx*fx+fy*fy-float64(d.radius)*float64(d.radius)
	if b*b-a*c <= 0 {
		return geom.Line{}, false
	}
	root := math.Sqrt(b*b - a*c)
	t, u := max(0, (-b-root)/a), min(1, (-b+root)/a)
	if t >= u {
		return geom.Line{}, false
	}
	out := l
	if t > 0 {
		out.From = l.At(t)
	}
	if u < 1 {
		out.To = l.At(u)
	}
	return out, true
}

// seen draws what is seen of a line.
func (v *view) seen(a, b geom.Point, pen draw.Pen) {
	l, ok := geom.Line{From: a, To: b}, true
	if v.in != nil {
		l, ok = v.in.clip(l)
	}
	if ok {
		v.line(l.From, l.To, pen, draw.Construction)
	}
}

// swing draws what is seen of an arc of less than half a turn.
func (v *view) swing(a geom.Arc) {
	if v.in != nil {
		toward := geom.Line{From: a.Centre, To: v.in.centre}
		d, r, in := float64(toward.Length()), float64(a.Radius), float64(v.in.radius)
		cos := (r*r + d*d - in*in) / (2 * r * d)
		if d == 0 || cos >= 1 {
			return
		}
		half := math.Acos(max(-1, cos))
		middle := float64(a.Start) + math.Remainder(float64(toward.Direction()-a.Start), 2*math.Pi)
		from, to := max(float64(a.Start), middle-half), min(float64(a.Start+a.Sweep), middle+half)
		if from >= to {
			return
		}
		a.Start, a.Sweep = unit.Angle(from), unit.Angle(to-from)
	}
	v.ink(draw.Arc{Arc: a, Pen: draw.Narrow, On: draw.Construction})
}

// closed draws what is seen of a closed shape.
func (v *view) closed(p geom.Polygon, pen draw.Pen, on draw.Layer) {
	if v.in == nil {
		v.polygon(p, pen, on)
		return
	}
	var runs [][]geom.Point
	whole := true
	for i := range p {
		l, ok := v.in.clip(p.Edge(i))
		if !ok {
			whole = false
			continue
		}
		whole = whole && l == p.Edge(i)
		if n := len(runs); n > 0 && runs[n-1][len(runs[n-1])-1] == l.From {
			runs[n-1] = append(runs[n-1], l.To)
		} else {
			runs = append(runs, []geom.Point{l.From, l.To})
		}
	}
	if whole {
		v.polygon(p, pen, on)
		return
	}
	// What runs through the first corner is one run.
	if n := len(runs); n > 1 && runs[n-1][len(runs[n-1])-1] == runs[0][0] {
		runs[0] = append(runs[n-1], runs[0][1:]...)
		runs = runs[:n-1]
	}
	for _, run := range runs {
		v.ink(draw.Polyline{Points: run, Pen: pen, On: on})
	}
}
