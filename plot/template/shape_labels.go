package template

import (
	"trammel/geom"
	"trammel/geom/shape"
	"trammel/geom/unit"
	"trammel/plot/draw"
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
	f.sayHand()
	f.sayFace()
}

func (f *face) figureAllowance(i int) {
	s := f.piece.Shape.Sides[i]
	say := f.piece.besideFigure(i, f.style)
	if say == "" {
		return
	}
	w := label{say, draw.NoteHeight, false}
	out, in := f.sideLine(i, outer), f.sideLine(i, inner)
	outside, inside := 0.0, 10.0
	if s.Allow > 0 { // beside the finished edge
		outside, inside = inside, outside
	}
	all := f.scene.spare[:0]
	for k := range 17 {
		t := 0.25 + 0.05*eitherSide(k)
		if t < 0.05 || t > 0.95 {
			continue
		}
		for _, t := range []float64{t, 1 - t} {
			all = append(all,
				candidate{text: besideLine(out, t, -1, draw.Wide.Width, w), cost: float64(k) + outside},
				candidate{text: besideLine(in, t, 1, draw.Wide.Width, w), cost: float64(k) + inside})
		}
	}
	all = f.scene.led(all, w, anchor{out.At(0.3), out.Direction() - unit.Turn/4}, 25)
	f.putNear(all, s.Name+" "+w.say, out.At(0.5))
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
	w := label{say, draw.NoteHeight, false}
	all := f.scene.led(nil, w, anchor{from, out}, 0)
	f.put(all, func() []candidate { return append(crossing(all, 0), named(string(v.Name)+" "+say, from)...) })
}

func (f *face) figureBore(b shape.Bore) {
	c := f.plan.Place.Arc(b.Circle)
	hole := label{"Ø " + f.style.Figures.Length(b.Hole.Diameter), draw.NoteHeight, false}
	all := f.scene.spare[:0]
	for k := range 8 {
		a := unit.Turn/16 + unit.Turn/8*unit.Angle(k)
		all = f.scene.led(all, hole, anchor{c.Centre.Toward(a, c.Radius+draw.Wide.Width/2), a}, float64(k)/4)
	}
	f.putNear(all, "hole "+hole.say, c.Centre)
	for _, way := range f.ways(b) {
		w := label{way.say, draw.NoteHeight, false}
		all := f.scene.spare[:0]
		if way.along { // at its end on the edge, inside
			foot := f.plan.Place.Apply(b.Foot)
			all = f.scene.led(nil, w, anchor{foot, geom.Line{From: foot, To: c.Centre}.Direction()}, 0)
		} else {
			if f.scene.width(w) <= way.line.Length() {
				for k := range 19 {
					for _, hand := range []int{1, -1} {
						all = append(all, candidate{text: besideLine(way.line, 0.5+0.05*eitherSide(k), hand, draw.Fine.Width, w), cost: float64(k)})
					}
				}
			}
			for _, t := range []float64{0.5, 0.3, 0.7} {
				all = f.scene.led(all, w, anchor{way.line.At(t), way.line.Direction() + unit.Turn/4}, 15)
			}
		}
		f.put(all, func() []candidate {
			return append(crossing(all, 60), named(way.say+" to "+hole.say, c.Centre)...)
		})
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
	w := label{"grain", draw.NoteHeight, false}
	all := f.scene.spare[:0]
	const longest = 60
	for _, long := range []unit.Length{longest, 40, 25, 17, 12} {
		for _, c := range f.inner(long / 2) {
			line := geom.Line{From: c.at.Toward(way, -long/2), To: c.at.Toward(way, long/2)}
			if !f.within(line, 3) {
				continue
			}
			for _, hand := range []int{1, -1} {
				all = append(all, candidate{
					text: besideLine(line, 0.5, hand, draw.Narrow.Width, w), marks: arrow(line),
					cost: c.cost + float64(longest-long),
				})
			}
		}
	}
	f.putNear(all, "grain along "+string(g[0]+g[1]), f.middle())
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

// sayFace says which side of the material is up.
func (f *face) sayFace() {
	if f.piece.Face == "" {
		return
	}
	var all []candidate
	for _, h := range []unit.Length{draw.TitleHeight, draw.FigureHeight, draw.NoteHeight} {
		w := label{f.piece.Face, h, true}
		for _, c := range f.inner(h) {
			all = append(all, candidate{text: w.at(c.at, 0), cost: c.cost + 10*float64(draw.TitleHeight-h)})
		}
	}
	f.putNear(all, f.piece.Face+" ", f.middle())
}

// sayHand says on every page which hand the piece is of, in the piece where there
// is room.
func (f *face) sayHand() {
	if f.piece.Hand == "" {
		return
	}
	c := f.plan.Place.Contour(f.piece.Shape.Finished)
	for _, cell := range f.plan.Cells {
		var all []candidate
		at := cell.Window
		step := max(4, at.Width()/40, at.Height()/40)
		for x := at.Min.X + step/2; x < at.Max.X; x += step {
			for y := at.Min.Y + step/2; y < at.Max.Y; y += step {
				p := geom.Point{X: x, Y: y}
				cost := float64(p.Distance(at.Centre())) / 4
				if !c.Has(p) {
					cost += 30
				}
				for _, h := range []unit.Length{draw.TitleHeight, draw.FigureHeight, draw.NoteHeight} {
					w := label{f.piece.Hand, h, true}
					all = append(all, candidate{text: w.at(p, 0), cost: cost + 10*float64(draw.TitleHeight-h)})
				}
			}
		}
		f.put(all, func() []candidate { return nil })
	}
}

// within says whether a line lies in the piece, so far from its outlines, within
// one page and across no other line.
func (f *face) within(l geom.Line, clear unit.Length) bool {
	s, m := f.piece.Shape, f.plan.Place
	for _, c := range []geom.Contour{m.Contour(s.Finished), m.Contour(s.Cut)} {
		for _, t := range []float64{0, 0.25, 0.5, 0.75, 1} {
			if p := l.At(t); !c.Has(p) || c.Distance(p) < clear {
				return false
			}
		}
	}
	r := geom.RectOf(l.From, l.To)
	if !f.scene.housed(r, whole) {
		return false
	}
	return f.scene.Ink.Every(r.Grow(clear), func(k place.Stroke) bool { return l.Apart(k.Line) > 1+k.Half })
}
