package pegging

import (
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// CheckKind is what a check compares.
type CheckKind string

const (
	CheckHeight   CheckKind = "height"
	CheckFoot     CheckKind = "foot"
	CheckMedian   CheckKind = "median"
	CheckMiddles  CheckKind = "middles"
	CheckSide     CheckKind = "side"
	CheckDiagonal CheckKind = "diagonal"
)

// Along says what line a check runs along.
type Along uint8

const (
	AlongEdge       Along = iota
	AlongDiagonal         // between two corners of the outline
	AlongLine             // between two points
	FromOtherEnd          // of the baseline, to a peg on it
	FromMiddle            // of the baseline
	AlongHeight           // of a triangle
	AlongHeightHalf       // which is a median as well
	AlongFoot             // from the foot to an end
	AlongMedian           // of a triangle
	HalfOfSide            // Check.Half: from middle to middle
)

// Check is a distance that was not used to set out.
type Check struct {
	Number   int
	Kind     CheckKind
	From, To geom.Name
	Value    unit.Length // true
	Reads    unit.Length // what the tape shows
	Least    unit.Length // accepted from, as the tape shows it
	Greatest unit.Length // to
	Measured bool
	Along    Along
	HalfOf   [2]geom.Name // of HalfOfSide: the side
	Half     unit.Length  // half the range before its ends were moved outward
	Shows    []int        // the pulls, by their index, of which a Slip puts it outside its range
}

// checking is the checks while they are listed.
type checking struct {
	Pulled
	trace trace
	all   []Check
}

func checksOf(p Pulled) []Check {
	c := checking{Pulled: p, trace: p.traceOf(p.Main)}
	if p.Lone() {
		c.lone()
	} else {
		c.many()
		c.unseen()
	}
	c.showing()
	return c.all
}

func (c *checking) many() {
	from, to := c.Baseline.From, c.Baseline.To
	for _, n := range c.around() { // what the method leaves of the triangle on the baseline
		if !slices.Contains(c.Beside, n) {
			c.check(CheckFoot, n, to, FromOtherEnd)
			continue
		}
		switch c.Method {
		case Mixed:
		case TwoArcs:
			c.check(CheckMedian, c.middle, n, FromMiddle)
		case OffsetSquare:
			for _, end := range []geom.Name{from, to} {
				if end != c.feet[n] || c.turnsAside(n) {
					c.check(CheckSide, end, n, c.along(end, n))
				}
			}
		default:
			c.check(CheckSide, to, n, c.along(to, n))
		}
	}
	for i, a := range c.Outline {
		c.check(CheckSide, a, c.Outline[(i+1)%len(c.Outline)], AlongEdge)
	}
	for _, r := range c.Net.Results {
		if m := r.Measurement; m.Kind == triangle.Distance {
			c.check(CheckDiagonal, m.At[0], m.At[1], c.along(m.At[0], m.At[1]))
		}
	}
	for _, n := range c.Beside { // each is held by two at least
		held := 0
		for _, x := range c.all {
			if x.From == n || x.To == n {
				held++
			}
		}
		if held < 2 {
			if far := c.farthest(n); far != "" {
				c.check(CheckDiagonal, n, far, c.along(n, far))
			}
		}
	}
}

// turnsAside says that a corner does not stand over its foot.
func (c *checking) turnsAside(n geom.Name) bool {
	return slices.ContainsFunc(c.Main, func(x Placing) bool { return x.Peg == n && x.Aside > 0 })
}

// along is what joins two points.
func (c *checking) along(a, b geom.Name) Along {
	switch {
	case c.Edge(a, b):
		return AlongEdge
	case slices.Contains(c.Outline, a) && slices.Contains(c.Outline, b):
		return AlongDiagonal
	}
	return AlongLine
}

// farthest is the point beside the baseline farthest from n that makes a new check.
func (c *checking) farthest(n geom.Name) (far geom.Name) {
	best := unit.Length(0)
	others := c.Beside
	if c.Method == Mixed {
		others = c.order
	}
	for _, m := range others {
		if d := c.distance(m, n); m != n && d > best && !c.known(m, n) && c.allowed(m, n) {
			far, best = m, d
		}
	}
	return far
}

// allowed says whether the line between two points may be pulled; marks that are no points
// lie on lines that are.
func (c *checking) allowed(a, b geom.Name) bool {
	p, first := c.at[a]
	q, second := c.at[b]
	return !first || !second || c.open.Free(p, q)
}

// known says whether a distance is pulled already, to set out or to check; the marks
// along the baseline are pulled from its zero end.
func (c *checking) known(a, b geom.Name) bool {
	line := [2]geom.Name{a, b}
	return slices.ContainsFunc(c.Pulls, func(p Pull) bool {
		return p.Use != ForAngle && p.Aside == 0 && p.Part != SecondWay && SameLine([2]geom.Name{p.Hold, p.To}, line)
	}) || slices.ContainsFunc(c.all, func(x Check) bool { return SameLine([2]geom.Name{x.From, x.To}, line) })
}

// check adds a check, unless the distance is pulled already.
func (c *checking) check(k CheckKind, from, to geom.Name, along Along) {
	c.unlessKnown(Check{Kind: k, From: from, To: to, Along: along})
}

func (c *checking) unlessKnown(x Check) {
	if x.From != x.To && !c.known(x.From, x.To) && c.allowed(x.From, x.To) {
		c.add(x)
	}
}

func (c *checking) add(x Check) {
	x = c.reckoned(x)
	x.Number = len(c.all) + 1
	c.all = append(c.all, x)
}

// reckoned is a check with its figures.
func (c *checking) reckoned(x Check) Check {
	p, _ := c.Peg(x.From)
	q, _ := c.Peg(x.To)
	x.Value = p.At.Distance(q.At)
	if x.Kind == CheckHeight {
		x.Measured = c.offsetMeasured(Placing{Peg: x.From, Base: c.base()}, x.Value)
	} else {
		x.Measured = c.WasMeasured(x.From, x.To, x.Value)
	}
	x.Half = unit.Length(math.Hypot(float64(c.Limit(x.Value)), float64(c.trace.carried(x.From, x.To))))
	x.Reads, _ = c.Reads(x.Value, c.Fall(x.From, x.To))
	x.Least, x.Greatest = c.Outward(x.Reads-x.Half, x.Reads+x.Half)
	return x
}

// lone lists those of a triangle: what the second way and the middles show.
func (c *checking) lone() {
	apex, foot := c.Beside[0], c.feet[c.Beside[0]]
	ends := c.Ends()
	left, right := ends[0], ends[1]
	onEnd := foot == left || foot == right
	mid, midRight, midLeft := c.middle, c.Middles[0].Name, c.Middles[1].Name
	if c.Method != TwoArcs {
		for _, end := range []geom.Name{c.Baseline.From, c.Baseline.To} {
			if end != foot || c.Method != OffsetSquare {
				c.check(CheckSide, end, apex, AlongEdge)
			}
		}
	}
	if c.Method != OffsetSquare && !onEnd {
		along := AlongHeight
		if mid == foot {
			along = AlongHeightHalf
		}
		c.check(CheckHeight, apex, foot, along)
	}
	if !onEnd {
		// The mark itself was run off from the zero end: both parts show a slip there.
		c.add(Check{Kind: CheckFoot, From: foot, To: c.Baseline.From, Along: AlongFoot})
		c.add(Check{Kind: CheckFoot, From: foot, To: c.Baseline.To, Along: AlongFoot})
	}
	if mid != foot {
		c.check(CheckMedian, apex, mid, AlongMedian)
	}
	c.check(CheckMedian, left, midRight, AlongMedian)
	c.check(CheckMedian, right, midLeft, AlongMedian)
	for _, half := range [][4]geom.Name{{mid, midRight, left, apex}, {mid, midLeft, right, apex}, {midRight, midLeft, left, right}} {
		c.unlessKnown(Check{Kind: CheckMiddles, From: half[0], To: half[1], Along: HalfOfSide, HalfOf: [2]geom.Name(half[2:])})
	}
}
