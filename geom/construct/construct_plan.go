package construct

import (
	"fmt"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// The nine quantities in a triangle's own numbering: P and Q are the ends of
// the baseline, R the apex.
var (
	sideQR, sideRP, sidePQ = triangle.Side(0), triangle.Side(1), triangle.Side(2)
	atP, atQ               = triangle.AngleAt(0), triangle.AngleAt(1)
	heightR                = triangle.HeightOf(2)
)

// plan is one way to construct a triangle on its baseline.
type plan struct {
	needs []triangle.Quantity // an angle among them may be the third of two measured
	draw  func(*bench)
}

// at is a construction that begins at one end of the baseline.
func at(end int, draw func(*bench, int)) func(*bench) { return func(b *bench) { draw(b, end) } }

var (
	angleP, angleQ             = at(0, (*bench).angleAndMark), at(1, (*bench).angleAndMark)
	rayPArcQ, rayQArcP         = at(0, (*bench).rayAndArc), at(1, (*bench).rayAndArc)
	parallelArcP, parallelArcQ = at(0, (*bench).parallelAndArc), at(1, (*bench).parallelAndArc)
	parallelRayP, parallelRayQ = at(0, (*bench).parallelAndRay), at(1, (*bench).parallelAndRay)
)

// direct are the constructions that set what was measured as it is, one for each of
// directSets.
var direct = []func(*bench){
	(*bench).twoArcs, angleP, angleQ, (*bench).twoAngles, rayPArcQ, rayQArcP,
	parallelArcP, parallelArcQ, parallelRayP, parallelRayQ,
}

// computed are those for the rest: something set in them is computed. What can
// be swung is preferred to what is set with a protractor.
var computed = []plan{
	{[]triangle.Quantity{heightR}, (*bench).offset},
	{[]triangle.Quantity{sideRP, sideQR}, (*bench).twoArcs},
	{[]triangle.Quantity{atP, atQ}, (*bench).twoAngles},
	{[]triangle.Quantity{sideRP, atP}, angleP},
	{[]triangle.Quantity{sideQR, atQ}, angleQ},
	{[]triangle.Quantity{sideRP}, (*bench).twoArcs},
	{[]triangle.Quantity{sideQR}, (*bench).twoArcs},
	{[]triangle.Quantity{atP}, angleP},
	{[]triangle.Quantity{atQ}, angleQ},
	{nil, (*bench).twoArcs},
}

func planFor(by Method, m [9]bool) plan {
	switch by {
	case ByArcs:
		return plan{draw: (*bench).twoArcs}
	case BySquare:
		return plan{draw: (*bench).offset}
	case ByAngle:
		k := triangle.WithThird(m)
		switch score := func(a, s triangle.Quantity) int { return 2*bit(k[a]) + bit(k[s]) }; {
		case k[atP] && k[atQ] && !k[sideRP] && !k[sideQR]:
			return plan{needs: []triangle.Quantity{atP, atQ}, draw: (*bench).twoAngles}
		case score(atQ, sideQR) > score(atP, sideRP):
			return plan{needs: []triangle.Quantity{atQ}, draw: angleQ}
		}
		return plan{needs: []triangle.Quantity{atP}, draw: angleP}
	}
	if set, ok := triangle.DirectSet(m); ok {
		return plan{triangle.DirectSets[set][:], direct[set]}
	}
	k := triangle.WithThird(m)
	unknown := func(q triangle.Quantity) bool { return !k[q] }
	return computed[slices.IndexFunc(computed, func(p plan) bool { return !slices.ContainsFunc(p.needs, unknown) })]
}

func bit(b bool) int {
	if b {
		return 1
	}
	return 0
}

// Construct is the triangle of an answer (counted from 0) as a person would
// construct it by hand: what was measured is set as it is where rule, compasses,
// protractor and square can do that, the rest is computed and marked as such;
// sides, an angle and the height that were not used are there to check. Where arcs or
// arms would cross under TooFlat the corner is set off the baseline instead. A
// method other than AsMeasured constructs the same triangle another way.
//
// The points are those of the triangle, within 1e-12 of its size. The error is
// a *unit.Fault where the solution has no such answer.
func Construct(s triangle.Solution, answer int, by Method) (Construction, error) {
	if answer < 0 || answer >= len(s.Answers) {
		return Construction{}, &unit.Fault{What: fmt.Sprintf("there is no answer %d", answer+1),
			Hint: fmt.Sprintf("answers: %d", len(s.Answers))}
	}
	if by > BySquare {
		return Construction{}, &unit.Fault{What: "there is no such way to construct", Hint: "as measured, by arcs, by angle, by square"}
	}
	t := s.Answers[answer].Triangle
	b := &bench{t: t}
	for _, m := range s.Measured {
		q, err := triangle.QuantityOf(m, t.Names)
		if err != nil {
			return Construction{}, err
		}
		b.measured[q] = true
	}
	c := b.construct(planFor(by, b.measured))
	if m, flat := c.Flattest(); flat && m.Angle < geom.TooFlat && by == AsMeasured {
		// What was measured cannot be set so that anybody sees the crossing.
		c = (&bench{t: t, measured: b.measured}).construct(planFor(BySquare, b.measured))
	}
	return c, nil
}

// construct follows a plan from the baseline to the checks.
func (b *bench) construct(p plan) Construction {
	b.thirdAngles(p.needs)
	b.base()
	p.draw(b)
	b.checks()
	return Construction{Outline: b.t.Outline(), Triangle: b.t, Steps: b.steps}
}

type bench struct {
	t        triangle.Triangle
	measured [9]bool
	used     [9]bool // set by a step
	steps    []Step
}

func (b *bench) do(s Step) { b.steps = append(b.steps, s) }

// use marks q as set and says whether it is a measurement.
func (b *bench) use(q triangle.Quantity) (measured bool) {
	b.used[q] = true
	return b.measured[q]
}

// thirdAngles come first where an angle to set follows from two measured ones.
func (b *bench) thirdAngles(needs []triangle.Quantity) {
	for _, q := range needs {
		i := q.Corner()
		j, k := (i+1)%3, (i+2)%3
		if q.Kind() == triangle.Angle && !b.measured[q] && b.measured[triangle.AngleAt(j)] && b.measured[triangle.AngleAt(k)] {
			b.do(ThirdAngle{At: b.t.Names[i], Angle: b.t.Angles[i],
				Others: [2]geom.Name{b.t.Names[j], b.t.Names[k]}, Known: [2]unit.Angle{b.t.Angles[j], b.t.Angles[k]}})
		}
	}
}

func (b *bench) base() {
	b.do(DrawBase{From: b.t.Names[0], To: b.t.Names[1], Line: geom.Line{From: b.t.Points[0], To: b.t.Points[1]},
		Length: b.t.Sides[2], Measured: b.use(sidePQ)})
}

// past is how far a construction line goes on behind what it is to meet.
func past(d unit.Length) unit.Length { return min(d*8/100, 25*unit.Millimetre) }

func (b *bench) swing(end int, other *geom.Point) {
	q := triangle.Side(1 - end)
	s := Swing{Centre: b.t.Names[end], About: b.t.Points[end], Radius: b.t.Sides[1-end],
		To: b.t.Names[2], Through: b.t.Points[2], Measured: b.use(q)}
	if other != nil {
		s.Twice, s.Other = true, *other
	}
	b.do(s)
}

// ray sets the angle at an end of the baseline, the ray going past the apex and
// past the other point where there is one.
func (b *bench) ray(end int, other *geom.Point) {
	from, length := b.t.Points[end], b.t.Sides[1-end]
	if other != nil {
		length = max(length, from.Distance(*other))
	}
	b.do(SetAngle{At: b.t.Names[end], Along: b.t.Names[1-end], Angle: b.t.Angles[end],
		Arm: geom.Line{From: from, To: b.t.Points[1-end]}, Ray: geom.Line{From: from, To: from.Toward(b.direction(end), length+past(length))},
		To: b.t.Names[2], Measured: b.use(triangle.AngleAt(end))})
}

// direction from an end of the baseline to the apex.
func (b *bench) direction(end int) unit.Angle {
	if end == 1 {
		return unit.Turn/2 - b.t.Angles[1]
	}
	return b.t.Angles[0]
}

func (b *bench) join(end int) {
	b.do(Join{From: b.t.Names[end], To: b.t.Names[2], Line: geom.Line{From: b.t.Points[end], To: b.t.Points[2]}})
}

func (b *bench) joinBoth() {
	b.join(0)
	b.join(1)
}

func (b *bench) twoArcs() {
	b.swing(0, nil)
	b.swing(1, nil)
	b.joinBoth()
}

// angleAndMark: the angle at one end and the side along its ray; a measured
// right angle is raised with the square.
func (b *bench) angleAndMark(end int) {
	q := triangle.Side(1 - end)
	if b.measured[triangle.AngleAt(end)] && b.square(end) {
		b.use(triangle.AngleAt(end))
		b.do(Erect{From: b.t.Names[end], Toward: b.t.Names[1-end], Foot: b.t.Points[end], Top: b.t.Points[2],
			Height: b.t.Sides[1-end], To: b.t.Names[2], Measured: b.use(q)})
		b.use(heightR) // it is the side
	} else {
		b.ray(end, nil)
		b.do(MarkOff{From: b.t.Names[end], To: b.t.Names[2], Line: geom.Line{From: b.t.Points[end], To: b.t.Points[2]},
			Length: b.t.Sides[1-end], Measured: b.use(q)})
	}
	b.join(1 - end)
}

// square says whether the corner is a right angle, to the rounding of float64.
func (b *bench) square(i int) bool {
	return math.Abs(float64(b.t.Angles[i]-unit.Turn/4)) < 1e-15
}

func (b *bench) twoAngles() {
	b.ray(0, nil)
	b.ray(1, nil)
	b.joinBoth()
}

// rayAndArc: the angle at one end, and the arc from the other that meets its
// ray at x and, where it does so twice, at (c²−a²)/x.
func (b *bench) rayAndArc(end int) {
	c, a, x := b.t.Sides[2], b.t.Sides[end], b.t.Sides[1-end]
	var other *geom.Point
	if y := (c - a) * (c + a) / x; y > 0 && apart(x, y) {
		p := b.t.Points[end].Toward(b.direction(end), y)
		other = &p
	}
	b.ray(end, other)
	b.swing(1-end, other)
	b.join(1 - end)
}

// apart says whether two crossings are two, and not one and its rounding.
func apart(x, y unit.Length) bool {
	return math.Abs(float64(x-y)) > 1e-9*math.Max(float64(x), float64(y))
}

// parallelAndArc: the line of the apex, and the arc that meets it on both sides
// of the foot of its centre.
func (b *bench) parallelAndArc(end int) {
	p := b.t.Points[2]
	var other *geom.Point
	if x := 2*b.t.Points[end].X - p.X; apart(1+x/b.t.Sides[2], 1+p.X/b.t.Sides[2]) {
		other = &geom.Point{X: x, Y: p.Y}
	}
	b.parallel(other)
	b.swing(end, other)
	b.joinBoth()
}

func (b *bench) parallelAndRay(end int) {
	b.parallel(nil)
	b.ray(end, nil)
	b.joinBoth()
}

// parallel to the baseline through the apex and through the other point where there is one.
func (b *bench) parallel(other *geom.Point) {
	r := geom.RectOf(b.t.Points[2])
	if other != nil {
		r = r.Join(geom.RectOf(*other))
	}
	beyond := past(b.t.Sides[2])
	b.do(Parallel{Base: [2]geom.Name{b.t.Names[0], b.t.Names[1]},
		Line:     geom.Line{From: geom.Point{X: r.Min.X - beyond, Y: r.Min.Y}, To: geom.Point{X: r.Max.X + beyond, Y: r.Max.Y}},
		Distance: b.t.Heights[2], To: b.t.Names[2], Measured: b.use(heightR)})
}

// offset: along the baseline to the foot, and square to it up to the apex. It
// counts from the end that is nearer.
func (b *bench) offset() {
	from, along := 0, b.t.Points[2].X
	if c := b.t.Sides[2]; along > c/2 {
		from, along = 1, c-along
	}
	measured := b.use(heightR)
	if b.square(from) { // it is the side
		measured = b.use(triangle.Side(1-from)) || measured
	}
	b.do(Erect{From: b.t.Names[from], Toward: b.t.Names[1-from], Foot: geom.Point{X: b.t.Points[2].X, Y: 0}, Top: b.t.Points[2],
		Along: along, Height: b.t.Heights[2], To: b.t.Names[2], Measured: measured})
	b.joinBoth()
}

// checks on what was not set: every side, whatever else was measured, and an
// angle and the height in any case.
func (b *bench) checks() {
	for i := range 3 {
		if j, k := (i+1)%3, (i+2)%3; !b.used[triangle.Side(i)] {
			b.do(CheckSide{From: b.t.Names[j], To: b.t.Names[k], Length: b.t.Sides[i]})
		}
	}
	left := func(i int) bool { q := triangle.AngleAt(i); return b.measured[q] && !b.used[q] }
	angle := left(0) || left(1) || left(2)
	for _, i := range []int{2, 0, 1} {
		if q := triangle.AngleAt(i); !b.used[q] && (b.measured[q] || !angle) {
			angle = true
			b.do(CheckAngle{At: b.t.Names[i], Angle: b.t.Angles[i]})
		}
	}
	for _, i := range []int{2, 0, 1} {
		if q := triangle.HeightOf(i); !b.used[q] && (b.measured[q] || i == 2) {
			b.do(CheckHeight{From: b.t.Names[i], Base: [2]geom.Name{b.t.Names[(i+1)%3], b.t.Names[(i+2)%3]}, Height: b.t.Heights[i]})
		}
	}
}
