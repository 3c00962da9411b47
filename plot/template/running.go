package template

import (
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/legible"
	"trammel/plot/paging"
	"trammel/plot/place"
)

// running is the step of running distances along a side, by the unit they are
// written in: at least one, mostly two, on every sheet of A4.
func (s Style) running() unit.Length {
	switch {
	case s.Figures.Unit == unit.IN:
		return 4 * unit.Inch
	case s.Figures.Unit > unit.IN:
		return 12 * unit.Inch
	}
	return 100
}

const (
	runTick   unit.Length = 3  // length of a tick at a running distance
	fromEnds  unit.Length = 15 // no tick so near to a corner, where the eye has enough to read
	unread    unit.Length = 6  // from other words, so that the two are not read as one
	nameLeast unit.Length = 40 // of a side on a page for its name to be said there
)

// edging is what stands along the sides of a piece: ticks and their figures, names, what is
// allowed for the saw.
type edging struct{ *face }

// run is a tick at a round distance along a side, from its foot on the line that is cut
// to its end.
type run struct {
	geom.Line
	side int
	far  unit.Length // from the side's first corner
}

// tickSides marks the sides of a piece that takes more than one sheet at round distances,
// so that each sheet can be checked and told alone. Ticks stand whatever else is there:
// what is written keeps clear of them. Over a finished edge they point away from it.
func (f edging) tickSides() {
	if len(f.plan.Cells) < 2 || !f.style.Lengths {
		return
	}
	step := f.style.running()
	for i := range f.outline {
		side := f.alongSide(i)
		length := side.Length()
		way := side.Direction() + unit.Turn/4
		if f.piece.shaped() && f.piece.Shape.Sides[i].Allow > 0 {
			way += unit.Turn / 2
		}
		for d := step; d < length-fromEnds; d += step {
			at := side.At(float64(d / length))
			r := run{Line: geom.Line{From: at, To: at.Toward(way, runTick)}, side: i, far: d}
			if f.crossesOther(r) { // in a sharp corner
				r.To = at.Toward(way+unit.Turn/2, runTick)
			}
			way := r.Direction()
			f.runs = append(f.runs, r)
			f.scene.Add(draw.Line{Line: geom.Line{From: at.Toward(way, draw.Wide.Width/2), To: r.To}, Pen: draw.Narrow, On: draw.Dimension})
		}
	}
}

// crossesOther says whether a tick comes near another side than its own.
func (f edging) crossesOther(r run) bool {
	const near unit.Length = 1
	for j := range f.outline {
		if j != r.side && (r.Apart(f.alongSide(j)) < near || r.Apart(f.outline.Edge(j)) < near) {
			return true
		}
	}
	return false
}

// runAlongSides writes at each tick how far it is: from which corner at the first of each
// sheet; and on each sheet the names of its sides.
func (f edging) runAlongSides() {
	if len(f.plan.Cells) < 2 {
		return
	}
	type place struct{ side, sheet int }
	said := map[place]bool{}
	for _, r := range f.runs {
		sheet := slices.IndexFunc(f.plan.Cells, func(c paging.Cell) bool { return c.Window.Grow(-legible.ToEdge).Has(r.From) })
		figure := f.style.Figures.Length(r.far)
		if at := (place{r.side, sheet}); !said[at] {
			said[at] = true
			long := f.style.note(f.style.says().Templates().Running(figure, string(f.corners.Names[r.side])))
			if f.scene.Cheapest([]legible.Try{f.besideTick(r, long).Surely()}) {
				continue
			}
		}
		w := f.style.note(figure)
		from := legible.Anchor{Point: r.To, Best: r.Direction()}
		led := f.scene.Led(w, from, 60)
		f.putNear(f.style.note(f.corners.Side(r.side)+" "+figure), r.To, f.besideTick(r, w), led, led.Crossing(legible.FineLines, legible.Crowded))
	}
	for i := range f.outline {
		side := f.alongSide(i)
		for _, c := range f.plan.Cells {
			part, ok := geom.ClipLine(side, c.Window)
			if !ok || part.Length() < nameLeast {
				continue
			}
			if f.style.Lengths && !c.Window.Has(f.figured[i]) {
				f.name(side, part, f.style.figure(f.corners.Side(i)))
			}
		}
	}
}

