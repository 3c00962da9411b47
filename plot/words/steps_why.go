package words

import (
	"fmt"

	"trammel/geom/construct"
)

func (w steps) Why(h ByHand) string {
	why := h.Construction.Why
	base, ok := h.Construction.Base()
	if !ok {
		return ""
	}
	on := fmt.Sprintf("Built on %s: ", base.From+base.To)
	switch why.Reason {
	case construct.AllGiven:
		return on + "every step then uses a given measure."
	case construct.MoreGiven:
		return on + "fewer measures are computed then than on another side."
	case construct.Sharper:
		return on + "the lines then cross more squarely."
	case construct.OnMarks:
		return on + "the protractor then has a mark for each angle."
	case construct.SetSquare:
		return on + "the set square then draws the right angle."
	case construct.WithinReach:
		side := fmt.Sprintf("%s %s", why.Side[0]+why.Side[1], h.Figures.Length(why.Length))
		reach := h.Figures.Length(h.Reach)
		if why.ByRuler {
			return fmt.Sprintf("%sthe compasses reach %s, and %s is measured with the ruler.", on, reach, side)
		}
		return fmt.Sprintf("%sthe compasses reach %s, and no arc of %s is needed.", on, reach, side)
	case construct.OnAskedBase:
		return fmt.Sprintf("%sthat was asked for; on %s every step would use a given measure, here something is computed.", on, why.Better[0]+why.Better[1])
	case construct.TooFlatly:
		return on + "drawn from the given measures alone, the lines would cross too sharply to mark where."
	case construct.SomeWorked:
		return on + "on no side does every step use a given measure; what is computed is marked as such."
	}
	return ""
}
