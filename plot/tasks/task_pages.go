package tasks

import (
	"iter"
	"strconv"

	"trammel/geom/task"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/paging"
)

// TaskPages are those that pupils get, pupil after pupil, each with the pupil's number among
// the set's. No answer stands on them, nor the seed, by which one could be made.
//
// The error is a *unit.Fault where the paper is too small.
func (s Set) TaskPages(on paging.Sheet, r draw.Ruler) (iter.Seq2[int, draw.Page], error) {
	if err := s.fits(on); err != nil {
		return nil, err
	}
	return func(yield func(int, draw.Page) bool) {
		for i, p := range s.Pupils {
			pages := s.pupilPages(p, on, r)
			if s.TwoSided && len(pages)%2 == 1 {
				pages = append(pages, newLeaf(on, r).page(draw.Task, s.says().Pupil(p.Number, p.Name)))
			}
			for _, page := range pages {
				if !yield(i, page) {
					return
				}
			}
		}
	}, nil
}

// pupilPages are those of one pupil.
func (s Set) pupilPages(p Pupil, on paging.Sheet, r draw.Ruler) (all []draw.Page) {
	add := func(first, last int, draws ...func(*leaf)) {
		l := newLeaf(on, r)
		s.head(l, p, first, last)
		for _, d := range draws {
			d(l)
		}
		all = append(all, l.page(draw.Task, s.says().Pupil(p.Number, p.Name)))
	}
	for i := 0; i < len(p.Tasks); i++ {
		d, n := p.Tasks[i], i+1
		switch {
		case s.TwoUp:
			block := (on.Height - 44) / 2
			both := []func(*leaf){func(l *leaf) { s.low(l, d, n, 38, block) }}
			if i+1 < len(p.Tasks) {
				i++
				second := p.Tasks[i]
				both = append(both, func(l *leaf) { s.low(l, second, n+1, 38+block, block) })
			}
			add(n, n+len(both)-1, both...)
		case s.Large:
			add(n, n, func(l *leaf) { s.asked(l, d, n, largeLetter) })
			add(n, n, func(l *leaf) { s.space(l, d, 44, largeLetter) })
		default:
			add(n, n, func(l *leaf) { s.space(l, d, max(87, s.asked(l, d, n, draw.FigureHeight)), draw.FigureHeight) })
		}
	}
	return all
}

// head is what stands at the top of each page of a pupil.
func (s Set) head(l *leaf, p Pupil, first, last int) {
	says := s.says().Head()
	right := l.wide - margin
	date, class := right-45, right-90
	for i, x := range []unit.Length{margin, class, date} {
		end := []unit.Length{class - 6, date - 6, right}[i]
		l.words(says[i], x, 21, read)
		from := x + l.r.Width(says[i], draw.FigureHeight, false) + 2.5
		l.line(from, 21.8, end, 21.8, 0.25)
		if i == 0 && p.Name != "" {
			l.words(draw.Shorten(p.Name, " ", func(t string) bool { return l.r.Width(t, draw.FigureHeight, true) <= end-from-2 }), from+1, 21, bold)
		}
	}
	which := s.says().Of(first, last, len(p.Tasks))
	if p.Name == "" {
		which = s.says().Pupil(p.Number, "") + ", " + which
	}
	room := right - margin - l.r.Width(which, draw.NoteHeight, false) - 6
	l.words(draw.Shorten(s.Title, " ", func(t string) bool { return l.r.Width(t, draw.NoteHeight, false) <= room }), margin, 29, note)
	l.words(which, right, 29, note.to(draw.Right))
	l.line(margin, 33.5, right, 33.5, rulePen)
}

// asked is the task in words with its sketch; where what comes below may begin comes back.
func (s Set) asked(l *leaf, d task.Drawn, n int, letters unit.Length) unit.Length {
	text, strong, step := style{height: letters}, style{height: letters, bold: true}, leading*letters/draw.FigureHeight
	x, top := margin+10*letters/draw.FigureHeight, unit.Length(43)
	wide := l.wide - margin - x - 66*letters/draw.FigureHeight
	if letters > draw.FigureHeight {
		top, wide = 48, l.wide-margin-x
	}
	l.words(number(n), margin, top+0.7, style{height: letters * draw.TitleHeight / draw.FigureHeight, bold: true})
	y := l.lines(s.says().Wording(d), x, top, wide, text) + 2.2
	for _, given := range s.says().Given(d.Task) {
		l.words(given, x, y, strong)
		y += step + 0.8
	}
	if letters > draw.FigureHeight {
		s.sketched(l, d.Task, room{l.wide/2 - 40, y + 6, 80, 50}, letters)
		y += 56 + 6*letters
	} else {
		s.sketched(l, d.Task, room{l.wide - margin - 58, 43.5, 50, 26}, letters)
	}
	if d.Demand == task.Support {
		small := style{height: 3}
		y = max(y+1, 90)
		for i, step := range s.says().Steps(d.Task) {
			l.words(number(i+1), x-5, y, bold)
			y = l.lines(step, x, y, l.wide-margin-x, small)
		}
		y -= 2.5
	}
	return y
}

