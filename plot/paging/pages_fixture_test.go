package paging_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/furniture"
	"trammel/plot/lettering"
	"trammel/plot/paging"
)

func at(x, y float64) geom.Point { return geom.Point{X: unit.Length(x), Y: unit.Length(y)} }

// paper with margins of 10 mm.
func paper(name string, w, h, overlap float64) paging.Sheet {
	return paging.Sheet{Name: name, Width: unit.Length(w), Height: unit.Length(h), Left: 10, Top: 10, Right: 10, Bottom: 10, Overlap: unit.Length(overlap)}
}

var (
	sheetA4     = paper("A4", 210, 297, 10) // ISO 216
	sheetA5     = paper("A5", 148, 210, 10)
	sheetA3     = paper("A3", 297, 420, 10)
	sheetLetter = paper("Letter", 215.9, 279.4, 12.7)
	sheetNarrow = paper("narrow strips", 210, 297, 5)
)

// bySides is a triangle with its baseline on x.
func bySides(ab, bc, ca float64) geom.Polygon {
	x := (ab*ab + ca*ca - bc*bc) / (2 * ab)
	return geom.Polygon{at(0, 0), at(ab, 0), at(x, math.Sqrt(ca*ca-x*x))}
}

// laid is a piece laid over pages, and its drawing in the plane of the sheets.
type laid struct {
	name    string
	plan    paging.Plan
	drawing draw.Drawing
	f       furniture.Furniture
	hard    bool // small or crowded: bars may be short and apart, titles fewer
}

var someFurniture = furniture.Furniture{Job: "Slip gate brace", Piece: "Brace plate", Mark: "mark 2", Figures: "millimetres", Date: "2025-04-02"}

func lay(t testing.TB, name string, p geom.Polygon, s paging.Sheet, turn *unit.Angle, more ...draw.Op) laid {
	t.Helper()
	plan, err := paging.Lay(p, s, paging.Full, turn, paging.Effort{})
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return laid{name: name, plan: plan, drawing: drawn(plan, more...), f: someFurniture}
}

// drawn is about what a template has: outline, two arcs through each corner, a
// height, prick points, letters at the corners and lengths at the sides.
func drawn(plan paging.Plan, more ...draw.Op) draw.Drawing {
	o := plan.Outline
	d := draw.Drawing{draw.Polyline{Points: o, Closed: true, Pen: draw.Wide}}
	n := len(o)
	for i, c := range o {
		next, last := o[(i+1)%n], o[(i+n-1)%n]
		out := geom.Line{From: geom.Line{From: next, To: last}.At(0.5), To: c}.Direction()
		for _, from := range []geom.Point{next, last} {
			l := geom.Line{From: from, To: c}
			d = append(d, draw.Arc{Arc: geom.Arc{Centre: from, Radius: l.Length(), Start: l.Direction() + 15*unit.Degree, Sweep: -30 * unit.Degree}, Pen: draw.Narrow, On: draw.Construction})
		}
		d = append(d,
			draw.Arc{Arc: geom.Arc{Centre: c, Radius: 1.5, Sweep: unit.Turn}, Pen: draw.Fine, On: draw.Construction},
			draw.Text{At: c.Toward(out, 8), Height: draw.CornerHeight, Align: draw.Middle, Words: string(rune('A' + i)), On: draw.Dimension})
		side := geom.Line{From: c, To: next}
		turn := side.Direction()
		at := side.At(0.5).Toward(turn-90*unit.Degree, 5)
		if math.Cos(float64(turn)) < 0 {
			turn += 180 * unit.Degree
		}
		d = append(d, draw.Text{At: at, Height: draw.FigureHeight, Turn: turn, Align: draw.Middle, Words: fmt.Sprintf("%.0f", side.Length()), On: draw.Dimension})
	}
	foot := geom.Line{From: o[0], To: o[1]}.At(0.4)
	d = append(d, draw.Line{Line: geom.Line{From: foot, To: o[2%n]}, Pen: draw.Centre, On: draw.Dimension})
	return append(d, more...)
}

// rings are circles close together, to crowd a page.
func rings(centre geom.Point, step float64, n int) (all []draw.Op) {
	for i := range n {
		all = append(all, draw.Arc{Arc: geom.Arc{Centre: centre, Radius: unit.Length(step * float64(i+1)), Sweep: unit.Turn}, Pen: draw.Narrow, On: draw.Construction})
	}
	return all
}

// cases are pieces of many kinds on ordinary paper.
func cases(t testing.TB) []laid {
	level, skew := unit.Angle(0), 23*unit.Degree
	inches := lay(t, "in inches, Letter", bySides(914.4, 609.6, 711.2), sheetLetter, nil)
	inches.f.Inches, inches.f.Figures = true, "feet and inches"
	wordy := lay(t, "many words", bySides(700, 500, 600), sheetA4, nil)
	wordy.f.Job = "Refit of the tidal boathouse: slip gate, inner leaf, lower brace, second fitting after the flood"
	wordy.f.Piece = "Brace plate between the second ledge and the hanging stile, seaward"
	wordy.f.Note = "for the printer in the loft: wrong on any other"
	wordy.f.Copies, wordy.f.Copy = 3, 1
	return []laid{
		lay(t, "one page", bySides(150, 90, 120), sheetA4, nil),
		lay(t, "gusset", bySides(600, 450, 450), sheetA4, nil),
		lay(t, "level", bySides(900, 640, 700), sheetA4, &level),
		lay(t, "skew", bySides(900, 640, 700), sheetA4, &skew),
		lay(t, "needle", bySides(2000, 1001, 1003), sheetA4, nil),
		lay(t, "A5", bySides(400, 300, 260), sheetA5, nil),
		lay(t, "A3", bySides(1500, 1300, 1200), sheetA3, nil),
		lay(t, "narrow strips", bySides(600, 450, 450), sheetNarrow, nil),
		lay(t, "hollow", geom.Polygon{at(0, 0), at(500, 0), at(500, 500), at(250, 120), at(0, 500)}, sheetA4, &level),
		inches,
		wordy,
	}
}

