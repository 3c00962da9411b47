package setout

import (
	"fmt"
	"math"

	"trammel/geom"
	"trammel/geom/compare"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/sheet"
)

const (
	moveLong  unit.Length = 13 // of the arrow of a move, on paper: no scale
	crossHalf unit.Length = 1.6
	wedgeLong unit.Length = 3.2
	wedgeHalf unit.Length = 0.9
	// Beyond so many readings only those that are outside are on the plan.
	mostDrawn = 45
	// Up to so many each has its deviation beside its line.
	mostTold = 10
)

// planned is what the plan of the sheet shows: the pegs where they should stand
// and the lengths that were found, each with its deviation.
func (f Found) planned() planned {
	p := planned{Edge: f.Outline, North: f.North}
	for _, s := range f.Comparison.Standings {
		p.Pegs = append(p.Pegs, planPeg{Name: s.Name, At: s.Wanted, Role: Corner})
	}
	for _, r := range f.Comparison.Readings {
		m := r.Measurement
		if m.Kind != triangle.Distance || r.Inside && len(f.Comparison.Readings) > mostDrawn {
			continue
		}
		words := ""
		switch {
		case !r.Inside:
			words = f.Off(m, r.Off) + " outside"
		case len(f.Comparison.Readings) <= mostTold:
			words = f.Off(m, r.Off)
		}
		p.Sides = append(p.Sides, planSide{From: m.At[0], To: m.At[1], Words: words, Measured: !r.Inside})
	}
	return p
}

// shown are the pegs whose move the plan shows.
func (f Found) shown() (all []compare.Moved) {
	seen := map[geom.Name]bool{}
	for _, e := range f.Comparison.Explanations {
		if !e.Well && len(f.Comparison.Explanations) == 1 {
			continue // no move is told of it
		}
		for _, m := range e.Pegs {
			if !seen[m.Name] {
				seen[m.Name] = true
				all = append(all, m)
			}
		}
	}
	return all
}

// drawPlan draws the plan 1:scale.
func (f Found) drawPlan(scale int, r draw.Ruler) plan {
	v := f.planned().view(scale, r)
	v.scene, v.member = newScene(r), map[geom.Name]bool{}
	v.lastResort = true
	v.work()
	sure := len(f.Comparison.Wrong()) > 0
	for _, m := range f.shown() {
		f.move(v, m, sure)
	}
	v.labels()
	v.north()
	return plan{scale: scale, ops: v.ops, bounds: v.bounds}
}

// move draws where a peg stands, as a cross, and an arrow from there to its place.
// The direction is true; the distance would not be seen.
func (f Found) move(v *view, m compare.Moved, sure bool) {
	to, ok := v.at[m.Name]
	if !ok {
		return
	}
	way := m.Wanted.Minus(m.At)
	dir := unit.Angle(math.Atan2(float64(way.Y), float64(way.X)))
	from := to.Toward(dir+unit.Turn/2, moveLong)
	for _, d := range []unit.Angle{45 * unit.Degree, -45 * unit.Degree} {
		v.line(from.Toward(dir+d, crossHalf), from.Toward(dir+d, -crossHalf), draw.Wide, draw.Notes)
	}
	tip := to.Toward(dir, -cornerPeg-0.3)
	base := tip.Toward(dir, -wedgeLong)
	v.line(from, base, draw.Narrow, draw.Notes)
	v.solid(geom.Polygon{tip, base.Toward(dir+unit.Turn/4, wedgeHalf), base.Toward(dir-unit.Turn/4, wedgeHalf)}, draw.Notes)
	words := "move " + m.Distance(f.Figures.Style)
	if !sure {
		words = "perhaps " + m.Distance(f.Figures.Style)
	}
	l := label{words: words, height: draw.FigureHeight, bold: true, on: draw.Notes, anchor: from, clear: crossHalf}
	var places []spot
	wider := l.width(v.r) / 2
	for _, out := range []unit.Length{3.4, 5} {
		for _, a := range []unit.Angle{0, 45, -45, 90, -90, 135, -135, 180} {
			way := dir + unit.Turn/2 + a*unit.Degree
			places = append(places, spot{from.Toward(way, out).Plus(geom.Point{X: wider * unit.Length(math.Cos(float64(way)))}), 0})
		}
	}
	if !v.label(l, places) {
		v.lead(l, longReach, true)
	}
}

// planFigure is the plan at the largest standard scale that fits, with what its
// signs mean, from the top left down; long is the longer side of the layout on it.
func (f Found) planFigure(width, height unit.Length, r draw.Ruler) (d draw.Drawing, h, long unit.Length) {
	const below = 2*draw.NoteHeight + 7.5
	var p plan
	extent := f.planned().extent()
	for _, scale := range scales {
		k := unit.Length(1 / float64(scale))
		last := scale == scales[len(scales)-1]
		if !last && (extent.Width()*k > width || extent.Height()*k > height-below) {
			continue // before the labels are placed
		}
		p = f.drawPlan(scale, r)
		if p.bounds.Width() <= width && p.bounds.Height()+below <= height {
			break
		}
	}
	at := geom.Point{X: (width-p.bounds.Width())/2 - p.bounds.Min.X, Y: -p.bounds.Max.Y}
	d, h = sheet.Shift(p.ops, at), p.bounds.Height()+3
	words := "Beside a line: found less wanted."
	if len(f.Comparison.Readings) > mostTold {
		words = "Beside a line that is outside: found less wanted."
	}
	lines := []string{fmt.Sprintf("Plan 1:%d. %s", p.scale, words)}
	if len(f.shown()) > 0 {
		lines = append(lines, "A cross is where a peg stands, the arrow the way it is to be moved; its length has no scale.")
	}
	for _, words := range lines {
		for _, line := range sheet.Wrap(words, width, draw.NoteHeight, false, r) {
			h += draw.NoteHeight + 1.6
			d = append(d, sheet.Note(line, 0, -h+0.8, draw.Left))
		}
	}
	return d, h + 1, max(extent.Width(), extent.Height()) / unit.Length(p.scale)
}
