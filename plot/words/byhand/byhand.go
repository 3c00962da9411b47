// Package byhand says how a piece is made by hand: the moves of the hand as values, with
// all that a sentence about them says, and the sentences in the voice of each place.
//
// Files, from the top floor to the ground: shaping.go, say.go, why.go, class.go, floor.go, ground.go,
// bench.go, figures.go, settings.go, byhand.go.
package byhand

import (
	"cmp"
	"math"
	"math/big"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/shape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// Piece is one that is made by hand, and what is at hand.
type Piece struct {
	Construction construct.Construction
	Shape        shape.Shape                // what is done to the outline; without sides: nothing
	Given        map[geom.Name]unit.Reading // angles as they were measured, of corners that have just these
	Heights      [3]bool                    // of a triangle: those that were measured, from its first corner on
	Figures      unit.Style
	Drawn        bool        // what a check should come to stands on the drawing beside: a pupil is not told it before measuring
	Reach        unit.Length // longest radius of the compasses; 0: those that are held in one hand
	Protractor   unit.Angle  // the step of its marks; what lies between is set off by its chord. 0: any angle has a mark
	Saw          unit.Angle  // how far the mitre saw turns to each side of a square cut; 0: commonSaw
}

// Act is one move of the hand with all that a sentence about it says, and no word: a
// construct.Step that says all by itself, or one of the types below.
type Act any

type (
	// Swing is an arc.
	Swing struct {
		construct.Swing
		Beam, First bool           // compasses in one hand do not reach; beam compasses were not named before
		Meets       construct.Step // the line that the corner lies on already; nil: none
		From        geom.Name      // of two crossings the one nearer to here, or farther; empty: above or below the baseline
		Nearer      bool
		Touches     bool // it meets that line at one place, square to it
	}
	// SetAngle is an angle, and how it is set off.
	SetAngle struct {
		construct.SetAngle
		Meets         construct.Step
		By            AngleBy
		Run, Rise     unit.Length // OnSquare
		Radius, Chord unit.Length // ByChord; of OnProtractor what is surer over its length, 0: nothing is
		Beyond        geom.Name   // the line is carried on beyond this end of it; empty: it is long enough
		Rest, Again   bool        // ByChord: what is left of 180°; OnProtractor: the surer way was told before
		Turned        bool        // the one set off before opened the other way round: the other scale, the bevel turned over
	}
	// MarkOff is a length on an arm, or on the baseline.
	MarkOff struct {
		construct.MarkOff
		Arm bool
	}
	// HalfCircle is the half circle over the baseline.
	HalfCircle struct {
		construct.HalfCircle
		Beam, First bool
		Meets       construct.Step
		Nearer      bool // of two crossings the one nearer to Over[0]
	}
	// Erect is a perpendicular. Along is 0 where the foot is the corner.
	Erect struct {
		construct.Erect
		Past bool // the foot lies past the second end of the baseline
	}
	// Join is points whose lines are joined end to end.
	Join struct {
		Names []string
		Last  bool // no line is drawn after it
	}
	// CheckHeight is a height; the side is carried on beyond an end of it, or not.
	CheckHeight struct {
		construct.CheckHeight
		Beyond [2]geom.Name // the other end, and this one
	}
)

// AngleBy is what an angle is set off by: a slope by the square, as run and rise; a right
// angle by the square; what the protractor has a mark for by that; anything else by its chord, so that nothing is
// rounded to the next mark.
type AngleBy uint8

const (
	OnProtractor AngleBy = iota
	OnSquare
	ByChord
	RightAngle
)

// handCompasses are the largest that are held in one hand: common practice, no source.
const handCompasses unit.Length = 300

// Computed is a figure as paper shows it: bare when measured, else in parentheses.
func Computed(figure string, measured bool) string {
	if measured {
		return figure
	}
	return "(" + figure + ")"
}

// Length as a label of the drawing has it.
func (h Piece) Length(l unit.Length, measured bool) string {
	return Computed(h.Figures.Length(l), measured)
}

// angle at a corner, as it was given where it was.
func (h Piece) angle(n geom.Name, a unit.Angle) string {
	if given, ok := h.Given[n]; ok {
		return h.Figures.Given(given)
	}
	return h.Figures.Angle(a)
}

// Acts are all moves in order; the lines of a net that are joined end to end are one.
func (h Piece) Acts() (all []Act) {
	c := h.Construction
	beam, chord, last, before := false, false, -1, 0.0
	for i := 0; i < len(c.Steps); i++ {
		if names := inOrder(c, i); len(names) > 2 {
			last = len(all)
			all, i = append(all, Join{Names: names}), i+len(names)-2
			continue
		}
		act := h.act(c.Steps[i], c.Steps[:i])
		switch a := act.(type) {
		case Swing:
			a.First, beam = a.Beam && !beam, beam || a.Beam
			act = a
		case HalfCircle:
			a.First, beam = a.Beam && !beam, beam || a.Beam
			act = a
		case SetAngle:
			if a.By == OnProtractor && a.Chord > 0 {
				a.Again, chord = chord, true
			}
			if a.By == OnProtractor { // the square has no other side
				round := turn(a)
				a.Turned, before = round*before < 0, round
			}
			act = a
		case Join:
			last = len(all)
		}
		all = append(all, act)
	}
	if last >= 0 {
		j := all[last].(Join)
		j.Last = true
		all[last] = j
	}
	return all
}

// turn is positive where the arm of an angle is turned to the left.
func turn(a SetAngle) float64 {
	arm, ray := a.Arm.To.Minus(a.Arm.From), a.Ray.To.Minus(a.Ray.From)
	return float64(arm.X*ray.Y - arm.Y*ray.X)
}

// inOrder is the points of a net's lines that are joined end to end from step i on.
func inOrder(c construct.Construction, i int) (names []string) {
	if c.Triangle != (triangle.Triangle{}) {
		return nil
	}
	for ; i < len(c.Steps); i++ {
		j, ok := c.Steps[i].(construct.Join)
		if len(names) == 0 {
			names = []string{string(j.From)}
		}
		if !ok || names[len(names)-1] != string(j.From) {
			break
		}
		names = append(names, string(j.To))
	}
	return names
}

// act is a step behind those that are done.
func (h Piece) act(step construct.Step, done []construct.Step) Act {
	switch s := step.(type) {
	case construct.Swing:
		return h.swing(s, meets(done, s.To))
	case construct.SetAngle:
		return h.setAngle(SetAngle{SetAngle: s, Meets: meets(done, s.To)})
	case construct.HalfCircle:
		a := HalfCircle{HalfCircle: s, Beam: h.beam(s.Radius), Meets: meets(done, s.To)}
		if base, ok := h.Construction.Base(); ok {
			a.Nearer = s.Through.Distance(base.Line.From) < s.Other.Distance(base.Line.From)
		}
		return a
	case construct.MarkOff:
		return MarkOff{s, meets(done, s.To) != nil}
	case construct.Erect:
		const same = 1e-9 // mm: the foot is the corner
		if max(s.Along, -s.Along) < same {
			s.Along = 0
		}
		base, _ := h.Construction.Base()
		return Erect{s, s.Along > 0 && s.Along > base.Length}
	case construct.Join:
		return Join{Names: []string{string(s.From), string(s.To)}}
	case construct.CheckHeight:
		return CheckHeight{s, h.obtuse(s.Base)}
	}
	return step
}

// meets is the last line drawn that corner n lies on; nil: none.
func meets(done []construct.Step, n geom.Name) construct.Step {
	for i := len(done) - 1; i >= 0; i-- {
		var to geom.Name
		switch s := done[i].(type) {
		case construct.Swing:
			to = s.To
		case construct.SetAngle:
			to = s.To
		case construct.Parallel:
			to = s.To
		case construct.HalfCircle:
			to = s.To
		}
		if to == n {
			return done[i]
		}
	}
	return nil
}

// obtuse is the end of a side with an obtuse angle, behind its other end: the
// perpendicular from the corner over it meets the side carried on there.
func (h Piece) obtuse(side [2]geom.Name) (ends [2]geom.Name) {
	t := h.Construction.Outline
	for i, n := range t.Names {
		for k, end := range side {
			if n == end && t.Angles[i] > unit.Turn/4+1e-9 { // rounding of a right angle is 1e-16
				return [2]geom.Name{side[1-k], end}
			}
		}
	}
	return ends
}

// beam says whether a radius is more than the compasses in one hand reach.
func (h Piece) beam(radius unit.Length) bool { return radius > cmp.Or(h.Reach, handCompasses) }

func (h Piece) swing(s construct.Swing, met construct.Step) Swing {
	a := Swing{Swing: s, Beam: h.beam(s.Radius), Meets: met}
	var from geom.Point
	switch m := met.(type) {
	case construct.SetAngle:
		a.From, from = m.At, m.Ray.From
	case construct.Parallel: // from the centre of the arc both are as far
		base, _ := h.Construction.Base()
		if a.From, from = base.From, base.Line.From; s.Centre == base.From {
			a.From, from = base.To, base.Line.To
		}
	}
	if s.Tell != "" {
		a.From, from = s.Tell, s.TellAt
	}
	a.Nearer = s.Through.Distance(from) < s.Other.Distance(from)
	a.Touches = !a.Twice && square(s, met)
	return a
}

// square says whether the radius stands square on the straight line that the arc meets.
func square(s construct.Swing, met construct.Step) bool {
	var line geom.Line
	switch m := met.(type) {
	case construct.SetAngle:
		line = m.Ray
	case construct.Parallel:
		line = m.Line
	default:
		return false
	}
	along, to := line.To.Minus(line.From), s.Through.Minus(s.About)
	cos := float64(along.X*to.X+along.Y*to.Y) / math.Hypot(float64(along.X), float64(along.Y)) / math.Hypot(float64(to.X), float64(to.Y))
	return math.Abs(cos) < 1e-6 // a millimetre in a kilometre
}

func (h Piece) setAngle(a SetAngle) SetAngle {
	if rise, run, slope := h.Given[a.At].Slope(); slope {
		k := h.times(max(ratio(rise), ratio(run)), a.Ray.Length())
		a.By, a.Run, a.Rise = OnSquare, unit.Length(ratio(run)*k), unit.Length(ratio(rise)*k)
		if a.Run > a.Arm.Length() {
			a.Beyond = a.Along
		}
		return a
	}
	if math.Abs(float64(a.Angle-unit.Turn/4)) < 1e-12 {
		a.By = RightAngle
		return a
	}
	if marks := float64(a.Angle / h.Protractor); h.Protractor > 0 && math.Abs(marks-math.Round(marks)) > 0.1 { // a tenth of its step is judged by eye
		return h.chorded(a)
	}
	return h.surer(a)
}

func ratio(r *big.Rat) float64 { f, _ := r.Float64(); return f }

// times is by how much the figures of a slope are multiplied, to lie as far out as the
// arm or as bench and square reach: 1, 2 or 5 with noughts; in inches halved and doubled.
func (h Piece) times(longer float64, arm unit.Length) float64 {
	if h.Figures.Unit >= unit.IN {
		most := math.Max(12, math.Min(24, float64(arm/unit.Inch)))
		return 25.4 * math.Exp2(math.Floor(math.Log2(most/longer)))
	}
	most := math.Max(100, math.Min(600, arm.MM())) / longer
	ten := math.Pow(10, math.Floor(math.Log10(most)))
	for _, k := range []float64{5, 2} {
		if k*ten <= most*(1+1e-12) {
			return k * ten
		}
	}
	return ten
}

// Radii for chords, the longest that the baseline holds; where the compasses do not reach the shortest, as
// far as they do; the shortest even where the baseline does not hold it, since a shorter chord is read too roughly: 1 mm at 200 turns the arm by
// 0.3° (dθ = dc/(R·cos θ/2)).
var (
	chordRadii   = []unit.Length{unit.Metre, 500, 300, 200}
	chordRadiiIn = []unit.Length{48 * unit.Inch, 24 * unit.Inch, 12 * unit.Inch, 8 * unit.Inch}
)

// steep is the angle over which the chord's arc would cross that about the corner under
// 30°: there the rest of 180° is set off from the line carried on.
const steep = 120 * unit.Degree

// chorded sets an angle off by its chord. (TPUB 14276 p. 2-37.)
func (h Piece) chorded(a SetAngle) SetAngle {
	radii := chordRadii
	if h.Figures.Unit >= unit.IN {
		radii = chordRadiiIn
	}
	if h.Reach > 0 && h.Reach < radii[len(radii)-1] { // those of a pupil's box
		round := 10 * unit.Millimetre
		if h.Figures.Unit >= unit.IN {
			round = unit.Inch / 2
		}
		radii = []unit.Length{round * unit.Length(math.Floor(float64(h.Reach/round)+1e-9))}
	}
	r, angle := radii[len(radii)-1], a.Angle
	for _, try := range radii {
		if try <= min(a.Arm.Length(), a.Ray.Length()) {
			r = try
			break
		}
	}
	switch {
	case a.Angle > steep:
		a.Rest, a.Beyond, angle = true, a.At, unit.Turn/2-a.Angle
	case r > a.Arm.Length():
		a.Beyond = a.Along
	}
	a.By, a.Radius, a.Chord = ByChord, r, shape.Chord(r, angle)
	return a
}

// surer adds a chord to what is set off over metres, where half a degree of a protractor
// is a centimetre in each: of an arc of 1 m, or 4 ft. Common practice, no source.
func (h Piece) surer(a SetAngle) SetAngle {
	round := unit.Metre
	if h.Figures.Unit >= unit.IN {
		round = 4 * unit.Foot
	}
	o := h.Construction.Outline
	from, ok := o.Corner(a.At)
	to, is := o.Corner(a.Along)
	if ok && is && a.Ray.Length() >= 1.5*round && o.Points[from].Distance(o.Points[to]) >= round {
		a.Radius, a.Chord = round, 2*round*unit.Length(math.Sin(float64(a.Angle)/2))
	}
	return a
}
