package geom

import (
	"fmt"
	"math"

	"trammel/geom/unit"
)

// The nine quantities in a triangle's own numbering: P and Q are the ends of
// the baseline, R the apex.
var (
	sideQR, sideRP, sidePQ = side(0), side(1), side(2)
	atP, atQ               = angleAt(0), angleAt(1)
	heightR                = heightOf(2)
)

// plan is one way to construct a triangle on its baseline.
type plan struct {
	needs  []quantity
	angles []quantity // those it sets, which may be the third of two measured
	draw   func(*bench)
}

// direct are the constructions that set what was measured as it is, best first.
var direct = []plan{
	{[]quantity{sidePQ, sideRP, sideQR}, nil, (*bench).twoArcs},
	{[]quantity{sidePQ, atP, sideRP}, []quantity{atP}, (*bench).angleP},
	{[]quantity{sidePQ, atQ, sideQR}, []quantity{atQ}, (*bench).angleQ},
	{[]quantity{sidePQ, atP, atQ}, []quantity{atP, atQ}, (*bench).twoAngles},
	{[]quantity{sidePQ, atP, sideQR}, []quantity{atP}, (*bench).rayPArcQ},
	{[]quantity{sidePQ, atQ, sideRP}, []quantity{atQ}, (*bench).rayQArcP},
	{[]quantity{sidePQ, heightR, sideRP}, nil, (*bench).parallelArcP},
	{[]quantity{sidePQ, heightR, sideQR}, nil, (*bench).parallelArcQ},
	{[]quantity{sidePQ, heightR, atP}, []quantity{atP}, (*bench).parallelRayP},
	{[]quantity{sidePQ, heightR, atQ}, []quantity{atQ}, (*bench).parallelRayQ},
}

// computed are those for the rest: something set in them is computed. What can
// be swung is preferred to what is set with a protractor.
var computed = []plan{
	{[]quantity{heightR}, nil, (*bench).offset},
	{[]quantity{sideRP, sideQR}, nil, (*bench).twoArcs},
	{[]quantity{atP, atQ}, []quantity{atP, atQ}, (*bench).twoAngles},
	{[]quantity{sideRP, atP}, []quantity{atP}, (*bench).angleP},
	{[]quantity{sideQR, atQ}, []quantity{atQ}, (*bench).angleQ},
	{[]quantity{sideRP}, nil, (*bench).twoArcs},
	{[]quantity{sideQR}, nil, (*bench).twoArcs},
	{[]quantity{atP}, []quantity{atP}, (*bench).angleP},
	{[]quantity{atQ}, []quantity{atQ}, (*bench).angleQ},
	{nil, nil, (*bench).twoArcs},
}

// directPlan is the first construction that sets only what m has, or the third
// angle of two that it has; nil where there is none.
func directPlan(m [9]bool) *plan { return firstPlan(direct, withThird(m)) }

func firstPlan(plans []plan, m [9]bool) *plan {
next:
	for i := range plans {
		for _, q := range plans[i].needs {
			if !m[q] {
				continue next
			}
		}
		return &plans[i]
	}
	return nil
}

// withThird adds the third angle where two are known.
func withThird(m [9]bool) [9]bool {
	if m[3] && m[4] || m[4] && m[5] || m[5] && m[3] {
		m[3], m[4], m[5] = true, true, true
	}
	return m
}

// planFor chooses the construction.
func planFor(by Method, m [9]bool) plan {
	switch by {
	case ByArcs:
		return plan{draw: (*bench).twoArcs}
	case BySquare:
		return plan{draw: (*bench).offset}
	case ByAngle:
		k := withThird(m)
		switch score := func(a, s quantity) int { return 2*bit(k[a]) + bit(k[s]) }; {
		case k[atP] && k[atQ] && !k[sideRP] && !k[sideQR]:
			return plan{angles: []quantity{atP, atQ}, draw: (*bench).twoAngles}
		case score(atQ, sideQR) > score(atP, sideRP):
			return plan{angles: []quantity{atQ}, draw: (*bench).angleQ}
		}
		return plan{angles: []quantity{atP}, draw: (*bench).angleP}
	}
	if p := directPlan(m); p != nil {
		return *p
	}
	return *firstPlan(computed, withThird(m))
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
func Construct(s Solution, answer int, by Method) (Construction, error) {
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
		q, err := quantityOf(m, t.Names)
		if err != nil {
			return Construction{}, err
		}
		b.measured[q] = true
	}
	c := b.construct(planFor(by, b.measured))
	if m, flat := c.Flattest(); flat && m.Angle < TooFlat && by == AsMeasured {
		// What was measured cannot be set so that anybody sees the crossing.
		c = (&bench{t: t, measured: b.measured}).construct(planFor(BySquare, b.measured))
	}
	return c, nil
}

