package panel

import (
	"math"
	"strings"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/shape"
	"trammel/geom/unit"
	"trammel/plot/words"
	"trammel/plot/words/byhand"
)

var noShape shape.Shape

// move is what a step does, in mm of the piece.
type move struct {
	say, why string
	lines    []geom.Segment // new
	outline  []geom.Segment // gone over
	points   []spot         // named now
	tool     func(*stage)
	broad    bool
	gap      *geom.Line // what is missing
	measures bool       // nothing is drawn: it is measured
}

// spot is a point with its letters; out is where they stand, or away from the middle.
type spot struct {
	name string
	at   geom.Vector
	out  geom.Vector
}

// mover makes the moves of a piece.
type mover struct {
	piece words.ByHand
	says  words.Language
	at    map[geom.Name]geom.Vector
	drawn map[geom.Name]bool
	base  construct.DrawBase
	tight bool // nothing far from the triangle is drawn
}

// movesOf are the moves of all steps of a piece, each with its sentence.
func movesOf(h words.ByHand, l words.Language) []move { return newMover(h, l).moves() }

func (m *mover) moves() (all []move) {
	h := m.piece
	for _, a := range h.Acts() {
		v := m.move(a)
		v.say = m.says.Steps().Act(h, a)
		if _, begins := a.(construct.DrawBase); begins {
			v.say = strings.TrimSpace(v.say + " " + m.says.Steps().Why(h))
		}
		all = append(all, v)
	}
	return all
}

func newMover(h words.ByHand, l words.Language) *mover {
	m := &mover{piece: h, says: words.In(l), at: map[geom.Name]geom.Vector{}, drawn: map[geom.Name]bool{}}
	for i, n := range h.Construction.Outline.Names {
		m.at[n] = geom.VectorOf(h.Construction.Outline.Points[i])
	}
	for _, s := range h.Construction.Inner {
		m.at[s.Name] = geom.VectorOf(s.At)
	}
	m.base, _ = h.Construction.Base()
	return m
}

// name a point, once.
func (m *mover) name(n geom.Name) []spot {
	if m.drawn[n] {
		return nil
	}
	m.drawn[n] = true
	return []spot{{name: string(n), at: m.at[n], out: m.outward(n)}}
}

// outward is where a corner's letters stand: away from the others.
func (m *mover) outward(n geom.Name) geom.Vector {
	o := m.piece.Construction.Outline
	i, ok := o.Corner(n)
	if !ok {
		return geom.Vector{X: 1, Y: 1}
	}
	k := len(o.Points)
	p := geom.VectorOf(o.Points[i])
	a, b := geom.VectorOf(o.Points[(i+k-1)%k]).Minus(p), geom.VectorOf(o.Points[(i+1)%k]).Minus(p)
	return a.Unit().Plus(b.Unit()).Times(-1)
}

// length as a rule or an opening shows it.
func (m *mover) length(l unit.Length) string { return m.piece.Figures.LengthUnit(l) }

func line(p, q geom.Vector) geom.Line { return geom.Line{From: p.Point(), To: q.Point()} }

// strokes are short marks across the ends of a line.
func strokes(p, q geom.Vector) []geom.Segment {
	side := q.Minus(p).Unit().Left().Times(q.Minus(p).Size() / 60)
	return []geom.Segment{line(p.Plus(side), p.Minus(side)), line(q.Plus(side), q.Minus(side))}
}

// move of a step. A kind that is not here would show nothing, which a test finds.
func (m *mover) move(a byhand.Act) (v move) {
	switch s := a.(type) {
	case construct.DrawBase:
		p, q := m.at[s.From], m.at[s.To]
		v.lines, v.points = append(strokes(p, q), line(p, q)), append(m.name(s.From), m.name(s.To)...)
		v.tool = ruler{p, q, s.Length.MM(), true}.draw
	case byhand.Swing:
		v = m.swing(s)
	case byhand.HalfCircle:
		v = m.halfCircle(s)
	case construct.ThirdAngle:
		box := m.piece.Construction.Outline.Points.Bounds()
		middle := geom.VectorOf(box.Centre())
		v.tool = func(st *stage) {
			sum := "180° − " + degrees(s.Known[0].Degrees()) + " − " + degrees(s.Known[1].Degrees()) + " = " + degrees(s.Angle.Degrees())
			st.words(sum, st.at(middle), lettered{height: 4, bold: true})
		}
	case byhand.SetAngle:
		v = m.setAngle(s)
	case byhand.MarkOff:
		p, q := m.at[s.From], m.at[s.To]
		side := q.Minus(p).Unit().Left().Times(q.Minus(p).Size() / 45)
		v.lines, v.points = []geom.Segment{line(q.Plus(side), q.Minus(side))}, m.name(s.To)
		v.tool = ruler{p, q, s.Length.MM(), m.others(p, q) > 0}.draw
	case byhand.Erect:
		v = m.erect(s)
	case construct.Parallel:
		v = m.parallel(s)
	case byhand.Join:
		v = m.join(s)
	default:
		v = m.check(a)
	}
	return v
}

