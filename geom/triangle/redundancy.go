package triangle

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// finest is what stands for a tolerance stated as zero, in mm or degrees:
// finer than anything is measured, and coarse beside the rounding of float64.
const finest = 1e-6

// exactly: measurements that meet a triangle to this share of their value agree
// with it as far as float64 can tell, and no adjustment is made.
const exactly = 1e-15

// fit is a triangle that agrees with all the measurements of a set.
type fit struct {
	start sides // from the triple alone
	triple
	best plain // adjusted
}

// findAdjusted solves for four measurements or more.
func (p *problem) findAdjusted() ([]sides, triple, error) {
	d := p.newDesk()
	all := make([]int, len(p.of))
	for i := range all {
		all[i] = i
	}
	fits := d.fits(all)
	if len(fits) == 0 {
		return nil, triple{}, d.disagreement(all)
	}
	var found []sides
	for _, f := range fits {
		s := d.finish(all, f)
		same := func(o sides) bool { return o.plain().near(s.plain()) }
		if !slices.ContainsFunc(found, same) {
			found = append(found, s)
		}
	}
	return found, fits[0].triple, nil
}

// desk keeps what the adjustment of one problem uses again and again.
type desk struct {
	*problem
	known  *values
	target []float64 // mm and degrees
	tol    []float64 // the same units, never 0
	solved map[triple][]sides
	why    map[triple]reason
}

func (p *problem) newDesk() *desk {
	d := &desk{problem: p, known: new(values), solved: map[triple][]sides{}, why: map[triple]reason{}}
	for i, m := range p.measured {
		p.put(d.known, i, m.Value.Value)
		v, _ := m.Value.Value.Float64()
		tol := 0.0
		if m.Value.Tolerance != nil {
			tol, _ = m.Value.Tolerance.Float64()
		}
		d.target, d.tol = append(d.target, v), append(d.tol, max(tol, finest))
	}
	return d
}

// ranks is the order in which triples are preferred to name the case.
var ranks = [...]string{"SSS", "SAS", "ASA", "AAS", "SSA", "SSH", "SAH", "SHH", "AAH", "AHH", "HHH"}

// triples of the measurements that determine a triangle, best first.
func (d *desk) triples(which []int) []triple {
	var all []triple
	for i := range which {
		for j := range i {
			for k := range j {
				if t := tripleOf(d.of[which[k]], d.of[which[j]], d.of[which[i]]); t.determines() {
					all = append(all, t)
				}
			}
		}
	}
	slices.SortFunc(all, func(t, u triple) int {
		if c := cmp.Compare(slices.Index(ranks[:], t.letters()), slices.Index(ranks[:], u.letters())); c != 0 {
			return c
		}
		return slices.Compare(t[:], u[:])
	})
	return all
}

func (d *desk) solve(t triple) []sides {
	if s, done := d.solved[t]; done {
		return s
	}
	s, why := t.solve(d.known)
	d.solved[t], d.why[t] = s, why
	return s
}

// fits are the different triangles that agree with the measurements in which:
// each triangle of each triple is adjusted to all of them and then judged.
func (d *desk) fits(which []int) []fit {
	var found []fit
	for _, t := range d.triples(which) {
		for _, s := range d.solve(t) {
			start := s.plain()
			if !start.valid() {
				continue
			}
			best := d.adjust(which, d.target, start)
			if d.agrees(which, best) && !slices.ContainsFunc(found, func(f fit) bool { return f.best.near(best) }) {
				found = append(found, fit{s, t, best})
			}
		}
	}
	return found
}

// rows is the linearised problem at s, in units of the tolerances: how each
// measurement would change with the sides, and what it reads more than s has.
func (d *desk) rows(which []int, target []float64, s plain) (rows [][3]float64, off []float64) {
	for _, i := range which {
		g := s.gradient(d.of[i])
		for k := range g {
			g[k] /= d.tol[i]
		}
		rows, off = append(rows, g), append(off, (target[i]-s.measure(d.of[i]))/d.tol[i])
	}
	return rows, off
}

