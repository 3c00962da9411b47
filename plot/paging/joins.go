package paging

import (
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/furniture"
	"trammel/plot/place"
)

// Sheets are laid in the order of their numbers, each on top of those before it, and cut along the
// middle of the strip that both show (see trim.go), where the cut edge goes on the other
// as well. A sheet's own edge is no reference: it may be 2 mm off (ISO 216).
//
// Marks stand on that middle line, the same on both sheets, and are cut through
// with it. When the sheets lie right, the halves meet again: the arm across
// steps where one sheet has slipped along the join, the slanting arms step where
// there is a gap or too little of one. Beside two of the marks stand ticks, 1 mm
// apart on the sheet below and 0.9 mm on the one on top: the longest pair meets
// when the join is right, the pair n steps away when it has slipped n tenths of
// a millimetre.

// Sizes of the marks, in mm.
const (
	armAcross  unit.Length = 4   // half the arm across: 1 mm less than half of a 10 mm strip
	armLeast   unit.Length = 2   // the same in a narrow strip
	slant                  = 0.7 // of the arm across: the slanting arms are as long
	armRoom    unit.Length = 1   // what a mark keeps clear of the piece
	tickBelow  unit.Length = 1
	tickOnTop  unit.Length = 0.9
	tickCount              = 5   // to each side of the longest
	tickOver   unit.Length = 0.4 // how far ticks run past the line, so that a careless cut leaves no gap
	tickShift  unit.Length = 10  // from the mark to the longest tick
	lineRoom   unit.Length = 1   // what the light line keeps clear of the piece
	lightInset unit.Length = 3.5 // where it begins within the strip
	leastTrim  unit.Length = 1   // a shorter bit of the light line is a speck
	wordsRoom  unit.Length = 2   // between words and marks, ticks or the words of other things
)

// Spaces between marks: the first that has room for three of them is taken.
var (
	spacesMM   = []unit.Length{50, 40, 30, 25, 20, 15, 10}
	spacesInch = []unit.Length{2 * unit.Inch, 1.5 * unit.Inch, unit.Inch, 0.75 * unit.Inch, 0.5 * unit.Inch}
)

// join is where two neighbours show the same strip. Along it counts t, across it
// n: y and x where the strip stands upright, x and y where it lies.
type join struct {
	under, over Cell
	upright     bool
	from, to    unit.Length // the strip's stretch in t
	at          unit.Length // n of its middle line
	half        unit.Length // half its width
	up          unit.Length // 1 where the sheet on top lies towards greater n, else −1

	near []place.Shape // everything of the piece near the strip, the same for both sheets
	f    furniture.Furniture
	r    draw.Ruler

	letters unit.Length // height of the words
}

// joinOf two neighbours.
func joinOf(under, over Cell) join {
	j := join{under: under, over: over, upright: under.Row == over.Row, up: 1}
	c := common(under.Window, over.Window)
	if j.upright {
		j.at, j.half = (c.Min.X+c.Max.X)/2, c.Width()/2
		j.from, j.to = c.Min.Y, c.Max.Y
	} else {
		j.at, j.half = (c.Min.Y+c.Max.Y)/2, c.Height()/2
		j.from, j.to = c.Min.X, c.Max.X
	}
	if over.Col < under.Col || over.Row > under.Row {
		j.up = -1
	}
	return j
}

// arm is half the arm across of a mark: both sheets show the whole of it, unless
// they share hardly anything.
func (j join) arm() unit.Length { return min(armAcross, max(j.half, armLeast)) }

// point at t along and n across, n counted from the middle line.
func (j join) point(t, n unit.Length) geom.Point {
	if j.upright {
		return geom.Point{X: j.at + n, Y: t}
	}
	return geom.Point{X: t, Y: j.at + n}
}

func (j join) rect(t0, n0, t1, n1 unit.Length) geom.Rect {
	return geom.RectOf(j.point(t0, n0), j.point(t1, n1))
}

func (j join) strip() geom.Rect { return j.rect(j.from, -j.half, j.to, j.half) }

func (j join) line(t0, n0, t1, n1 unit.Length, pen draw.Pen) draw.Line {
	return draw.Line{Line: geom.Line{From: j.point(t0, n0), To: j.point(t1, n1)}, Pen: pen, On: draw.Joins}
}

// usable is the stretch for marks and words: clear of the squares where a third
// and a fourth sheet lie, if that leaves enough.
func (j join) usable() (from, to unit.Length) {
	reach := armAcross + armRoom
	if in := 2*j.half + reach; j.to-j.from-2*in >= 2*spacesMM[len(spacesMM)-1] {
		return j.from + in, j.to - in
	}
	return j.from + reach, j.to - reach
}

