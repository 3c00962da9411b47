package construct

import (
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
	needs  []triangle.Quantity // measured, or the third angle of two that are
	square bool                // it needs a right angle at the apex that was measured
	angles []triangle.Quantity // those it sets, which may be the third of two measured
	draw   func(*bench)
}

// at is a construction that begins at one end of the baseline.
func at(end int, draw func(*bench, int)) func(*bench) { return func(b *bench) { draw(b, end) } }

var (
	angleP, angleQ             = at(0, (*bench).angleAndMark), at(1, (*bench).angleAndMark)
	rayPArcQ, rayQArcP         = at(0, (*bench).rayAndArc), at(1, (*bench).rayAndArc)
	parallelArcP, parallelArcQ = at(0, (*bench).parallelAndArc), at(1, (*bench).parallelAndArc)
	parallelRayP, parallelRayQ = at(0, (*bench).parallelAndRay), at(1, (*bench).parallelAndRay)
	halfArcP, halfArcQ         = at(0, (*bench).halfCircleAndArc), at(1, (*bench).halfCircleAndArc)
	halfRayP, halfRayQ         = at(0, (*bench).rayAndHalfCircle), at(1, (*bench).rayAndHalfCircle)
)

// direct are the constructions that set what was measured as it is, one for each of
// triangle.DirectSets.
var direct = []func(*bench){
	(*bench).twoArcs, angleP, angleQ, (*bench).twoAngles, rayPArcQ, rayQArcP,
	parallelArcP, parallelArcQ, parallelRayP, parallelRayQ,
}

// half are those on the half circle over the longest side of a right-angled triangle.
// (Thales: Euclid, Elements III 31.)
var half = []plan{
	{[]triangle.Quantity{sidePQ, sideRP}, true, nil, halfArcP},
	{[]triangle.Quantity{sidePQ, sideQR}, true, nil, halfArcQ},
	{[]triangle.Quantity{sidePQ, atP}, true, []triangle.Quantity{atP}, halfRayP},
	{[]triangle.Quantity{sidePQ, atQ}, true, []triangle.Quantity{atQ}, halfRayQ},
	{[]triangle.Quantity{sidePQ, heightR}, true, nil, (*bench).parallelAndHalfCircle},
}

// computed are those for the rest: something set in them is computed. What can
// be swung is preferred to what is set with a protractor.
var computed = []plan{
	{[]triangle.Quantity{heightR}, false, nil, (*bench).offset},
	{[]triangle.Quantity{sideRP, sideQR}, false, nil, (*bench).twoArcs},
	{[]triangle.Quantity{atP, atQ}, false, []triangle.Quantity{atP, atQ}, (*bench).twoAngles},
	{[]triangle.Quantity{sideRP, atP}, false, []triangle.Quantity{atP}, angleP},
	{[]triangle.Quantity{sideQR, atQ}, false, []triangle.Quantity{atQ}, angleQ},
	{[]triangle.Quantity{sideRP}, false, nil, (*bench).twoArcs},
	{[]triangle.Quantity{sideQR}, false, nil, (*bench).twoArcs},
	{[]triangle.Quantity{heightR, sideRP}, false, nil, parallelArcP},
	{[]triangle.Quantity{heightR, sideQR}, false, nil, parallelArcQ},
	{[]triangle.Quantity{heightR, atP}, false, []triangle.Quantity{atP}, parallelRayP},
	{[]triangle.Quantity{heightR, atQ}, false, []triangle.Quantity{atQ}, parallelRayQ},
	{nil, false, nil, (*bench).offset},
	{[]triangle.Quantity{atP}, false, []triangle.Quantity{atP}, angleP},
	{[]triangle.Quantity{atQ}, false, []triangle.Quantity{atQ}, angleQ},
	{nil, false, nil, (*bench).twoArcs},
}

// asMeasured are all of them, the best first where nothing else tells.
var asMeasured = func() (all []plan) {
	for i, draw := range direct {
		p := plan{needs: triangle.DirectSets[i][:], draw: draw}
		for _, q := range p.needs {
			if q.Kind() == triangle.Angle {
				p.angles = append(p.angles, q)
			}
		}
		all = append(all, p)
	}
	return slices.Concat(all, half, computed)
}()

// plansFor are the ways to construct by a method what a bench has.
func plansFor(by Method, b *bench) []plan {
	known := triangle.WithThird(b.measured)
	switch by {
	case ByArcs:
		return []plan{{draw: (*bench).twoArcs}}
	case BySquare:
		return []plan{{draw: (*bench).offset}}
	case ByAngle:
		switch score := func(a, s triangle.Quantity) int { return 2*bit(known[a]) + bit(known[s]) }; {
		case known[atP] && known[atQ] && !known[sideRP] && !known[sideQR]:
			return []plan{{angles: []triangle.Quantity{atP, atQ}, draw: (*bench).twoAngles}}
		case score(atQ, sideQR) > score(atP, sideRP):
			return []plan{{angles: []triangle.Quantity{atQ}, draw: angleQ}}
		}
		return []plan{{angles: []triangle.Quantity{atP}, draw: angleP}}
	}
	right := b.measured[triangle.AngleAt(2)] && b.square(2)
	return slices.DeleteFunc(slices.Clone(asMeasured), func(p plan) bool {
		return p.square && !right || slices.ContainsFunc(p.needs, func(q triangle.Quantity) bool { return !known[q] })
	})
}