// construct follows a plan from the baseline to the checks.
func (b *bench) construct(p plan) Construction {
	b.thirdAngle(p.angles)
	b.base()
	p.draw(b)
	b.checks()
	return Construction{Outline: b.t.Outline(), Triangle: b.t, Steps: b.steps}
}

// bench is where the steps are put together.
type bench struct {
	t        Triangle
	measured [9]bool
	used     [9]bool // set by a step
	steps    []Step
}

func (b *bench) do(s Step) { b.steps = append(b.steps, s) }

// use marks q as set and says whether it is a measurement.
func (b *bench) use(q quantity) (measured bool) {
	b.used[q] = true
	return b.measured[q]
}

// thirdAngle comes first where an angle to set follows from two measured ones.
func (b *bench) thirdAngle(angles []quantity) {
	for _, q := range angles {
		i := q.corner()
		j, k := (i+1)%3, (i+2)%3
		if !b.measured[q] && b.measured[angleAt(j)] && b.measured[angleAt(k)] {
			b.do(ThirdAngle{At: b.t.Names[i], Angle: b.t.Angles[i],
				Others: [2]Name{b.t.Names[j], b.t.Names[k]}, Known: [2]unit.Angle{b.t.Angles[j], b.t.Angles[k]}})
		}
	}
}

func (b *bench) base() {
	b.do(DrawBase{From: b.t.Names[0], To: b.t.Names[1], Line: Line{b.t.Points[0], b.t.Points[1]},
		Length: b.t.Sides[2], Measured: b.use(sidePQ)})
}

// past is how far a construction line goes on behind what it is to meet.
func past(d unit.Length) unit.Length { return min(d*8/100, 25*unit.Millimetre) }

// swing an arc about an end of the baseline through the apex.
func (b *bench) swing(end int, other *Point) {
	q := side(1 - end)
	s := Swing{Centre: b.t.Names[end], About: b.t.Points[end], Radius: b.t.Sides[1-end],
		To: b.t.Names[2], Through: b.t.Points[2], Measured: b.use(q)}
	if other != nil {
		s.Twice, s.Other = true, *other
	}
	b.do(s)
}

// ray sets the angle at an end of the baseline, the ray going past the apex and
// past the other point where there is one.
func (b *bench) ray(end int, other *Point) {
	from, length := b.t.Points[end], b.t.Sides[1-end]
	if other != nil {
		length = max(length, from.Distance(*other))
	}
	direction := b.t.Angles[0]
	if end == 1 {
		direction = unit.Turn/2 - b.t.Angles[1]
	}
	b.do(SetAngle{At: b.t.Names[end], Along: b.t.Names[1-end], Angle: b.t.Angles[end],
		Arm: Line{from, b.t.Points[1-end]}, Ray: Line{from, from.Toward(direction, length+past(length))},
		To: b.t.Names[2], Measured: b.use(angleAt(end))})
}

// join an end of the baseline with the apex.
func (b *bench) join(end int) {
	b.do(Join{From: b.t.Names[end], To: b.t.Names[2], Line: Line{b.t.Points[end], b.t.Points[2]}})
}

func (b *bench) twoArcs() {
	b.swing(0, nil)
	b.swing(1, nil)
	b.join(0)
	b.join(1)
}

func (b *bench) angleP() { b.angleAndMark(0) }
func (b *bench) angleQ() { b.angleAndMark(1) }

