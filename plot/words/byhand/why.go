package byhand

import (
	"fmt"

	"trammel/geom/construct"
)

// tools are the words of a place in the reason for a construction.
type tools struct {
	compasses, rule, angle, square string
	computed                       string // what a figure is that was not given
}

// Why is why a triangle is constructed on its baseline, and by its way, in one sentence;
// empty where nothing needs to be said.
func (v Voice) Why(h Piece) string {
	base, ok := h.Construction.Base()
	if !ok {
		return ""
	}
	t, why, on := v.tools(), h.Construction.Why, fmt.Sprintf("Built on %s: ", base.From+base.To)
	switch why.Reason {
	case construct.AllGiven:
		return on + "every step then uses a given measure."
	case construct.MoreGiven:
		return on + "more steps then use a given measure."
	case construct.Sharper:
		return on + "the lines then cross more squarely."
	case construct.OnMarks:
		return on + "the " + t.angle + " then has a mark for each angle."
	case construct.SetSquare:
		return on + "the " + t.square + " then makes the right angle."
	case construct.WithinReach:
		side, reach := fmt.Sprintf("%s %s", why.Side[0]+why.Side[1], v.length(h, why.Length)), v.length(h, h.Reach)
		switch {
		case why.Half:
			return fmt.Sprintf("%sthe %s reach %s, too little for the half circle over %s.", on, t.compasses, reach, side)
		case why.ByRuler:
			return fmt.Sprintf("%sthe %s reach %s, and %s is measured with the %s.", on, t.compasses, reach, side, t.rule)
		}
		return fmt.Sprintf("%sthe %s reach %s, and no arc of %s is needed.", on, t.compasses, reach, side)
	case construct.OnAskedBase:
		return fmt.Sprintf("%sit was asked for, and something has to be %s for it. On %s every step would use a given measure.", on, t.computed, why.Better[0]+why.Better[1])
	case construct.TooFlatly:
		return fmt.Sprintf("%ssomething has to be %s, since lines from the given measures alone would cross too sharply to mark where.", on, t.computed)
	case construct.SomeWorked:
		return fmt.Sprintf("%ssomething has to be %s, since on no side does every step use a given measure.", on, t.computed)
	}
	return ""
}
