package setout

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"trammel/geom"
	"trammel/geom/net"
	"trammel/geom/pegging"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// work is a sheet being made.
type work struct {
	*Sheet
	order    []geom.Name              // the outline, then the other points
	at       map[geom.Name]geom.Point // in the net's own plane
	way      pegging.Way              // from the zero end
	beside   []geom.Name              // corners beside the baseline, in the order of the work
	taken    map[geom.Name]bool
	feet     map[geom.Name]geom.Name      // of corners
	marksOn  []Peg                        // on the line of the baseline, in the order in which the tape passes them
	mids     []Peg                        // of the sides of the only corner
	squareOf map[geom.Name]pegging.Square // by which a corner is set off, now or as a check
	trace    trace
}

func newWork(s *Sheet, net net.Adjusted) *work {
	w := &work{Sheet: s, at: map[geom.Name]geom.Point{}, taken: map[geom.Name]bool{}, feet: map[geom.Name]geom.Name{}}
	s.net, s.given = net, net.Results
	for i, n := range net.Names {
		w.at[n], w.taken[n] = net.Points[i], true
	}
	w.order = append(w.order, net.Outline...)
	for _, n := range net.Names {
		if !slices.Contains(w.order, n) {
			w.order = append(w.order, n)
		}
	}
	return w
}

// pegsOf are the points of the net, in the order in which they are walked round.
func (w *work) pegsOf() (all []pegging.Peg) {
	for _, n := range w.order {
		all = append(all, pegging.Peg{Name: n, At: w.at[n]})
	}
	return all
}

// distance of two points of the net.
func (w *work) distance(a, b geom.Name) unit.Length { return w.at[a].Distance(w.at[b]) }

// free takes the wished letter for a mark, or where a corner has it the next
// letter that is free; where all are taken, the letter with a figure. I and O are
// left out: they read as figures.
func (w *work) free(wish geom.Name) geom.Name {
	c := wish[0]
	for range 26 {
		if n := geom.Name(c); c != 'I' && c != 'O' && !w.taken[n] {
			w.taken[n] = true
			return n
		}
		if c++; c > 'Z' {
			c = 'A'
		}
	}
	return w.numbered(wish)
}

// numbered is the first free of F1, F2 …
func (w *work) numbered(wish geom.Name) geom.Name {
	for i := 1; ; i++ {
		if n := geom.Name(fmt.Sprintf("%s%d", wish, i)); !w.taken[n] {
			w.taken[n] = true
			return n
		}
	}
}

const sameMark = pegging.SameMark

// onePeg is how close two marks share one peg, each with its own nail: pegs are
// 40 to 50 mm wide (common practice, no source).
const onePeg unit.Length = 60

func near(a, b, d unit.Length) bool { return math.Abs(float64(a-b)) <= float64(d) }

// baseline settles how the sheet's plane lies. The tape's zero is the first end of the
// way.
func (w *work) baseline(way pegging.Way) error {
	base := way.Base
	w.way, w.Method = way, way.Method
	w.Baseline = Baseline{From: base[0], To: base[1], Length: w.distance(base[0], base[1])}
	w.Baseline.Measured = w.measured(base[0], base[1], w.Baseline.Length)
	offsets := way
	if way.Method != pegging.OffsetSquare { // a triangle is checked by a square
		all, err := pegging.Ways(w.Tools, w.pegsOf(), []pegging.Method{pegging.OffsetSquare}, [][2]geom.Name{base})
		if err != nil {
			return err
		}
		offsets = all[0]
	}
	w.squareOf = map[geom.Name]pegging.Square{}
	for _, p := range offsets.Pegs {
		w.squareOf[p.Name] = p.Square
	}

	sum := unit.Length(0)
	for _, p := range w.way.Pegs {
		sum += p.At.Y
	}
	left, right := base[0], base[1]
	if sum < -sameMark {
		w.Baseline.Zero = 1
		left, right = right, left
	}
	turn := -geom.Line{From: w.at[left], To: w.at[right]}.Direction()
	back := geom.Placement{Turn: turn}.Apply(w.at[left])
	w.Place = geom.Placement{Turn: turn, Shift: geom.Point{X: -back.X, Y: -back.Y}}
	w.sides = map[geom.Name]geom.Point{}
	for _, p := range w.way.Pegs {
		w.sides[p.Name] = w.plane(p.At.X, p.At.Y)
	}
	for _, n := range w.around() {
		if math.Abs(float64(w.sides[n].Y)) > float64(sameMark) {
			w.beside = append(w.beside, n)
		}
	}
	return nil
}

// around is all points but the baseline's ends, as they are met walking round from
// its far end.
func (w *work) around() []geom.Name {
	start := slices.Index(w.order, w.Baseline.To)
	var out []geom.Name
	for i := range w.order {
		n := w.order[(start+i)%len(w.order)]
		if n != w.Baseline.From && n != w.Baseline.To {
			out = append(out, n)
		}
	}
	return out
}

