package template

import (
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/place"
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
	place.Scene
	panes place.Index[pane]
	spare []candidate
}

// pane is what a page shows, and what is left of its sheet when it is cut.
type pane struct{ window, kept geom.Rect }

// about is the size of a label, so that few things are asked for each.
const about unit.Length = 40

// newScene is a scene over pages with these windows, of which so much is kept; with
// none where there are no pages.
func newScene(windows, kept []geom.Rect, r draw.Ruler) *scene {
	s := &scene{ruler: draw.Remembered(r), Scene: place.NewScene(about)}
	size := about
	for _, w := range windows {
		size = max(size, w.Width(), w.Height())
	}
	s.panes = place.NewIndex[pane](size)
	for i, w := range windows {
		s.panes.Put(w, pane{w, kept[i]})
	}
	return s
}

// add paints operations; words keep clear of them from then on.
func (s *scene) add(ops ...draw.Op) {
	for _, op := range ops {
		s.drawing = append(s.drawing, op)
		for _, k := range place.Strokes(op, about) {
			if op.Layer() == draw.Outline {
				k.Of = ofOutline
			}
			s.Draw(k)
		}
		if o, ok := op.(draw.Text); ok {
			b := o.Box(s.ruler)
			s.Block(b[:])
		}
	}
}

// home is how strictly words keep to one page.
type home uint8

const (
	alone home = iota // in one window and in no strip that a neighbour shows too
	seen              // the whole of it on every sheet that keeps any of it, so whichever lies on top
	whole             // wholly in one window
)

// housed says whether words lie in a window as strictly as asked.
func (s *scene) housed(r geom.Rect, h home) bool {
	in, hidden := false, false
	var met []geom.Rect
	s.panes.Every(r, func(p pane) bool {
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

// readable says whether marks keep clear of all words, those that they go with too.
func (s *scene) readable(marks []draw.Op, own geom.Polygon) bool {
	for _, m := range marks {
		for _, k := range place.Strokes(m, about) {
			near := toLine + k.Half
			clear := func(c geom.Polygon) bool { return c.ApartFrom(k.Line) >= near }
			if !clear(own) || !s.Boxes.Every(k.Bounds().Grow(near), clear) {
				return false
			}
		}
	}
	return true
}

// crosses is what a leader may run across.
type crosses uint8

const (
	nothing   crosses = iota
	fineLines         // construction and dimensions, no outline
	anything          // and it may begin off the pages
)

// ofOutline numbers the ink of the outlines (place.Stroke.Of); all other is 0.
const ofOutline = 1

// leads says whether a leader may run along l: it crosses no line, but for those
// that it starts on and that it may.
func (s *scene) leads(l geom.Line, over crosses) bool {
	if l.Length() <= start {
		return true
	}
	rest := geom.Line{From: l.At(float64(start / l.Length())), To: l.To}
	return s.Ink.Every(l.Bounds(), func(k place.Stroke) bool {
		return over == anything || !carriesOn(l, k) && (over == fineLines && k.Of != ofOutline || rest.Apart(k.Line) > 0)
	})
}

// start is how far a leader runs past the ink of the line that it starts on.
const start = 0.3

// carriesOn says whether a leader starts on a stroke and nearly in its direction: that
// would look longer than it is.
func carriesOn(l geom.Line, k place.Stroke) bool {
	const aside = 25 * unit.Degree
	if k.Length() == 0 || k.Distance(l.From) >= start {
		return false
	}
	return math.Abs(math.Remainder(float64(k.Direction()-l.Direction()), float64(unit.Turn/2))) < float64(aside)
}

// candidate is one way to place words: the words and the marks that go with them.
type candidate struct {
	text   draw.Text
	marks  []draw.Op
	leader geom.Line   // where the words stand away from what they name
	over   crosses     // by the leader
	apart  unit.Length // from other words; 0 is toWords
	cost   float64     // about the mm that the eye would have to look for it
	sure   bool        // only where it is seen whichever sheet lies on top
}

// crowded is what a leader costs more that crosses thin lines, as the last way out.
const crowded = 80

// inStrip is what it costs words to stand where a neighbour shows them too; and where one
// may lie over them: more than a leader across other lines.
var inStrip = [...]float64{seen: 30, whole: 30 + crowded}

// place puts down the cheapest candidate that is free, and says whether there was
// one. Candidates of equal cost are tried in their order.
func (s *scene) place(candidates []candidate) bool { return s.placeFor(candidates, math.Inf(1)) }

// placeFor is place for those that cost no more than most: what costs more may not
// have been made yet.
func (s *scene) placeFor(candidates []candidate, most float64) bool {
	homes := make([]home, len(candidates))
	return place.Cheapest(len(candidates), most, func(i int) float64 { return candidates[i].cost }, func(i int) (bool, float64) {
		c, h := candidates[i], homes[i]
		if s.put(c, h) {
			return true, 0
		}
		if h == whole || h == seen && c.sure {
			return false, place.Never
		}
		homes[i]++
		return false, c.cost + inStrip[homes[i]]
	})
}

// put puts a candidate down if it is free.
func (s *scene) put(c candidate, h home) bool {
	corners := c.text.Box(s.ruler)
	b := geom.Polygon(corners[:])
	if !s.housed(b.Bounds(), h) || !s.Free(b, place.Gaps{Ink: toLine, Words: max(c.apart, toWords)}, place.NoLine) {
		return false
	}
	marks := c.marks
	if c.leader != (geom.Line{}) {
		if !s.leads(c.leader, c.over) || c.over != anything && !s.housed(c.leader.Bounds(), whole) {
			return false
		}
		for _, m := range c.marks {
			if slices.ContainsFunc(place.Strokes(m, about), func(k place.Stroke) bool { return carriesOn(c.leader, k) }) {
				return false
			}
		}
		marks = append(slices.Clip(marks), draw.Line{Line: c.leader, Pen: draw.Thin, On: draw.Dimension})
	}
	if !s.readable(marks, b) {
		return false
	}
	s.add(marks...)
	s.add(c.text)
	return true
}
