package survey

import (
	"fmt"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/unit"
)

// Asked is a layout that was to be set out, and what was measured of it
// afterwards.
type Asked struct {
	Pegs    []Stake
	Outline []geom.Name // tells which angle is meant by A=90deg; may be empty
	Found   []geom.Measurement
	Tools   Tools // what was set out and measured back with
	// Permitted is the K of a permitted deviation ±K√L of each length; 0: the
	// range follows from the tools.
	Permitted unit.Length
	// Ranges are those that a setting-out sheet printed already: they win.
	Ranges []Range
	// Grain is what the ends of the other ranges are moved outward to, so that a
	// reading is judged by the figures that are printed; what is permitted is moved
	// inward to Fine instead. 0: they stay.
	Grain, Fine Figure
	// Standard and Conditions are of the tape that it was measured back with; nil:
	// it reads as it should. Found is as read, and is told as read.
	Standard   Standard
	Conditions *Conditions
}

// Stake is a peg, where it was to stand.
type Stake struct {
	Name geom.Name
	At   geom.Point
	// Spread is how surely it was set out. Zero: as a peg is that two pulls square
	// to each other place, each as long as from the farther end of the longest edge
	// (without an outline: of the longest length there is). With Permitted it is as
	// wide as that allows (2σ of a length is what is permitted).
	Spread Covariance
}

// Range is what a length from one peg to another is accepted within.
type Range struct {
	From, To        geom.Name
	Least, Greatest unit.Length
}

// Compared is one thing found beside what was wanted. Lengths are as the tape
// reads them.
type Compared struct {
	Measurement     geom.Measurement
	Wanted, Found   Figure
	Off             Figure // found less wanted
	Least, Greatest Figure // accepted from and to
	Inside          bool
	Sigma           Figure // of the reading
	// Rough says that the way it is written leaves more open than is accepted, so
	// that it lies inside or outside by chance; Open is how much, to each side.
	Rough bool
	Open  Figure
}

// Standing is where a peg stands, as far as what was found tells.
type Standing struct {
	Name       geom.Name
	Wanted, At geom.Point // in the axes of Asked.Pegs, shifted and turned to fit best
	Covariance Covariance
	Found      int // how many readings go to it
}

// Moved is a peg that stands wrong and the move that mends it.
type Moved struct {
	Name       geom.Name
	Wanted, At geom.Point // where it should stand and where it stands
	Covariance Covariance // of At
	Off        unit.Length
	Figure95   unit.Length // of Off and of the move: 95 of 100 lie nearer than that
	// Known is 2, or 1 where what was found tells of one direction alone.
	Known int
	// The move is told from another peg that stands right: so far towards it (less
	// than 0: away), and so far to the left (less than 0: right) as seen from there.
	// The two σ are of these.
	From                   geom.Name
	Toward, Left           unit.Length
	TowardSigma, LeftSigma unit.Length
	// Then are the readings that go to it, into Readings: they should read what was
	// wanted afterwards. Those that go as well to a peg that is mended later are
	// among that one's.
	Then []int
}

// Explanation is what would make the rest agree: one or two pegs that stand wrong,
// or a reading that is misread.
type Explanation struct {
	Pegs    []Moved
	Reading []int        // into Readings: misread
	Others  Figure       // what the others make the first such reading
	Sigma   Figure       // σ of that
	Drop    float64      // by which the sum of squares falls
	Left    float64      // the sum that is left
	Freedom int          // of that sum
	Agree   bool         // what is left is what the tools allow
	Places  []geom.Point // of all pegs then, in the order of Standing
	weight  float64      // −2 ln of the chance of so large a drop
}

// Telling is a length not found as yet that would tell explanations apart.
type Telling struct {
	From, To geom.Name
	Reads    []unit.Length // by each of the explanations
	Alike    [][]int       // the explanations, in groups that it does not tell apart
}