// plane is a place in the sheet's plane, from its running distance and its offset
// to the left.
func (w *work) plane(along, left unit.Length) geom.Point {
	if w.Baseline.Zero == 1 {
		return geom.Point{X: w.Baseline.Length - along, Y: 0 - left}
	}
	return geom.Point{X: along, Y: left}
}

// running is the other way: running distance and offset of a place.
func (s *Sheet) running(at geom.Point) (along, offset unit.Length, side Side) {
	along, left := at.X, at.Y
	if s.Baseline.Zero == 1 {
		along, left = s.Baseline.Length-at.X, 0-at.Y
	}
	switch {
	case left > sameMark:
		return along, left, Left
	case left < -sameMark:
		return along, -left, Right
	}
	return along, max(left, -left), OnLine
}

// lone says that there is one corner beside the baseline: a triangle. There is time
// to place it in two ways, and to check it by its middles.
func (w *work) lone() bool { return len(w.beside) == 1 }

// wantsFeet says whether a method of this sheet wants the feet marked.
func (w *work) wantsFeet() bool { return w.lone() || w.Method == pegging.OffsetSquare }

// mark is a peg of a place.
func (w *work) mark(n geom.Name, r Role, at geom.Point, note string, of ...geom.Name) Peg {
	peg := Peg{Name: n, Role: r, At: at, Note: note}
	peg.Along, peg.Offset, peg.Side = w.running(at)
	copy(peg.Of[:], of)
	return peg
}

// nameMarks finds the marks beside the corners: feet, middles and squares.
func (w *work) nameMarks() {
	b := w.Baseline.Length
	from, to := w.Baseline.From, w.Baseline.To
	on := []Peg{} // corners on the line, and the ends
	for _, n := range w.order {
		if !slices.Contains(w.beside, n) {
			on = append(on, w.mark(n, Corner, w.sides[n], "on the baseline"))
		}
	}
	standing := func(x unit.Length) geom.Name { // on the line at x of the plane
		for _, p := range slices.Concat(on, w.marksOn) {
			if near(p.At.X, x, sameMark) {
				return p.Name
			}
		}
		return ""
	}
	half := w.plane(b/2, 0).X
	if w.wantsFeet() {
		var fresh []geom.Name
		for _, n := range w.beside {
			if w.feet[n] = standing(w.sides[n].X); w.feet[n] == "" {
				for _, m := range fresh { // two corners over one foot
					if near(w.sides[n].X, w.sides[m].X, sameMark) {
						w.feet[n] = m
					}
				}
				if w.feet[n] == "" {
					fresh = append(fresh, n)
					w.feet[n] = n
				}
			}
		}
		name := map[geom.Name]geom.Name{}
		for _, n := range fresh {
			if len(fresh) == 1 {
				name[n] = w.free("F")
			} else {
				name[n] = w.numbered("F")
			}
			note := "foot of " + string(n)
			if w.lone() {
				note = "foot of the height"
			}
			peg := w.mark(name[n], Foot, geom.Point{X: w.sides[n].X}, note, n)
			if peg.Also = near(peg.At.X, half, sameMark); peg.Also {
				peg.Note = "foot, middle of " + string(from+to)
			}
			w.marksOn = append(w.marksOn, peg)
		}
		for _, n := range w.beside {
			if f, ok := name[w.feet[n]]; ok && slices.Contains(fresh, w.feet[n]) {
				w.feet[n] = f
			}
		}
	}
	if w.lone() || w.Method == pegging.TwoArcs && len(w.beside) > 0 {
		if w.middle = standing(half); w.middle == "" {
			w.middle = w.free("M")
			w.marksOn = append(w.marksOn, w.mark(w.middle, Middle, geom.Point{X: half}, "middle of "+string(from+to), from, to))
		}
	}
	for _, p := range on {
		if p.Name != from && p.Name != to {
			w.marksOn = append(w.marksOn, p)
		}
	}
	sort.SliceStable(w.marksOn, func(i, j int) bool { return w.marksOn[i].Along < w.marksOn[j].Along })
	if w.lone() {
		apex := w.beside[0]
		ends := w.ends()
		for i, wish := range []geom.Name{"N", "P"} {
			end := ends[1-i]
			w.mids = append(w.mids, w.mark(w.free(wish), Middle, geom.Line{From: w.sides[end], To: w.sides[apex]}.At(0.5), "middle of "+string(end+apex), end, apex))
		}
	}
}

// ends of the baseline, the left one of the plane first.
func (s *Sheet) ends() [2]geom.Name {
	if s.Baseline.Zero == 1 {
		return [2]geom.Name{s.Baseline.To, s.Baseline.From}
	}
	return [2]geom.Name{s.Baseline.From, s.Baseline.To}
}

