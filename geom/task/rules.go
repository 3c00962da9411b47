package task

import "math"

// Rule is one that a task must keep, so that it can be drawn, measured and marked.
type Rule uint8

const (
	Kept       Rule = iota
	NoTriangle      // what is given fixes none, or not as many as the kind says
	OwnRule         // of the kind: sides too alike to tell a swap, an angle too near to square
	Thin            // an angle too small or too large to draw
	Flat            // lines that cross under 30°
	Reach           // a radius that the compasses do not span
	Room            // too large for the space on the sheet
	Answer          // an answer too short, too long, or an angle near 90°, where the wrong scale does not show
	Arms            // arms of an asked angle that end inside the protractor
	Alike           // an answer near to what is given, or two answers near to each other
	Rough           // a careful hand is further off than 3 mm or 3°
	Hidden          // a usual mistake comes as near to the answers as a careful hand
	rules
)

// Limits are what a class has, which the rules hold tasks to.
type Limits struct {
	Compass float64 // longest radius
	Width   float64 // of the space to draw in: 0 is 150
	Height  float64 // of the triangle: 0 is 115
	Accept  Tolerance
}

// School is what most classes have: compasses that reach 120 mm (from memory: 120 to 150).
var School = Limits{Compass: 120, Width: 150, Height: 115, Accept: Maths}

const (
	shortestRadius = 25
	farthestLeft   = 40   // of C before A
	rounding       = 1e-9 // a radius of 120 mm is one that 120 mm span
	armLength      = 45   // inside the rim of a protractor of 10 cm
	leastCrossing  = 30
)

// Broken is the first rule that a task breaks; Kept where it keeps all.
func (t Task) Broken(l Limits) Rule {
	if t.own() {
		return OwnRule
	}
	shapes := t.Solve()
	want := 1
	switch t.Kind {
	case SSA2:
		want = 2
	case SSA0:
		want = 0
	}
	if len(shapes) != want {
		return NoTriangle
	}
	for i, s := range shapes {
		if r := t.brokenBy(s, i, l); r != Kept {
			return r
		}
	}
	return t.brokenByBoxes(shapes, l)
}

// own says whether a task breaks the rule of its kind.
func (t Task) own() bool {
	g := t.Given
	apart := func(x, y, by int) bool { return max(x-y, y-x) >= by }
	drop := float64(g[0]) * sin(float64(g[1]))
	switch t.Kind {
	case SSS:
		return !apart(g[1], g[2], 10)
	case SAS:
		return g[1] > 75 || !apart(g[0], g[2], 10)
	case SASO:
		return g[1] < 105 || !apart(g[0], g[2], 10)
	case RHS, SSA1:
		return g[2] < g[0]+10
	case SSA2:
		return g[1] > 60 || float64(g[2]) < drop+8 || g[2] > g[0]-10
	case SSA0:
		return g[1] < 30 || g[1] > 70 || drop-float64(g[2]) < 10 || g[2] < shortestRadius
	case BHA:
		return g[1] > 80 && g[1] < 100
	case BHS:
		return g[2] < g[1]+8
	case ISO:
		return !apart(g[0], g[1], 10)
	case LEGS, ASA, AAS:
	}
	return false
}

// brokenBy is what one triangle of a task breaks; the second of two may be thinner.
func (t Task) brokenBy(s Shape, nth int, l Limits) Rule {
	least, most := min(s.Deg[0], s.Deg[1], s.Deg[2]), max(s.Deg[0], s.Deg[1], s.Deg[2])
	narrow, wide := 25.0, 140.0
	if t.Kind == SSA2 {
		narrow = 20
		if nth == 1 {
			narrow, wide = 12, 150
		}
	}
	width, height := l.Width, l.Height
	if width == 0 {
		width = School.Width
	}
	if height == 0 {
		height = School.Height
	}
	switch {
	case least < narrow-rounding || most > wide+rounding:
		return Thin
	case t.crossing(s) < leastCrossing-rounding:
		return Flat
	case t.beyond(s, l.Compass):
		return Reach
	case max(s.X, s.Side[2])-min(s.X, 0) > width+rounding || s.Y > height+rounding || s.X < -farthestLeft-rounding:
		return Room
	}
	return Kept
}

// crossing is the angle at which the two lines cross that C is drawn on.
func (t Task) crossing(s Shape) float64 {
	acute := func(deg float64) float64 { return min(deg, 180-deg) }
	switch k := about[t.Kind].loci; k {
	case [2]locus{arcA, arcB}, [2]locus{rayA, rayB}:
		return acute(s.Deg[2])
	case [2]locus{rayA, arcB}:
		return math.Abs(90 - s.Deg[2])
	case [2]locus{level, arcA}:
		return math.Abs(90 - s.Deg[0])
	case [2]locus{level, rayA}:
		return acute(s.Deg[0])
	}
	return 90 // a length along an arm
}

// beyond says whether the compasses do not span a radius.
func (t Task) beyond(s Shape, reach float64) bool {
	for _, l := range about[t.Kind].loci {
		r := 0.0
		switch l {
		case arcA:
			r = s.Side[1]
		case arcB:
			r = s.Side[0]
		case rayA, rayB, level:
			continue
		}
		if r < shortestRadius-rounding || r > reach+rounding {
			return true
		}
	}
	return false
}

func (t Task) brokenByBoxes(shapes []Shape, l Limits) Rule {
	boxes := t.boxes(shapes, Maths)
	for i, b := range boxes {
		if r := t.brokenByBox(b, i, shapes); r != Kept {
			return r
		}
	}
	if len(boxes) == 2 && boxes[0].Of.IsAngle() == boxes[1].Of.IsAngle() {
		apart := 5.0
		if t.Kind == SSA2 {
			apart = 20
		}
		if math.Abs(boxes[0].Value-boxes[1].Value) < apart-rounding {
			return Alike
		}
	}
	for i := range boxes {
		if boxes[i].Error > 3 && !(i == 1 && t.Kind == SSA2 && boxes[i].Error <= 4) {
			return Rough
		}
		boxes[i].Accept = max(boxes[i].Accept, l.Accept.of(boxes[i].Of))
	}
	for _, w := range t.mistakes(shapes) {
		if w.hidden(boxes) {
			return Hidden
		}
	}
	return Kept
}

// brokenByBox is what one answer breaks.
func (t Task) brokenByBox(b Box, i int, shapes []Shape) Rule {
	least := 30.0
	if t.Kind == SSA2 && i == 1 {
		least = 25
	}
	switch {
	case b.Of.IsAngle() && (b.Value < 20-rounding || b.Value > 150+rounding || b.Value > 80+rounding && b.Value < 100-rounding):
		return Answer
	case !b.Of.IsAngle() && (b.Value < least-rounding || b.Value > 140+rounding):
		return Answer
	case b.Of.IsAngle():
		at := int(b.Of - A)
		if s := shapes[0].Side; min(s[(at+1)%3], s[(at+2)%3]) < armLength-rounding {
			return Arms
		}
	}
	for i, q := range about[t.Kind].given {
		if q.IsAngle() == b.Of.IsAngle() && math.Abs(b.Value-float64(t.Given[i])) < 4-rounding {
			return Alike
		}
	}
	return Kept
}

// margin is what lies between the range that is accepted and what a mistake gives.
const margin = 3

// hidden says whether what a mistake gives stands in all boxes as the answer would.
func (w Wrong) hidden(boxes []Box) bool {
	for i, b := range boxes {
		if w.Has[i] == Blank || !b.within(w.Has[i], margin) {
			return false
		}
	}
	return true
}
