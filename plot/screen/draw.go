package screen

import (
	"cmp"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/place"
)

// Draw is a piece that is known, on a picture of a width.
func Draw(p Piece, width float64) Picture {
	o := p.Construction.Outline
	at := placesOf(p.Construction)
	level := unit.Angle(0)
	if b, ok := p.Construction.Base(); ok {
		level = b.Line.Direction()
	}
	v := viewOf(listed(at), level, frameOf(unit.Length(width)))
	k := known{measured: p.Measured, figures: p.Figures, doubtful: p.Doubtful, outline: o.Names, spots: map[geom.Name]geom.Point{}}
	for n, q := range at {
		k.spots[n] = v.at(q)
	}
	s := scene{view: v, known: k.with(o.Names), things: nil}
	s.things = s.known.things(o)
	if len(p.Finished) > 0 {
		for _, seg := range p.Finished {
			s.finished = append(s.finished, v.segment(seg))
		}
	}
	return s.picture()
}

// with gives what is known its outline as it lies on the screen.
func (k known) with(outline []geom.Name) known {
	k.inside = nil
	for _, n := range outline {
		k.inside = append(k.inside, k.spots[n])
	}
	return k
}

// listed are points in the order of their names.
func listed(at map[geom.Name]geom.Point) (all []geom.Point) {
	for _, n := range named(at) {
		all = append(all, at[n])
	}
	return all
}

func named(at map[geom.Name]geom.Point) (all []geom.Name) {
	for n := range at {
		all = append(all, n)
	}
	slices.SortFunc(all, geom.Before)
	return all
}

// scene is a picture before its tags have a place.
type scene struct {
	view
	known
	things   []thing
	finished []geom.Segment
	gap      gap
}

// picture places the tags and writes all.
func (s scene) picture() Picture {
	b := newBoard(s.view)
	for i, t := range s.things {
		if t.Kind != Angle {
			b.ink(t.line, i+1)
			if t.Kind == Side {
				b.bound[i+1] = t.line
			}
		}
	}
	for _, l := range s.gap.lines() {
		b.ink(l, 0)
	}
	for _, p := range s.spots {
		b.Block(polygon(box(p, 8, 8)))
	}
	letters := s.letters(b)
	leaders := s.put(b)
	height := s.view.height + rows(s.things, s.view.width, s.view.height)

	var w writer
	w.head(s.view.width, height, "shape")
	s.lines(&w)
	for _, l := range leaders {
		w.line("leader", "", l)
	}
	for _, n := range named(s.spots) {
		w.dot("spot", string(n), s.spots[n], 3.5)
		if at, ok := letters[n]; ok {
			w.letter(string(n), at)
		}
	}
	return s.data(Picture{SVG: w.end(), Width: float64(s.view.width), Height: float64(height)})
}

// data fills in what is no SVG.
func (s scene) data(p Picture) Picture {
	p.Rough, p.Gap, p.Spots = s.rough, float64(s.gap.size), map[string][2]float64{}
	p.Width, p.Height = tenth(p.Width), tenth(p.Height)
	for n, at := range s.spots {
		p.Spots[string(n)] = [2]float64{tenth(float64(at.X)), tenth(float64(at.Y))}
	}
	for _, t := range s.things {
		t.X, t.Y, t.W = tenth(t.X), tenth(t.Y), tenth(t.W)
		p.Tags = append(p.Tags, t.Tag)
		p.Edges = append(p.Edges, Edge{t.Of, t.Kind, t.from, t.to})
	}
	return p
}

// tenth is a length to a tenth of a pixel.
func tenth(v float64) float64 { return math.Round(v*10)/10 + 0 }

// lines writes the shape, its sides, and what else was measured.
func (s scene) lines(w *writer) {
	if len(s.inside) > 2 {
		w.polygon("piece", s.inside)
	}
	if len(s.finished) > 0 {
		w.path("finished", "", s.finished, true)
	}
	thick := slices.Clone(s.things)
	slices.SortStableFunc(thick, func(a, b thing) int { return cmp.Compare(b.Kind, a.Kind) }) // sides last, over all others
	for _, t := range thick {
		class := string(t.Kind)
		switch {
		case t.Doubt:
			class += " doubt"
		case t.Given:
			class += " given"
		}
		if t.Row && t.line == (geom.Line{}) {
			continue
		}
		if t.Kind == Angle {
			w.path(class, t.Of, []geom.Segment{t.arc()}, false)
			continue
		}
		w.line("hit", t.Of, t.line)
		w.line(class, t.Of, t.line)
	}
	s.gap.write(w)
}

// letters finds places for the names of the points, outside.
func (s scene) letters(b board) map[geom.Name]geom.Point {
	all := map[geom.Name]geom.Point{}
	for _, n := range named(s.spots) {
		at := s.spots[n]
		out := unit.Turn / 8
		if i := slices.Index(s.outline, n); i >= 0 {
			c := len(s.outline)
			before, next := s.spots[s.outline[(i+c-1)%c]], s.spots[s.outline[(i+1)%c]]
			first, second := geom.Line{From: at, To: before}.Direction(), geom.Line{From: at, To: next}.Direction()
			out = first + between(first, second)/2 + unit.Turn/2
			if s.inside.Has(at.Toward(out, 1)) {
				out += unit.Turn / 2
			}
		}
		var places []spot
		for _, l := range led(at, out, letter, letter, 0) {
			if l.leader.Length() < 45 {
				l.leader = geom.Line{} // so near, it needs none
			}
			over := l // rather on a side than nowhere
			over.onSides, over.cost = true, l.cost+150
			places = append(places, l, over)
		}
		taken, ok := b.best(places, letter, letter, place.NoLine)
		if !ok { // wherever a smaller one has room
			taken, ok = b.best(b.anywhere(at), letter*0.7, letter*0.7, place.NoLine)
		}
		if ok {
			all[n] = taken.at
		}
	}
	return all
}

// put gives each tag a place beside what it is of, or leaves it for the rows.
func (s scene) put(b board) (leaders []geom.Line) {
	for i := range s.things {
		t := &s.things[i]
		if t.Row {
			t.H = float64(Target)
			continue
		}
		t.W, t.H = float64(wide(t.Say)), float64(Target)
		taken, ok := b.best(t.places(), unit.Length(t.W), Target, i+1)
		if !ok {
			t.Row = true
			continue
		}
		r := box(taken.at, unit.Length(t.W), Target)
		t.X, t.Y = float64(r.Min.X), float64(r.Min.Y)
		if taken.leader != (geom.Line{}) {
			leaders = append(leaders, taken.leader)
		}
	}
	return leaders
}
