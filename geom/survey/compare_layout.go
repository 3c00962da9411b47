package survey

import (
	"fmt"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
)

// layout is what was asked, its words checked.
type layout struct {
	problem
	asked  Asked
	wanted []xy         // seen from origin
	white  [][2]xy      // of each peg: rows that make its spread the unit circle
	spread []Covariance // of each peg
	ends   [2]int       // of the line it was set out from, as far as is known
	fast   []bool       // of each peg: it is fixed
	pulled map[[2]int]bool
	tape   taped
}

// leastSpread of a peg: nobody sets a nail nearer than that.
const leastSpread = 0.1 // mm

func newLayout(a Asked) (*layout, error) {
	if len(a.Found) == 0 {
		return nil, &unit.Fault{What: "nothing was measured back", Hint: "give what was found: AB=4510, BC=3005"}
	}
	if len(a.Found) > MostMeasurements {
		return nil, &unit.Fault{What: fmt.Sprintf("%d readings: at most %d are taken", len(a.Found), MostMeasurements), Hint: "divide the layout"}
	}
	if len(a.Pegs) > MostPoints {
		return nil, &unit.Fault{What: fmt.Sprintf("%d pegs: at most %d are taken", len(a.Pegs), MostPoints), Hint: "divide the layout"}
	}
	l := &layout{asked: a, tape: taped{a.Standard, a.Conditions}}
	l.problem = problem{Net: Net{Measured: slices.Clone(a.Found), Outline: a.Outline, Tools: a.Tools.complete()}, number: map[geom.Name]int{}}
	stakes := slices.Clone(a.Pegs)
	slices.SortFunc(stakes, func(p, q Stake) int { return before(p.Name, q.Name) })
	for i, s := range stakes {
		if _, twice := l.number[s.Name]; twice {
			return nil, &unit.Fault{Where: string(s.Name), What: "it is asked for twice", Hint: "give each peg once"}
		}
		l.number[s.Name] = i
		l.names = append(l.names, s.Name)
		if i == 0 {
			l.origin = plain(s.At)
		}
		l.wanted = append(l.wanted, plain(s.At).minus(l.origin))
	}
	if err := l.coincide(l.wanted); err != nil {
		return nil, err
	}
	if err := l.readFixed(); err != nil {
		return nil, err
	}
	l.of = make([][]int, len(l.names))
	for i := range l.Measured {
		if err := l.take(i); err != nil {
			return nil, err
		}
	}
	l.ends = l.longest()
	for i, s := range stakes {
		l.spread = append(l.spread, l.spreadOf(i, s))
		l.white = append(l.white, whitened(l.spread[i]))
	}
	return l, nil
}

// readFixed takes what is said of pegs and lines beside where they are.
func (l *layout) readFixed() error {
	l.fast, l.pulled = make([]bool, len(l.names)), map[[2]int]bool{}
	for _, n := range l.asked.Fixed {
		i, known := l.number[n]
		if !known {
			return &unit.Fault{Where: "fixed " + string(n), What: string(n) + " was not asked for", Hint: "the pegs are " + list(l.names)}
		}
		l.fast[i] = true
	}
	for _, p := range l.asked.Pulled {
		i, known := l.number[p[0]]
		j, also := l.number[p[1]]
		if known && also {
			l.pulled[[2]int{min(i, j), max(i, j)}] = true
		}
	}
	return nil
}

// take checks reading i and makes an observation of it.
func (l *layout) take(i int) error {
	m := &l.Measured[i]
	for _, n := range m.Points() {
		if _, known := l.number[n]; !known {
			return wrong(*m, "the pegs are "+list(l.names), "%s was not asked for", n)
		}
	}
	if err := l.check(*m); err != nil {
		return err
	}
	if m.Kind == geom.Angle && m.At[0] == "" {
		if k := slices.Index(l.Outline, m.At[1]); k >= 0 && len(l.Outline) > 2 {
			n := len(l.Outline)
			m.At[0], m.At[2] = l.Outline[(k+n-1)%n], l.Outline[(k+1)%n]
		}
	}
	for j := range i {
		if m.Same(l.Measured[j]) {
			return wrong(*m, "give the one that holds, or the mean of both", "%s is found twice, as %s before", m.Subject(), l.Measured[j].Value.Text)
		}
	}
	if err := l.observe(i, *m); err != nil {
		return err
	}
	o := &l.obs[i]
	if l.tape.used != nil && o.kind != geom.Angle {
		true, _, err := l.tape.Measured(length(o.value), *l.tape.used)
		if err != nil {
			return err
		}
		o.value = float64(true)
	}
	o.orient(l.wanted)
	if o.kind == geom.Height && o.plainly(l.wanted) < float64(Shortest) {
		return wrong(*m, "measure a length to another peg", "%s is to lie on that line", m.At[0])
	}
	o.sigma = o.fine(l.Tools, l.wanted)
	return nil
}

// longest edge of the outline, or where there is none, the longest length.
func (l *layout) longest() (ends [2]int) {
	best := -1.0
	try := func(i, j int) {
		if d := l.wanted[i].to(l.wanted[j]); d > best*(1+1e-9) {
			best, ends = d, [2]int{i, j}
		}
	}
	n := len(l.Outline)
	for k, name := range l.Outline {
		i, ok := l.number[name]
		j, also := l.number[l.Outline[(k+1)%n]]
		if ok && also {
			try(i, j)
		}
	}
	if best > 0 {
		return ends
	}
	for j := range l.wanted {
		for i := range j {
			try(i, j)
		}
	}
	return ends
}

// spreadOf is how surely a peg was set out.
func (l *layout) spreadOf(i int, s Stake) Covariance {
	c := s.Spread
	if l.fast[i] {
		c = Covariance{}
	} else if c == (Covariance{}) {
		far := max(l.wanted[i].to(l.wanted[l.ends[0]]), l.wanted[i].to(l.wanted[l.ends[1]]))
		sigma := l.Tools.Pull(length(far))
		if k := l.asked.Permitted; k > 0 {
			sigma = Permitted(k, length(far)) / (Expansion * math.Sqrt2)
		}
		v := unit.Area(sigma * sigma)
		c = Covariance{v, v, 0}
	}
	return c.Plus(Covariance{leastSpread * leastSpread, leastSpread * leastSpread, 0})
}

// whitened is the inverse of the lower triangle of a covariance (Cholesky).
func whitened(c Covariance) [2]xy {
	a := math.Sqrt(float64(c.XX))
	b := float64(c.XY) / a
	d := math.Sqrt(max(float64(c.YY)-b*b, leastSpread*leastSpread))
	return [2]xy{{1 / a, 0}, {-b / (a * d), 1 / d}}
}

func (l *layout) back(c xy) geom.Point {
	return geom.Point{X: length(c.x + l.origin.x), Y: length(c.y + l.origin.y)}
}
