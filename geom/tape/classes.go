// Package tape is what lengths and angles are measured with: classes of tapes, the
// scatter of a pull, and what a tape reads that is warm, slack or long.
//
// Files, from the top floor to the ground: taping.go, figures.go, quantity.go, correction.go,
// classes.go.
package tape

import (
	"math"

	"trammel/geom/unit"
)

// Expansion is the tolerance or the 95 % figure of one thing divided by its σ.
const Expansion = 2

// Class is the accuracy class of a tape after Directive 2014/32/EU, annex X
// (MI-008), the same as OIML R 35.
type Class uint8

const (
	ClassII Class = iota // the usual one
	ClassI
	ClassIII
)

func (c Class) String() string { return [...]string{"II", "I", "III"}[min(c, ClassIII)] }

// Tape is what lengths are pulled with.
type Tape struct {
	Class Class
	Hook  bool // the zero is a hook or the end of a case, which may be off as well
}

// classes are a, b and the hook's share, in mm, as annex X gives them.
var classes = [...]struct{ a, b, hook unit.Length }{
	ClassII:  {0.3, 0.2, 0.2},
	ClassI:   {0.1, 0.1, 0.1},
	ClassIII: {0.6, 0.4, 0.3},
}

// sameMetre keeps a length that is a whole number of metres but for rounding
// from counting as one metre more.
const sameMetre = 1e-9

// Error is the maximum permissible error over a length: a + b·L, L in metres
// rounded up, and the hook's share.
func (t Tape) Error(l unit.Length) unit.Length {
	a, b, hook := t.Terms()
	return a + b*unit.Length(math.Ceil(math.Abs(l.MM())/1000*(1-sameMetre))) + hook
}

// Terms of the error a + b·L of the class, b for each metre, and the hook's share: 0
// without one.
func (t Tape) Terms() (a, b, hook unit.Length) {
	c := classes[min(t.Class, ClassIII)]
	if t.Hook {
		hook = c.hook
	}
	return c.a, c.b, hook
}

// Instrument is what angles are measured and turned with. Its figures are
// tolerances: 95 of 100 keep them.
type Instrument struct {
	Name     string
	Angle    unit.Angle  // of one angle between two sightings
	Centring unit.Length // of the instrument over its point, and of each target over its own
}

// Instruments as people have them: what each keeps is common practice, no source.
var (
	Protractor = Instrument{"protractor", 30 * unit.Degree / 60, 1 * unit.Millimetre}
	Theodolite = Instrument{"theodolite", 20 * unit.Degree / 3600, 2 * unit.Millimetre}
)

// OnePeg is how near two marks share one peg, each with its own nail: pegs are 40 to 50 mm
// thick (common practice, no source).
const OnePeg unit.Length = 60

// Tools are what the net is measured, or the pegs set out, with.
type Tools struct {
	Tape       Tape
	Reading    unit.Length // of a nail in a peg and an eye over the tape together, one pull; 0: 1 mm (common practice, no source)
	Instrument Instrument  // the zero value: Protractor
	Feet       bool        // 3-4-5 squares in round feet and inches
	// Size is the longest length of what is measured, where that is known and less than
	// Pegged: what tape, nail and centring add counts in proportion. 0: all of it.
	Size unit.Length
}

// Pegged is the size from which a piece is pegged and taped from nail to nail. A smaller
// one lies the more on a bench, under a rule that reads as it is written, the smaller it
// is. Judgement, no source.
const Pegged unit.Length = 1 * unit.Metre

// share of what tape, nail and centring add.
func (t Tools) share() float64 {
	if t.Size <= 0 {
		return 1
	}
	return min(1, float64(t.Size/Pegged))
}

func (t Tools) Complete() Tools {
	if t.Reading <= 0 {
		t.Reading = 1 * unit.Millimetre
	}
	if t.Instrument.Angle <= 0 {
		t.Instrument = Protractor
	}
	return t
}

// Bound is the σ of what lies anywhere within ±x: x/√3.
func Bound(x float64) float64 { return x / math.Sqrt(3) }

// Pull is the σ of one pull of the tape: its class, nail and eye.
func (t Tools) Pull(l unit.Length) unit.Length {
	t = t.Complete()
	return unit.Length(t.share() * math.Hypot(Bound(t.Tape.Error(l).MM()), t.Reading.MM()/Expansion))
}

// Turned is the σ of one angle between two points p and q away, which are d
// apart: the instrument's own; the targets' centring, σ√(1/p² + 1/q²); the
// instrument's centring, σ·d/(p·q·√2).
//
// C. D. Ghilani, Adjustment Computations, chapter 7 (from memory).
func (t Tools) Turned(p, q, d unit.Length) unit.Angle {
	i := t.Complete().Instrument
	a, c := i.Angle.Radians()/Expansion, t.share()*i.Centring.MM()/Expansion
	targets := c * math.Hypot(1/p.MM(), 1/q.MM())
	over := c * d.MM() / (p.MM() * q.MM() * math.Sqrt2)
	return unit.Angle(math.Sqrt(a*a + targets*targets + over*over))
}

// Permitted is the permitted deviation ±K√L of a distance, L in metres, and ±2K
// below 5 m. K is in millimetres (for one metre): ±1.5√L mm for points of
// structures is ISO 4463-1:1989 as reported by V. Kala, Geodesy and Cartography
// 35(3), 2009; the rule of 2K, and K = 10 for rough earthwork, 5 for earthwork, 2
// for in-situ concrete, 1 for precast and steel, IS 11134:1984 as summarised.
func Permitted(k, distance unit.Length) unit.Length {
	if distance < 5*unit.Metre {
		return 2 * k
	}
	return k * unit.Length(math.Sqrt(distance.MM()/1000))
}
