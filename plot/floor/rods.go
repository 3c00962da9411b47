package floor

import (
	"fmt"
	"math"

	"trammel/geom"
	"trammel/geom/tiling"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/sheet"
)

// Limits of a rod: how long it is, how wide its strips are, mm.
const (
	longestRod unit.Length = 2000
	stripWide  unit.Length = 15
)

// rod is one gauge: tile and joint in turn, with the offset of the next course where there is
// one.
type rod struct {
	name        string
	tile, pitch unit.Length
	step        unit.Length
}

// gauges are the rods of a sheet.
type gauges struct{ Sheet }

func (s gauges) rods() []rod {
	g := s.Plan.Grid
	all := []rod{{"A", g.Along, g.Along + g.Joint, 0}}
	if g.Pattern == tiling.Brick {
		all[0].step = (g.Along + g.Joint) * unit.Length(g.Step) / unit.Length(g.Of)
	}
	if g.Across != g.Along {
		all = append(all, rod{"B", g.Across, g.Across + g.Joint, 0})
	}
	return all
}

// rodPages are the strips of the rods at true scale.
func (s gauges) rodPages(area geom.Rect) (pages []draw.Drawing) {
	long := unit.Length(math.Floor(float64(area.Height()-barRoom)/10)) * 10
	total := min(longestRod, s.laid().Long)
	x := area.Max.X // full: a new page
	for _, r := range s.rods() {
		n := int(math.Ceil(float64(total / long)))
		for i := range n {
			if x+stripWide > area.Max.X || len(pages) == 0 {
				pages, x = append(pages, bars(area, s.inches())), area.Min.X
			}
			last := len(pages) - 1
			pages[last] = append(pages[last], r.strip(geom.Point{X: x, Y: area.Min.Y + barRoom}, long, i, n)...)
			x += stripWide
		}
		x += 4
	}
	return pages
}

// strip i of n of a rod, standing on a place.
func (r rod) strip(foot geom.Point, long unit.Length, i, n int) draw.Drawing {
	frame := geom.Rect{Min: foot, Max: foot.Plus(geom.Point{X: stripWide, Y: long})}.Corners()
	d := draw.Drawing{draw.Polyline{Points: frame[:], Closed: true, Pen: draw.Trim, On: draw.Outline}}
	from := unit.Length(i) * long
	w := writing{foot: foot, long: long}
	tick := func(at, wide unit.Length, pen draw.Pen) {
		if at >= from-1e-9 && at <= from+long+1e-9 {
			y := foot.Y + at - from
			d = append(d, draw.Line{Line: geom.Line{From: geom.Point{X: foot.X, Y: y}, To: geom.Point{X: foot.X + wide, Y: y}}, Pen: pen, On: draw.Marks})
			w.taken = append(w.taken, [2]unit.Length{at - from - 0.3, at - from + 0.3})
		}
	}
	first := max(int(from/r.pitch)-1, 0)
	marks := func(do func(k int, start unit.Length)) {
		for k := first; unit.Length(k)*r.pitch <= from+long; k++ {
			do(k, unit.Length(k)*r.pitch)
		}
	}
	marks(func(k int, start unit.Length) {
		wide, pen := stripWide*0.6, draw.Narrow
		if (k+1)%3 == 0 {
			wide, pen = stripWide, draw.Pen{Width: 0.5}
		}
		tick(start, stripWide*0.45, draw.Narrow)
		tick(start+r.tile, wide, pen)
		if r.step > 0 {
			tick(start+r.step, stripWide*0.2, draw.Thin)
		}
	})
	marks(func(k int, start unit.Length) {
		if at := start + r.tile - from; at >= 0 && at < long {
			w.write(draw.Text{Height: draw.FigureHeight, Bold: (k+1)%3 == 0, Words: fmt.Sprint(k + 1)}, at-draw.FigureHeight-0.9, at+r.pitch-r.tile+0.8)
		}
	})
	if i == 0 {
		w.write(draw.Text{Height: draw.FigureHeight, Bold: true, Words: "0"}, 1, 1)
		w.write(draw.Text{Height: draw.NoteHeight, Words: r.name}, 6, 6)
		d = append(d, arrow(foot.Plus(geom.Point{X: stripWide - 2.5, Y: 1}), 9)...)
	} else {
		w.write(draw.Text{Height: draw.NoteHeight, Words: r.join(i)}, 1.5, 1.5)
	}
	if i+1 < n {
		w.write(draw.Text{Height: draw.NoteHeight, Words: r.join(i + 1)}, long-1.5-draw.NoteHeight, long)
	}
	return append(d, w.out...)
}

// join is what both strips bear that meet, the n-th of them and the next.
func (r rod) join(n int) string { return fmt.Sprintf("%s%d|%s%d", r.name, n, r.name, n+1) }

// writing is words on a strip, each where no mark runs and no other stands.
type writing struct {
	foot  geom.Point
	long  unit.Length
	taken [][2]unit.Length // above the foot
	out   draw.Drawing
}

// write words as near as can be at or below one height above the foot, or at or above another, whichever is nearer.
func (w *writing) write(t draw.Text, below, above unit.Length) {
	free := func(y unit.Length) bool {
		if y < 0.8 || y+t.Height > w.long-0.8 {
			return false
		}
		for _, o := range w.taken {
			if y < o[1]+0.3 && y+t.Height > o[0]-0.3 {
				return false
			}
		}
		return true
	}
	for off := unit.Length(0); off < w.long; off += 0.5 {
		for _, y := range []unit.Length{below - off, above + off} {
			if !free(y) {
				continue
			}
			w.taken = append(w.taken, [2]unit.Length{y, y + t.Height})
			t.At, t.Align, t.On = w.foot.Plus(geom.Point{X: stripWide * 0.5, Y: y}), draw.Middle, draw.Notes
			w.out = append(w.out, t)
			return
		}
	}
}

// barRoom is the room for the check bars below, mm.
const barRoom unit.Length = 12

// bars to measure the print by: 100 mm across and along, or 4 in.
func bars(area geom.Rect, inches bool) draw.Drawing {
	long, words := 100., "100 mm"
	if inches {
		long, words = 4*25.4, "4 in"
	}
	foot := area.Min.Plus(geom.Point{X: 0, Y: 4})
	d := draw.Drawing{}
	bar := func(from, way geom.Point) {
		to := from.Plus(way.Times(long))
		square := geom.Point{X: -way.Y, Y: way.X}.Times(2)
		d = append(d, draw.Line{Line: geom.Line{From: from, To: to}, Pen: draw.Narrow, On: draw.Furniture})
		for _, p := range []geom.Point{from, to} {
			d = append(d, draw.Line{Line: geom.Line{From: p.Minus(square), To: p.Plus(square)}, Pen: draw.Narrow, On: draw.Furniture})
		}
	}
	bar(foot, geom.Point{X: 1})
	d = append(d, sheet.Note(words, foot.X+unit.Length(long)+3, foot.Y-1.2, draw.Left))
	bar(geom.Point{X: area.Max.X - 3, Y: area.Min.Y + barRoom}, geom.Point{Y: 1})
	return d
}
