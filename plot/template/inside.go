package template

import (
	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/legible"
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
	var all []legible.Candidate
	for _, h := range []unit.Length{draw.TitleHeight, draw.FigureHeight, draw.NoteHeight} {
		w := legible.Label{Say: f.piece.Name, Height: f.style.sized(h), Bold: true}
		for _, c := range inside(w.Height) {
			all = append(all, legible.Candidate{Text: w.At(c.at, 0), Cost: c.cost + 10*float64(draw.TitleHeight-h)})
		}
	}
	f.scene.Cheapest([]legible.Try{legible.Made(all)})
}

// sayFace says which side of the material is up.
func (f saying) sayFace() {
	if f.piece.Face == "" {
		return
	}
	var all []legible.Candidate
	for _, h := range []unit.Length{draw.TitleHeight, draw.FigureHeight, draw.NoteHeight} {
		w := legible.Label{Say: f.piece.Face, Height: f.style.sized(h), Bold: true}
		for _, c := range f.inner(w.Height) {
			all = append(all, legible.Candidate{Text: w.At(c.at, 0), Cost: c.cost + 10*float64(draw.TitleHeight-h)})
		}
	}
	f.putNear(f.style.note(f.piece.Face), f.middle(), legible.Made(all))
}

// sayHand says on every page which hand the piece is of, in the piece where there
// is room.
func (f saying) sayHand() {
	if f.piece.Hand == "" {
		return
	}
	c := f.plan.Place.Contour(f.piece.Shape.Finished)
	for _, cell := range f.plan.Cells {
		var all []legible.Candidate
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
					w := legible.Label{Say: f.piece.Hand, Height: f.style.sized(h), Bold: true}
					all = append(all, legible.Candidate{Text: w.At(p, 0), Cost: cost + 10*float64(draw.TitleHeight-h)})
				}
			}
		}
		f.put(f.piece.Hand, legible.Made(all))
	}
}
