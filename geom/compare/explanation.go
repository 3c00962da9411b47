package compare

import (
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/tape"
	"trammel/geom/unit"
)

// teller tells what a cause makes of pegs and readings.
type teller struct {
	*layout
	readings []Compared
}

// explanation says what a cause makes of pegs and readings, and what it leaves.
func (l teller) explanation(s suspect) Explanation {
	h := s.pegFit
	e := Explanation{Cause: s.common.cause, Drop: s.drop, Left: s.left, Freedom: len(l.Obs) - s.rank, Agree: s.agrees, Well: s.well}
	for _, p := range h.At {
		e.Places = append(e.Places, l.back(p))
	}
	mended := slices.Clone(h.At)
	as := l.layout
	if s.out != nil {
		l.alone(&e, h, s.out)
		for _, x := range s.out {
			if x.reading < 0 {
				mended[x.peg] = l.wanted[x.peg]
			}
		}
	} else {
		as = s.common.as
		l.together(&e, s.common)
		for i := range mended {
			mended[i] = mended[i].Plus(l.wanted[i]).Minus(as.wanted[i])
		}
	}
	for i := range l.Obs {
		if slices.Contains(e.Reading, i) {
			continue
		}
		o := &l.Obs[i]
		now, _ := o.Computed(h.At)
		then, _ := o.Computed(mended)
		if !l.readings[i].takes(then - now + as.Obs[i].Value - o.Value) {
			e.Outside = append(e.Outside, i)
		}
	}
	return e
}

// together fills in what all have in common.
func (l teller) together(e *Explanation, c commonly) {
	e.By, e.ByFigure95 = c.by[0], tape.Expansion*math.Sqrt(c.cov.At(0, 0))
	var wrong []int
	switch {
	case c.cause == Racked:
		e.Held = []geom.Name{l.Names[c.round[0]], l.Names[c.round[1]]}
		wrong = c.round[2:]
	case c.cause.OfWhole():
		for i := range l.Names {
			if !l.fast[i] {
				wrong = append(wrong, i)
			}
		}
		if c.cause == Turned && c.about >= 0 {
			e.About = l.Names[c.about]
		}
	}
	var out []leftOut
	for _, i := range wrong {
		out = append(out, leftOut{i, -1})
	}
	var from []int
	if e.About != "" {
		from = []int{c.about}
	}
	for _, i := range wrong {
		e.Pegs = append(e.Pegs, l.moved(i, mark{at: c.as.wanted[i], covariance: l.carriedBy(c, i), both: true, from: from}, out))
	}
}

// carriedBy is the covariance of the place of a peg by a common cause.
func (l teller) carriedBy(c commonly, i int) (v adjust.Covariance) {
	var by []geom.Vector
	for k := range c.by {
		more := slices.Clone(c.by)
		more[k] += c.steps[k]
		by = append(by, c.common.as(more).wanted[i].Minus(c.as.wanted[i]).Times(1/c.steps[k]))
	}
	for j, p := range by {
		for k, q := range by {
			s := c.cov.At(j, k)
			v = v.Plus(adjust.Covariance{XX: unit.Area(p.X * q.X * s), YY: unit.Area(p.Y * q.Y * s), XY: unit.Area(p.X * q.Y * s)})
		}
	}
	return v.Plus(round(leastSpread * leastSpread))
}

// alone fills in pegs that stand wrong and readings that are misread.
func (l teller) alone(e *Explanation, h *pegFit, out []leftOut) {
	for _, x := range out {
		if x.reading < 0 {
			e.Pegs = append(e.Pegs, l.moved(x.peg, mark{at: h.At[x.peg], covariance: h.Covariance(x.peg)}, out))
			continue
		}
		o := &l.Obs[x.reading]
		if len(e.Reading) == 0 {
			v, by := o.Computed(h.At)
			r := h.Free.Row(o.Points(), by[:]...)
			e.Others, e.Sigma = adjust.AsFigure(o.Kind, v), adjust.AsFigure(o.Kind, math.Sqrt(max(0, h.Through(&r, &r))))
		}
		e.Reading = append(e.Reading, x.reading)
	}
}

// mark is where a peg stands, and how surely.
type mark struct {
	at         geom.Vector
	covariance adjust.Covariance
	both       bool  // known in both directions, however long the ellipse
	from       []int // pegs that a move may be told from; nil: those that are near at hand
}

