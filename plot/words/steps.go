package words

import (
	"fmt"
	"strings"

	"trammel/geom/construct"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// Steps tell how a piece is constructed by hand, and how its corners are sawn.
type Steps interface {
	// ByHand is the construction, one sentence a step (the lines of a net that are
	// joined end to end share one) and without numbers. Lengths are in the style's
	// unit, which is named elsewhere. What is done to the outline follows, and last the
	// offsets to the line that is cut.
	ByHand(h ByHand) []string
	// Radius is the label of an arc: how far, and where it is swung from.
	Radius(h ByHand, s construct.Swing) string
	// OtherHeights are those that were measured over other sides than the baseline: no
	// line of the drawing shows them. Empty where there are none.
	OtherHeights(h ByHand) Remark
	// Settings of saw and square as a table: a row of heads, a row a corner, one more
	// for the edge that a cut corner makes.
	Settings(h ByHand) [][]string
	// AboutSettings is how that table is used: what all rows need, and what those need
	// that are not set at the fence.
	AboutSettings(h ByHand) []string
}

// steps in English.
type steps struct{ voice Voice }

func (w steps) Radius(h ByHand, s construct.Swing) string {
	say := "R " + h.length(s.Radius, s.Measured)
	if s.Centre != "" {
		say += " from " + string(s.Centre)
	}
	return say
}

func (w steps) ByHand(h ByHand) []string {
	c := h.Construction
	k := work{ByHand: h, voice: w.voice}
	for i := 0; i < len(c.Steps); i++ {
		if n := joins(c, i); n > 1 {
			k.say = append(k.say, inOrder(c.Steps[i:i+n]))
			i += n - 1
			continue
		}
		k.say = append(k.say, k.words(c.Steps[i]))
		k.done = append(k.done, c.Steps[i])
	}
	return append(k.say, k.shapeSteps()...)
}

func (w steps) OtherHeights(h ByHand) Remark {
	var say []string
	t := h.Construction.Triangle
	if t == (triangle.Triangle{}) {
		return "" // a net, or a page that several pieces share
	}
	for i, n := range t.Names[:2] {
		if h.Heights[i] {
			say = append(say, fmt.Sprintf("height from %s %s", n, h.Figures.Length(t.Heights[i])))
		}
	}
	if say == nil {
		return ""
	}
	return Remark("measured too: " + strings.Join(say, ", "))
}

// joins is how many lines of a net are joined end to end from step i on.
func joins(c construct.Construction, i int) (n int) {
	if c.Triangle != (triangle.Triangle{}) {
		return 0
	}
	for ; i+n < len(c.Steps); n++ {
		j, ok := c.Steps[i+n].(construct.Join)
		if !ok || n > 0 && c.Steps[i+n-1].(construct.Join).To != j.From {
			break
		}
	}
	return n
}

// inOrder says lines that are joined end to end in one sentence.
func inOrder(steps []construct.Step) string {
	names := []string{string(steps[0].(construct.Join).From)}
	for _, s := range steps {
		names = append(names, string(s.(construct.Join).To))
	}
	last := len(names) - 1
	return fmt.Sprintf("Join %s and %s in this order.", strings.Join(names[:last], ", "), names[last])
}

func (w *work) words(step construct.Step) string {
	switch s := step.(type) {
	case construct.DrawBase:
		return fmt.Sprintf("Draw the baseline %s, %s long.", s.From+s.To, w.length(s.Length, s.Measured))
	case construct.Swing:
		return w.swing(s)
	case construct.ThirdAngle:
		return fmt.Sprintf("The angle at %s is what the others leave of 180°: 180° less %s at %s and %s at %s is %s.", s.At,
			w.at(s.Others[0], s.Known[0]), s.Others[0], w.at(s.Others[1], s.Known[1]), s.Others[1], Computed(w.fineAngle(s.Angle), false))
	case construct.SetAngle:
		return w.setAngle(s)
	case construct.MarkOff:
		return fmt.Sprintf("From %s mark off %s along %s; this is %s.", s.From, w.length(s.Length, s.Measured), w.along(s), s.To)
	case construct.Erect:
		return w.erect(s)
	case construct.Parallel:
		return fmt.Sprintf("Draw a line parallel to %s, %s above it; %s lies on this line.", s.Base[0]+s.Base[1], w.length(s.Distance, s.Measured), s.To)
	case construct.Join:
		return fmt.Sprintf("Join %s and %s.", s.From, s.To)
	case construct.CheckSide:
		return fmt.Sprintf("Check: measure %s: %s.", s.From+s.To, w.Figures.Length(s.Length))
	case construct.CheckAngle:
		if s.Between[0] != "" {
			return fmt.Sprintf("Check: measure the angle %s: %s.", s.Between[0]+s.At+s.Between[1], w.Figures.Angle(s.Angle))
		}
		return fmt.Sprintf("Check: measure the angle at %s: %s.", s.At, w.at(s.At, s.Angle))
	case construct.CheckHeight:
		return fmt.Sprintf("Check: measure from %s square to %s: %s.", s.From, w.carried(s.Base), w.Figures.Length(s.Height))
	}
	panic(fmt.Sprintf("words: no words for %T", step))
}

func (w *work) swing(s construct.Swing) string {
	tool := "Compasses"
	reach := w.Reach
	if reach == 0 {
		reach = handCompasses
	}
	if s.Radius > reach {
		tool = "Beam compasses"
		if !w.beam {
			tool, w.beam = "Beam compasses or a batten on a pin", true
		}
	}
	at := string(s.Centre)
	if at == "" {
		at = "the foot"
	}
	say := fmt.Sprintf("%s at %s, radius %s: swing an arc", tool, at, w.length(s.Radius, s.Measured))
	met, ok := w.meets(s.To)
	where := "above"
	if s.Below {
		where = "below"
	}
	if !ok && s.Tell != "" {
		return say + "."
	}
	if !ok {
		return say + " " + where + " the baseline."
	}
	say += fmt.Sprintf(" across %s; they cross at %s", w.what(s.To), s.To)
	if !s.Twice {
		return say + "."
	}
	if s.Tell != "" {
		return say + fmt.Sprintf(", the crossing %s.", fromEnd(s.Tell, s.TellAt, s))
	}
	switch m := met.(type) {
	case construct.SetAngle:
		return say + fmt.Sprintf(", the crossing %s.", fromEnd(m.At, m.Ray.From, s))
	case construct.Parallel:
		// From the centre of the arc both are as far.
		t, end := w.Construction.Outline, 0
		if s.Centre == t.Names[0] {
			end = 1
		}
		return say + fmt.Sprintf(", the crossing %s.", fromEnd(t.Names[end], t.Points[end], s))
	}
	return say + ", " + where + " the baseline."
}

func (w *work) erect(s construct.Erect) string {
	base := s.From + s.Toward
	up := w.length(s.Height, s.Measured)
	const same = 1e-9 // mm: the foot is the corner
	switch {
	case max(s.Along, -s.Along) < same*unit.Millimetre:
		return fmt.Sprintf("Square at %s: raise a perpendicular on %s and mark off %s on it; this is %s.", s.From, base, up, s.To)
	case s.Along < 0:
		return fmt.Sprintf("Carry %s on beyond %s by %s to the foot; square there, raise a perpendicular and mark off %s on it; this is %s.",
			s.Toward+s.From, s.From, w.length(-s.Along, false), up, s.To)
	case s.Along > w.base():
		return fmt.Sprintf("Carry %s on beyond %s, to %s from %s, to the foot; square there, raise a perpendicular and mark off %s on it; this is %s.",
			base, s.Toward, w.length(s.Along, false), s.From, up, s.To)
	}
	return fmt.Sprintf("From %s mark off %s along %s to the foot; square there, raise a perpendicular and mark off %s on it; this is %s.",
		s.From, w.length(s.Along, false), base, up, s.To)
}
