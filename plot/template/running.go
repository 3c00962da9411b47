package template

import (
	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/place"
)

// running is the step of running distances along a side, by the unit they are
// written in: at least one, mostly two, on every sheet of A4.
func (s Style) running() unit.Length {
	if s.Figures.Unit >= unit.IN {
		return 6 * unit.Inch
	}
	return 100
}

const (
	runTick   unit.Length = 3  // length of a tick at a running distance
	fromEnds  unit.Length = 30 // no tick so near to a corner, where the eye has enough to read
	unread    unit.Length = 6  // from other words, so that the two are not read as one
	nameLeast unit.Length = 40 // of a side on a page for its name to be said there
)

// runAlongSides marks the sides of a piece that takes more than one page, so that
// each page can be checked and told alone: ticks at round distances from the
// side's first corner, and the side's name. What finds no free room is left out.
func (f *face) runAlongSides() {
	if len(f.plan.Cells) < 2 || !f.style.Lengths {
		return
	}
	step := f.style.running()
	for i := range f.outline {
		side := f.alongSide(i)
		length := side.Length()
		in := side.Direction() + unit.Turn/4
		for d := step; d < length-fromEnds; d += step {
			if d < fromEnds {
				continue
			}
			at := side.At(float64(d / length))
			mark := draw.Line{Line: geom.Line{From: at.Toward(in, draw.Wide.Width/2), To: at.Toward(in, runTick)}, Pen: draw.Narrow, On: draw.Dimension}
			w := f.style.note(f.style.Figures.Length(d))
			turn := place.Readable(steep, side.Direction())
			centre := at.Toward(in, runTick+gap+0.1+w.height*0.85)
			if !f.scene.leads(geom.Line{From: at, To: centre.Toward(in, w.height)}, nothing) {
				continue // a line lies between: it would be read as that line's
			}
			f.scene.put(candidate{text: w.at(centre, turn), marks: []draw.Op{mark}, apart: unread}, alone)
		}
		name := f.style.figure(f.corners.Side(i))
		for _, c := range f.plan.Cells {
			part, ok := geom.ClipLine(side, c.Window)
			if !ok || part.Length() < nameLeast || c.Window.Has(f.figured[i]) {
				continue
			}
			f.scene.name(side, part, name)
		}
	}
}

func (s *scene) name(side, part geom.Line, w label) {
	length := side.Length()
	from, to := side.From.Distance(part.From), side.From.Distance(part.To)
	for off := unit.Length(0); off < (to-from)/2; off += 4 {
		for _, d := range []unit.Length{(from+to)/2 + off, (from+to)/2 - off} {
			for _, hand := range []int{-1, 1} {
				if s.put(candidate{text: besideLine(side, float64(d/length), hand, draw.Wide.Width, w), apart: unread}, alone) {
					return
				}
			}
		}
	}
}