// adjust moves the sides to the least sum of squares, weights 1/tolerance², by
// Gauss–Newton steps that are damped (Levenberg 1944, Marquardt 1963) where a
// whole one does not help.
func (d *desk) adjust(which []int, target []float64, s plain) plain {
	const tries = 60
	rows, off := d.rows(which, target, s)
	cost, damp := squares(off), 0.0
	for range tries {
		step, ok := leastSquares(rows, off, damp)
		if ok {
			next := plain{s[0] + step[0], s[1] + step[1], s[2] + step[2]}
			if next.valid() {
				r, o := d.rows(which, target, next)
				if c := squares(o); c <= cost {
					done := next.change(s) < 1e-15 || damp == 0 && cost-c <= 1e-14*cost
					s, rows, off, cost = next, r, o, c
					if done {
						break
					}
					damp /= 8
					if damp < 1e-9 {
						damp = 0
					}
					continue
				}
			}
			if next.change(s) < 1e-15 {
				break
			}
		}
		damp = max(8*damp, 1e-6)
	}
	return s
}

func squares(v []float64) float64 { return dot(v, v) }

// agrees says whether some triangle has every measurement within its tolerance.
//
// Near s, which is the best fit, each measurement allows a slab of the space of
// the three sides. Slabs are convex, and by Helly's theorem all of them have a
// point in common where every four have; four do where the one equation that
// binds them is kept within the sum of their tolerances. And a triangle that
// keeps all of them has a sum of squares no larger than their number, which
// holds however far from linear the problem is.
func (d *desk) agrees(which []int, s plain) bool {
	const hair = 1e-6 // of the tolerances: what is on the edge is inside
	rows, off := d.rows(which, d.target, s)
	if squares(off) > float64(len(which))*(1+hair) {
		return false
	}
	n := len(rows)
	for i := range n {
		for j := range i {
			for k := range j {
				for l := range k {
					c := [4]float64{determinant(rows[j], rows[k], rows[l]), -determinant(rows[i], rows[k], rows[l]),
						determinant(rows[i], rows[j], rows[l]), -determinant(rows[i], rows[j], rows[k])}
					w := c[0]*off[i] + c[1]*off[j] + c[2]*off[k] + c[3]*off[l]
					if math.Abs(w) > (1+hair)*(math.Abs(c[0])+math.Abs(c[1])+math.Abs(c[2])+math.Abs(c[3])) {
						return false
					}
				}
			}
		}
	}
	return true
}

func determinant(a, b, c [3]float64) float64 {
	return a[0]*(b[1]*c[2]-b[2]*c[1]) - a[1]*(b[0]*c[2]-b[2]*c[0]) + a[2]*(b[0]*c[1]-b[1]*c[0])
}

// finish gives the adjusted sides their last digits: the triangle of the triple
// itself where everything agrees with it, else steps from residuals taken at 256 bits.
func (d *desk) finish(which []int, f fit) sides {
	if _, worst := d.exactOff(which, f.start); worst <= exactly {
		return f.start
	}
	s := f.best.exact()
	off, _ := d.exactOff(which, s)
	for range 3 {
		rows, _ := d.rows(which, d.target, s.plain())
		step, ok := leastSquares(rows, off, 0)
		if !ok {
			break
		}
		next := s
		for k := range next {
			next[k] = next[k].plus(fromFloat(step[k]))
		}
		if _, over := next.reach(); over.sign() <= 0 || slices.MinFunc(next[:], number.cmp).sign() <= 0 {
			break
		}
		o, _ := d.exactOff(which, next)
		if squares(o) > squares(off) {
			break
		}
		s, off = next, o
	}
	return s
}

// exactOff is what the measurements read more than s has, in tolerances, and the
// largest as a share of its own value.
func (d *desk) exactOff(which []int, s sides) (off []float64, worst float64) {
	f := figuresOf(s)
	for _, i := range which {
		x := f.less(d.of[i], d.measured[i].Value.Value).float64()
		if d.of[i].Kind() == Angle {
			x *= degreesOfRadian
		}
		worst = max(worst, math.Abs(x)/d.target[i])
		off = append(off, -x/d.tol[i])
	}
	return off, worst
}

// suspect is a measurement without which the others agree.
type suspect struct {
	i     int
	makes float64 // what the others make it
	slips float64 // by how many tolerances it is off
}

