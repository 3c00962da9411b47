package template

import (
	"container/heap"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// Distances that keep a page legible.
const (
	toLine  unit.Length = 0.8 // from the box of words to the ink of a line
	toWords unit.Length = 2   // between the boxes of words
	toEdge  unit.Length = 1   // from words to the edge of a window: paging relies on nothing nearer
)

// scene is what is drawn so far, filed by place.
type scene struct {
	ruler   draw.Ruler
	drawing draw.Drawing
	strokes field[stroke]
	words   field[box]
	panes   field[pane]
}

// pane is what a page shows, and what is left of its sheet when it is cut.
type pane struct{ window, kept geom.Rect }

// stroke is a straight bit of a line's ink, half its width to each side.
type stroke struct {
	geom.Line
	half unit.Length
}

// about is the size of a label, so that few things are asked for each.
const about unit.Length = 40

// newScene is a scene over pages with these windows, of which so much is kept; with
// none where there are no pages.
func newScene(windows, kept []geom.Rect, r draw.Ruler) *scene {
	s := &scene{ruler: draw.Remembered(r), strokes: newField[stroke](about), words: newField[box](about)}
	size := about
	for _, w := range windows {
		size = max(size, w.Width(), w.Height())
	}
	s.panes = newField[pane](size)
	for i, w := range windows {
		s.panes.put(w, pane{w, kept[i]})
	}
	return s
}

// add paints operations; words keep clear of them from then on.
func (s *scene) add(ops ...draw.Op) {
	for _, op := range ops {
		s.drawing = append(s.drawing, op)
		for _, k := range strokesOf(op) {
			s.strokes.put(geom.RectOf(k.From, k.To), k)
		}
		if o, ok := op.(draw.Text); ok {
			b := box(o.Box(s.ruler))
			s.words.put(b.bounds(), b)
		}
	}
}

// sag is how far the chords that stand for an arc may lie from it; words keep
// that much more away.
const sag unit.Length = 0.05

// strokesOf cuts an operation into straight bits no longer than about, so that a
// side of 15 m is not looked at everywhere in its bounds.
func strokesOf(op draw.Op) []stroke {
	var all []stroke
	line := func(l geom.Line, half unit.Length) {
		n := max(1, int(math.Ceil(float64(l.Length()/about))))
		for i := range n {
			all = append(all, stroke{geom.Line{From: l.At(float64(i) / float64(n)), To: l.At(float64(i+1) / float64(n))}, half})
		}
	}
	switch o := op.(type) {
	case draw.Line:
		line(o.Line, o.Pen.Width/2)
	case draw.Arc:
		if o.Radius <= 0 {
			break
		}
		step := 2 * math.Acos(1-math.Min(1, float64(sag/o.Radius)))
		n := max(1, int(math.Ceil(math.Abs(float64(o.Sweep))/step)))
		for i := range n {
			line(geom.Line{From: o.At(float64(i) / float64(n)), To: o.At(float64(i+1) / float64(n))}, o.Pen.Width/2+sag)
		}
	case draw.Path:
		for _, part := range o.Parts() {
			all = append(all, strokesOf(part)...)
		}
	case draw.Polyline:
		for i := range o.Points {
			if i < len(o.Points)-1 || o.Closed || o.Solid {
				line(geom.Polygon(o.Points).Edge(i), o.Pen.Width/2)
			}
		}
	}
	return all
}

// home is how strictly words keep to one page.
type home uint8

const (
	alone home = iota // in one window and in no strip that a neighbour shows too
	seen              // the whole of it on every sheet that keeps any of it, so whichever lies on top
	whole             // wholly in one window
)

// housed says whether a box lies in a window as strictly as asked.
func (s *scene) housed(b box, h home) bool {
	r := b.bounds()
	in, hidden := false, false
	var met []geom.Rect
	s.panes.every(r, func(p pane) bool {
		w := p.window
		if !w.Meets(r) || slices.Contains(met, w) {
			return true
		}
		met = append(met, w)
		g := w.Grow(-toEdge)
		shown := g.Has(r.Min) && g.Has(r.Max)
		if h == seen && p.kept.Grow(toLine).Meets(r) {
			k := p.kept.Grow(-toLine)
			hidden = hidden || !shown || !k.Has(r.Min) || !k.Has(r.Max)
		} else if h == seen {
			return true
		}
		in = in || shown
		return true
	})
	return in && !hidden && (h != alone || len(met) == 1)
}

// free says whether a box keeps its distance from lines, and so far from other words.
func (s *scene) free(b box, apart unit.Length) bool {
	r := b.bounds()
	return s.strokes.every(r.Grow(toWords), func(k stroke) bool {
		near := toLine + k.half
		return !geom.RectOf(k.From, k.To).Grow(near).Meets(r) || b.toLine(k.Line) >= near
	}) && s.words.every(r.Grow(apart), func(c box) bool {
		return !c.bounds().Grow(apart).Meets(r) || b.toBox(c) >= apart
	})
}

// readable says whether marks keep clear of all words.
func (s *scene) readable(marks []draw.Op) bool {
	for _, m := range marks {
		for _, k := range strokesOf(m) {
			near := toLine + k.half
			if !s.words.every(geom.RectOf(k.From, k.To).Grow(near), func(c box) bool { return c.toLine(k.Line) >= near }) {
				return false
			}
		}
	}
	return true
}

// leads says whether a leader may run along l: it crosses no line, but for those
// that it starts on.
func (s *scene) leads(l geom.Line) bool {
	const start = 0.3 // past the ink of the line that it starts on
	if l.Length() <= start {
		return true
	}
	rest := geom.Line{From: l.At(float64(start / l.Length())), To: l.To}
	return s.strokes.every(geom.RectOf(rest.From, rest.To), func(k stroke) bool { return lineToLine(rest, k.Line) > 0 })
}

// candidate is one way to place words: the words and the marks that go with them.
type candidate struct {
	text   draw.Text
	marks  []draw.Op
	leader *geom.Line  // where the words stand away from what they name
	over   bool        // the leader may cross lines
	apart  unit.Length // from other words; 0 is toWords
	cost   float64     // about the mm that the eye would have to look for it
}

// inStrip is what it costs words to stand where a neighbour shows them too, and again
// where one may lie over them.
const inStrip = 30

// place puts down the cheapest candidate that is free, and says whether there was
// one. Candidates of equal cost are tried in their order.
func (s *scene) place(candidates []candidate) bool { return s.placeFor(candidates, math.Inf(1)) }

// placeFor is place for those that cost no more than most: what costs more may not
// have been made yet.
func (s *scene) placeFor(candidates []candidate, most float64) bool {
	all := make(tries, len(candidates))
	for i, c := range candidates {
		all[i] = try{i, alone, c.cost}
	}
	// Most often one of the first is free: a heap, since sorting them all took half
	// of the time that a piece takes.
	heap.Init(&all)
	for len(all) > 0 && all[0].cost <= most {
		t := all[0]
		if s.put(candidates[t.at], t.home) {
			return true
		}
		if t.home == whole {
			heap.Pop(&all)
			continue
		}
		all[0] = try{t.at, t.home + 1, t.cost + inStrip}
		heap.Fix(&all, 0)
	}
	return false
}

// try is a candidate in one way.
type try struct {
	at   int
	home home
	cost float64
}

// tries are a heap, the next to be tried on top.
type tries []try

func (t tries) Len() int      { return len(t) }
func (t tries) Swap(i, j int) { t[i], t[j] = t[j], t[i] }
func (t tries) Less(i, j int) bool {
	if t[i].cost != t[j].cost {
		return t[i].cost < t[j].cost
	}
	return t[i].at < t[j].at // each is in the heap but once
}
func (t *tries) Push(x any) { *t = append(*t, x.(try)) }
func (t *tries) Pop() any {
	last := (*t)[len(*t)-1]
	*t = (*t)[:len(*t)-1]
	return last
}

// put puts a candidate down if it is free.
func (s *scene) put(c candidate, h home) bool {
	b := box(c.text.Box(s.ruler))
	if !s.housed(b, h) || !s.free(b, max(c.apart, toWords)) {
		return false
	}
	marks := c.marks
	if c.leader != nil {
		if !c.over && !s.leads(*c.leader) {
			return false
		}
		marks = append(slices.Clip(marks), draw.Line{Line: *c.leader, Pen: draw.Fine, On: draw.Dimension})
	}
	if !s.readable(marks) {
		return false
	}
	for _, m := range marks {
		for _, k := range strokesOf(m) {
			if b.toLine(k.Line) < toLine+k.half {
				return false
			}
		}
	}
	s.add(marks...)
	s.add(c.text)
	return true
}