// others is positive where most of the other points lie to the left of a line.
func (m *mover) others(p, q geom.Vector) (side float64) {
	for _, n := range m.piece.Construction.Outline.Names {
		side += geom.Side(p, q, m.at[n])
	}
	return side
}

// beside is how far an arc goes on past what it crosses, in mm of the piece.
func beside(radius float64) float64 { return math.Min(0.3, 9/radius+0.06) }

func (m *mover) swing(s byhand.Swing) (v move) {
	c, to := geom.VectorOf(s.About), geom.VectorOf(s.Through)
	way := to.Minus(c)
	radius, start := way.Size(), math.Atan2(way.Y, way.X)
	from, till := start-beside(radius), start+beside(radius)
	if s.Twice && s.Tell == "" && s.Meets != nil && !m.tight {
		if other := geom.VectorOf(s.Other).Minus(c); other.Size() > 0 {
			turn := math.Remainder(math.Atan2(other.Y, other.X)-start, 2*math.Pi)
			from, till = math.Min(from, start+turn-beside(radius)), math.Max(till, start+turn+beside(radius))
		}
	}
	v.lines = []geom.Segment{geom.Arc{Centre: s.About, Radius: unit.Length(radius), Start: unit.Angle(from), Sweep: unit.Angle(till - from)}}
	if s.Meets != nil {
		v.points = m.name(s.To)
	}
	// The pencil stands at the end of the arc that is farther from the other points.
	end, left := till, true
	if side := m.others(c, to); side > 0 {
		end, left = from, false
	}
	pencil := c.Plus(geom.Vector{X: math.Cos(end), Y: math.Sin(end)}.Times(radius))
	v.tool = compasses{c, pencil, m.length(s.Radius), !left}.draw
	if s.Meets == nil {
		v.tool = compasses{c, pencil, m.length(s.Radius), left}.draw
	}
	return v
}

func (m *mover) halfCircle(s byhand.HalfCircle) (v move) {
	p, q := m.at[s.Over[0]], m.at[s.Over[1]]
	mid := geom.VectorOf(s.Middle)
	way := q.Minus(mid)
	start := math.Atan2(way.Y, way.X)
	side := q.Minus(p).Unit().Left().Times(q.Minus(p).Size() / 60)
	v.lines = []geom.Segment{geom.Arc{Centre: s.Middle, Radius: s.Radius, Start: unit.Angle(start), Sweep: unit.Turn / 2}, line(mid.Plus(side), mid.Minus(side))}
	if s.Meets != nil {
		v.points = m.name(s.To)
	}
	v.tool = compasses{mid, p, m.length(s.Radius), false}.draw
	return v
}

func (m *mover) setAngle(s byhand.SetAngle) (v move) {
	p, q := geom.VectorOf(s.Ray.From), geom.VectorOf(s.Ray.To)
	arm := geom.VectorOf(s.Arm.To).Minus(p)
	left := arm.Cross(q.Minus(p)) > 0
	v.lines = []geom.Segment{line(p, q)}
	if s.Meets != nil {
		v.points = m.name(s.To)
	}
	deg := s.Angle.Degrees()
	switch s.By {
	case byhand.RightAngle:
		v.tool = square{corner: p, along: arm, over: !left}.draw
	case byhand.OnProtractor:
		v.broad = true
		v.why = m.says.Models().Why(degrees(deg), degrees(180-deg), deg < 90)
		if long := q.Minus(p); long.Size() < rim+10 && m.piece.Construction.Outline.Perimeter() < 600 { // the arm is seen past the rim
			v.lines = []geom.Segment{line(p, p.Plus(long.Unit().Times(rim+10)))}
		}
		v.tool = protractor{corner: p, arm: arm, degrees: deg, left: left, mark: m.says.Models().Mark()}.draw
	case byhand.OnSquare:
		v.tool = func(st *stage) {
			st.angled(m.length(s.Rise)+" : "+m.length(s.Run), p, arm, signed(left, deg), tool)
		}
	default: // by its chord
		v.tool = func(st *stage) { st.angled(degrees(deg), p, arm, signed(left, deg), tool) }
	}
	return v
}