// disagreement names the measurement that is most likely wrong, among those
// without which the others agree: the one that is off by the fewest of its
// tolerances. Where another is off by less than twice as many there is no
// telling, and a height is named before an angle and an angle before a side,
// since that is how well they can be measured; then the one measured last.
func (d *desk) disagreement(all []int) *NoTriangle {
	w := d.words()
	if len(all) == 4 {
		if e := d.angleMisfit(w); e != nil {
			return e
		}
	}
	var suspects []suspect
	for i := range all {
		others := slices.Delete(slices.Clone(all), i, i+1)
		var fits []plain
		if len(others) == 3 {
			if t := tripleOf(d.of[others[0]], d.of[others[1]], d.of[others[2]]); t.determines() {
				for _, s := range d.solve(t) {
					fits = append(fits, s.plain())
				}
			}
		} else {
			for _, f := range d.fits(others) {
				fits = append(fits, f.best)
			}
		}
		best := suspect{slips: math.Inf(1)}
		for _, s := range fits {
			makes := s.measure(d.of[i])
			if slips := math.Abs(makes-d.target[i]) / d.tol[i]; slips < best.slips {
				best = suspect{i, makes, slips}
			}
		}
		if !math.IsInf(best.slips, 1) {
			suspects = append(suspects, best)
		}
	}
	if len(suspects) == 0 {
		return d.nothingAgrees(w, all)
	}
	slices.SortStableFunc(suspects, func(a, b suspect) int { return cmp.Compare(a.slips, b.slips) })
	n := slices.IndexFunc(suspects, func(s suspect) bool { return s.slips > 2*suspects[0].slips })
	if n < 0 {
		n = len(suspects)
	}
	slices.SortFunc(suspects[:n], func(a, b suspect) int {
		return cmp.Or(cmp.Compare(d.of[b.i].Kind(), d.of[a.i].Kind()), cmp.Compare(b.i, a.i))
	})
	first := suspects[0]
	q := d.of[first.i]
	e := no(fmt.Sprintf("measure %s again", w.name(q)), "%s disagrees with the other %s: they make it %s",
		d.measured[first.i].Text, count(len(all)-1), w.misfit(q, first.makes, d.target[first.i]))
	if len(suspects) > 1 {
		r := suspects[1]
		e.Hint += fmt.Sprintf(", then %s: %s would fit too", w.name(d.of[r.i]), w.figure(d.of[r.i], r.makes, d.target[r.i]))
	}
	return e
}

// angleMisfit: with three angles and one more, the angles alone say what is wrong.
func (d *desk) angleMisfit(w words) *NoTriangle {
	sum, tol, n := 0.0, 0.0, 0
	var said []string
	for i, q := range d.of {
		if q.Kind() == Angle {
			sum, tol, n = sum+d.target[i], tol+d.tol[i], n+1
			said = append(said, d.measured[i].Text)
		}
	}
	if n < 3 || math.Abs(sum-180) <= tol {
		return nil
	}
	return no("one of the three is wrong: "+again, "%s, %s and %s must make 180° together: they make %s",
		said[0], said[1], said[2], w.misfit(AngleAt(0), sum, 180))
}

// nothingAgrees: no measurement can be left out to make the rest agree.
func (d *desk) nothingAgrees(w words, all []int) *NoTriangle {
	worst, least := -1, math.Inf(1)
	for _, t := range d.triples(all) {
		for _, s := range d.solve(t) {
			start := s.plain()
			if !start.valid() {
				continue
			}
			_, off := d.rows(all, d.target, d.adjust(all, d.target, start))
			if c := squares(off); c < least {
				least, worst = c, 0
				for i := range off {
					if math.Abs(off[i]) > math.Abs(off[worst]) {
						worst = i
					}
				}
			}
		}
	}
	if worst < 0 { // no three of them make a triangle
		for _, t := range d.triples(all) {
			if why := d.why[t]; why != nil {
				return why(w)
			}
		}
		return no("measure the triangle across", "%s, %s and %s lie as good as on one line", w.names[0], w.names[1], w.names[2])
	}
	return no("measure all of them again, "+w.name(d.of[worst])+" first",
		"no %s of the %s measurements agree: at least two are wrong", count(len(all)-1), count(len(all)))
}

func count(n int) string {
	if names := [...]string{3: "three", 4: "four", 5: "five", 6: "six", 7: "seven", 8: "eight", 9: "nine"}; n < len(names) {
		return names[n]
	}
	return fmt.Sprint(n)
}
