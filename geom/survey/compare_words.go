package survey

import (
	"fmt"
	"math"
	"strings"

	"trammel/geom"
	"trammel/geom/unit"
)

// Verdict says in a sentence whether the layout passed.
func (c Comparison) Verdict() string {
	var out []string
	for _, r := range c.Readings {
		if !r.Inside {
			out = append(out, r.Measurement.Subject())
		}
	}
	n := len(c.Readings)
	switch {
	case len(out) == 0 && n == 1: // which holds no layout
		return "Passed as far as it was measured: the one reading lies within its range."
	case len(out) == 0 && (!c.Fixed || len(c.Unseen) > 0 || c.rough(unit.Style{}) != ""):
		return fmt.Sprintf("Passed as far as it was measured: all %d readings lie within their ranges.", n)
	case len(out) == 0:
		return fmt.Sprintf("Passed: all %d readings lie within their ranges.", n)
	case len(out) == 1 && n == 1:
		return fmt.Sprintf("Not passed: %s lies outside its range.", out[0])
	case len(out) == 1:
		return fmt.Sprintf("Not passed: %s lies outside its range, 1 of %d readings.", out[0], n)
	}
	return fmt.Sprintf("Not passed: %s lie outside their ranges, %d of %d readings.", few(out), len(out), n)
}

// few names at most a dozen.
func few(all []string) string {
	const most = 12
	if len(all) > most+1 {
		return strings.Join(all[:most], ", ") + fmt.Sprintf(" and %d more", len(all)-most)
	}
	return listed(all)
}

// Advice says in plain sentences what is wrong and what to do next.
func (c Comparison) Advice(style unit.Style) (all []string) {
	switch {
	case c.Passed:
	case len(c.Explanations) == 0:
		all = c.unexplained(style)
	case len(c.Explanations) == 1:
		all = c.explained(c.Explanations[0], style)
	default:
		all = c.undecided(style)
	}
	if rough := c.rough(style); rough != "" {
		all = append(all, rough)
	}
	if len(c.Unseen) > 0 {
		verb := "was"
		if len(c.Unseen) > 1 {
			verb = "were"
		}
		all = append(all, fmt.Sprintf("%s %s not measured back: nothing here speaks for %s.", list(c.Unseen), verb, them(len(c.Unseen))))
	}
	if !c.Fixed && c.Next != [2]geom.Name{} {
		all = append(all, fmt.Sprintf("What was measured does not hold the shape: pegs that stand askew could read the same. Measure %s as well, %s.",
			joined(c.Next[:]), c.should(c.Next, style)))
	}
	return all
}

// rough names the readings that are written too roughly to be judged; "" if none is.
func (c Comparison) rough(style unit.Style) string {
	var all []string
	how := "Read to the millimetre and write it: 8000 or 8.000m, or +-2 behind it."
	if style.Unit >= unit.IN {
		how = "Read to the sixteenth and write it, with +-1/16in behind it where it is a whole foot or inch."
	}
	lengths := false
	for _, r := range c.Readings {
		if r.Rough {
			lengths = lengths || r.Measurement.Kind != geom.Angle
			w := writer{style, r.Measurement.Kind, 0}
			all = append(all, fmt.Sprintf("%s=%s is ±%s", r.Measurement.Subject(), r.Measurement.Value.Text, w.figure(r.Open.bare(r.Measurement.Kind))))
		}
	}
	if len(all) == 0 {
		return ""
	}
	if !lengths {
		how = "Read the angle more finely, and write it so."
	}
	return fmt.Sprintf("Too rough to be judged: %s. %s", few(all), how)
}

// should is what a length between two pegs is to read.
func (c Comparison) should(ends [2]geom.Name, style unit.Style) string {
	return "which should read " + style.LengthUnit(c.ShouldRead(ends[0], ends[1]))
}

func (c Comparison) standing(n geom.Name) Standing {
	for _, s := range c.Standings {
		if s.Name == n {
			return s
		}
	}
	return Standing{}
}

