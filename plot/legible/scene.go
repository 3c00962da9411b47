package legible

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
	ToWords unit.Length = 2   // between the boxes of words
	ToEdge  unit.Length = 1   // from words to the edge of a window: paging relies on nothing nearer
)

// Scene is what is drawn so far, filed by place.
type Scene struct {
	Ruler   draw.Ruler
	Drawing draw.Drawing
	place.Scene
	panes place.Index[pane]
	spare []Candidate
}

// pane is what a page shows, and what is left of its sheet when it is cut.
type pane struct{ window, kept geom.Rect }

// About is the size of a label, so that few things are asked for each.
const About unit.Length = 40

// NewScene is a scene over pages with these windows, of which so much is kept; with
// none where there are no pages.
func NewScene(windows, kept []geom.Rect, r draw.Ruler) *Scene {
	s := &Scene{Ruler: draw.Remembered(r), Scene: place.NewScene(About)}
	size := About
	for _, w := range windows {
		size = max(size, w.Width(), w.Height())
	}
	s.panes = place.NewIndex[pane](size)
	for i, w := range windows {
		s.panes.Put(w, pane{w, kept[i]})
	}
	return s
}

// Show lets words stand in a rectangle as well, of which all is kept.
func (s *Scene) Show(r geom.Rect) { s.panes.Put(r, pane{r, r}) }

// Only lets words stand in a rectangle and nowhere else.
func (s *Scene) Only(r geom.Rect) {
	s.panes = place.NewIndex[pane](About)
	s.Show(r)
}

// Bare is a scene over the same rectangles with nothing in it yet.
func (s *Scene) Bare() *Scene {
	b := NewScene(nil, nil, s.Ruler)
	b.panes = s.panes
	return b
}

// Add paints operations; words keep clear of them from then on.
func (s *Scene) Add(ops ...draw.Op) {
	for _, op := range ops {
		s.Drawing = append(s.Drawing, op)
		for _, k := range place.Strokes(op, About) {
			if op.Layer() == draw.Outline {
				k.Of = ofOutline
			}
			s.Draw(k)
		}
		if o, ok := op.(draw.Text); ok {
			b := o.Box(s.Ruler)
			s.Block(b[:])
		}
	}
}

// Home is how strictly words keep to one page.
type Home uint8

const (
	Alone Home = iota // in one window and in no strip that a neighbour shows too
	Seen              // the whole of it on every sheet that keeps any of it, so whichever lies on top
	Whole             // wholly in one window
)

// Housed says whether words lie in a window as strictly as asked.
func (s *Scene) Housed(r geom.Rect, h Home) bool { return s.housed(r, 0, h) }

// housed is Housed with so much about it that no sheet hides: tails and brackets reach past the box of words.
func (s *Scene) housed(r geom.Rect, tails unit.Length, h Home) bool {
	about := r.Grow(tails)
	in, hidden := false, false
	var met []geom.Rect
	s.panes.Every(about, func(p pane) bool {
		w := p.window
		if !w.Meets(about) || slices.Contains(met, w) {
			return true
		}
		met = append(met, w)
		g := w.Grow(-ToEdge)
		shown := g.Has(r.Min) && g.Has(r.Max)
		if h == Seen && p.kept.Grow(toLine).Meets(about) {
			k := p.kept.Grow(-toLine)
			hidden = hidden || !shown || !k.Has(about.Min) || !k.Has(about.Max)
		} else if h == Seen {
			return true
		}
		in = in || shown
		return true
	})
	return in && !hidden && (h != Alone || len(met) == 1)
}

// readable says whether marks keep clear of all words, those that they go with too.
func (s *Scene) readable(marks []draw.Op, own geom.Polygon) bool {
	for _, m := range marks {
		for _, k := range place.Strokes(m, About) {
			near := toLine + k.Half
			clear := func(c geom.Polygon) bool { return c.ApartFrom(k.Line) >= near }
			if !clear(own) || !s.Boxes.Every(k.Bounds().Grow(near), clear) {
				return false
			}
		}
	}
	return true
}