// crowded are pieces with more lines than room.
func crowded(t testing.TB) []laid {
	level := unit.Angle(0)
	all := []laid{
		lay(t, "rings of 30 on A5", bySides(400, 300, 260), sheetA5, &level, rings(at(150, 90), 30, 12)...),
		lay(t, "rings of 45 on A4", bySides(600, 450, 450), sheetA4, &level, rings(at(300, 90), 45, 12)...),
		lay(t, "small paper", bySides(200, 160, 160), paper("small", 80, 100, 10), nil),
	}
	for i := range all {
		all[i].hard = true
	}
	return all
}

// random are triangles of all shapes on papers, overlaps and turns of all kinds.
func random(t testing.TB, n int) (all []laid) {
	rnd := rand.New(rand.NewPCG(7, 8))
	for i := range n {
		w := 140 + 200*rnd.Float64()
		s := paper(fmt.Sprintf("paper %d", i), w, w*(1+0.5*rnd.Float64()), 4+16*rnd.Float64())
		a, b := 100+800*rnd.Float64(), 100+800*rnd.Float64()
		c := math.Abs(a-b) + (a+b-math.Abs(a-b))*(0.02+0.96*rnd.Float64())
		turn := unit.Angle(2 * math.Pi * rnd.Float64())
		l := lay(t, fmt.Sprintf("random %d: %.0f %.0f %.0f on %.0f by %.0f, overlap %.1f", i, a, b, c, s.Width, s.Height, s.Overlap), bySides(a, b, c), s, &turn)
		l.hard = true
		all = append(all, l)
	}
	return all
}

func pagesOf(c laid) []draw.Page {
	return slices.Collect(c.plan.Pages(c.drawing, c.f, lettering.Go()))
}

// back moves a page's operation to the plane of the sheets, by the page's own
// matrix and the plan's placement of the piece.
func back(plan paging.Plan, p draw.Page, q geom.Point) geom.Point {
	m := p.Places[0].Matrix
	x, y := float64(q.X)-m[4], float64(q.Y)-m[5]
	det := m[0]*m[3] - m[1]*m[2]
	return plan.Place.Apply(at((m[3]*x-m[2]*y)/det, (m[0]*y-m[1]*x)/det))
}

// strokesOf is the straight strokes and arcs of a page on a layer.
func strokesOf(ops []draw.Op, keep func(draw.Op) bool) (lines []geom.Line, arcs []geom.Arc) {
	for _, op := range ops {
		if !keep(op) {
			continue
		}
		switch o := op.(type) {
		case draw.Line:
			lines = append(lines, o.Line)
		case draw.Arc:
			arcs = append(arcs, o.Arc)
		case draw.Polyline:
			n := len(o.Points)
			for i := range n - 1 {
				lines = append(lines, geom.Line{From: o.Points[i], To: o.Points[i+1]})
			}
			if o.Closed {
				lines = append(lines, geom.Line{From: o.Points[n-1], To: o.Points[0]})
			}
		}
	}
	return lines, arcs
}

// offStrokes is the distance from a point to the nearest of the strokes, by
// plain formulas that the package under test does not contain.
func offStrokes(p geom.Point, lines []geom.Line, arcs []geom.Arc) float64 {
	best := math.Inf(1)
	for _, l := range lines {
		ax, ay := float64(l.From.X), float64(l.From.Y)
		dx, dy := float64(l.To.X)-ax, float64(l.To.Y)-ay
		px, py := float64(p.X)-ax, float64(p.Y)-ay
		t := 0.0
		if q := dx*dx + dy*dy; q > 0 {
			t = min(1, max(0, (px*dx+py*dy)/q))
		}
		best = min(best, math.Hypot(px-t*dx, py-t*dy))
	}
	for _, a := range arcs {
		d := unit.Angle(math.Atan2(float64(p.Y-a.Centre.Y), float64(p.X-a.Centre.X)))
		if a.Spans(d) {
			best = min(best, math.Abs(float64(p.Distance(a.Centre)-a.Radius)))
		}
		best = min(best, float64(p.Distance(a.At(0))), float64(p.Distance(a.At(1))))
	}
	return best
}

// sampled is points along an operation's stroke, about step apart.
func sampled(op draw.Op, step float64) (all []geom.Point) {
	lines, arcs := strokesOf([]draw.Op{op}, func(draw.Op) bool { return true })
	for _, l := range lines {
		n := int(float64(l.Length())/step) + 1
		for i := range n + 1 {
			all = append(all, l.At(float64(i)/float64(n)))
		}
	}
	for _, a := range arcs {
		n := int(float64(a.Radius)*math.Abs(float64(a.Sweep))/step) + 1
		for i := range n + 1 {
			all = append(all, a.At(float64(i)/float64(n)))
		}
	}
	return all
}