func (c Comparison) explained(e Explanation, style unit.Style) (all []string) {
	if n := len(e.Pegs); n > 1 {
		all = append(all, fmt.Sprintf("Two pegs stand wrong, %s and %s. Mend %s first, measure again, then %s.", e.Pegs[0].Name, e.Pegs[1].Name, e.Pegs[0].Name, e.Pegs[1].Name))
	}
	for _, m := range e.Pegs {
		all = append(all, m.Stands(style)+" "+m.Move(style))
		if len(m.Then) > 0 {
			all = append(all, c.then(m, style))
		}
		if m.Known == 1 {
			all = append(all, fmt.Sprintf("Only the direction to %s is known of %s: measure it from another peg as well.", m.From, m.Name))
		}
	}
	for k, i := range e.Reading {
		s := c.again(i, style)
		if k == 0 && len(e.Pegs) == 0 && len(e.Reading) == 1 {
			s = c.misread(e, style)
		}
		all = append(all, s)
	}
	switch {
	case e.Freedom < 1:
		all = append(all, "Nothing more was measured that would confirm it.")
	case len(e.Pegs) > 0:
		all = append(all, "All other readings agree with that.")
	}
	return all
}

// again asks for a reading to be taken anew.
func (c Comparison) again(i int, style unit.Style) string {
	r := c.Readings[i]
	return fmt.Sprintf("Measure %s again: it reads %s and should read %s.", r.Measurement.Subject(), r.figure(r.Found, style), r.figure(r.Wanted, style))
}

func (c Comparison) misread(e Explanation, style unit.Style) string {
	r := c.Readings[e.Reading[0]]
	w := writer{style, r.Measurement.Kind, Expansion * e.Sigma.bare(r.Measurement.Kind)}
	others := e.Others
	if r.Measurement.Kind != geom.Angle {
		others.Length = c.tape.reads(others.Length)
	}
	return fmt.Sprintf("No peg stands wrong by the other readings, but %s contradicts them: it reads %s and they say %s ± %s. Measure it again before anything is moved.",
		r.Measurement.Subject(), r.figure(r.Found, style), w.figure(others.bare(r.Measurement.Kind)), w.figure(w.spread))
}

// undecided tells of explanations that nothing tells apart.
func (c Comparison) undecided(style unit.Style) []string {
	all := []string{"Move nothing yet: what was measured does not tell which of these it is."}
	seen := map[int]bool{}
	var again []string
	for k, e := range c.Explanations {
		lead := "Or "
		if k == 0 {
			lead = "Either "
		}
		all = append(all, lead+c.perhaps(e, style))
		for _, i := range e.Reading {
			if !seen[i] {
				seen[i] = true
				again = append(again, c.Readings[i].Measurement.Subject())
			}
		}
	}
	if len(again) > 0 {
		all = append(all, "Measure "+few(again)+" again.")
	}
	if t := c.Tell; t != nil {
		w := writer{style, geom.Distance, 2}
		var says []string
		for _, g := range t.Alike {
			var which []string
			for _, i := range g {
				which = append(which, c.briefly(c.Explanations[i]))
			}
			says = append(says, fmt.Sprintf("near %s, %s", w.figure(c.tape.reads(t.Reads[g[0]]).MM()), or(which)))
		}
		all = append(all, fmt.Sprintf("Measure %s as well: %s.", joined([]geom.Name{t.From, t.To}), strings.Join(says, "; ")))
	} else if len(again) == 0 {
		all = append(all, "Measure from one more peg, or set one out on purpose, to tell them apart.")
	}
	return all
}

// perhaps is an explanation with its moves, without the word it begins with.
func (c Comparison) perhaps(e Explanation, style unit.Style) string {
	var parts []string
	for _, m := range e.Pegs {
		parts = append(parts, strings.TrimSuffix(m.Stands(style), "."))
	}
	if len(e.Reading) > 0 {
		parts = append(parts, c.misreads(e))
	}
	text := strings.Join(parts, ", and ") + "."
	for _, m := range e.Pegs {
		text += " " + strings.Replace(m.Move(style), "Move it", "That would be mended by "+string(m.Name)+" going", 1)
	}
	return text
}

func (c Comparison) misreads(e Explanation) string {
	if len(e.Reading) == 1 {
		return c.subjects(e.Reading) + " is misread"
	}
	return c.subjects(e.Reading) + " are misread"
}

// briefly is an explanation in a few words.
func (c Comparison) briefly(e Explanation) string {
	var parts, pegs []string
	for _, m := range e.Pegs {
		pegs = append(pegs, string(m.Name))
	}
	switch len(pegs) {
	case 0:
	case 1:
		parts = append(parts, pegs[0]+" stands wrong")
	default:
		parts = append(parts, listed(pegs)+" stand wrong")
	}
	if len(e.Reading) > 0 {
		parts = append(parts, c.misreads(e))
	}
	return strings.Join(parts, " and ")
}

