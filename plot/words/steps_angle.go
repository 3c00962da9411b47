package words

import (
	"fmt"
	"math"
	"math/big"

	"trammel/geom/construct"
	"trammel/geom/shape"
	"trammel/geom/unit"
)

// setAngle says how an angle is set off: a slope on the square, as run and rise; what
// the protractor has a mark for with that; anything else by its chord, so that nothing
// is rounded to the next mark.
func (w *work) setAngle(s construct.SetAngle) string {
	if given, ok := w.Given[s.At]; ok {
		if rise, run, slope := given.Slope(); slope {
			return w.onSquare(s, rise, run)
		}
	}
	if !w.marked(s.Angle) {
		return w.chorded(s)
	}
	say := fmt.Sprintf("Protractor at %s: set off %s from %s and draw the arm", s.At, w.setOff(s), s.At+s.Along)
	return say + w.crossing(s) + w.byChord(s)
}

// setOff is the angle as it stands in a sentence.
func (w *work) setOff(s construct.SetAngle) string {
	if given, ok := w.Given[s.At]; ok {
		return w.Figures.Given(given)
	}
	return Computed(w.fineAngle(s.Angle), false)
}

// crossing ends the sentence of an arm.
func (w *work) crossing(s construct.SetAngle) string {
	if _, met := w.meets(s.To); met {
		return fmt.Sprintf("; it crosses %s at %s.", w.what(s.To), s.To)
	}
	return "."
}

// marked says whether the protractor has a mark for an angle. A tenth of its step is
// judged by eye.
func (h ByHand) marked(a unit.Angle) bool {
	if h.Protractor == 0 {
		return true
	}
	marks := float64(a / h.Protractor)
	return math.Abs(marks-math.Round(marks)) <= 0.1
}

// onSquare says a slope in the figures that were given, as far out as is handy.
func (w *work) onSquare(s construct.SetAngle, rise, run *big.Rat) string {
	k := w.times(max(ratio(rise), ratio(run)), s)
	along, up := unit.Length(ratio(run)*k), unit.Length(ratio(rise)*k)
	line := "it"
	if along > s.Arm.Length() {
		line = fmt.Sprintf("it carried on beyond %s,", s.Along)
	}
	return fmt.Sprintf("At %s set off %s from %s: %s along %s from %s, then %s square up; draw the arm from %s through there",
		s.At, w.setOff(s), s.At+s.Along, w.exactly(along), line, s.At, w.exactly(up), s.At) + w.crossing(s)
}

func ratio(r *big.Rat) float64 { f, _ := r.Float64(); return f }

// times is by how much the figures of a slope are multiplied, to lie as far out as the
// arm or as bench and square reach: 1, 2 or 5 with noughts; in inches halved and doubled.
func (w *work) times(longer float64, s construct.SetAngle) float64 {
	if w.Figures.Unit >= unit.IN {
		most := math.Max(12, math.Min(24, float64(s.Ray.Length()/unit.Inch)))
		return 25.4 * math.Exp2(math.Floor(math.Log2(most/longer)))
	}
	most := math.Max(100, math.Min(600, s.Ray.Length().MM())) / longer
	ten := math.Pow(10, math.Floor(math.Log10(most)))
	for _, k := range []float64{5, 2, 1} {
		if k*ten <= most*(1+1e-12) {
			return k * ten
		}
	}
	return ten
}

// exactly writes a figure that comes from a slope, to where it is finer than any rule.
func (w *work) exactly(l unit.Length) string {
	s := w.Figures
	if s.Unit >= unit.IN {
		s.Unit, s.Denominator = unit.IN, 64
	}
	return s.Length(l)
}

// Radii for chords, the longest that the baseline holds; the shortest even where it
// does not, since a shorter chord is read too roughly: 1 mm at 200 turns the arm by
// 0.3° (dθ = dc/(R·cos θ/2)).
var (
	chordRadii   = []unit.Length{unit.Metre, 500, 300, 200}
	chordRadiiIn = []unit.Length{48 * unit.Inch, 24 * unit.Inch, 12 * unit.Inch, 8 * unit.Inch}
)

// steep is the angle over which the chord's arc would cross that about the corner under
// 30°: there the rest of 180° is set off from the line carried on.
const steep = 120 * unit.Degree

// chorded says how an angle is set off by its chord. (TPUB 14276 p. 2-37.)
func (w *work) chorded(s construct.SetAngle) string {
	radii := chordRadii
	if w.Figures.Unit >= unit.IN {
		radii = chordRadiiIn
	}
	reach := min(s.Arm.Length(), s.Ray.Length())
	r := radii[len(radii)-1]
	for _, try := range radii {
		if try <= reach {
			r = try
			break
		}
	}
	base, angle, rest := fmt.Sprint(s.At+s.Along), s.Angle, ""
	switch {
	case s.Angle > steep:
		angle = unit.Turn/2 - s.Angle
		base = fmt.Sprintf("%s carried on beyond %s", s.Along+s.At, s.At)
		rest = ", the rest of 180°"
	case r > s.Arm.Length():
		base += fmt.Sprintf(" carried on beyond %s", s.Along)
	}
	return fmt.Sprintf("At %s set off %s from %s by its chord%s: swing %s from %s, and where that arc crosses %s swing %s across it; the arm runs from %s through the crossing",
		s.At, w.setOff(s), s.At+s.Along, rest, w.exactly(r), s.At, base, Computed(w.exactly(shape.Chord(r, angle)), false), s.At) + w.crossing(s)
}

// byChord says how an angle is set off over metres, where half a degree of a
// protractor is a centimetre in each: by the chord of an arc of 1 m, or 4 ft. Common
// practice, no source.
func (w *work) byChord(s construct.SetAngle) string {
	round := unit.Metre
	if w.Figures.Unit >= unit.IN {
		round = 4 * unit.Foot
	}
	o := w.Construction.Outline
	from, ok := o.Corner(s.At)
	to, is := o.Corner(s.Along)
	if !ok || !is || s.Ray.Length() < 1.5*round || o.Points[from].Distance(o.Points[to]) < round {
		return ""
	}
	chord := 2 * round * unit.Length(math.Sin(float64(s.Angle)/2))
	if w.chord {
		return fmt.Sprintf(" Surer, as before: %s from %s, then %s from %s.", w.Figures.Length(round), s.At, w.length(chord, false), s.At+s.Along)
	}
	w.chord = true
	return fmt.Sprintf(" Surer over this length: swing %s from %s, and where that arc crosses %s swing %s across it; the arm runs through the crossing.",
		w.Figures.Length(round), s.At, s.At+s.Along, w.length(chord, false))
}
