package template

import (
	"slices"

	"trammel/geom"
	"trammel/geom/shape"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/legible"
	"trammel/plot/place"
)

// figureShape writes what is done to the piece: the allowance of each edge, each
// corner, each hole with its two distances, grain and face.
func (f *face) figureShape() {
	if !f.piece.shaped() {
		return
	}
	for i := range f.piece.Shape.Sides {
		f.figureAllowance(i)
	}
	for _, v := range f.piece.Shape.Corners {
		f.figureTreatment(v)
	}
	for _, b := range f.piece.Shape.Bores {
		f.figureBore(b)
	}
	f.figureGrain()
	saying{f}.sayHand()
}

func (f *face) figureAllowance(i int) {
	s := f.piece.Shape.Sides[i]
	say := f.piece.besideFigure(i, f.style)
	if say == "" {
		return
	}
	w := f.style.note(say)
	out, in := f.sideLine(i, outer), f.sideLine(i, inner)
	outside, inside := 0.0, 10.0
	if s.Allow > 0 { // beside the finished edge
		outside, inside = inside, outside
	}
	beside := legible.Try{Least: 0, Make: func(all []legible.Candidate) []legible.Candidate {
		for k := range 17 {
			t := 0.25 + 0.05*legible.EitherSide(k)
			if t < 0.05 || t > 0.95 {
				continue
			}
			for _, t := range []float64{t, 1 - t} {
				all = append(all,
					legible.Candidate{Text: legible.BesideLine(out, t, -1, draw.Wide.Width, w), Cost: float64(k) + outside},
					legible.Candidate{Text: legible.BesideLine(in, t, 1, draw.Wide.Width, w), Cost: float64(k) + inside})
			}
		}
		return all
	}}
	led := f.scene.Led(w, legible.Anchor{Point: out.At(0.3), Best: out.Direction() - unit.Turn/4}, 25)
	f.putNear(f.style.note(s.Name+" "+w.Say), out.At(0.5), beside, led, led.Crossing(legible.FineLines, legible.Crowded))
}

func (f *face) figureTreatment(v shape.Vertex) {
	at, say := v.Finished, f.style.says().Templates().Corner(v, f.style.Figures)
	switch {
	case v.Cut != nil && !(v.Allow < 0 && v.Finished != nil):
		at = v.Cut // the outermost, where a leader crosses nothing
	case v.Do == shape.Mitre && v.Cut == nil:
		at = geom.Line{From: v.At, To: v.At}
	}
	if at == nil || say == "" {
		return
	}
	from := f.plan.Place.Apply(at.At(0.5))
	out := geom.Line{From: f.outline.Bounds().Centre(), To: from}.Direction()
	w := f.style.note(say)
	led := f.scene.Led(w, legible.Anchor{Point: from, Best: out}, 0)
	f.put(say, led, led.Crossing(legible.Anything, legible.Crowded), f.style.note(string(v.Name)+" "+say).Named(from))
}

func (f *face) figureBore(b shape.Bore) {
	c := f.plan.Place.Arc(b.Circle)
	hole := f.style.note("Ø " + f.style.Figures.Length(b.Hole.Diameter))
	var rim []legible.Try
	for k := range 8 {
		a := unit.Turn/16 + unit.Turn/8*unit.Angle(k)
		rim = append(rim, f.scene.Led(hole, legible.Anchor{Point: c.Centre.Toward(a, c.Radius+draw.Wide.Width/2), Best: a}, float64(k)/4))
	}
	f.putNear(f.style.note("hole "+hole.Say), c.Centre, rim...)
	for _, way := range f.ways(b) {
		w := f.style.note(way.say)
		var places []legible.Try
		if way.along { // at its end on the edge, inside
			foot := f.plan.Place.Apply(b.Foot)
			places = append(places, f.scene.Led(w, legible.Anchor{Point: foot, Best: geom.Line{From: foot, To: c.Centre}.Direction()}, 0))
		} else {
			if f.scene.Width(w) <= way.line.Length() {
				places = append(places, legible.Try{Least: 0, Make: func(all []legible.Candidate) []legible.Candidate {
					for k := range 19 {
						for _, hand := range []int{1, -1} {
							all = append(all, legible.Candidate{Text: legible.BesideLine(way.line, 0.5+0.05*legible.EitherSide(k), hand, draw.Thin.Width, w), Cost: float64(k)})
						}
					}
					return all
				}})
			}
			for _, t := range []float64{0.5, 0.3, 0.7} {
				places = append(places, f.scene.Led(w, legible.Anchor{Point: way.line.At(t), Best: way.line.Direction() + unit.Turn/4}, 15))
			}
		}
		for _, led := range slices.Clone(places) {
			places = append(places, led.Crossing(legible.Anything, 60))
		}
		f.put(w.Say, append(places, f.style.note(way.say+" to "+hole.Say).Named(c.Centre))...)
	}
}

// figureGrain draws an arrow parallel to the edge that the grain runs along, inside
// the piece.
func (f *face) figureGrain() {
	g := f.piece.Grain
	if g == ([2]geom.Name{}) {
		return
	}
	m := f.plan.Place
	way := geom.Line{From: m.Apply(f.corner(g[0])), To: m.Apply(f.corner(g[1]))}.Direction()
	w := f.style.note("grain")
	var all []legible.Candidate
	const longest = 60
	for _, long := range []unit.Length{longest, 40, 25, 17, 12} {
		for _, c := range f.inner(long / 2) {
			line := geom.Line{From: c.at.Toward(way, -long/2), To: c.at.Toward(way, long/2)}
			if !within(f, line, 3) {
				continue
			}
			for _, hand := range []int{1, -1} {
				all = append(all, legible.Candidate{
					Text: legible.BesideLine(line, 0.5, hand, draw.Narrow.Width, w), Marks: arrow(line),
					Cost: c.cost + float64(longest-long),
				})
			}
		}
	}
	f.putNear(f.style.note("grain along "+string(g[0]+g[1])), f.middle(), legible.Made(all))
}

// arrow is a line with a wedge at both ends: grain runs either way.
func arrow(l geom.Line) []draw.Op {
	const long, half unit.Length = 4, 0.8
	a := l.Direction()
	head := func(tip geom.Point, a unit.Angle) draw.Op {
		back := tip.Toward(a, -long)
		return draw.Polyline{Points: []geom.Point{tip, back.Toward(a+unit.Turn/4, half), back.Toward(a-unit.Turn/4, half)}, Closed: true, Solid: true, On: draw.Dimension}
	}
	return []draw.Op{
		draw.Line{Line: geom.Line{From: l.From.Toward(a, long/2), To: l.To.Toward(a, -long/2)}, Pen: draw.Narrow, On: draw.Dimension},
		head(l.To, a), head(l.From, a+unit.Turn/2),
	}
}

// within says whether a line lies in the piece, so far from its outlines, within
// one page and across no other line.
func within(f *face, l geom.Line, clear unit.Length) bool {
	s, m := f.piece.Shape, f.plan.Place
	for _, c := range []geom.Contour{m.Contour(s.Finished), m.Contour(s.Cut)} {
		for _, t := range []float64{0, 0.25, 0.5, 0.75, 1} {
			if p := l.At(t); !c.Has(p) || c.Distance(p) < clear {
				return false
			}
		}
	}
	r := geom.RectOf(l.From, l.To)
	if !f.scene.Housed(r, legible.Whole) {
		return false
	}
	return f.scene.Ink.Every(r.Grow(clear), func(k place.Stroke) bool { return l.Apart(k.Line) > 1+k.Half })
}
