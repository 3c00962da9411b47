package words

import (
	"fmt"
	"strings"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/shape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
)

// Steps tell how a piece is constructed by hand, and how its corners are sawn.
type Steps interface {
	// Act is a sentence about one move of the hand, without a number. Lengths are in the
	// style's unit, which is named elsewhere.
	Act(h ByHand, a Act) string
	// Why a triangle is constructed on its baseline, and by its way; empty where nothing
	// needs to be said.
	Why(h ByHand) string
	// Shaping is what is done to the outline when it is drawn: corners, holes, and last the
	// offsets to the line that is cut.
	Shaping(h ByHand) []string
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

// InWords is every move of a piece in words.
func InWords(s Steps, h ByHand) (all []string) {
	for _, a := range h.Acts() {
		say := s.Act(h, a)
		if _, begins := a.(construct.DrawBase); begins {
			say = strings.TrimSpace(say + " " + s.Why(h))
		}
		all = append(all, say)
	}
	return append(all, s.Shaping(h)...)
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

func (w steps) OtherHeights(h ByHand) Remark {
	var say []string
	t := h.Construction.Triangle
	if t == (triangle.Triangle{}) {
		return "" // a net, or a page that several pieces share
	}
	for i, n := range t.Names {
		if h.Heights[i] && i != h.Construction.Apex() {
			say = append(say, fmt.Sprintf("height from %s %s", n, h.Figures.Length(t.Heights[i])))
		}
	}
	if say == nil {
		return ""
	}
	return Remark("measured too: " + strings.Join(say, ", "))
}

func (w steps) Act(h ByHand, act Act) string {
	switch s := act.(type) {
	case construct.DrawBase:
		return fmt.Sprintf("Draw the baseline %s, %s long.", s.From+s.To, h.length(s.Length, s.Measured))
	case Swing:
		return w.swing(h, s)
	case construct.ThirdAngle:
		return fmt.Sprintf("The angle at %s is what the others leave of 180°: 180° less %s at %s and %s at %s is %s.", s.At,
			h.angle(s.Others[0], s.Known[0]), s.Others[0], h.angle(s.Others[1], s.Known[1]), s.Others[1], Computed(h.fineAngle(s.Angle), false))
	case SetAngle:
		return w.setAngle(h, s)
	case HalfCircle:
		return w.halfCircle(h, s)
	case MarkOff:
		along := map[bool]string{true: "the arm", false: "the baseline"}[s.Arm]
		return fmt.Sprintf("From %s mark off %s along %s; this is %s.", s.From, h.length(s.Length, s.Measured), along, s.To)
	case Erect:
		return w.erect(h, s)
	case construct.Parallel:
		return fmt.Sprintf("Draw a line parallel to %s, %s above it; %s lies on this line.", s.Base[0]+s.Base[1], h.length(s.Distance, s.Measured), s.To)
	case construct.Join:
		return fmt.Sprintf("Join %s and %s.", s.From, s.To)
	case InOrder:
		last := len(s) - 1
		return fmt.Sprintf("Join %s and %s in this order.", strings.Join(s[:last], ", "), s[last])
	case construct.CheckSide:
		return fmt.Sprintf("Check: measure %s: %s.", s.From+s.To, h.Figures.Length(s.Length))
	case construct.CheckAngle:
		if s.Between[0] != "" {
			return fmt.Sprintf("Check: measure the angle %s: %s.", s.Between[0]+s.At+s.Between[1], h.Figures.Angle(s.Angle))
		}
		return fmt.Sprintf("Check: measure the angle at %s: %s.", s.At, h.angle(s.At, s.Angle))
	case CheckHeight:
		side := s.Base[0] + s.Base[1]
		if s.Beyond[1] != "" {
			side = s.Beyond[0] + s.Beyond[1] + " carried on beyond " + s.Beyond[1]
		}
		return fmt.Sprintf("Check: measure from %s square to %s: %s.", s.From, side, h.Figures.Length(s.Height))
	}
	panic(fmt.Sprintf("words: no words for %T", act))
}

// line names what a corner lies on already.
func (w steps) line(met construct.Step) string {
	switch s := met.(type) {
	case construct.SetAngle:
		return fmt.Sprintf("the arm from %s", s.At)
	case construct.Parallel:
		return "the parallel"
	case construct.HalfCircle:
		return "the half circle"
	}
	return "the first"
}

func (w steps) swing(h ByHand, a Swing) string {
	tool, at, where := "Compasses", "the foot", "above"
	switch {
	case a.First:
		tool = "Beam compasses or a batten on a pin"
	case a.Beam:
		tool = "Beam compasses"
	}
	if a.Centre != "" {
		at = string(a.Centre)
	}
	if a.Below {
		where = "below"
	}
	say := fmt.Sprintf("%s at %s, radius %s: swing an arc", tool, at, h.length(a.Radius, a.Measured))
	switch {
	case a.Meets == nil && a.Tell != "":
		return say + "."
	case a.Meets == nil:
		return say + " " + where + " the baseline."
	}
	say += fmt.Sprintf(" across %s; they cross at %s", w.line(a.Meets), a.To)
	switch {
	case !a.Twice:
		return say + "."
	case a.From == "":
		return say + ", " + where + " the baseline."
	case a.Nearer:
		return fmt.Sprintf("%s, the crossing nearer to %s.", say, a.From)
	}
	return fmt.Sprintf("%s, the crossing farther from %s.", say, a.From)
}

func (w steps) halfCircle(h ByHand, a HalfCircle) string {
	over, tool := a.Over[0]+a.Over[1], "compasses"
	switch {
	case a.First:
		tool = "beam compasses or a batten on a pin"
	case a.Beam:
		tool = "beam compasses"
	}
	say := fmt.Sprintf("Halve %s; %s at its middle, opened to %s: draw the half circle above the baseline", over, tool, a.Over[0])
	if a.Meets == nil {
		return fmt.Sprintf("%s; the right angle at %s lies on it.", say, a.To)
	}
	say += fmt.Sprintf("; it crosses %s at %s", w.line(a.Meets), a.To)
	switch {
	case !a.Twice:
		return say + "."
	case a.Nearer:
		return fmt.Sprintf("%s, the crossing nearer to %s.", say, a.Over[0])
	}
	return fmt.Sprintf("%s, the crossing farther from %s.", say, a.Over[0])
}

func (w steps) erect(h ByHand, a Erect) string {
	base, up, along := a.From+a.Toward, h.length(a.Height, a.Measured), h.length(max(a.Along, -a.Along), false)
	foot := fmt.Sprintf("From %s mark off %s along %s to the foot", a.From, along, base)
	switch {
	case a.Along == 0:
		return fmt.Sprintf("Square at %s: raise a perpendicular on %s and mark off %s on it; this is %s.", a.From, base, up, a.To)
	case a.Along < 0:
		foot = fmt.Sprintf("Carry %s on beyond %s by %s to the foot", a.Toward+a.From, a.From, along)
	case a.Past:
		foot = fmt.Sprintf("Carry %s on beyond %s, to %s from %s, to the foot", base, a.Toward, along, a.From)
	}
	return fmt.Sprintf("%s; square there, raise a perpendicular and mark off %s on it; this is %s.", foot, up, a.To)
}

func (w steps) setAngle(h ByHand, a SetAngle) string {
	base, angle, surer := string(a.At+a.Along), Computed(h.fineAngle(a.Angle), false), ""
	if given, ok := h.Given[a.At]; ok {
		angle = h.Figures.Given(given)
	}
	say := fmt.Sprintf("At %s set off %s from %s", a.At, angle, base)
	switch a.By {
	case RightAngle:
		say = fmt.Sprintf("Square at %s: raise a perpendicular on %s", a.At, base)
	case OnSquare:
		line := "it"
		if a.Beyond != "" {
			line = fmt.Sprintf("it carried on beyond %s,", a.Beyond)
		}
		say += fmt.Sprintf(": %s along %s from %s, then %s square up; draw the arm from %s through there", h.exactly(a.Run), line, a.At, h.exactly(a.Rise), a.At)
	case ByChord:
		line, rest := base, ""
		if a.Rest {
			line, rest = string(a.Along+a.At), ", the rest of 180°"
		}
		if a.Beyond != "" {
			line += fmt.Sprintf(" carried on beyond %s", a.Beyond)
		}
		say += fmt.Sprintf(" by its chord%s: swing %s from %s, and where that arc crosses %s swing %s across it; the arm runs from %s through the crossing",
			rest, h.exactly(a.Radius), a.At, line, Computed(h.exactly(a.Chord), false), a.At)
	default:
		say = fmt.Sprintf("Protractor at %s: set off %s from %s and draw the arm", a.At, angle, base)
		switch radius, chord := h.Figures.Length(a.Radius), h.length(a.Chord, false); {
		case a.Again:
			surer = fmt.Sprintf(" Surer, as before: %s from %s, then %s from %s.", radius, a.At, chord, base)
		case a.Chord > 0:
			surer = fmt.Sprintf(" Surer over this length: swing %s from %s, and where that arc crosses %s swing %s across it; the arm runs through the crossing.", radius, a.At, base, chord)
		}
	}
	if a.Meets != nil {
		say += fmt.Sprintf("; it crosses %s at %s", w.line(a.Meets), a.To)
	}
	return say + "." + surer
}

func (w steps) Shaping(h ByHand) (say []string) {
	s := h.Shape
	for _, v := range s.Corners {
		switch arc, round := v.Finished.(geom.Arc); {
		case v.Do == shape.Cut:
			say = append(say, fmt.Sprintf("Corner %s: mark off %s from %s along both edges and join the marks.", v.Name, h.length(v.By, true), v.Name))
		case v.Do == shape.Round && round:
			say = append(say, fmt.Sprintf("Corner %s: round it with radius %s; the arc touches both edges %s from %s.", v.Name, h.length(arc.Radius, true), h.length(v.At.Distance(arc.At(0)), false), v.Name))
		}
	}
	for _, b := range s.Bores {
		d := h.length(b.Hole.Diameter, true)
		switch c := b.Hole.Centre.(type) {
		case shape.FromEdge:
			say = append(say, fmt.Sprintf("Hole Ø %s: from %s mark off %s along %s, and from there %s square into the piece.", d, c.From, h.length(c.Along, true), c.Edge[0]+c.Edge[1], h.length(c.Square, true)))
		case shape.FromCorners:
			say = append(say, fmt.Sprintf("Hole Ø %s: its centre is where arcs of %s from %s and %s from %s cross.", d, h.length(c.Arms[0], true), c.Corners[0], h.length(c.Arms[1], true), c.Corners[1]))
		}
	}
	if s.Spared() {
		say = append(say, w.offsets(h))
	}
	return say
}

// offsets is the last step: the lines that are cut, and what they measure.
func (w steps) offsets(h ByHand) string {
	s := h.Shape
	by := func(allow unit.Length, of string) string {
		switch {
		case allow > 0:
			return h.length(allow, true) + " outside " + of
		case allow < 0:
			return h.length(-allow, true) + " inside " + of
		}
		return "along " + of
	}
	var lines, lengths []string
	for i, e := range s.Sides {
		lines = append(lines, by(e.Allow, e.Name))
		if l := e.Cut.Length(); l > 0 {
			lengths = append(lengths, fmt.Sprintf("%s %s", s.Sides[i].Name, h.length(l, false)))
		}
	}
	for _, v := range s.Corners {
		switch cut := v.Cut.(type) {
		case geom.Line:
			if v.Do == shape.Blunt {
				lines = append(lines, fmt.Sprintf("straight across %s beyond %s", h.length(v.By, true), v.Name))
			} else {
				lines = append(lines, by(v.Allow, "the cut at "+string(v.Name)))
			}
		case geom.Arc:
			lines = append(lines, fmt.Sprintf("at %s an arc of radius %s that touches its neighbours", v.Name, h.length(cut.Radius, false)))
		}
	}
	return "Offsets: draw the line that is cut, parallel to the finished edges: " + strings.Join(lines, ", ") +
		". Check: from corner to corner of that line, or to where it stops being straight, " + strings.Join(lengths, ", ") + "."
}
