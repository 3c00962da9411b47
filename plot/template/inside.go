package template

import (
	"cmp"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/legible"
)

// saying is what a piece still says when it is cut out: its name with its hand, how many are
// marked from it and which face is up.
type saying struct{ *face }

// sayInside writes that inside the piece: its name and the rest below each other, else what there is room for.
func (f saying) sayInside() {
	inside := f.inner
	if !f.piece.shaped() {
		if len(f.plan.Cells) < 2 && !f.style.CutOut {
			return // its name stands beside it
		}
		inside = func(least unit.Length) []spot { return f.inContour(f.outline.Contour(), least) }
	}
	mark := f.style.says().Templates().Mark(f.piece.Marked)
	facts := slices.DeleteFunc([]string{mark, f.piece.Face}, func(s string) bool { return s == "" })
	var ways [][]string // of setting the lines
	if len(facts) > 1 {
		ways = append(ways, []string{f.piece.Name, strings.Join(facts, ", ")})
	}
	if ways = append(ways, append([]string{f.piece.Name}, facts...)); f.stacked(inside, ways) {
		return
	}
	for _, say := range append([]string{f.piece.Name}, facts...) {
		if one := f.stacked(inside, [][]string{{say}}); !one && say == f.piece.Face {
			f.putNear(f.style.note(say), f.middle())
		}
	}
}

// stacked writes lines below each other inside the piece, the first of them as a heading, and says
// whether they have room.
func (f saying) stacked(inside func(unit.Length) []spot, ways [][]string) bool {
	for _, heights := range [][2]unit.Length{{draw.TitleHeight, draw.FigureHeight}, {draw.FigureHeight, draw.NoteHeight}, {draw.NoteHeight, draw.NoteHeight}} {
		all := inside(f.style.sized(heights[0]))
		slices.SortStableFunc(all, func(a, b spot) int { return cmp.Compare(a.cost, b.cost) })
		for _, home := range []legible.Home{legible.Alone, legible.Seen} { // no sheet hides it
			for _, lines := range ways {
				for _, c := range all {
					if f.scene.PutLines(f.lines(lines, heights, c.at), home) {
						return true
					}
				}
			}
		}
	}
	return false
}

// lines below each other, as far apart as words of two things, about a point.
func (f saying) lines(say []string, heights [2]unit.Length, at geom.Point) (all []draw.Text) {
	var box geom.Rect
	for i, s := range say {
		w := legible.Label{Say: s, Height: f.style.sized(heights[min(i, 1)]), Bold: i == 0}.At(at, 0)
		if i > 0 {
			w.At.Y += box.Min.Y - legible.ToWords - hair - w.Bounds(f.scene.Ruler).Max.Y
		}
		box = w.Bounds(f.scene.Ruler).Join(box)
		if i == 0 {
			box = w.Bounds(f.scene.Ruler)
		}
		all = append(all, w)
	}
	for i := range all {
		all[i].At.Y += at.Y - box.Centre().Y
	}
	return all
}

// sayHand says on every page which hand the piece is of, in the piece where there
// is room.
func (f saying) sayHand() {
	if f.piece.Hand == "" || len(f.plan.Cells) < 2 {
		return // its name says so
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
