package tasks

import (
	"fmt"

	"trammel/geom/task"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/paging"
)

// Rows and columns of the key.
const (
	keyRow      unit.Length = 5.5
	keyTop      unit.Length = 36 // of the first row
	keyPupil    unit.Length = 27
	keyGiven    unit.Length = 28
	keyBox      unit.Length = 27
	keyFoot     unit.Length = 19.5 // with the margin: room for how ranges come
	tasksAcross             = 3
)

// lying is a paper on its side.
func lying(on paging.Sheet) paging.Sheet {
	if on.Width < on.Height {
		on.Width, on.Height = on.Height, on.Width
	}
	return on
}

// key is what marks a set.
type key struct{ Set }

// KeyPages is the key of the whole class on paper lying on its side: first the answers with
// what is accepted, three tasks a page; then what each mistake would give, and where C lies,
// two tasks a page.
func (s Set) KeyPages(on paging.Sheet, r draw.Ruler) (all []draw.Page, err error) {
	on = lying(on)
	if on.Width < 2*margin+keyPupil+tasksAcross*(keyGiven+2*keyBox)-0.5 || on.Height < 180 {
		return nil, tooSmall(on)
	}
	rows := int((on.Height - keyFoot - keyTop) / keyRow)
	most := 0
	for _, p := range s.Pupils {
		most = max(most, len(p.Tasks))
	}
	for from := 0; from < len(s.Pupils); from += rows {
		pupils := s.Pupils[from:min(from+rows, len(s.Pupils))]
		for n := 0; n < most; n += tasksAcross {
			all = append(all, key{s}.answers(pupils, n, min(n+tasksAcross, most), on, r))
		}
	}
	for from := 0; from < len(s.Pupils); from += rows {
		pupils := s.Pupils[from:min(from+rows, len(s.Pupils))]
		for n := 0; n < most; n += 2 {
			all = append(all, key{s}.diagnosed(pupils, n, min(n+2, most), on, r))
		}
	}
	return all, nil
}

// keyHead is what stands at the top and at the foot of a page of the key.
func (s key) keyHead(l *leaf) {
	m := s.marking()
	l.words(m.KeyTitle(), margin, 17, title)
	room := l.wide - 2*margin - l.r.Width(m.KeyTitle(), draw.TitleHeight, true) - 8
	l.words(draw.Shorten(s.Title, " ", func(t string) bool { return l.r.Width(t, draw.NoteHeight, false) <= room }), l.wide-margin, 17, note.to(draw.Right))
	l.words(m.Seed(s.Seed), l.wide-margin, 12, note.to(draw.Right))
	l.lines(m.Ranges(s.Accept)+" "+m.Marks(), margin, l.high-keyFoot+4.5, l.wide-2*margin, note)
}

// named writes the pupils down the side, with a rule under every fourth.
func (s key) named(l *leaf, pupils []Pupil, wide unit.Length) {
	for i, p := range pupils {
		y := keyTop + unit.Length(i)*keyRow
		name := fmt.Sprintf("%02d", p.Number)
		if p.Name != "" {
			name = draw.Shorten(name+" "+p.Name, " ", func(t string) bool { return l.r.Width(t, draw.NoteHeight, false) <= wide-2 })
		}
		l.words(name, margin, y+4, note)
		if i%4 == 3 || i == len(pupils)-1 {
			l.line(margin, y+keyRow, l.wide-margin, y+keyRow, 0.13)
		}
	}
	l.line(margin, keyTop, l.wide-margin, keyTop, rulePen)
}