// allowAlongSides writes what is left for the saw along its edge, on every sheet.
func (f edging) allowAlongSides() {
	for i, s := range f.piece.Shape.Sides {
		if s.Allow <= 0 || s.Cut.Length() <= 0 {
			continue
		}
		side, said := f.alongSide(i), false
		w := f.style.note(f.style.says().Templates().Allowance(f.style.Figures.Length(s.Allow)))
		for _, c := range f.plan.Cells {
			for _, line := range []geom.Line{side, f.outline.Edge(i)} { // outside the cut, or inside the finished edge
				if part, ok := geom.ClipLine(line, c.Window); ok && part.Length() >= f.scene.Width(w)+unread && f.name(line, part, w) {
					said = true
					break
				}
			}
		}
		if !said {
			led := f.scene.Led(w, legible.Anchor{Point: side.At(0.6), Best: side.Direction() - unit.Turn/4, Clear: draw.Wide.Width / 2}, 0)
			f.putNear(f.style.note(s.Name+" "+w.Say), side.At(0.5), led, led.Crossing(legible.FineLines, legible.Crowded))
		}
	}
}

// besideTick are the places for words at the end of a tick, past it or beside it, first
// those that nothing else could be read with.
func (f edging) besideTick(r run, w legible.Label) legible.Try {
	along := f.alongSide(r.side).Direction()
	turn := place.Readable(legible.Steep, along)
	away := r.Direction()
	width, lines := f.scene.Width(w), unit.Length(0)
	if f.piece.shaped() {
		lines = max(f.piece.Shape.Sides[r.side].Allow, -f.piece.Shape.Sides[r.side].Allow)
	}
	at := func(shift, off unit.Length, apart unit.Length, cost float64) legible.Candidate {
		return legible.Candidate{Text: w.At(r.To.Toward(along, shift).Toward(away, off), turn), Apart: apart, Cost: cost}
	}
	return legible.Try{Least: 0, Make: func(all []legible.Candidate) []legible.Candidate {
		past, beside := legible.Gap+0.1+w.Height*0.85, w.Height*0.85-runTick+legible.Gap+draw.Wide.Width/2
		for i, apart := range []unit.Length{unread, legible.ToWords} {
			more := 15 * float64(i)
			all = append(all, at(0, past, apart, more), at(width/2, past, apart, more+2), at(-width/2, past, apart, more+2),
				at(width/2+1.2, beside, apart, more+4), at(-width/2-1.2, beside, apart, more+4))
			for d := unit.Length(2); d <= 8; d += 2 {
				all = append(all, at(0, past+d, apart, more+5+float64(d)))
			}
			// On the other side of the line, or of both.
			other := -runTick - draw.Wide.Width/2 - legible.Gap - w.Height*0.85
			all = append(all, at(0, other, apart, more+8), at(0, other-lines, apart, more+10), at(width, other-lines, apart, more+12), at(-width, other-lines, apart, more+12))
		}
		return all
	}}
}

// name writes words along what a sheet shows of a side, where there is room for them.
func (f edging) name(side, part geom.Line, w legible.Label) bool {
	length := side.Length()
	from, to := side.From.Distance(part.From), side.From.Distance(part.To)
	for _, apart := range []unit.Length{unread, legible.ToWords} {
		for off := unit.Length(0); off < (to-from)/2; off += 4 {
			for _, d := range []unit.Length{(from+to)/2 + off, (from+to)/2 - off} {
				for _, hand := range []int{-1, 1} {
					if f.scene.Put(legible.Candidate{Text: legible.BesideLine(side, float64(d/length), hand, draw.Wide.Width, w), Apart: apart}, legible.Alone) {
						return true
					}
				}
			}
		}
	}
	return false
}

// nameLines names the line that is cut and the finished edge beside it, once.
func (f edging) nameLines() {
	if !f.piece.shaped() || !f.piece.Shape.Spared() {
		return
	}
	say := f.style.says().Templates()
	for _, name := range []struct {
		say  string
		line func(i int) geom.Line
	}{{say.CutLine(), f.alongSide}, {say.FinishedEdge(), f.outline.Edge}} {
		w := f.style.note(name.say)
		var all []legible.Try
		for i, s := range f.piece.Shape.Sides {
			if s.Allow == 0 {
				continue
			}
			away := name.line(i).Direction() - unit.Turn/4 // out of the piece
			if (s.Allow > 0) == (name.say == say.FinishedEdge()) {
				away += unit.Turn / 2
			}
			for _, t := range []float64{0.35, 0.65, 0.2, 0.8} {
				all = append(all, f.scene.Led(w, legible.Anchor{Point: name.line(i).At(t), Best: away, Clear: draw.Wide.Width / 2}, 0))
			}
		}
		if !f.scene.Cheapest(all) {
			for i, t := range all {
				all[i] = t.Crossing(legible.FineLines, legible.Crowded)
			}
			f.scene.Cheapest(all)
		}
	}
}
