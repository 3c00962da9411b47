package task

// Mistake is a usual one.
type Mistake uint8

const (
	WrongScale   Mistake = iota // an angle set on the other scale of the protractor
	WrongScaleB                 // the second angle set on the other scale
	BothScales                  // both on the other scale
	ReadScale                   // an answer read on the other scale
	Swapped                     // the two radii, sides or angles the wrong way round
	NotBetween                  // an angle between two sides taken as one that is not, or back
	NoThird                     // the third angle not worked out: the given one set at the base
	OneDrawn                    // of two triangles one drawn
	AlongSquare                 // the longest side laid along the set square
	HeightAsSide                // the height taken as a side
	FootOutside                 // the height's foot on the wrong side of A
	SideFromB                   // the side drawn from B
	BaseAsSide                  // base and equal side the wrong way round
	mistakes
)

// Wrong is what a pupil has in the boxes who makes a mistake; Blank where a box stays empty.
type Wrong struct {
	Mistake
	Has [2]float64
}

// Blank says that nothing stands in a box.
const Blank = -1

// Mistakes are those that can be told from what stands in the boxes, with what stands there.
// One that gives no triangle is left out.
func (t Task) Mistakes() []Wrong { return t.mistakes(t.Solve()) }

func (t Task) mistakes(right []Shape) (all []Wrong) {
	boxes := about[t.Kind].boxes
	add := func(m Mistake, s Shape) {
		w := Wrong{Mistake: m, Has: [2]float64{s.Value(boxes[0]), Blank}}
		if boxes[1] != none {
			w.Has[1] = s.Value(boxes[1])
		}
		all = append(all, w)
	}
	if0 := func(m Mistake, s Shape, ok bool) {
		if ok {
			add(m, s)
		}
	}
	g := [3]float64{float64(t.Given[0]), float64(t.Given[1]), float64(t.Given[2])}
	switch t.Kind {
	case SSS:
		if0(Swapped, must(bySides(g[2], g[1], g[0])), true)
	case SAS, SASO:
		add(WrongScale, polar(g[0], 180-g[1], g[2]))
		add(Swapped, polar(g[2], g[1], g[0]))
		for _, s := range byArc(g[0], g[1], g[2])[:min(1, len(byArc(g[0], g[1], g[2])))] {
			all = append(all, Wrong{NotBetween, [2]float64{s.Side[1], s.Deg[1]}})
		}
	case LEGS:
		add(Swapped, polar(g[2], g[1], g[0]))
	case ASA, AAS:
		all = t.mistakesOfAngles(g)
	case RHS:
		s := polar(g[0], 90, g[2]) // what is left to measure is the side across
		all = append(all, Wrong{AlongSquare, [2]float64{s.Side[0], s.Deg[1]}})
	case SSA2, SSA1, SSA0:
		all = t.mistakesOfArc(right, g)
	case BHA:
		s := t
		s.Given[1] = 180 - t.Given[1]
		add(WrongScale, s.Solve()[0])
		add(HeightAsSide, polar(g[0], g[1], g[2]))
	case BHS:
		x := right[0].X
		add(FootOutside, shapeAt(g[0], -x, g[1]))
		add(SideFromB, shapeAt(g[0], g[0]-x, g[1]))
		add(HeightAsSide, polar(g[0], 90, g[1]))
	case ISO:
		s, ok := bySides(g[0], g[0], g[1])
		if0(BaseAsSide, s, ok)
	}
	return append(all, t.misread(right)...)
}

// mistakesOfAngles are those with an angle at each end of the base.
func (t Task) mistakesOfAngles(g [3]float64) (all []Wrong) {
	try := func(m Mistake, a, b float64) {
		if s, ok := byAngles(g[0], a, b); ok {
			all = append(all, Wrong{m, [2]float64{s.Side[0], s.Side[1]}})
		}
	}
	a, b := g[1], g[2]
	if t.Kind == AAS {
		b = 180 - g[1] - g[2]
	}
	try(WrongScale, 180-a, b)
	try(WrongScaleB, a, 180-b)
	if t.Kind == ASA {
		try(BothScales, 180-a, 180-b)
	}
	try(Swapped, b, a)
	if t.Kind == AAS {
		try(NoThird, a, g[2])
	}
	return all
}

func must(s Shape, _ bool) Shape { return s }

// mistakesOfArc are those with an angle that is not between the sides.
func (t Task) mistakesOfArc(right []Shape, g [3]float64) (all []Wrong) {
	between := polar(g[0], g[1], g[2])
	other := byArc(g[0], 180-g[1], g[2])
	switch t.Kind {
	case SSA2:
		for _, s := range other {
			all = append(all, Wrong{WrongScale, [2]float64{s.Side[1], Blank}})
		}
		all = append(all, Wrong{NotBetween, [2]float64{between.Side[0], Blank}})
		if len(right) == 2 {
			all = append(all, Wrong{OneDrawn, [2]float64{right[0].Side[1], Blank}})
		}
	case SSA1:
		for _, s := range other[:min(1, len(other))] {
			all = append(all, Wrong{WrongScale, [2]float64{s.Side[1], s.Deg[1]}})
		}
		all = append(all, Wrong{NotBetween, [2]float64{between.Side[0], between.Deg[1]}})
	case SSA0:
		all = append(all, Wrong{NotBetween, [2]float64{between.Side[0], Blank}})
	}
	return all
}

// misread are right drawings whose angles were read on the other scale.
func (t Task) misread(right []Shape) (all []Wrong) {
	if len(right) == 0 || t.Kind == SSA2 {
		return nil
	}
	w, angle := Wrong{Mistake: ReadScale, Has: [2]float64{Blank, Blank}}, false
	for i, q := range t.Kind.Boxes() {
		w.Has[i] = right[0].Value(q)
		if q.IsAngle() {
			w.Has[i], angle = 180-w.Has[i], true
		}
	}
	if angle {
		all = append(all, w)
	}
	return all
}