func bit(b bool) int {
	if b {
		return 1
	}
	return 0
}

// follow a plan from the baseline to the checks.
func (b *bench) follow(p plan) []Step {
	b.thirdAngle(p.angles)
	b.base()
	p.draw(b)
	b.checks()
	return b.steps
}

// bench is where the steps are put together.
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

// thirdAngle comes first where an angle to set follows from two measured ones.
func (b *bench) thirdAngle(angles []triangle.Quantity) {
	for _, q := range angles {
		i := q.Corner()
		j, k := (i+1)%3, (i+2)%3
		if !b.measured[q] && b.measured[triangle.AngleAt(j)] && b.measured[triangle.AngleAt(k)] {
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

// swing an arc about an end of the baseline through the apex.
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
	direction := b.t.Angles[0]
	if end == 1 {
		direction = unit.Turn/2 - b.t.Angles[1]
	}
	b.do(SetAngle{At: b.t.Names[end], Along: b.t.Names[1-end], Angle: b.t.Angles[end],
		Arm: geom.Line{From: from, To: b.t.Points[1-end]}, Ray: geom.Line{From: from, To: from.Toward(direction, length+past(length))},
		To: b.t.Names[2], Measured: b.use(triangle.AngleAt(end))})
}

// join an end of the baseline with the apex.
func (b *bench) join(end int) {
	b.do(Join{From: b.t.Names[end], To: b.t.Names[2], Line: geom.Line{From: b.t.Points[end], To: b.t.Points[2]}})
}

func (b *bench) twoArcs() {
	b.swing(0, nil)
	b.swing(1, nil)
	b.join(0)
	b.join(1)
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
	b.join(0)
	b.join(1)
}

// rayAndArc: the angle at one end, and the arc from the other that meets its
// ray at x and, where it does so twice, at (c²−a²)/x.
func (b *bench) rayAndArc(end int) {
	c, a, x := b.t.Sides[2], b.t.Sides[end], b.t.Sides[1-end]
	var other *geom.Point
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
	if b.square(end) {
		b.use(heightR) // it is the side, which is there to check
	}
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
	b.join(0)
	b.join(1)
}

func (b *bench) parallelAndRay(end int) {
	b.parallel(nil)
	b.ray(end, nil)
	b.join(0)
	b.join(1)
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

// halfCircle over the baseline, on which the apex lies.
func (b *bench) halfCircle(other *geom.Point) {
	b.use(triangle.AngleAt(2))
	h := HalfCircle{Over: [2]geom.Name{b.t.Names[0], b.t.Names[1]}, Middle: geom.Point{X: b.t.Sides[2] / 2}, Radius: b.t.Sides[2] / 2,
		To: b.t.Names[2], Through: b.t.Points[2]}
	if other != nil {
		h.Twice, h.Other = true, *other
	}
	b.do(h)
}

func (b *bench) halfCircleAndArc(end int) {
	b.halfCircle(nil)
	b.swing(end, nil)
	b.join(0)
	b.join(1)
}

func (b *bench) rayAndHalfCircle(end int) {
	b.ray(end, nil)
	b.halfCircle(nil)
	b.join(1 - end)
}

// parallelAndHalfCircle cross twice, as far to each side of the middle.
func (b *bench) parallelAndHalfCircle() {
	p, c := b.t.Points[2], b.t.Sides[2]
	var other *geom.Point
	if x := c - p.X; apart(1+x/c, 1+p.X/c) {
		other = &geom.Point{X: x, Y: p.Y}
	}
	b.parallel(other)
	b.halfCircle(other)
	b.join(0)
	b.join(1)
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
	b.join(0)
	b.join(1)
}

// checks on what was not set: every side, whatever else was measured, and an
// angle and the height in any case.
func (b *bench) checks() {
	for i := range 3 {
		if j, k := (i+1)%3, (i+2)%3; !b.used[triangle.Side(i)] {
			b.do(CheckSide{From: b.t.Names[j], To: b.t.Names[k], Length: b.t.Sides[i]})
		}
	}
	angle := false
	for _, i := range []int{2, 0, 1} {
		if q := triangle.AngleAt(i); !b.used[q] && (b.measured[q] || !angle && !b.measuredAngleLeft()) {
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

// measuredAngleLeft says whether an angle was measured and not set.
func (b *bench) measuredAngleLeft() bool {
	for i := range 3 {
		if b.measured[triangle.AngleAt(i)] && !b.used[triangle.AngleAt(i)] {
			return true
		}
	}
	return false
}
