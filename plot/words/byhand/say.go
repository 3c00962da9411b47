package byhand

import (
	"fmt"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/unit"
)

// Voice says the moves of the hand as one place does.
type Voice struct{ place }

// The voices that there are.
var (
	Class  = Voice{class{}}  // pupil: ruler, compasses, protractor, set square
	Bench  = Voice{bench{}}  // joiner: straight edge, trammel, bevel, try square
	Floor  = Voice{floor{}}  // tiler: chalk line, pin and batten, angle finder
	Ground = Voice{ground{}} // site: pegs, tapes, string
)

// place is where the work is done: a method for each move, with its tool in front.
type place interface {
	length(h Piece, l unit.Length) string
	computed(figures []string) string // figures that are not given, in a sentence of their own

	base(f *figures, s construct.DrawBase) string
	swing(f *figures, s Swing) string
	angle(f *figures, s SetAngle) string
	halfCircle(f *figures, s HalfCircle) string
	third(angle, of string, known [2]string) string
	mark(f *figures, s MarkOff) string
	erect(f *figures, s Erect) string
	parallel(f *figures, s construct.Parallel) string
	join(s Join) string
	checkSide(f *figures, side string, l unit.Length) string
	checkAngle(f *figures, at, angle string) string
	checkHeight(f *figures, from geom.Name, side string, l unit.Length) string
	carriedOn(side string, past geom.Name) string
	draw() string // the word for drawing a line
	tools() tools
}

// Act is a move of the hand in sentences, without a number before them. What is not
// given is told in a last one.
func (v Voice) Act(h Piece, act Act) string {
	f := &figures{Piece: h, place: v.place}
	say := v.act(f, act)
	if len(f.computed) > 0 {
		say += " " + v.computed(f.computed)
	}
	return say
}

func (v Voice) act(f *figures, act Act) string {
	switch s := act.(type) {
	case construct.DrawBase:
		return v.base(f, s)
	case Swing:
		return v.swing(f, s)
	case HalfCircle:
		return v.halfCircle(f, s)
	case construct.ThirdAngle:
		known := [2]string{f.Piece.angle(s.Others[0], s.Known[0]), f.Piece.angle(s.Others[1], s.Known[1])}
		return v.third(string(s.At), f.fineAngle(s.Angle), known)
	case SetAngle:
		return v.angle(f, s)
	case MarkOff:
		return v.mark(f, s)
	case Erect:
		return v.erect(f, s)
	case construct.Parallel:
		return v.parallel(f, s)
	case Join:
		return v.join(s)
	case construct.CheckSide:
		return v.checkSide(f, string(s.From+s.To), s.Length)
	case construct.CheckAngle:
		if s.Between[0] != "" {
			return v.checkAngle(f, string(s.Between[0]+s.At+s.Between[1]), f.Figures.Angle(s.Angle))
		}
		return v.checkAngle(f, string(s.At), f.Piece.angle(s.At, s.Angle))
	case CheckHeight:
		side := string(s.Base[0] + s.Base[1])
		if s.Beyond[1] != "" {
			side = v.carriedOn(string(s.Beyond[0]+s.Beyond[1]), s.Beyond[1])
		}
		return v.checkHeight(f, s.From, side, s.Height)
	}
	panic(fmt.Sprintf("byhand: no words for %T", act))
}
