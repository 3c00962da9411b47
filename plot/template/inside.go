package template

import (
	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
)

// saying is what a piece still says when it is cut out: its name, hand and face, in it.
type saying struct{ *face }

// sayName writes what the piece is called inside it, so that it still says so when it is
// cut out.
func (f saying) sayName() {
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
func (f saying) sayFace() {
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
	f.putNear(f.style.note(f.piece.Face), f.middle(), made(all))
}

// sayHand says on every page which hand the piece is of, in the piece where there
// is room.
func (f saying) sayHand() {
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