// angleAndMark: the angle at one end and the side along its ray; a measured
// right angle is raised with the square.
func (b *bench) angleAndMark(end int) {
	q := side(1 - end)
	if b.measured[angleAt(end)] && b.square(end) {
		b.use(angleAt(end))
		b.do(Erect{From: b.t.Names[end], Toward: b.t.Names[1-end], Foot: b.t.Points[end], Top: b.t.Points[2],
			Height: b.t.Sides[1-end], To: b.t.Names[2], Measured: b.use(q)})
		b.use(heightR) // it is the side
	} else {
		b.ray(end, nil)
		b.do(MarkOff{From: b.t.Names[end], To: b.t.Names[2], Line: Line{b.t.Points[end], b.t.Points[2]},
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
	b.join(0)
	b.join(1)
}

func (b *bench) rayPArcQ() { b.rayAndArc(0) }
func (b *bench) rayQArcP() { b.rayAndArc(1) }

// rayAndArc: the angle at one end, and the arc from the other that meets its
// ray at x and, where it does so twice, at (c²−a²)/x.
func (b *bench) rayAndArc(end int) {
	c, a, x := b.t.Sides[2], b.t.Sides[end], b.t.Sides[1-end]
	var other *Point
	if y := (c - a) * (c + a) / x; y > 0 && apart(x, y) {
		direction := b.t.Angles[0]
		if end == 1 {
			direction = unit.Turn/2 - b.t.Angles[1]
		}
		p := b.t.Points[end].Toward(direction, y)
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

func (b *bench) parallelArcP() { b.parallelAndArc(0) }
func (b *bench) parallelArcQ() { b.parallelAndArc(1) }

// parallelAndArc: the line of the apex, and the arc that meets it on both sides
// of the foot of its centre.
func (b *bench) parallelAndArc(end int) {
	p := b.t.Points[2]
	var other *Point
	if x := 2*b.t.Points[end].X - p.X; apart(1+x/b.t.Sides[2], 1+p.X/b.t.Sides[2]) {
		other = &Point{x, p.Y}
	}
	b.parallel(other)
	b.swing(end, other)
	b.join(0)
	b.join(1)
}

func (b *bench) parallelRayP() { b.parallelAndRay(0) }
func (b *bench) parallelRayQ() { b.parallelAndRay(1) }

func (b *bench) parallelAndRay(end int) {
	b.parallel(nil)
	b.ray(end, nil)
	b.join(0)
	b.join(1)
}

// parallel to the baseline through the apex and through the other point where there is one.
func (b *bench) parallel(other *Point) {
	r := RectOf(b.t.Points[2])
	if other != nil {
		r = r.Join(RectOf(*other))
	}
	beyond := past(b.t.Sides[2])
	b.do(Parallel{Base: [2]Name{b.t.Names[0], b.t.Names[1]},
		Line:     Line{Point{r.Min.X - beyond, r.Min.Y}, Point{r.Max.X + beyond, r.Max.Y}},
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
		measured = b.use(side(1-from)) || measured
	}
	b.do(Erect{From: b.t.Names[from], Toward: b.t.Names[1-from], Foot: Point{b.t.Points[2].X, 0}, Top: b.t.Points[2],
		Along: along, Height: b.t.Heights[2], To: b.t.Names[2], Measured: measured})
	b.join(0)
	b.join(1)
}

// checks on what was not set: every side, whatever else was measured, and an
// angle and the height in any case.
func (b *bench) checks() {
	for i := range 3 {
		if j, k := (i+1)%3, (i+2)%3; !b.used[side(i)] {
			b.do(CheckSide{From: b.t.Names[j], To: b.t.Names[k], Length: b.t.Sides[i]})
		}
	}
	angle := false
	for _, i := range []int{2, 0, 1} {
		if q := angleAt(i); !b.used[q] && (b.measured[q] || !angle && !b.measuredAngleLeft()) {
			angle = true
			b.do(CheckAngle{At: b.t.Names[i], Angle: b.t.Angles[i]})
		}
	}
	for _, i := range []int{2, 0, 1} {
		if q := heightOf(i); !b.used[q] && (b.measured[q] || i == 2) {
			b.do(CheckHeight{From: b.t.Names[i], Base: [2]Name{b.t.Names[(i+1)%3], b.t.Names[(i+2)%3]}, Height: b.t.Heights[i]})
		}
	}
}

// measuredAngleLeft says whether an angle was measured and not set.
func (b *bench) measuredAngleLeft() bool {
	for i := range 3 {
		if b.measured[angleAt(i)] && !b.used[angleAt(i)] {
			return true
		}
	}
	return false
}
