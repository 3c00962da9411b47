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
	h := s.fit
	e := Explanation{Cause: s.common.cause, Left: s.left, Freedom: len(l.Obs) - s.rank, Agree: s.agrees, Well: s.well}
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
		o := &l.Obs[i]
		now, _ := o.Computed(h.At)
		then, _ := o.Computed(mended)
		if !slices.Contains(e.Reading, i) && !l.readings[i].takes(then-now+as.Obs[i].Value-o.Value) {
			e.Outside = append(e.Outside, i)
		}
	}
	return e
}

func (l teller) together(e *Explanation, c commonly) {
	e.By, e.ByFigure95 = c.by[0], tape.Expansion*math.Sqrt(c.cov.At(0, 0))
	var wrong []leftOut
	switch {
	case c.cause == Racked:
		e.Held = []geom.Name{l.Names[c.round[0]], l.Names[c.round[1]]}
		wrong = []leftOut{{c.round[2], -1}, {c.round[3], -1}}
	case c.cause.OfWhole():
		for i := range l.Names {
			if !l.fast[i] {
				wrong = append(wrong, leftOut{i, -1})
			}
		}
	}
	var from []int
	if c.cause == Turned {
		e.About, from = l.Names[c.about], []int{c.about}
	}
	for _, x := range wrong {
		e.Pegs = append(e.Pegs, l.moved(x.peg, mark{at: c.as.wanted[x.peg], covariance: l.carriedBy(c, x.peg), both: true, from: from}, wrong))
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
func (l teller) alone(e *Explanation, h *adjust.Fit, out []leftOut) {
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
	m := Moved{Name: l.Names[i], Wanted: l.back(l.wanted[i]), At: l.back(stands.at), Covariance: stands.covariance, Off: unit.Length(off.Size()), Figure95: stands.covariance.Figure95(), Known: 2}
	mended := out[slices.Index(out, leftOut{i, -1})+1:] // after this one
	for _, k := range l.Of[i] {
		if !slices.Contains(out, leftOut{-1, k}) && !slices.ContainsFunc(mended, func(x leftOut) bool { return x.reading < 0 && l.Obs[k].Has(x.peg) }) {
			m.Then = append(m.Then, k)
		}
	}
	// Where one direction is a hundred times surer than the other, the other is as good as unknown.
	el := m.Covariance.Ellipse()
	far := el.Major > 100*el.Minor && !stands.both
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
		m.Known = 1
		m.Off, m.Figure95 = unit.Length(math.Abs(float64(m.Toward))), tape.Expansion*m.TowardSigma
		m.At = l.back(l.wanted[i].Minus(toward.Times(float64(m.Toward))))
	}
	return m
}

// inLine: a move so near the line to a peg, as a share of it, may be told as one along it.
const inLine = 0.2

// besides are the pegs that a move may be told from: those that something was
// found to, that stand right; where there are none, all that stand right.
func (l teller) besides(i int, out []leftOut) (all []int) {
	for j := range l.Names {
		if j != i && !slices.Contains(out, leftOut{j, -1}) {
			all = append(all, j)
		}
	}
	if near := slices.DeleteFunc(slices.Clone(all), func(j int) bool { return !l.Taped(i, j) }); len(near) > 0 {
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
	groups, most := 1, 0.0
	for j := range l.Names {
		for i := range j {
			if l.Taped(i, j) || !l.open(i, j) {
				continue
			}
			t := Telling{From: l.Names[i], To: l.Names[j]}
			for _, e := range all {
				t.Reads = append(t.Reads, e.reads(e.Places[i].Distance(e.Places[j])))
			}
			apart := t.group(l.Tools.Pull(t.Reads[0]))
			if n := len(t.Alike); n > groups || n == groups && n > 1 && apart > most*(1+1e-6) {
				groups, most, best = n, apart, &t
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
		step := math.Inf(1)
		if k > 0 {
			step = float64(t.Reads[i]-t.Reads[order[k-1]]) / float64(pull)
		}
		if last := len(t.Alike) - 1; step < shows {
			t.Alike[last] = append(t.Alike[last], i)
			continue
		}
		apart = min(apart, step)
		t.Alike = append(t.Alike, []int{i})
	}
	for _, g := range t.Alike {
		slices.Sort(g)
	}
	return apart
}