// tails of letters, and brackets, reach so far past the box of words.
const tails unit.Length = 0.5

// Crosses is what a leader may run across.
type Crosses uint8

const (
	Nothing   Crosses = iota
	FineLines         // construction and dimensions, no outline
	Anything          // and it may begin off the pages
)

// ofOutline numbers the ink of the outlines (place.Stroke.Of); all other is 0.
const ofOutline = 1

// leads says whether a leader may run along l: it crosses no line, but for those
// that it starts on and that it may.
func (s *Scene) leads(l geom.Line, over Crosses) bool {
	if l.Length() <= start {
		return true
	}
	rest := geom.Line{From: l.At(float64(start / l.Length())), To: l.To}
	return s.Ink.Every(l.Bounds(), func(k place.Stroke) bool {
		return over == Anything || !carriesOn(l, k) && (over == FineLines && k.Of != ofOutline || rest.Apart(k.Line) > 0)
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

// Candidate is one way to place words: the words and the marks that go with them.
type Candidate struct {
	Text   draw.Text
	Marks  []draw.Op
	leader geom.Line   // where the words stand away from what they name
	over   Crosses     // by the leader
	Apart  unit.Length // from other words; 0 is ToWords
	Cost   float64     // about the mm that the eye would have to look for it
	sure   bool        // only where it is seen whichever sheet lies on top
}

// Crowded is what a leader costs more that Crosses thin lines, as the last way out.
const Crowded = 80

// inStrip is what it costs words to stand where a neighbour shows them too; and where one
// may lie over them: more than a leader across other lines.
var inStrip = [...]float64{Seen: 30, Whole: 30 + Crowded}

// Place puts down the cheapest candidate that is free, and says whether there was
// one. Candidates of equal cost are tried in their order.
func (s *Scene) Place(candidates []Candidate) bool { return s.placeFor(candidates, math.Inf(1)) }

// placeFor is Place for those that cost no more than most: what costs more may not
// have been made yet.
func (s *Scene) placeFor(candidates []Candidate, most float64) bool {
	homes := make([]Home, len(candidates))
	return place.Cheapest(len(candidates), most, func(i int) float64 { return candidates[i].Cost }, func(i int) (bool, float64) {
		c, h := candidates[i], homes[i]
		if s.Put(c, h) {
			return true, 0
		}
		if h == Whole || h == Seen && c.sure {
			return false, place.Never
		}
		homes[i]++
		return false, c.Cost + inStrip[homes[i]]
	})
}

// PutLines puts lines down that stand together, if all of them are free.
func (s *Scene) PutLines(lines []draw.Text, h Home) bool {
	for _, w := range lines {
		corners := w.Box(s.Ruler)
		b := geom.Polygon(corners[:])
		if !s.housed(b.Bounds(), tails, h) || !s.Free(b, place.Gaps{Ink: toLine, Words: ToWords}, place.NoLine) {
			return false
		}
	}
	for _, w := range lines {
		s.Add(w)
	}
	return true
}

// Put puts a candidate down if it is free.
func (s *Scene) Put(c Candidate, h Home) bool {
	corners := c.Text.Box(s.Ruler)
	b := geom.Polygon(corners[:])
	if !s.housed(b.Bounds(), tails, h) || !s.Free(b, place.Gaps{Ink: toLine, Words: max(c.Apart, ToWords)}, place.NoLine) {
		return false
	}
	marks := c.Marks
	if c.leader != (geom.Line{}) {
		if !s.leads(c.leader, c.over) || c.over != Anything && !s.Housed(c.leader.Bounds(), Whole) {
			return false
		}
		for _, m := range c.Marks {
			if slices.ContainsFunc(place.Strokes(m, About), func(k place.Stroke) bool { return carriesOn(c.leader, k) }) {
				return false
			}
		}
		marks = append(slices.Clip(marks), draw.Line{Line: c.leader, Pen: draw.Thin, On: draw.Dimension})
	}
	if !s.readable(marks, b) {
		return false
	}
	s.Add(marks...)
	s.Add(c.Text)
	return true
}
