package survey

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"trammel/geom/unit"
)

const (
	// byChance is how often a sound layout may have something named in it, all that
	// is tried taken together.
	byChance = 0.01
	// clearer: an explanation rules out another where it is a hundred times as
	// likely: 2 ln 100.
	clearer = 9.21
	// agrees: what is left is larger once in a thousand by chance. A twentieth, as in
	// Global, would leave a twentieth of the wrong pegs without a name.
	agrees = 0.999
	// fewThings is up to how many pegs and readings every two of them are tried
	// together; beyond, only pegs are.
	fewThings = 150
	// refined is how many of the likeliest are fitted in full: the first look takes
	// the net as linear, and a peg that is far off is not.
	refined = 12
)

// guess is things that may be left out, and how likely that looks.
type guess struct {
	out    []aside
	drop   float64
	rank   int
	weight float64
}

// blame looks for what explains the disagreement.
func (l *layout) blame(c *Comparison, f *stood) {
	things := l.things()
	single := l.likeliest(f, l.singly(f, things))
	found := l.sound(single, len(things), 0)
	if len(found) == 0 && len(single) > 0 {
		// Two of n: n(n−1)/2 are tried.
		n := len(things) * (len(things) - 1) / 2
		gain := single[0].weight + 2*math.Log(float64(len(things))/byChance)
		found = l.sound(l.likeliest(f, l.pairs(f, things)), max(n, 1), gain)
	}
	if len(found) == 0 {
		if len(single) > 0 && single[0].weight > 2*math.Log(float64(len(things))/byChance) {
			c.Nearest = &single[0]
		}
		return
	}
	c.Explanations = found
	if len(found) > 1 {
		c.Tell = l.telling(found)
	}
}

// things that may be wrong: pegs that something was found of, and readings.
func (l *layout) things() (all []aside) {
	for i := range l.names {
		if len(l.of[i]) > 0 {
			all = append(all, aside{i, -1})
		}
	}
	for k := range l.obs {
		all = append(all, aside{-1, k})
	}
	return all
}

func (l *layout) singly(f *stood, things []aside) (all []guess) {
	for _, x := range things {
		all = append(all, f.guess(x))
	}
	return all
}

func (l *layout) pairs(f *stood, things []aside) (all []guess) {
	few := len(things) <= fewThings
	for i, x := range things {
		for _, y := range things[:i] {
			if few || x.reading < 0 && y.reading < 0 {
				all = append(all, f.guess(y, x))
			}
		}
	}
	return all
}

func (f *stood) guess(out ...aside) guess {
	drop, rank := f.drop(out...)
	return guess{out, drop, rank, weigh(drop, rank)}
}

// weigh is −2 ln of the chance that a sum of that many squares falls by so much:
// of χ², whose survival is told apart down to nothing.
func weigh(drop float64, rank int) float64 {
	x := math.Sqrt(max(0, drop) / 2)
	switch rank {
	case 0:
		return 0
	case 1:
		return drop - 2*math.Log(erfcx(x))
	case 2:
		return drop
	case 3:
		return drop - 2*math.Log(erfcx(x)+2*x/math.Sqrt(math.Pi))
	}
	return drop - 2*math.Log(1+drop/2)
}

// erfcx is e^{x²}·erfc(x), within 1e-3.
func erfcx(x float64) float64 {
	if x < 5 {
		return math.Exp(x*x) * math.Erfc(x)
	}
	return (1 - 1/(2*x*x)) / (x * math.Sqrt(math.Pi))
}

// likeliest fits the best guesses in full, the likeliest first.
func (l *layout) likeliest(f *stood, all []guess) []Explanation {
	slices.SortStableFunc(all, func(a, b guess) int { return descending(a.weight, b.weight) })
	var out []Explanation
	for _, g := range all[:min(refined, len(all))] {
		if g.rank == 0 || g.weight < all[0].weight/4 {
			continue
		}
		h, err := l.fit(g.out)
		if err != nil {
			continue
		}
		left := h.left(g.out)
		e := Explanation{Drop: f.sum - left, Left: left, Freedom: len(l.obs) - g.rank, weight: weigh(max(0, f.sum-left), g.rank)}
		e.Agree = e.Freedom <= 0 || left <= distuv.ChiSquared{K: float64(e.Freedom)}.Quantile(agrees)
		l.tell(&e, h, g.out)
		out = append(out, e)
	}
	slices.SortStableFunc(out, func(a, b Explanation) int { return descending(a.weight, b.weight) })
	return out
}

// descending orders the larger first; alike but for rounding, the first stays.
func descending(a, b float64) int {
	switch {
	case math.Abs(a-b) <= 1e-6*(1+math.Abs(a)):
		return 0
	case a > b:
		return -1
	}
	return 1
}

// left is the sum of what takes part.
func (f *stood) left(out []aside) float64 {
	sum := f.sum
	for _, x := range out {
		for _, k := range f.rowsOf(x) {
			sum -= f.off[k] * f.off[k]
		}
	}
	return max(0, sum)
}