// Comparison is what was found against what was wanted.
type Comparison struct {
	Readings  []Compared // in the order given
	Standings []Standing // in the order of the alphabet
	Passed    bool       // each reading lies inside its range
	Sum       float64    // of the squares, all pegs where they should stand but for what setting out costs
	Freedom   int
	// Explanations are what explains the disagreement, the likeliest first; more
	// than one only where nothing tells them apart. Empty where all is inside, and
	// where no one and no two explain it.
	Explanations []Explanation
	// Nearest is then what would explain the most, though the rest still disagrees.
	Nearest *Explanation
	Tell    *Telling // where there are two explanations and a length tells them apart
	// Unseen are pegs that nothing was found of.
	Unseen []geom.Name
	// Fixed says whether what was found fixes the shape of the pegs that were seen;
	// where it does not, Next is the length to measure.
	Fixed bool
	Next  [2]geom.Name

	tape taped
}

// taped is a tape as it was used.
type taped struct {
	Standard
	used *Conditions
}

// reads is what the tape shows over a length.
func (t taped) reads(l unit.Length) unit.Length {
	if t.used == nil {
		return l
	}
	r, _, err := t.Reading(l, *t.used)
	if err != nil { // refused before, with the first length
		return l
	}
	return r
}

// ShouldRead is what the tape should read from one peg to another; 0 where one of
// them was not asked for.
func (c Comparison) ShouldRead(m, n geom.Name) unit.Length {
	p, q := c.standing(m), c.standing(n)
	if p.Name == "" || q.Name == "" {
		return 0
	}
	return c.tape.reads(p.Wanted.Distance(q.Wanted))
}

// Wrong are the pegs that stand wrong without a doubt.
func (c Comparison) Wrong() []Moved {
	if len(c.Explanations) != 1 {
		return nil
	}
	return c.Explanations[0].Pegs
}

// Accepted is the share of readings of a sound layout that lie inside their range:
// 2.5758 σ. One in a hundred lies outside by chance.
const accepted = 2.5758

// Compare holds what was found against what was wanted.
//
// A length is accepted within ±K√L where K is given; else within what one pull of
// the tape is good for (its error and nail and eye, as Tape and Tools have them)
// and 2.58 σ of the setting-out of its two ends, the two independent. What a
// reading leaves open by itself, as one to the centimetre, widens that as long as it
// is less than all the rest; it never makes a poor reading a good one.
//
// Which peg stands wrong is found by least squares: the wanted place of each peg
// counts as an observation with the σ of its setting-out, each reading as one with
// its own. Each peg in turn is then left free, and each reading left out: the
// one for which the sum of squares falls most is named if so large a fall is no
// chance (once in a hundred, all that were tried taken together) and if what is
// left agrees. Where no single one does, two are tried.
//
// Errors are a *unit.Fault: a point that was not asked for, a thing found twice.
func Compare(a Asked) (Comparison, error) {
	l, err := newLayout(a)
	if err != nil {
		return Comparison{}, err
	}
	f, err := l.fit(nil)
	if err != nil {
		return Comparison{}, err
	}
	c := Comparison{Passed: true, Sum: f.sum, Freedom: len(l.obs), tape: l.tape}
	for i := range l.obs {
		r := l.compared(i)
		c.Passed = c.Passed && r.Inside
		c.Readings = append(c.Readings, r)
	}
	for i, n := range l.names {
		s := Standing{Name: n, Wanted: l.back(l.wanted[i]), At: l.back(f.at[i]), Covariance: f.covariance(i), Found: len(l.of[i])}
		if s.Found == 0 {
			c.Unseen = append(c.Unseen, n)
		}
		c.Standings = append(c.Standings, s)
	}
	c.Fixed, c.Next = l.fixed(f)
	if !c.Passed {
		l.blame(&c, f)
	}
	return c, nil
}

// layout is what was asked, its words checked.
type layout struct {
	problem
	asked  Asked
	wanted []xy         // seen from origin
	white  [][2]xy      // of each peg: rows that make its spread the unit circle
	spread []Covariance // of each peg
	ends   [2]int       // of the line it was set out from, as far as is known
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
	if c == (Covariance{}) {
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
