package tasks

import (
	"iter"
	"strconv"

	"trammel/geom"
	"trammel/geom/task"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/paging"
	"trammel/plot/panel"
)

// AnswerPages are every pupil's tasks as they should come out, true to scale, to be laid under
// or over what was drawn: with the steps in words, and a box with its range for each check.
func (s Set) AnswerPages(on paging.Sheet, r draw.Ruler) (iter.Seq[draw.Page], error) {
	if on.Width < 2*margin+185 || on.Height < 279 {
		return nil, tooSmall(on)
	}
	return func(yield func(draw.Page) bool) {
		for _, p := range s.Pupils {
			for n, d := range p.Tasks {
				l := newLeaf(on, r)
				answer{s}.draw(l, p, n, d)
				if !yield(l.page(draw.Answer, s.marking().Pupil(p.Number, p.Name))) {
					return
				}
			}
		}
	}, nil
}

// answer is one task as it should come out.
type answer struct{ Set }

func (s answer) draw(l *leaf, p Pupil, n int, d task.Drawn) {
	m := s.marking()
	l.words(m.AnswerTitle(m.Pupil(p.Number, p.Name), n+1), margin, 19, title)
	x := margin
	for _, g := range s.says().Given(d.Task) {
		l.words(g, x, 27, bold)
		x += l.r.Width(g, draw.FigureHeight, true) + 8
	}
	l.line(margin, 31, l.wide-margin, 31, rulePen)
	f, err := panel.FigureOf(d.Task, s.Language, l.r)
	if err != nil {
		panic("tasks: " + err.Error()) // a task that keeps the rules is a triangle
	}
	shift := geom.Placement{Shift: l.at((l.wide-f.Wide)/2, 36+f.High)}
	tag := &draw.Tag{Role: draw.AsFigure, Alt: m.FilmAlt()}
	for _, op := range draw.Tagged(f.Ops, tag) {
		l.add(draw.Move(op, shift))
	}
	y := max(36+f.High+9, 150)
	for i, step := range f.Steps {
		l.words(strconv.Itoa(i+1), margin, y, bold)
		y = l.lines(step, margin+7, y, l.wide-2*margin-7, read) + 1.2
	}
	s.checks(l, d, y+1)
	l.bar(margin, l.high-11, 1, 0)
	l.bar(l.wide-9, l.high-16, 0, 1)
}

// checks are boxes with their values and ranges.
func (s answer) checks(l *leaf, d task.Drawn, y unit.Length) {
	const apart unit.Length = 92
	for i, b := range d.Measured(s.Accept) {
		before, after := s.says().Box(d.Kind, b.Of)
		x := margin + apart*unit.Length(i)
		l.words(before, x, y+7.5, bold)
		x += l.r.Width(before, draw.FigureHeight, true) + 2.5
		l.frame(x, y, 26, 11, rulePen)
		l.words(after, x+28.5, y+7.5, bold)
		l.words(s.marking().Comes(b), margin+apart*unit.Length(i), y+16, note)
	}
}