// sound are the explanations that hold: no chance, what is left agrees, and none
// is a hundred times as likely. Two things have to gain on one, and something has
// to be left that agrees.
func (l *layout) sound(all []Explanation, tried int, gain float64) (out []Explanation) {
	least := max(2*math.Log(float64(tried)/byChance), gain)
	for _, e := range all {
		if !e.Agree || e.weight < least || gain > 0 && e.Freedom < 1 {
			continue
		}
		if len(out) == 0 || e.weight > out[0].weight-clearer {
			out = append(out, e)
		}
	}
	return out
}

// tell fills in what an explanation says of its pegs and readings.
func (l *layout) tell(e *Explanation, h *stood, out []aside) {
	for _, c := range h.at {
		e.Places = append(e.Places, l.back(c))
	}
	for _, x := range out {
		if x.reading < 0 {
			e.Pegs = append(e.Pegs, l.moved(x.peg, h, out))
			continue
		}
		o := &l.obs[x.reading]
		if len(e.Reading) == 0 {
			v, by := o.look(h.at)
			var r row
			for k, q := range o.points() {
				r.add(2*q, by[k].x)
				r.add(2*q+1, by[k].y)
			}
			e.Others, e.Sigma = figure(o.kind, v), figure(o.kind, math.Sqrt(max(0, h.through(&r, &r))))
		}
		e.Reading = append(e.Reading, x.reading)
	}
}

// moved tells of a peg that stands wrong, and of the move that mends it.
func (l *layout) moved(i int, h *stood, out []aside) Moved {
	off := h.at[i].minus(l.wanted[i])
	m := Moved{Name: l.names[i], Wanted: l.back(l.wanted[i]), At: l.back(h.at[i]), Covariance: h.covariance(i), Off: length(off.size()), Known: 2}
	later := map[int]bool{} // pegs that are mended after this one
	for k := len(out) - 1; k >= 0 && out[k].peg != i; k-- {
		if out[k].reading < 0 {
			later[out[k].peg] = true
		}
	}
	for _, k := range l.of[i] {
		if !slices.Contains(out, aside{-1, k}) && !slices.ContainsFunc(l.obs[k].points(), func(q int) bool { return later[q] }) {
			m.Then = append(m.Then, k)
		}
	}
	// Where one direction is a hundred times surer than the other, the other is
	// as good as unknown.
	el := m.Covariance.Ellipse()
	far := el.Major > 100*el.Minor
	if far {
		m.Known = 1
	}
	m.Figure95 = m.Covariance.Figure95()
	best, toward := math.Inf(1), xy{}
	for _, j := range l.besides(i, out) {
		u := l.wanted[j].minus(h.at[i])
		if u.size() < float64(Shortest) {
			continue
		}
		u = u.unit()
		v := u.times(-1).left() // to the left, seen from there
		move := off.times(-1)
		cost := math.Abs(move.dot(v)) / max(move.size(), 1e-9)
		if far {
			s, c := math.Sincos(float64(el.Turn))
			cost = math.Abs(u.dot(xy{c, s})) // the sure direction is square to that
		} else if cost > inLine {
			cost = 1 + l.wanted[j].to(h.at[i])/l.width() // none lies in line: the nearest
		}
		if cost < best-1e-9 {
			best, toward = cost, u
			m.From, m.Toward, m.Left = l.names[j], length(move.dot(u)), length(move.dot(v))
			m.TowardSigma = m.Covariance.Along(unit.Angle(math.Atan2(u.y, u.x)))
			m.LeftSigma = m.Covariance.Along(unit.Angle(math.Atan2(v.y, v.x)))
		}
	}
	if far {
		m.Off, m.Figure95 = length(math.Abs(float64(m.Toward))), Expansion*m.TowardSigma
		m.At = l.back(l.wanted[i].minus(toward.times(float64(m.Toward))))
	}
	return m
}

// inLine: a move so near the line to a peg, as a share of it, may be told as one
// along it.
const inLine = 0.2

// besides are the pegs that a move may be told from: those that something was
// found to, that stand right; where there are none, all that stand right.
func (l *layout) besides(i int, out []aside) (all []int) {
	wrong := func(j int) bool { return j == i || slices.Contains(out, aside{j, -1}) }
	for j := range l.names {
		if !wrong(j) && l.found(i, j) {
			all = append(all, j)
		}
	}
	if len(all) == 0 {
		for j := range l.names {
			if !wrong(j) {
				all = append(all, j)
			}
		}
	}
	return all
}

// width of the layout.
func (l *layout) width() (w float64) {
	for _, c := range l.wanted {
		w = max(w, c.to(l.wanted[0]))
	}
	return w
}

// shows is by how many σ of a pull two lengths must differ to be told apart.
const shows = 4

// telling is the length, not found as yet, that parts the explanations into the
// most groups; of those, that by which they differ most.
func (l *layout) telling(all []Explanation) *Telling {
	var best *Telling
	most := 0.0
	for j := range l.names {
		for i := range j {
			if l.found(i, j) {
				continue
			}
			t := Telling{From: l.names[i], To: l.names[j]}
			for _, e := range all {
				t.Reads = append(t.Reads, e.Places[i].Distance(e.Places[j]))
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