// moved tells of a peg that stands wrong, and of the move that mends it.
func (l teller) moved(i int, stands mark, out []leftOut) Moved {
	off := stands.at.Minus(l.wanted[i])
	m := Moved{Name: l.Names[i], Wanted: l.back(l.wanted[i]), At: l.back(stands.at), Covariance: stands.covariance, Off: unit.Length(off.Size()), Known: 2}
	later := map[int]bool{} // pegs that are mended after this one
	for k := len(out) - 1; k >= 0 && out[k].peg != i; k-- {
		if out[k].reading < 0 {
			later[out[k].peg] = true
		}
	}
	for _, k := range l.Of[i] {
		if !slices.Contains(out, leftOut{-1, k}) && !slices.ContainsFunc(l.Obs[k].Points(), func(q int) bool { return later[q] }) {
			m.Then = append(m.Then, k)
		}
	}
	// Where one direction is a hundred times surer than the other, the other is
	// as good as unknown.
	el := m.Covariance.Ellipse()
	far := el.Major > 100*el.Minor && !stands.both
	if far {
		m.Known = 1
	}
	m.Figure95 = m.Covariance.Figure95()
	best, toward := math.Inf(1), geom.Vector{}
	from := stands.from
	if from == nil {
		from = l.besides(i, out)
	}
	for _, j := range from {
		u := l.wanted[j].Minus(stands.at)
		if u.Size() < float64(adjust.Shortest) {
			continue
		}
		u = u.Unit()
		v := u.Times(-1).Left() // to the left, seen from there
		move := off.Times(-1)
		cost := math.Abs(move.Dot(v)) / max(move.Size(), 1e-9)
		if far {
			s, c := math.Sincos(float64(el.Turn))
			cost = math.Abs(u.Dot(geom.Vector{X: c, Y: s})) // the sure direction is square to that
		} else if cost > inLine {
			cost = 1 + l.wanted[j].To(stands.at)/l.width() // none lies in line: the nearest
		}
		if cost < best-1e-9 {
			best, toward = cost, u
			m.From, m.Toward, m.Left = l.Names[j], unit.Length(move.Dot(u)), unit.Length(move.Dot(v))
			m.TowardSigma = m.Covariance.Along(unit.Angle(math.Atan2(u.Y, u.X)))
			m.LeftSigma = m.Covariance.Along(unit.Angle(math.Atan2(v.Y, v.X)))
		}
	}
	if far {
		m.Off, m.Figure95 = unit.Length(math.Abs(float64(m.Toward))), tape.Expansion*m.TowardSigma
		m.At = l.back(l.wanted[i].Minus(toward.Times(float64(m.Toward))))
	}
	return m
}

// inLine: a move so near the line to a peg, as a share of it, may be told as one
// along it.
const inLine = 0.2

// besides are the pegs that a move may be told from: those that something was
// found to, that stand right; where there are none, all that stand right.
func (l teller) besides(i int, out []leftOut) (all []int) {
	for j := range l.Names {
		if j != i && !slices.Contains(out, leftOut{j, -1}) {
			all = append(all, j)
		}
	}
	if near := slices.DeleteFunc(slices.Clone(all), func(j int) bool { return !l.found(i, j) }); len(near) > 0 {
		return near
	}
	return all
}

// shows is by how many σ of a pull two lengths must differ to be told apart.
const shows = 4

// telling is the length, not found as yet, that parts the explanations into the
// most groups; of those, that by which they differ most.
func (l *layout) telling(all []Explanation) *Telling {
	var best *Telling
	most := 0.0
	for j := range l.Names {
		for i := range j {
			if l.found(i, j) {
				continue
			}
			t := Telling{From: l.Names[i], To: l.Names[j]}
			for _, e := range all {
				t.Reads = append(t.Reads, e.reads(e.Places[i].Distance(e.Places[j])))
			}
			apart := t.group(l.Tools.Pull(t.Reads[0]))
			n, before := len(t.Alike), 1
			if best != nil {
				before = len(best.Alike)
			}
			if n > before || n == before && best != nil && apart > most*(1+1e-6) {
				most, best = apart, &t
			}
		}
	}
	return best
}

// group parts the explanations by what the length would read, and is the least
// step from group to group, in σ of a pull.
func (t *Telling) group(pull unit.Length) (apart float64) {
	order := make([]int, len(t.Reads))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return descending(float64(t.Reads[j]), float64(t.Reads[i])) })
	apart = math.Inf(1)
	for k, i := range order {
		if k > 0 {
			d := float64(t.Reads[i]-t.Reads[order[k-1]]) / float64(pull)
			if d < shows {
				last := len(t.Alike) - 1
				t.Alike[last] = append(t.Alike[last], i)
				continue
			}
			apart = min(apart, d)
		}
		t.Alike = append(t.Alike, []int{i})
	}
	for _, g := range t.Alike {
		slices.Sort(g)
	}
	return apart
}
