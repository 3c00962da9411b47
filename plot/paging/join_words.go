package paging

import (
	"slices"

	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/furniture"
	"trammel/plot/words"
)

// taken is a stretch along a join where something stands.
type taken struct{ from, to unit.Length }

// words say on the sheet on top where it is cut and what one step of its ticks is worth, on
// the one below which sheet comes there: on the half that vanishes, or where that is too
// narrow on the half that stays; twice on a long join. All keep clear of marks and ticks. Large
// print is as large as the strip can hold.
func (j join) words(onTop bool, marks, vernier []unit.Length) (d draw.Drawing) {
	for j.letters = j.f.Sized(draw.NoteHeight); ; j.letters = max(j.letters*0.85, draw.NoteHeight) {
		if d = j.lettering(onTop, marks, vernier); len(d) > 0 || j.letters <= draw.NoteHeight {
			return d
		}
	}
}

func (j join) lettering(onTop bool, marks, vernier []unit.Length) (d draw.Drawing) {
	var at []taken
	for _, t := range marks {
		at = append(at, taken{t - slant*j.arm(), t + slant*j.arm()})
	}
	for _, t := range vernier {
		at = append(at, taken{t - tickCount*tickBelow, t + tickCount*tickBelow})
	}
	say, vanishes := words.In(j.f.Language).Pages(), j.up
	what := say.LayHere(j.over.Label)
	if onTop {
		what, vanishes = say.Cut(), -j.up
	}
	from, to := j.usable()
	put := func(what string, l lane, ok bool, from, to, near unit.Length) (unit.Length, bool) {
		if !ok {
			return 0, false
		}
		t, ok := j.along(what, l, taken{from, to}, near, at)
		if ok {
			w := j.r.Width(what, j.letters, false)
			d = append(d, draw.Text{At: j.point(t, l.base), Height: j.letters, Turn: l.turn, Words: what, On: draw.Joins})
			at = append(at, taken{t, t + w})
		}
		return t, ok
	}
	waste, room := j.lane(vanishes)
	stays, free := j.inner(-vanishes)
	const again = 80 // nearer than this it need not be said twice
	if t, ok := put(what, waste, room, from, to, from); ok {
		if to-t > again {
			put(what, waste, room, t+again, to, to)
		}
	} else if _, ok = put(what, stays, free, from, to, from); !ok {
		if _, ok = put(what, waste, room, j.from, j.to, from); !ok {
			put(what, stays, free, j.from, j.to, from)
		}
	}
	if onTop && len(vernier) > 0 {
		step := say.Step(j.f.Inches)
		if _, ok := put(step, stays, free, from, to, vernier[0]); !ok {
			put(step, stays, free, j.from, j.to, vernier[0])
		}
	}
	return d
}

// along is where words begin on a stretch of a lane, as near to a place as can be.
func (j join) along(what string, l lane, in taken, near unit.Length, at []taken) (unit.Length, bool) {
	from, to := in.from, in.to
	w := j.r.Width(what, j.letters, false)
	free := func(t unit.Length) bool {
		return t >= from && t+w <= to && !slices.ContainsFunc(at, func(o taken) bool { return t < o.to+wordsRoom && o.from-wordsRoom < t+w }) &&
			keepsClear(j.rect(t, l.lo, t+w, l.hi), j.near, lineRoom, wordsRoom)
	}
	const step = 1
	for off := unit.Length(0); off <= to-from; off += step {
		for _, t := range [2]unit.Length{near + off, near - w - off} {
			if free(t) {
				return t, true
			}
		}
	}
	return 0, false
}

// lane is where words run beside a join: across it the edges of their box and their base
// line, and the turn of their letters.
type lane struct {
	lo, hi, base unit.Length
	turn         unit.Angle
}

const (
	offLine unit.Length = 0.9 // words from the line of the join

	wordTail = 0.35
)

// lane is that of words between the line and the edge of the window, with the letters'
// tails; false where they have no room. Nobody relies on these where the printer loses
// the edge.
func (j join) lane(side unit.Length) (lane, bool) {
	const outer unit.Length = 0.7
	tall := j.letters * (1 + wordTail)
	room := j.half - outer - offLine
	return j.lettered(side, offLine+(room-tall)/2), room >= tall
}

// inner is that on the half that stays, as near to the line as there; false where a narrow
// strip leaves nothing that both sheets know to be free.
func (j join) inner(side unit.Length) (lane, bool) {
	tall := j.letters * (1 + wordTail)
	return j.lettered(side, offLine), offLine+tall+furniture.RoomLeast <= j.half+nearStrip+furniture.RoomLeast
}

func (j join) lettered(side, off unit.Length) lane {
	tall := j.letters * (1 + wordTail)
	l := lane{lo: off}
	if side < 0 {
		l.lo = -l.lo - tall
	}
	l.hi = l.lo + tall
	// Letters stand up towards smaller x on an upright join, towards greater y on
	// a lying one.
	l.base = l.lo + j.letters*wordTail
	if j.upright {
		l.base, l.turn = l.hi-j.letters*wordTail, 90*unit.Degree
	}
	return l
}