func (c Comparison) subjects(at []int) string {
	var all []string
	for _, i := range at {
		all = append(all, c.Readings[i].Measurement.Subject())
	}
	return listed(all)
}

// unexplained tells what to do where nothing explains it.
func (c Comparison) unexplained(style unit.Style) (all []string) {
	var out []string
	for _, r := range c.Readings {
		if !r.Inside {
			out = append(out, r.Measurement.Subject())
		}
	}
	if e := c.Nearest; e != nil {
		all = append(all, "No one and no two pegs or readings explain it: more than two stand wrong, or the readings are less sure than their tolerances say.")
		switch {
		case len(e.Pegs) > 0:
			all = append(all, "The most of it would go by this, though the rest still disagrees: "+c.perhaps(*e, style))
		default:
			all = append(all, fmt.Sprintf("The most of it would go without %s.", c.subjects(e.Reading)))
		}
		return append(all, "Measure "+few(out)+" again, then set out anew from the baseline.")
	}
	return []string{
		"It is too little to tell by it which peg stands wrong.",
		"Measure " + few(out) + " again. What stays outside is set out anew.",
	}
}

// then says what the readings of a peg are to be afterwards.
func (c Comparison) then(m Moved, style unit.Style) string {
	var all []string
	for _, i := range m.Then {
		r := c.Readings[i]
		all = append(all, r.Measurement.Subject()+" "+r.figure(r.Wanted, style))
	}
	return fmt.Sprintf("Then measure again: %s should read %s.", map[bool]string{true: "they", false: "it"}[len(all) > 1], few(all))
}

func (r Compared) figure(f Figure, style unit.Style) string {
	return writer{style, r.Measurement.Kind, 0}.figure(f.bare(r.Measurement.Kind))
}

// Distance is how far the move is, as a hammer does it: "14 mm".
func (m Moved) Distance(style unit.Style) string { return moveBy(m.Off, style) }

// Stands says how far off a peg stands: "C stands 14 ± 5 mm off its place."; ±
// is the 95 % figure.
func (m Moved) Stands(style unit.Style) string {
	if style.Unit >= unit.IN {
		return fmt.Sprintf("%s stands %s ± %s off its place.", m.Name, moveBy(m.Off, style), moveBy(m.Figure95, style))
	}
	return fmt.Sprintf("%s stands %s ± %s off its place.", m.Name, strings.TrimSuffix(moveBy(m.Off, style), " mm"), moveBy(m.Figure95, style))
}

// Move says how it is mended: "Move it 12 mm towards A and 7 mm to the left, seen
// from A."
func (m Moved) Move(style unit.Style) string {
	if m.From == "" {
		return "Set it out anew."
	}
	toward, left := "towards", "left"
	if m.Toward < 0 {
		toward = "away from"
	}
	if m.Left < 0 {
		left = "right"
	}
	along := fmt.Sprintf("%s %s %s", moveBy(m.Toward, style), toward, m.From)
	across := fmt.Sprintf("%s to the %s", moveBy(m.Left, style), left)
	switch t, l := math.Abs(float64(m.Toward)), math.Abs(float64(m.Left)); {
	case m.Known == 1 || nothing(m.Left, style) || l < inLine*t && l < Expansion*float64(m.LeftSigma):
		return "Move it " + along + "."
	case nothing(m.Toward, style) || t < inLine*l && t < Expansion*float64(m.TowardSigma):
		return fmt.Sprintf("Move it %s, seen from %s.", across, m.From)
	}
	return fmt.Sprintf("Move it %s and %s, seen from %s.", along, across, m.From)
}

// moveBy is the size of a move as a hammer does it: whole millimetres, or the
// style's fraction of an inch.
func moveBy(l unit.Length, style unit.Style) string {
	l = length(math.Abs(float64(l)))
	if style.Unit >= unit.IN {
		return style.LengthUnit(l)
	}
	return unit.Style{Decimals: -1}.LengthUnit(l)
}

// nothing says whether a move would be told as 0.
func nothing(l unit.Length, style unit.Style) bool { return moveBy(l, style) == moveBy(0, style) }
