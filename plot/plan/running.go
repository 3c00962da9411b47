package plan

import (
	"cmp"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/place"
)

// Sizes of the running dimensions, on paper.
const (
	runLine    unit.Length = 9   // their line, below the baseline
	runFigures unit.Length = 4.5 // and the figures below it
	runBelow   unit.Length = 12  // their line, below pegs that lie under the baseline
)

// runSizes are the heights of the figures and the least distances between them,
// the first that all figures have room at: 2 mm between boxes, then between the
// figures themselves, which have nothing below their line.
var runSizes = []runSize{{draw.FigureHeight, 6.8}, {draw.NoteHeight, 5.4}, {draw.NoteHeight, 4.5}}

type runSize struct{ height, pitch unit.Length }

// runRoom is how wide the running figures may spread at least.
const runRoom unit.Length = 90

// runMark is one running dimension.
type runMark struct {
	x      unit.Length
	words  string
	name   geom.Name
	figure string
	given  bool
	first  int // the lower, the sooner it has its place
}

// marks are the running dimensions that there are.
func (pic picture) marks() []runMark {
	left, ok := pic.at[pic.Base[0]]
	right, also := pic.at[pic.Base[1]]
	if !ok || !also {
		return nil
	}
	var marks []runMark
	for i, peg := range pic.shown {
		if peg.Running == "" {
			continue
		}
		m := runMark{x: left.X + peg.Along*unit.Length(pic.k), words: string(peg.Name) + "  " + peg.Running, name: peg.Name, figure: peg.Running, given: peg.Given, first: len(pic.shown) + i}
		if !pic.ZeroFirst {
			m.x = right.X - peg.Along*unit.Length(pic.k)
		}
		if math.Abs(float64(peg.At.Y)) < onLine {
			m.first = i
		}
		if peg.Name == pic.Base[0] || peg.Name == pic.Base[1] {
			m.first = -1
		}
		marks = append(marks, m)
	}
	return marks
}

// settleRunning decides which marks there is room for, and how large their figures are.
func (v *view) settleRunning() {
	marks := v.marks()
	v.inRun = map[geom.Name]bool{}
	if len(marks) == 0 {
		return
	}
	if layRunning(v, marks) {
		return
	}
	size := runSizes[len(runSizes)-1]
	wide := max(v.Extent().Width()*unit.Length(v.k), runRoom, v.Wide)
	for _, s := range runSizes {
		if s.pitch*unit.Length(len(marks)-1) <= wide {
			size = s
			break
		}
	}
	if room := int(wide/size.pitch) + 1; len(marks) > room {
		slices.SortStableFunc(marks, func(a, b runMark) int { return cmp.Compare(a.first, b.first) })
		marks = marks[:room]
	}
	slices.SortStableFunc(marks, func(a, b runMark) int { return cmp.Compare(a.x, b.x) })
	for _, m := range marks {
		v.inRun[m.name] = true
	}
	v.dims, v.runSize = marks, size
}

// running draws one line from zero below the baseline and all pegs, a tick and a figure for
// every mark, the figures spread where they crowd.
func (v *view) running() {
	marks, height := v.dims, v.runSize.height
	if len(marks) == 0 {
		return
	}
	if v.flat {
		runningFlat(v)
		return
	}
	at := make([]unit.Length, len(marks))
	for i := range marks {
		at[i] = marks[i].x
	}
	spread(at, v.runSize.pitch)
	first, last := marks[0].x, marks[len(marks)-1].x
	line := v.runLevel(min(first, at[0]), max(last, at[len(at)-1]))
	v.line(geom.Point{X: first, Y: line}, geom.Point{X: last, Y: line}, draw.Narrow, draw.Dimension)
	zero := v.at[v.Base[0]].X
	if !v.ZeroFirst {
		zero = v.at[v.Base[1]].X
	}
	// The farther a figure stands from its mark, the lower, lest the ways to them run
	// into one another.
	below := runFigures
	for i, m := range marks {
		below = max(below, runFigures+min(12, unit.Length(math.Abs(float64(at[i]-m.x)))/2-3))
	}
	for i, m := range marks {
		v.line(geom.Point{X: m.x, Y: -cornerPeg - 1}, geom.Point{X: m.x, Y: line - 1}, draw.Narrow, draw.Dimension)
		if math.Abs(float64(m.x-zero)) < onLine {
			v.circle(geom.Point{X: m.x, Y: line}, 0.8, draw.Narrow, draw.Dimension)
		} else {
			// The oblique stroke of ISO 129.
			v.line(geom.Point{X: m.x - 1, Y: line - 1}, geom.Point{X: m.x + 1, Y: line + 1}, draw.Narrow, draw.Dimension)
		}
		y := line - below
		v.line(geom.Point{X: m.x, Y: line - 1}, geom.Point{X: at[i], Y: y + 1}, draw.Narrow, draw.Dimension)
		v.text(draw.Text{At: geom.Point{X: at[i] + height/2, Y: y}, Height: height, Turn: unit.Turn / 4, Align: draw.Right, Words: m.words, On: draw.Dimension})
	}
}

// runLevel is the height of the running dimensions' line: close below the baseline where
// nothing else is there.
func (c *scene) runLevel(first, last unit.Length) unit.Length {
	low := unit.Length(0)
	strip := geom.Rect{Min: geom.Point{X: first - 2, Y: c.bounds.Min.Y}, Max: geom.Point{X: last + 2, Y: -cornerPeg - 0.5}}
	if strip.Min.Y < strip.Max.Y {
		c.Ink.Every(strip, func(s place.Stroke) bool {
			if strip.Meets(s.Bounds()) {
				low = min(low, s.From.Y, s.To.Y)
			}
			return true
		})
	}
	if low >= -tick {
		return -runLine
	}
	return low - runBelow
}

// spread moves sorted places apart until no two are nearer than pitch, each as
// little as can be: groups that touch share their shift (pool adjacent violators).
func spread(at []unit.Length, pitch unit.Length) {
	type group struct {
		sum   unit.Length // of the places, each less its rank times pitch
		first int
		n     int
	}
	var gs []group
	mean := func(g group) unit.Length { return g.sum / unit.Length(g.n) }
	for i, x := range at {
		gs = append(gs, group{x - unit.Length(i)*pitch, i, 1})
		for len(gs) > 1 && mean(gs[len(gs)-2]) > mean(gs[len(gs)-1]) {
			a, b := gs[len(gs)-2], gs[len(gs)-1]
			gs = append(gs[:len(gs)-2], group{a.sum + b.sum, a.first, a.n + b.n})
		}
	}
	for _, g := range gs {
		for i := g.first; i < g.first+g.n; i++ {
			if g.n > 1 {
				at[i] = mean(g) + unit.Length(i)*pitch
			}
		}
	}
}