func (s key) answers(pupils []Pupil, from, to int, on paging.Sheet, r draw.Ruler) draw.Page {
	l := newLeaf(on, r)
	s.keyHead(l)
	m := s.marking()
	pupil, which, _, _ := m.KeyHeads()
	l.words(pupil, margin, keyTop-1.5, note)
	s.named(l, pupils, keyPupil)
	for n := from; n < to; n++ {
		x := margin + keyPupil + unit.Length(n-from)*(keyGiven+2*keyBox)
		for i, p := range pupils {
			if n >= len(p.Tasks) {
				continue
			}
			d := p.Tasks[n]
			boxes := d.Measured(s.Accept)
			if i == 0 {
				l.words(fmt.Sprintf("%s %d: %s", which, n+1, d.Kind), x, keyTop-6.5, style{height: draw.NoteHeight, bold: true})
				l.words(givenHead(d.Kind), x, keyTop-1.5, note)
				for k, b := range boxes {
					l.words(m.Asked(d.Kind, b.Of), x+keyGiven+unit.Length(k)*keyBox, keyTop-1.5, style{height: draw.NoteHeight, bold: true})
				}
			}
			y := keyTop + unit.Length(i)*keyRow + 4
			l.words(givenOf(d.Task), x, y, note)
			for k, b := range boxes {
				l.words(m.Range(b), x+keyGiven+unit.Length(k)*keyBox, y, note)
			}
		}
	}
	return l.page(draw.Key, m.KeyTitle())
}

// givenHead and givenOf are what is given, as the key has it.
func givenHead(k task.Kind) (say string) {
	for i, q := range k.Given() {
		if i > 0 {
			say += ", "
		}
		say += q.String()
	}
	return say
}

func givenOf(t task.Task) (say string) {
	for i, q := range t.Kind.Given() {
		if i > 0 {
			say += ", "
		}
		say += fmt.Sprint(t.Given[i])
		if q.IsAngle() {
			say += "°"
		}
	}
	return say
}

// diagnosed is what mistakes give, two tasks side by side.
func (s key) diagnosed(pupils []Pupil, from, to int, on paging.Sheet, r draw.Ruler) draw.Page {
	const beside unit.Length = 24
	l := newLeaf(on, r)
	s.keyHead(l)
	m := s.marking()
	pupil, which, _, what := m.KeyHeads()
	l.words(pupil, margin, keyTop-1.5, note)
	s.named(l, pupils, beside)
	wide := (l.wide - 2*margin - beside) / 2
	for n := from; n < to; n++ {
		x := margin + beside + unit.Length(n-from)*wide
		columns := s.mistakesOf(pupils, n)
		each := wide / unit.Length(max(4, 1+len(columns)))
		for i, p := range pupils {
			if n >= len(p.Tasks) {
				continue
			}
			d := p.Tasks[n]
			if i == 0 {
				l.words(fmt.Sprintf("%s %d: %s, %s", which, n+1, d.Kind, what), x, keyTop-14, style{height: draw.NoteHeight, bold: true})
				s.mistakeHeads(l, d.Kind, columns, x+each, each)
			}
			y := keyTop + unit.Length(i)*keyRow + 4
			for k, t := range d.Solve() {
				if d.Kind == task.SSA2 && k == 1 {
					break // the second is the shorter box
				}
				l.words(m.Place(t.Side[1], t.Deg[0]), x, y, note)
			}
			boxes := d.Measured(s.Accept)
			for _, w := range d.Mistakes() {
				for k, c := range columns {
					if c == w.Mistake {
						l.words(m.Has(w, boxes), x+unit.Length(k+1)*each, y, note)
					}
				}
			}
		}
	}
	return l.page(draw.Key, m.KeyTitle())
}

// mistakesOf are those that any pupil's task n can have.
func (s key) mistakesOf(pupils []Pupil, n int) (all []task.Mistake) {
	seen := map[task.Mistake]bool{}
	for _, p := range pupils {
		if n >= len(p.Tasks) {
			continue
		}
		for _, w := range p.Tasks[n].Mistakes() {
			if !seen[w.Mistake] {
				seen[w.Mistake], all = true, append(all, w.Mistake)
			}
		}
	}
	return all
}

// mistakeHeads name the columns, in as many as three lines.
func (s key) mistakeHeads(l *leaf, k task.Kind, columns []task.Mistake, x, each unit.Length) {
	for i, c := range columns {
		lines := l.broken(s.marking().Mistake(k, c), each-1.5, note)
		n := min(3, len(lines))
		for j, line := range lines[:n] {
			l.words(line, x+unit.Length(i)*each, keyTop-1.5-3.9*unit.Length(n-1-j), note)
		}
	}
}
