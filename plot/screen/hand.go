package screen

import (
	"slices"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/template"
)

// Hand is a piece as it is drawn by hand: a group of lines for each step, which a screen
// shows as far as the work has come, and what each step is about.
func Hand(c construct.Construction, width float64) Picture {
	at := placesOf(c)
	level := unit.Angle(0)
	if b, ok := c.Base(); ok {
		level = b.Line.Direction()
	}
	points := listed(at)
	var groups [][]draw.Op
	for _, step := range c.Steps {
		ops := drawn(step)
		groups = append(groups, ops)
		for _, op := range ops {
			r := op.Bounds(nil)
			points = append(points, r.Min, r.Max)
		}
	}
	f := frameOf(unit.Length(width))
	f.about = 40
	v := viewOf(points, level, f)
	var w writer
	w.head(v.width, v.height, "hand")
	k := known{outline: c.Outline.Names, spots: map[geom.Name]geom.Point{}}
	for n, p := range at {
		k.spots[n] = v.at(p)
	}
	s := scene{view: v, known: k.with(c.Outline.Names)}
	letters := s.letters(inked(v, groups))
	seen, lies := map[geom.Name]bool{}, map[geom.Name]int{}
	said := 0
	for i := 0; i < len(c.Steps); said++ {
		w.open(said)
		for last := i + together(c, i); i < last; i++ {
			for _, op := range groups[i] {
				w.mark("line", op, v)
			}
			s.checked(&w, c.Steps[i])
			if other, ok := meetsTwice(c.Steps[i]); ok && lies[other.Name] > 0 {
				w.dot("other", string(other.Name), v.at(other.At), 4)
			}
			for _, n := range reveals(c.Steps[i], lies) {
				if p, ok := k.spots[n]; ok && !seen[n] {
					seen[n] = true
					w.dot("spot", string(n), p, 3)
					if at, ok := letters[n]; ok {
						w.letter(string(n), at)
					}
				}
			}
		}
		w.close()
	}
	return s.data(Picture{SVG: w.end(), Width: float64(v.width), Height: float64(v.height), Steps: said})
}

// inked is the board with the lines of every step.
func inked(v view, groups [][]draw.Op) board {
	b := newBoard(v)
	for i, ops := range groups {
		for _, op := range ops {
			if l, ok := op.(draw.Line); ok {
				b.ink(v.line(l.Line), i+1)
			}
		}
	}
	return b
}

// together is how many steps are said in one sentence, of the step i and those behind it:
// lines of a net that are joined end to end (words.ByHand.Acts).
func together(c construct.Construction, i int) int {
	n := 0
	var end geom.Name
	for _, step := range c.Steps[i:] {
		j, joins := step.(construct.Join)
		if !joins || n > 0 && j.From != end {
			break
		}
		n, end = n+1, j.To
	}
	if c.Triangle != (triangle.Triangle{}) {
		n = min(n, 1)
	}
	return max(n, 1)
}

// checked marks what a step measures, which is drawn already.
func (s scene) checked(w *writer, step construct.Step) {
	switch m := step.(type) {
	case construct.CheckSide:
		w.line("check", string(m.From+m.To), geom.Line{From: s.spots[m.From], To: s.spots[m.To]})
	case construct.CheckAngle:
		a, b := m.Between[0], m.Between[1]
		if i := slices.Index(s.outline, m.At); a == "" && i >= 0 {
			n := len(s.outline)
			a, b = s.outline[(i+n-1)%n], s.outline[(i+1)%n]
		}
		if t := s.angle(a, m.At, b, false); t.radius() > 1 {
			arc := t.arc()
			arc.Radius = min(2*arc.Radius, 40)
			w.path("check", string(m.At), []geom.Segment{arc}, false)
		}
	case construct.CheckHeight:
		t := s.known.height(triangle.Measurement{Kind: triangle.Height, At: [3]geom.Name{m.From, m.Base[0], m.Base[1]}})
		w.line("check", t.Of, t.line)
	}
}

// meetsTwice is the second place where a line by hand meets what was drawn before.
func meetsTwice(step construct.Step) (construct.Spot, bool) {
	switch s := step.(type) {
	case construct.Swing:
		return construct.Spot{Name: s.To, At: s.Other}, s.Twice && s.Tell == ""
	case construct.HalfCircle:
		return construct.Spot{Name: s.To, At: s.Other}, s.Twice
	}
	return construct.Spot{}, false
}

// drawn are the lines of a step; an arc that meets twice reaches both places.
func drawn(step construct.Step) []draw.Op {
	ops := template.Marks(step)
	s, ok := step.(construct.Swing)
	if ok && s.Twice && s.Tell == "" && s.Beside == 0 {
		a, b := geom.Line{From: s.About, To: s.Through}.Direction(), geom.Line{From: s.About, To: s.Other}.Direction()
		const past = 8 * unit.Degree
		turn := between(a, b)
		if turn < 0 {
			a, turn = a+turn, -turn
		}
		return []draw.Op{draw.Arc{Arc: geom.Arc{Centre: s.About, Radius: s.Radius, Start: a - past, Sweep: turn + 2*past}, Pen: draw.Thin, On: draw.Construction}}
	}
	return ops
}

// reveals are the points that have a place after a step: a point lies on two lines.
func reveals(step construct.Step, lies map[geom.Name]int) []geom.Name {
	crosses := func(n geom.Name) []geom.Name {
		if lies[n]++; lies[n] == 2 {
			return []geom.Name{n}
		}
		return nil
	}
	switch s := step.(type) {
	case construct.Swing:
		return crosses(s.To)
	case construct.SetAngle:
		return crosses(s.To)
	case construct.Parallel:
		return crosses(s.To)
	case construct.HalfCircle:
		return crosses(s.To)
	case construct.DrawBase:
		return []geom.Name{s.From, s.To}
	case construct.MarkOff:
		return []geom.Name{s.To}
	case construct.Erect:
		return []geom.Name{s.To}
	case construct.Join:
		return []geom.Name{s.From, s.To}
	case construct.CheckSide:
		return []geom.Name{s.From, s.To}
	}
	return nil
}