// number settles how each corner is placed and lists the pegs in the order in which
// they are set.
func (w *work) number() {
	from, to := w.Baseline.From, w.Baseline.To
	add := func(p Peg) {
		p.Number = len(w.Pegs) + 1
		w.Pegs = append(w.Pegs, p)
	}
	add(w.mark(from, Corner, w.sides[from], "tape's zero"))
	add(w.mark(to, Corner, w.sides[to], "baseline's end"))
	for _, p := range w.marksOn {
		add(p)
	}
	squares := func(i int, known int) {
		if i < known {
			return // there already
		}
		for _, p := range w.squarePegs(w.Squares[i]) {
			add(p)
		}
	}
	place := func(m pegging.Method, n geom.Name) Placing {
		p := Placing{Peg: n, Method: m, Square: -1}
		_, _, p.Side = w.running(w.sides[n])
		p.Crossing = w.crossing(n)
		if m == pegging.OffsetSquare {
			p.Foot = w.feet[n]
			known := len(w.Squares)
			p.Square = w.squareFor(n)
			squares(p.Square, known)
		}
		return p
	}
	for _, n := range w.beside {
		w.Main = append(w.Main, place(w.Method, n))
		note := "corner"
		switch {
		case w.lone():
			note = "apex"
		case !slices.Contains(w.Outline, n):
			note = "point"
		}
		add(w.mark(n, Corner, w.sides[n], note))
	}
	for _, p := range w.mids {
		add(p)
	}
	if w.lone() {
		second := pegging.OffsetSquare
		switch {
		case w.Method == pegging.OffsetSquare, w.Method == pegging.AngleDistance && w.Main[0].Crossing.Sound:
			second = pegging.TwoArcs
		}
		w.Second = append(w.Second, place(second, w.beside[0]))
	}
}

// crossing of the arcs that are swung to a corner from the baseline's ends.
func (w *work) crossing(n geom.Name) Crossing {
	at := w.sides[n]
	p, q := w.sides[w.Baseline.From].Minus(at), w.sides[w.Baseline.To].Minus(at)
	cross := float64(p.X)*float64(q.Y) - float64(p.Y)*float64(q.X)
	dot := float64(p.X)*float64(q.X) + float64(p.Y)*float64(q.Y)
	c := Crossing{At: n, Angle: unit.Angle(math.Atan2(math.Abs(cross), dot))}
	c.Sound = c.Angle >= Flattest && c.Angle <= Bluntest
	c.Spread = Ratio(math.Sqrt2 / math.Sin(float64(c.Angle)))
	return c
}

// Peg finds a peg by its name.
func (s Sheet) Peg(n geom.Name) (Peg, bool) {
	for _, p := range s.Pegs {
		if p.Name == n {
			return p, true
		}
	}
	return Peg{}, false
}

// measured says whether the distance was measured and is printed as it was: one
// that an adjustment has moved counts as computed.
func (s Sheet) measured(a, b geom.Name, is unit.Length) bool {
	return slices.ContainsFunc(s.given, func(r net.Result) bool {
		return isDistance(r.Measurement, a, b) && s.Figure(r.Measured.Length) == s.Figure(is)
	})
}

func isDistance(m triangle.Measurement, a, b geom.Name) bool {
	return m.Kind == triangle.Distance && (m.At[0] == a && m.At[1] == b || m.At[0] == b && m.At[1] == a)
}

// offsetMeasured says the same of a corner's height over the baseline; where the
// foot is an end of the baseline, the height is a side.
func (w *work) offsetMeasured(n geom.Name, is unit.Length) bool {
	for _, r := range w.given {
		if m := r.Measurement; m.Kind == triangle.Height && m.At[0] == n && sameLine([2]geom.Name{m.At[1], m.At[2]}, [2]geom.Name{w.Baseline.From, w.Baseline.To}) {
			return w.Figure(r.Measured.Length) == w.Figure(is)
		}
	}
	f := w.feet[n]
	return (f == w.Baseline.From || f == w.Baseline.To) && w.measured(f, n, is)
}

// angleMeasured says the same of the angle at the zero end to a corner.
func (w *work) angleMeasured(n geom.Name, is unit.Angle) bool {
	return slices.ContainsFunc(w.given, func(r net.Result) bool {
		m := r.Measurement
		if m.Kind != triangle.Angle || m.At[1] != w.Baseline.From || w.Turned(r.Measured.Angle) != w.Turned(is) {
			return false
		}
		return m.At[0] == "" && w.triangle() || sameLine([2]geom.Name{m.At[0], m.At[2]}, [2]geom.Name{w.Baseline.To, n})
	})
}