// space to draw in, and the boxes below it; y is its upper edge.
func (s Set) space(l *leaf, d task.Drawn, y, letters unit.Length) {
	foot := l.high - 50
	l.frame(margin, y, l.wide-2*margin, foot-y, pen(0.25, letters))
	if d.Demand == task.Support {
		s.base(l, d.Task, foot-10)
	}
	below := l.lines(s.says().Measure(d, boxesOf(d)), margin, foot+9, l.wide-2*margin, style{height: min(letters, 4.2)})
	s.boxes(l, d, max(below-2.5, foot+14.5), style{height: letters, bold: true})
}

// pen is thicker where letters are.
func pen(width, letters unit.Length) unit.Length {
	if letters > draw.FigureHeight {
		return 0.7
	}
	return width
}

// base is AB as it is printed for who needs it, in the middle.
func (s Set) base(l *leaf, t task.Task, y unit.Length) {
	c := unit.Length(t.Given[0])
	a, b := (l.wide-c)/2, (l.wide+c)/2
	l.line(a, y, b, y, rulePen)
	for _, x := range []unit.Length{a, b} {
		l.line(x, y-1.5, x, y+1.5, rulePen)
	}
	l.words("A", a, y+6, bold.to(draw.Middle))
	l.words("B", b, y+6, bold.to(draw.Middle))
}

// boxesOf are those that a sheet asks for.
func boxesOf(d task.Drawn) []task.Quantity {
	all := d.Kind.Boxes()
	if d.Demand == task.Stretch && d.Kind.IsArc() {
		return []task.Quantity{task.CA, task.CA}
	}
	if d.Demand == task.Support && d.Kind != task.SSA2 {
		return all[d.Kind.OneBox() : d.Kind.OneBox()+1]
	}
	return all
}

// boxes to be filled in, side by side.
func (s Set) boxes(l *leaf, d task.Drawn, y unit.Length, t style) {
	const wide, many, beside unit.Length = 40, 13, 2.5
	type box struct {
		before, after string
		wide          unit.Length
	}
	var all []box
	kind := d.Kind
	if d.Demand == task.Stretch && kind.IsArc() { // alike, however many fit
		kind = task.SSA1
		all = append(all, box{s.says().HowMany(), "", many})
	}
	for _, q := range boxesOf(d) {
		before, after := s.says().Box(kind, q)
		all = append(all, box{before, after, wide})
	}
	room, gap := l.wide-2*margin, 2.4*t.height // what the words leave to the boxes
	for _, b := range all {
		room -= l.r.Width(b.before, t.height, true) + l.r.Width(b.after, t.height, true) + 2*beside + gap
		if b.wide == many {
			room -= many
		}
	}
	each := min(wide, (room+gap)/unit.Length(len(boxesOf(d))))
	x := margin
	for _, b := range all {
		if b.wide == wide {
			b.wide = each
		}
		l.words(b.before, x, y+boxHigh/2+t.height/2, t)
		x += l.r.Width(b.before, t.height, true) + beside
		l.frame(x, y, b.wide, boxHigh, pen(rulePen, t.height))
		x += b.wide + beside
		if b.after != "" {
			l.words(b.after, x, y+boxHigh/2+t.height/2, t)
		}
		x += l.r.Width(b.after, t.height, true) + gap
	}
}

// low is a task as one of two on a page, y its top.
func (s Set) low(l *leaf, d task.Drawn, n int, y, high unit.Length) {
	x := margin + 10
	l.words(number(n), margin, y+6.2, title)
	below := l.lines(s.says().Wording(d)+" "+s.says().Measure(d, boxesOf(d)), x, y+5.5, l.wide-margin-x-64, style{height: 3})
	given := ""
	for i, g := range s.says().Given(d.Task) {
		if i > 0 {
			given += ", "
		}
		given += g
	}
	l.lines(given, x, below+1.5, l.wide-margin-x-64, style{height: 3, bold: true})
	s.sketched(l, d.Task, room{l.wide - margin - 55, y + 5, 46, 16.5}, draw.NoteHeight)
	foot := y + high - boxHigh - 2
	l.frame(margin, y+37, l.wide-2*margin, foot-2-(y+37), 0.25)
	s.boxes(l, d, foot, style{height: draw.FigureHeight, bold: true})
}

func number(n int) string { return strconv.Itoa(n) }