// signed is an angle in radians, to the left or to the right.
func signed(left bool, deg float64) float64 {
	if left {
		return deg * math.Pi / 180
	}
	return -deg * math.Pi / 180
}

func (m *mover) erect(s byhand.Erect) (v move) {
	foot, top := geom.VectorOf(s.Foot), geom.VectorOf(s.Top)
	up := top.Minus(foot)
	past := foot.Plus(up.Times(1.08))
	v.lines, v.points = []geom.Segment{line(foot, past)}, m.name(s.To)
	along := m.at[s.Toward].Minus(m.at[s.From])
	if foot.Minus(m.at[s.From]).Dot(along) > along.Dot(along)/2 {
		along = along.Times(-1)
	}
	if s.Along < 0 || s.Past { // the line is carried on
		near := m.at[s.From]
		if s.Past {
			near = m.at[s.Toward]
		}
		v.lines = append(v.lines, line(near, foot))
	}
	side := up.Unit().Left().Times(up.Size() / 40)
	v.lines = append(v.lines, line(top.Plus(side), top.Minus(side)))
	set := square{corner: foot, along: along, over: along.Cross(up) < 0}
	height := m.length(s.Height)
	v.tool = func(st *stage) {
		set.draw(st)
		st.asked(height, foot, top, along.Cross(up) < 0)
	}
	return v
}

func (m *mover) parallel(s construct.Parallel) (v move) {
	p, q := geom.VectorOf(s.Line.From), geom.VectorOf(s.Line.To)
	if to := m.at[s.To]; m.tight {
		p.X, q.X = math.Max(p.X, math.Min(0, to.X)-15), math.Min(q.X, to.X+15)
	}
	v.lines = []geom.Segment{line(p, q)}
	a, b := m.at[s.Base[0]], m.at[s.Base[1]]
	along := b.Minus(a).Unit()
	foot := a.Plus(along.Times(p.Minus(a).Dot(along))) // below the line's first end
	height, far := m.length(s.Distance), s.Distance.MM()
	v.tool = func(st *stage) {
		square{corner: p, along: along, slides: far}.draw(st)
		st.asked(height, b.Plus(p.Minus(foot)), b, false)
		st.line(st.at(b), st.at(b.Plus(p.Minus(foot))), tick)
	}
	return v
}

func (m *mover) join(s byhand.Join) (v move) {
	for i := 1; i < len(s.Names); i++ {
		v.lines = append(v.lines, line(m.at[geom.Name(s.Names[i-1])], m.at[geom.Name(s.Names[i])]))
	}
	for _, n := range s.Names {
		v.points = append(v.points, m.name(geom.Name(n))...)
	}
	if s.Last {
		o := m.piece.Construction.Outline
		for i := range o.Points {
			v.outline = append(v.outline, o.Points.Edge(i))
		}
	}
	if len(s.Names) == 2 {
		p, q := m.at[geom.Name(s.Names[0])], m.at[geom.Name(s.Names[1])]
		v.tool = ruler{from: p, to: q, below: m.others(p, q) > 0}.draw
	}
	return v
}

// check is what is measured: a question stands where the answer is.
func (m *mover) check(a byhand.Act) (v move) {
	v.measures = true
	o := m.piece.Construction.Outline
	for i := range o.Points {
		v.outline = append(v.outline, o.Points.Edge(i))
	}
	switch s := a.(type) {
	case construct.CheckSide:
		p, q := m.at[s.From], m.at[s.To]
		v.tool = func(st *stage) { st.asked("? "+m.piece.Figures.Unit.String(), p, q, m.others(p, q) > 0) }
	case construct.CheckAngle:
		p := m.at[s.At]
		i, ok := o.Corner(s.At)
		if !ok {
			return v
		}
		k := len(o.Points)
		arm, other := geom.VectorOf(o.Points[(i+1)%k]).Minus(p), geom.VectorOf(o.Points[(i+k-1)%k]).Minus(p)
		v.tool = func(st *stage) { st.angled("? °", p, arm, signed(arm.Cross(other) > 0, s.Angle.Degrees()), tool) }
	case byhand.CheckHeight:
		top, b, c := m.at[s.From], m.at[s.Base[0]], m.at[s.Base[1]]
		along := c.Minus(b).Unit()
		foot := b.Plus(along.Times(top.Minus(b).Dot(along)))
		v.tool = func(st *stage) {
			st.line(st.at(top), st.at(foot), fresh)
			square{corner: foot, along: along, over: along.Cross(top.Minus(b)) < 0}.draw(st)
			st.asked("? "+m.piece.Figures.Unit.String(), foot, top, false)
		}
	}
	return v
}
