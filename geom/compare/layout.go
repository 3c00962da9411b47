package compare

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/tape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// layout is what was asked, its words checked.
type layout struct {
	adjust.Book
	asked  Asked
	wanted []geom.Vector       // seen from origin
	white  [][2]geom.Vector    // of each peg: rows that make its spread the unit circle
	spread []adjust.Covariance // of each peg
	ends   [2]int              // of the line it was set out from, as far as is known
	fast   []bool              // of each peg: it is fixed
	pulled map[[2]int]bool
	tape   taped
}

// leastSpread of a peg: nobody sets a nail nearer than that.
const leastSpread = 0.1 // mm

func newLayout(a Asked) (*layout, error) {
	if len(a.Found) == 0 {
		return nil, &unit.Fault{What: "nothing was measured back", Hint: "give what was found: AB=4510, BC=3005"}
	}
	if len(a.Found) > adjust.MostMeasurements {
		return nil, &unit.Fault{What: fmt.Sprintf("%d readings: at most %d are taken", len(a.Found), adjust.MostMeasurements), Hint: "divide the layout"}
	}
	if len(a.Pegs) > adjust.MostPoints {
		return nil, &unit.Fault{What: fmt.Sprintf("%d pegs: at most %d are taken", len(a.Pegs), adjust.MostPoints), Hint: "divide the layout"}
	}
	l := &layout{asked: a, tape: taped{a.Standard, a.Conditions}}
	l.Book = adjust.Book{Measured: slices.Clone(a.Found), Tools: a.Tools.Complete(), Number: map[geom.Name]int{}}
	stakes := slices.Clone(a.Pegs)
	slices.SortFunc(stakes, func(p, q Stake) int { return geom.Before(p.Name, q.Name) })
	for i, s := range stakes {
		if _, twice := l.Number[s.Name]; twice {
			return nil, &unit.Fault{Subject: unit.Measured, Of: string(s.Name), What: "it is asked for twice", Hint: "give each peg once"}
		}
		l.Number[s.Name] = i
		l.Names = append(l.Names, s.Name)
		if i == 0 {
			l.Origin = geom.VectorOf(s.At)
		}
		l.wanted = append(l.wanted, geom.VectorOf(s.At).Minus(l.Origin))
	}
	if err := l.Coincide(l.wanted); err != nil {
		return nil, err
	}
	if err := l.readFixed(); err != nil {
		return nil, err
	}
	l.Of = make([][]int, len(l.Names))
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
	l.fast, l.pulled = make([]bool, len(l.Names)), map[[2]int]bool{}
	for _, n := range l.asked.Fixed {
		i, known := l.Number[n]
		if !known {
			return &unit.Fault{Subject: unit.Fixed, Of: string(n), What: string(n) + " was not asked for", Hint: "the pegs are " + geom.List(l.Names)}
		}
		l.fast[i] = true
	}
	for _, p := range l.asked.Pulled {
		i, known := l.Number[p[0]]
		j, also := l.Number[p[1]]
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
		if _, known := l.Number[n]; !known {
			return adjust.Wrong(*m, "the pegs are "+geom.List(l.Names), "%s was not asked for", n)
		}
	}
	if err := l.Check(*m); err != nil {
		return err
	}
	if m.Kind == triangle.Angle && m.At[0] == "" {
		if k := slices.Index(l.asked.Outline, m.At[1]); k >= 0 && len(l.asked.Outline) > 2 {
			n := len(l.asked.Outline)
			m.At[0], m.At[2] = l.asked.Outline[(k+n-1)%n], l.asked.Outline[(k+1)%n]
		}
	}
	for j := range i {
		if m.Same(l.Measured[j]) {
			return adjust.Wrong(*m, "give the one that holds, or the mean of both", "%s is found twice, as %s before", m.Subject(), l.Measured[j].Value.Text)
		}
	}
	if err := l.Observe(i, *m); err != nil {
		return err
	}
	o := &l.Obs[i]
	if l.tape.used != nil && o.Kind != triangle.Angle {
		true, _, err := l.tape.Measured(unit.Length(o.Value), *l.tape.used)
		if err != nil {
			return err
		}
		o.Value = float64(true)
	}
	o.Orient(l.wanted)
	if o.Kind == triangle.Height && o.Unsigned(l.wanted) < float64(adjust.Shortest) {
		return adjust.Wrong(*m, "measure a length to another peg", "%s is to lie on that line", m.At[0])
	}
	o.Sigma = o.SigmaAt(l.Tools, l.wanted)
	return nil
}

// longest edge of the outline, or where there is none, the longest length.
func (l *layout) longest() [2]int {
	var lines [][2]int
	n := len(l.asked.Outline)
	for k, name := range l.asked.Outline {
		i, ok := l.Number[name]
		if j, also := l.Number[l.asked.Outline[(k+1)%n]]; ok && also && i != j {
			lines = append(lines, [2]int{i, j})
		}
	}
	if len(lines) == 0 {
		for j := range l.wanted {
			for i := range j {
				lines = append(lines, [2]int{i, j})
			}
		}
	}
	return adjust.LongestOf(l.wanted, lines)
}

func (l *layout) spreadOf(i int, s Stake) adjust.Covariance {
	switch {
	case l.fast[i]:
		return round(leastSpread * leastSpread)
	case s.Spread != (adjust.Covariance{}):
		return s.Spread.Plus(round(leastSpread * leastSpread))
	}
	far := unit.Length(max(l.wanted[i].To(l.wanted[l.ends[0]]), l.wanted[i].To(l.wanted[l.ends[1]])))
	sigma := l.Tools.Pull(far)
	if k := l.asked.Permitted; k > 0 {
		sigma = tape.Permitted(k, far) / (tape.Expansion * math.Sqrt2)
	}
	return round(unit.Area(sigma * sigma)).Plus(round(leastSpread * leastSpread))
}

// round is the scatter that is the same to all sides.
func round(v unit.Area) adjust.Covariance { return adjust.Covariance{XX: v, YY: v} }

// whitened is the inverse of the lower triangle of a covariance (Cholesky).
func whitened(c adjust.Covariance) [2]geom.Vector {
	a := math.Sqrt(float64(c.XX))
	b := float64(c.XY) / a
	d := math.Sqrt(max(float64(c.YY)-b*b, leastSpread*leastSpread))
	return [2]geom.Vector{{X: 1 / a, Y: 0}, {X: -b / (a * d), Y: 1 / d}}
}

func (l *layout) back(c geom.Vector) geom.Point { return c.Plus(l.Origin).Point() }

func (l *layout) width() (w float64) {
	for _, c := range l.wanted {
		w = max(w, c.To(l.wanted[0]))
	}
	return w
}

// descending orders the larger first; alike but for rounding, the first stays.
func descending(a, b float64) int {
	if math.Abs(a-b) <= 1e-6*(1+math.Abs(a)) {
		return 0
	}
	return cmp.Compare(b, a)
}