// marks are the places of the match marks along the join: at equal distances from its
// middle, or a little shifted, as many as are clear of the piece; where that leaves fewer
// than two, single places that are clear, as far apart as there are.
func (j join) marks() []unit.Length {
	from, to := j.usable()
	middle := (from + to) / 2
	if to < from {
		return nil
	}
	spaces := spacesMM
	if j.f.Inches {
		spaces = spacesInch
	}
	room := slices.IndexFunc(spaces, func(s unit.Length) bool { return to-from >= 2*s })
	if room < 0 {
		room = len(spaces) - 1
	}
	space := spaces[room]
	comb := func(shift unit.Length) (at []unit.Length) {
		n := int((to - from) / space)
		for k := -n; k <= n; k++ {
			if t := middle + shift + unit.Length(k)*space; t >= from && t <= to && j.clear(t) {
				at = append(at, t)
			}
		}
		return at
	}
	best := comb(0)
	full := int((to-middle)/space)*2 + 1
	for s := space / 10; s <= space/2 && len(best) < full; s += space / 10 {
		for _, shift := range [2]unit.Length{s, -s} {
			if at := comb(shift); len(at) > len(best) {
				best = at
			}
		}
	}
	if len(best) >= 2 {
		return best
	}
	const step = 2.5
	var single []unit.Length
	for t := from; t <= to; t += step {
		if j.clear(t) {
			single = append(single, t)
		}
	}
	if n := len(single); n >= 2 && single[n-1]-single[0] >= 2*armAcross+armRoom {
		return []unit.Length{single[0], single[n-1]}
	}
	return best
}

// clear says whether a mark at t keeps clear of the piece.
func (j join) clear(t unit.Length) bool {
	a, b := j.arm(), slant*j.arm()
	return keepsClear(j.rect(t-b, -a, t+b, a), j.near, armRoom, armRoom)
}

// keepsClear says whether a box keeps its distance from strokes and from words.
func keepsClear(box geom.Rect, near []place.Shape, strokes, words unit.Length) bool {
	return !slices.ContainsFunc(near, func(s place.Shape) bool {
		if s.Text {
			return !s.Clears(box, words)
		}
		return !s.Clears(box, strokes)
	})
}

// vernier is where the longest ticks stand, beside the first and the last mark
// and towards the middle; none where the piece is in the way.
func (j join) vernier(marks []unit.Length) (at []unit.Length) {
	n := len(marks)
	if n == 0 {
		return nil
	}
	try := []unit.Length{marks[0] + tickShift, marks[n-1] - tickShift}
	reach := tickCount*tickBelow + armRoom
	if n == 1 {
		try[1] = marks[0] - tickShift
	} else if marks[n-1]-marks[0] < 2*(tickShift+reach) {
		try = try[:1] // two rows would run into each other or into the next mark
	}
	from, to := j.usable()
	for _, t := range try {
		if t < from || t > to || !keepsClear(j.rect(t-tickCount*tickBelow, -armAcross, t+tickCount*tickBelow, armAcross), j.near, armRoom, armRoom) {
			continue
		}
		if !slices.ContainsFunc(marks, func(m unit.Length) bool { return m-t < reach+armAcross && t-m < reach+armAcross }) {
			at = append(at, t)
		}
	}
	return at
}

// ops is what one of the two sheets bears of the join, in the plane of the sheets.
func (j join) ops(onTop bool) draw.Drawing {
	marks := j.marks()
	vernier := j.vernier(marks)
	var d draw.Drawing
	if !onTop { // the line to cut along is the whole sheet's
		d = j.light()
	}
	for _, t := range marks {
		a, b := j.arm(), slant*j.arm()
		d = append(d,
			j.line(t, -a, t, a, draw.Thin),
			j.line(t-b, -b, t+b, b, draw.Thin),
			j.line(t-b, b, t+b, -b, draw.Thin))
	}
	side, pitch := -j.up, tickBelow
	if onTop {
		side, pitch = j.up, tickOnTop
	}
	for _, t := range vernier {
		for k := -tickCount; k <= tickCount; k++ {
			long := unit.Length(2)
			if k == 0 {
				long = 4
			} else if k*k == tickCount*tickCount {
				long = 3
			}
			at := t + unit.Length(k)*pitch
			d = append(d, j.line(at, -tickOver*side, at, long*side, draw.Thin))
		}
	}
	return append(d, j.words(onTop, marks, vernier)...)
}

// light is the middle line on the sheet below, dashed, where the cut edge of the one
// on top will lie; not where the piece itself runs.
func (j join) light() (d draw.Drawing) {
	type stretch struct{ from, to unit.Length }
	open := []stretch{{j.from + lightInset, j.to - lightInset}} // begun at the edge it would be taken for one to cut along
	for _, shape := range j.near {
		from, to, ok := shape.Shadow(j.at, lineRoom, j.upright)
		if !ok {
			continue
		}
		var left []stretch
		for _, s := range open {
			if from > s.from {
				left = append(left, stretch{s.from, min(s.to, from)})
			}
			if to < s.to {
				left = append(left, stretch{max(s.from, to), s.to})
			}
		}
		open = left
	}
	for _, s := range open {
		if s.to-s.from >= leastTrim {
			d = append(d, j.line(s.from, 0, s.to, 0, draw.Covers))
		}
	}
	return d
}
