package template

import (
	"slices"

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
	w := f.note(say)
	out, in := f.sideLine(i, outer), f.sideLine(i, inner)
	outside, inside := 0.0, 10.0
	if s.Allow > 0 { // beside the finished edge
		outside, inside = inside, outside
	}
	beside := try{0, func() (all []candidate) {
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
		return all
	}}
	led := f.scene.led(w, anchor{Point: out.At(0.3), toward: out.Direction() - unit.Turn/4}, 25)
	f.putNear(f.note(s.Name+" "+w.say), out.At(0.5), beside, led, led.crossing(fineLines, crowded))
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
	w := f.note(say)
	led := f.scene.led(w, anchor{Point: from, toward: out}, 0)
	f.put(say, led, led.crossing(anything, crowded), f.note(string(v.Name)+" "+say).named(from))
}

func (f *face) figureBore(b shape.Bore) {
	c := f.plan.Place.Arc(b.Circle)
	hole := f.note("Ø " + f.style.Figures.Length(b.Hole.Diameter))
	var rim []try
	for k := range 8 {
		a := unit.Turn/16 + unit.Turn/8*unit.Angle(k)
		rim = append(rim, f.scene.led(hole, anchor{Point: c.Centre.Toward(a, c.Radius+draw.Wide.Width/2), toward: a}, float64(k)/4))
	}
	f.putNear(f.note("hole "+hole.say), c.Centre, rim...)
	for _, way := range f.ways(b) {
		w := f.note(way.say)
		var places []try
		if way.along { // at its end on the edge, inside
			foot := f.plan.Place.Apply(b.Foot)
			places = append(places, f.scene.led(w, anchor{Point: foot, toward: geom.Line{From: foot, To: c.Centre}.Direction()}, 0))
		} else {
			if f.scene.width(w) <= way.line.Length() {
				places = append(places, try{0, func() (all []candidate) {
					for k := range 19 {
						for _, hand := range []int{1, -1} {
							all = append(all, candidate{text: besideLine(way.line, 0.5+0.05*eitherSide(k), hand, draw.Thin.Width, w), cost: float64(k)})
						}
					}
					return all
				}})
			}
			for _, t := range []float64{0.5, 0.3, 0.7} {
				places = append(places, f.scene.led(w, anchor{Point: way.line.At(t), toward: way.line.Direction() + unit.Turn/4}, 15))
			}
		}
		for _, led := range slices.Clone(places) {
			places = append(places, led.crossing(anything, 60))
		}
		f.put(w.say, append(places, f.note(way.say+" to "+hole.say).named(c.Centre))...)
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
	w := f.note("grain")
	var all []candidate
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
	f.putNear(f.note("grain along "+string(g[0]+g[1])), f.middle(), made(all))
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

// nameLines names the line that is cut and the finished edge beside it, once.
func (f *face) nameLines() {
	if !f.piece.shaped() || !f.piece.Shape.Spared() {
		return
	}
	say := f.style.says().Templates()
	for _, name := range []struct {
		say  string
		line func(i int) geom.Line
	}{{say.CutLine(), f.alongSide}, {say.FinishedEdge(), f.outline.Edge}} {
		w := f.note(name.say)
		var all []try
		for i, s := range f.piece.Shape.Sides {
			if s.Allow == 0 {
				continue
			}
			away := name.line(i).Direction() - unit.Turn/4 // out of the piece
			if (s.Allow > 0) == (name.say == say.FinishedEdge()) {
				away += unit.Turn / 2
			}
			for _, t := range []float64{0.35, 0.65, 0.2, 0.8} {
				all = append(all, f.scene.led(w, anchor{Point: name.line(i).At(t), toward: away, clear: draw.Wide.Width / 2}, 0))
			}
		}
		if !f.scene.cheapest(all) {
			for i, t := range all {
				all[i] = t.crossing(fineLines, crowded)
			}
			f.scene.cheapest(all)
		}
	}
}

// sayName writes what the piece is called inside it, so that it still says so when it is
// cut out.
func (f *face) sayName() {
	inside := f.inner
	if !f.piece.shaped() {
		if len(f.plan.Cells) < 2 {
			return // its name stands beside it
		}
		inside = func(least unit.Length) []spot { return f.inContour(f.outline.Contour(), least) }
	}
	var all []candidate
	for _, h := range []unit.Length{draw.TitleHeight, draw.FigureHeight, draw.NoteHeight} {
		w := label{f.piece.Name, f.style.sized(h), true}
		for _, c := range inside(w.height) {
			all = append(all, candidate{text: w.at(c.at, 0), cost: c.cost + 10*float64(draw.TitleHeight-h)})
		}
	}
	f.scene.cheapest([]try{made(all)})
}

// sayFace says which side of the material is up.
func (f *face) sayFace() {
	if f.piece.Face == "" {
		return
	}
	var all []candidate
	for _, h := range []unit.Length{draw.TitleHeight, draw.FigureHeight, draw.NoteHeight} {
		w := label{f.piece.Face, f.style.sized(h), true}
		for _, c := range f.inner(w.height) {
			all = append(all, candidate{text: w.at(c.at, 0), cost: c.cost + 10*float64(draw.TitleHeight-h)})
		}
	}
	f.putNear(f.note(f.piece.Face), f.middle(), made(all))
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
					w := label{f.piece.Hand, f.style.sized(h), true}
					all = append(all, candidate{text: w.at(p, 0), cost: cost + 10*float64(draw.TitleHeight-h)})
				}
			}
		}
		f.put(f.piece.Hand, made(all))
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
