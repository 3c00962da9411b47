package construct

import (
	"cmp"
	"math"
	"slices"

	"trammel/geom"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// ConstructNet is a net of points as a person would construct it by hand on its
// baseline: point after point where two arcs cross about points that are there
// already, or along the baseline where a point lies on it; then the outline is
// joined, and what was measured and not set is there to check, a diagonal in any
// case. Measured distances are swung before computed ones unless their arcs would
// cross too flat. What stands in the steps are the distances between the points
// given, whatever was measured.
//
// Points of the baseline are among those of the outline or the inner ones; an
// outline without corners makes the points alone.
func ConstructNet(o geom.Outline, inner []Spot, base [2]geom.Name, measured []triangle.Measurement) Construction {
	b := newNetBench(o, inner, measured)
	b.base(base)
	for b.next() {
	}
	b.join()
	b.checks()
	return Construction{Outline: o, Inner: inner, Steps: b.steps}
}

type netBench struct {
	outline  geom.Outline
	names    []geom.Name
	at       []geom.Point
	number   map[geom.Name]int
	measured []triangle.Measurement
	near     [][]int // of each point: those to which a distance is measured
	used     map[[2]int]bool
	known    []bool
	from, to int // the baseline
	steps    []Step
}

func newNetBench(o geom.Outline, inner []Spot, measured []triangle.Measurement) *netBench {
	b := &netBench{outline: o, names: Construction{Outline: o, Inner: inner}.Names(), at: slices.Clone(o.Points),
		number: map[geom.Name]int{}, measured: measured, used: map[[2]int]bool{}}
	for _, s := range inner {
		b.at = append(b.at, s.At)
	}
	for i, n := range b.names {
		b.number[n] = i
	}
	b.near, b.known = make([][]int, len(b.names)), make([]bool, len(b.names))
	for _, m := range measured {
		if m.Kind != triangle.Distance {
			continue
		}
		i, j := b.number[m.At[0]], b.number[m.At[1]]
		if !slices.Contains(b.near[i], j) {
			b.near[i], b.near[j] = append(b.near[i], j), append(b.near[j], i)
		}
	}
	return b
}

func (b *netBench) do(s Step) { b.steps = append(b.steps, s) }

// use marks a distance as set and says whether it was measured.
func (b *netBench) use(i, j int) (measured bool) {
	b.used[[2]int{min(i, j), max(i, j)}] = true
	return slices.Contains(b.near[i], j)
}

func (b *netBench) base(ends [2]geom.Name) {
	b.from, b.to = b.number[ends[0]], b.number[ends[1]]
	b.known[b.from], b.known[b.to] = true, true
	l := geom.Line{From: b.at[b.from], To: b.at[b.to]}
	b.do(DrawBase{From: ends[0], To: ends[1], Line: l, Length: l.Length(), Measured: b.use(b.from, b.to)})
}

// What a pair of centres costs: one over the sine of the angle at which the arcs
// cross (by which a slip in a radius grows), and a computed radius as much as a
// crossing of 24° costs more than a square one. Judgement, no source.
const (
	costComputed = 1.5
	costGood     = 2.5 // 24°: so good that points follow in the order of the outline
	mostCentres  = 12  // that are tried with each other
	onLine       = 1e-6
)

// next places one point more and says whether there was one.
func (b *netBench) next() bool {
	best, cost := -1, math.Inf(1)
	var centres [2]int
	for u := range b.names {
		if b.known[u] {
			continue
		}
		if b.onBase(u) {
			best, cost = u, 0
			break
		}
		if c, pair := b.pair(u); c < cost || best < 0 {
			best, cost, centres = u, c, pair
		}
		if cost <= costGood {
			break
		}
	}
	if best < 0 {
		return false
	}
	b.known[best] = true
	if cost == 0 || math.IsInf(cost, 1) {
		b.markOff(best)
		return true
	}
	b.swing(best, centres)
	return true
}

// onBase says whether a point lies on the baseline itself.
func (b *netBench) onBase(u int) bool {
	l := geom.Line{From: b.at[b.from], To: b.at[b.to]}
	d := l.Length()
	return l.From.Distance(b.at[u])+l.To.Distance(b.at[u])-d <= onLine*onLine*d
}

// pair is the best two centres for a point, and what they cost.
func (b *netBench) pair(u int) (cost float64, best [2]int) {
	var centres []int
	add := func(v int) {
		if b.known[v] && !slices.Contains(centres, v) && len(centres) < mostCentres {
			centres = append(centres, v)
		}
	}
	for _, v := range b.near[u] {
		add(v)
	}
	add(b.from)
	add(b.to)
	for v := range b.names {
		add(v)
	}
	cost = math.Inf(1)
	for i, p := range centres {
		for _, q := range centres[:i] {
			if c := b.crossing(u, p, q); c < cost*(1-1e-9) { // alike: those measured, listed first
				cost, best = c, [2]int{q, p}
			}
		}
	}
	return cost, best
}

func (b *netBench) crossing(u, p, q int) float64 {
	v, w := b.at[p].Minus(b.at[u]), b.at[q].Minus(b.at[u])
	sine := math.Abs(float64(v.X*w.Y-v.Y*w.X)) / float64(b.at[p].Distance(b.at[u])*b.at[q].Distance(b.at[u]))
	if sine < onLine {
		return math.Inf(1)
	}
	cost := 1 / sine
	for _, c := range []int{p, q} {
		if !slices.Contains(b.near[u], c) {
			cost += costComputed
		}
	}
	return cost
}

// swingBeside is how far an arc of a net is drawn to each side of its crossing: of
// many arcs all over a piece each is to be told from the others.
const swingBeside = 60 * unit.Millimetre

func (b *netBench) swing(u int, centres [2]int) {
	p, q := b.at[centres[0]], b.at[centres[1]]
	other := mirrored(b.at[u], geom.Line{From: p, To: q})
	s := Swing{To: b.names[u], Through: b.at[u], Twice: true, Other: other, Beside: swingBeside}
	s.Tell, s.TellAt = b.tell(u, centres, other)
	l := geom.Line{From: b.at[b.from], To: b.at[b.to]}
	s.Below = offset(l, b.at[u]) < 0
	for _, c := range centres {
		s.Centre, s.About, s.Radius = b.names[c], b.at[c], b.at[c].Distance(b.at[u])
		s.Measured = b.use(c, u)
		b.do(s)
	}
}

// mirrored is a point on the other side of a line.
func mirrored(p geom.Point, l geom.Line) geom.Point {
	d := l.To.Minus(l.From)
	w := p.Minus(l.From)
	t := float64(w.X*d.X+w.Y*d.Y) / float64(d.X*d.X+d.Y*d.Y)
	foot := l.At(t)
	return foot.Plus(foot.Minus(p))
}

// offset of a point from a line, positive on the left of it.
func offset(l geom.Line, p geom.Point) unit.Length {
	return unit.Length(geom.Side(geom.VectorOf(l.From), geom.VectorOf(l.To), geom.VectorOf(p)) / l.Length().MM())
}

// tell is the known point whose distances from the two crossings differ most;
// none where the centres are the ends of the baseline: above and below it then
// say more.
func (b *netBench) tell(u int, centres [2]int, other geom.Point) (geom.Name, geom.Point) {
	if b.from == centres[0] && b.to == centres[1] || b.from == centres[1] && b.to == centres[0] {
		return "", geom.Point{}
	}
	best, most := -1, unit.Length(0)
	for i := range b.names {
		if !b.known[i] || i == u || i == centres[0] || i == centres[1] {
			continue
		}
		if d := b.at[i].Distance(b.at[u]) - b.at[i].Distance(other); max(d, -d) > most {
			best, most = i, max(d, -d)
		}
	}
	if best < 0 {
		return "", geom.Point{}
	}
	return b.names[best], b.at[best]
}

// markOff along the baseline, from the end to which the distance is measured, else
// from the first.
func (b *netBench) markOff(u int) {
	end := b.from
	if slices.Contains(b.near[u], b.to) && !slices.Contains(b.near[u], b.from) {
		end = b.to
	}
	b.do(MarkOff{From: b.names[end], To: b.names[u], Line: geom.Line{From: b.at[end], To: b.at[u]}, Length: b.at[end].Distance(b.at[u]), Measured: b.use(end, u)})
}

func (b *netBench) join() {
	o := b.outline
	for i := range o.Names {
		j := o.Next(i)
		if i == b.from && j == b.to || i == b.to && j == b.from {
			continue
		}
		b.do(Join{From: o.Names[i], To: o.Names[j], Line: o.Points.Edge(i)})
	}
}

// mostChecks of one kind: a large net has more than anybody measures again.
const mostChecks = 8

// checks on what was not set: distances, the longest first, a diagonal among them;
// angles and heights that were measured.
func (b *netBench) checks() {
	var open [][2]int
	for i := range b.near {
		for _, j := range b.near[i] {
			if i < j && !b.used[[2]int{i, j}] {
				open = append(open, [2]int{i, j})
			}
		}
	}
	length := func(p [2]int) unit.Length { return b.at[p[0]].Distance(b.at[p[1]]) }
	longest := func(a, c [2]int) int { return cmp.Compare(length(c), length(a)) }
	slices.SortStableFunc(open, longest)
	if !slices.ContainsFunc(open, b.diagonal) {
		var all [][2]int
		for i := range b.outline.Names {
			for j := range i {
				if p := [2]int{j, i}; b.diagonal(p) && !b.used[p] {
					all = append(all, p)
				}
			}
		}
		slices.SortStableFunc(all, longest)
		open = append(all[:min(1, len(all))], open...)
	}
	for _, p := range open[:min(mostChecks, len(open))] {
		b.do(CheckSide{From: b.names[p[0]], To: b.names[p[1]], Length: length(p)})
	}
	angles, heights := 0, 0
	for _, m := range b.measured {
		switch {
		case m.Kind == triangle.Angle && m.At[0] != "" && angles < mostChecks:
			angles++
			b.do(CheckAngle{At: m.At[1], Between: [2]geom.Name{m.At[0], m.At[2]}, Angle: b.angle(m)})
		case m.Kind == triangle.Angle && m.At[0] == "" && angles < mostChecks:
			if i, ok := b.outline.Corner(m.At[1]); ok {
				angles++
				b.do(CheckAngle{At: m.At[1], Angle: b.outline.Angles[i]})
			}
		case m.Kind == triangle.Height && heights < mostChecks:
			heights++
			p, base := b.at[b.number[m.At[0]]], geom.Line{From: b.at[b.number[m.At[1]]], To: b.at[b.number[m.At[2]]]}
			h := offset(base, p)
			b.do(CheckHeight{From: m.At[0], Base: [2]geom.Name{m.At[1], m.At[2]}, Height: max(h, -h)})
		}
	}
}

// diagonal says whether two points are corners and no neighbours.
func (b *netBench) diagonal(p [2]int) bool {
	n := len(b.outline.Names)
	if p[0] >= n || p[1] >= n {
		return false
	}
	return b.outline.Next(p[0]) != p[1] && b.outline.Next(p[1]) != p[0]
}

// angle that a measurement is of, as the points have it: up to half a turn.
func (b *netBench) angle(m triangle.Measurement) unit.Angle {
	at := b.at[b.number[m.At[1]]]
	v, w := b.at[b.number[m.At[0]]].Minus(at), b.at[b.number[m.At[2]]].Minus(at)
	return unit.Angle(math.Abs(math.Atan2(float64(v.X*w.Y-v.Y*w.X), float64(v.X*w.X+v.Y*w.Y))))
}
