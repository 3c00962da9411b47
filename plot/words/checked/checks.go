// Package checked says, in English, what became of a layout that was measured back.
//
// Files, from the top floor to the ground: checks.go, checks_explained.go, ranges.go,
// compared.go.
package checked

import (
	"fmt"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/compare"
	"trammel/geom/tape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/words/phrase"
)

// Checks tells, in English, what became of a layout that was measured back. On a floor
// corners are marks and no pegs.
type Checks struct{ Marks bool }

// said puts marks for pegs on a floor.
func (w Checks) said(all []string) []string {
	if w.Marks {
		marks := strings.NewReplacer("Peg", "Mark", "peg", "mark")
		for i, s := range all {
			all[i] = marks.Replace(s)
		}
	}
	return all
}

func (w Checks) Move(m compare.Moved, style unit.Style) string { return moved{m, style}.moveIt() }

func (w Checks) OnPlan(m compare.Moved, sure bool, style unit.Style) string {
	if !sure {
		return "perhaps " + moveBy(m.Off, style)
	}
	return "move " + moveBy(m.Off, style)
}

func (w Checks) Verdict(of compare.Comparison) string {
	c := compared{of, unit.Style{}}
	out, n := c.outside(), len(c.Readings)
	switch {
	case len(out) == 0 && n == 1: // which holds no layout
		return "Passed as far as it was measured: the one reading lies within its range."
	case len(out) == 0 && (!c.Fixed || len(c.Unseen) > 0 || c.rough() != ""):
		return fmt.Sprintf("Passed as far as it was measured: all %d readings lie within their ranges.", n)
	case len(out) == 0:
		return fmt.Sprintf("Passed: all %d readings lie within their ranges.", n)
	case len(out) == 1 && n == 1:
		return fmt.Sprintf("Not passed: %s lies outside its range.", out[0])
	case len(out) == 1:
		return fmt.Sprintf("Not passed: %s lies outside its range, 1 of %d readings.", out[0], n)
	}
	return fmt.Sprintf("Not passed: %s lie outside their ranges, %d of %d readings.", phrase.Few(out), len(out), n)
}

func (w Checks) Advice(told compare.Comparison, style unit.Style) (all []string) {
	c := compared{told, style}
	switch {
	case c.Passed:
	case len(c.Explanations) == 0:
		all = c.unexplained()
	case len(c.Explanations) == 1:
		all = c.explained(c.Explanations[0])
	default:
		all = c.undecided()
	}
	if rough := c.rough(); rough != "" {
		all = append(all, rough)
	}
	if n := len(c.Unseen); n > 0 {
		all = append(all, fmt.Sprintf("%s %s not measured back: nothing here speaks for %s.", geom.List(c.Unseen), phrase.Of(n, "was", "were"), phrase.Of(n, "it", "them")))
	}
	if !c.Fixed && c.Next != [2]geom.Name{} {
		all = append(all, fmt.Sprintf("What was measured does not hold the shape: pegs that stand askew could read the same. Measure %s as well, which should read %s.",
			geom.Joined(c.Next[:]), c.style.LengthUnit(c.ShouldRead(c.Next[0], c.Next[1]))))
	}
	return w.said(all)
}

// rough names the readings that are written too roughly to be judged; "" if none is.
func (c compared) rough() string {
	var all []string
	how := "Read to the millimetre and write it: 8000 or 8.000m, or +-2 behind it."
	if c.style.Unit >= unit.IN {
		how = "Read to the sixteenth and write it, with +-1/16in behind it where it is a whole foot or inch."
	}
	lengths := false
	for _, r := range c.Readings {
		if r.Rough {
			lengths = lengths || r.Measurement.Kind != triangle.Angle
			w := phrase.Figures{Style: c.style, Kind: r.Measurement.Kind, Spread: 0}
			all = append(all, fmt.Sprintf("%s=%s is ±%s", r.Measurement.Subject(), r.Measurement.Value.Text, w.Of(r.Open.Bare(r.Measurement.Kind))))
		}
	}
	if len(all) == 0 {
		return ""
	}
	if !lengths {
		how = "Read the angle more finely, and write it so."
	}
	return fmt.Sprintf("Too rough to be judged: %s. %s", phrase.Few(all), how)
}

func (c compared) explained(e compare.Explanation) (all []string) {
	switch {
	case !e.Well && !e.Cause.OfTape() && len(e.Pegs) > 0:
		return c.notAll(e)
	case e.Cause.OfTape():
		all = c.ofTape(e)
	case e.Cause != compare.Alone:
		all = c.ofAll(e)
	case len(e.Pegs) > 0:
		all = c.ofPegs(e)
	}
	if len(e.Pegs) > 1 && e.Cause == compare.Alone && c.Together(e) {
		all = append(all, orTheRest(e))
	}
	for k, i := range e.Reading {
		s := c.again(i)
		if k == 0 && len(e.Pegs) == 0 && len(e.Reading) == 1 {
			s = c.misread(e)
		}
		all = append(all, s)
	}
	if first := c.firstAgain(); first != "" && len(e.Pegs) > 0 {
		all = append([]string{first}, all...)
	}
	switch n := len(e.Outside); {
	case n > 0:
		all = append(all, fmt.Sprintf("%s would lie outside %s even then: measure %s again.", c.subjects(e.Outside), phrase.Of(n, "its range", "their ranges"), phrase.Of(n, "it", "them")))
	case e.Freedom < 1:
		all = append(all, "Nothing more was measured that would confirm it.")
	case len(e.Pegs) > 0:
		all = append(all, "All other readings agree with that.")
	}
	return all
}

// notAll tells of pegs without their moves, which what is wrong besides would lead astray.
func (c compared) notAll(e compare.Explanation) []string {
	return []string{
		phrase.Capital(c.briefly(e)) + ", but that does not explain all that was read. Move nothing yet.",
		fmt.Sprintf("Measure %s again, and check anew.", phrase.Many(c.outside())),
	}
}

// orTheRest says that pegs right to one another may as well be those that stand right.
func orTheRest(e compare.Explanation) string {
	pegs := geom.Listed(wrong(e))
	return fmt.Sprintf("%s stand right to one another. If they are known to stand fast, it is all the others that are shifted or turned: then move none of these, say that %s are fixed, and check anew.", pegs, pegs)
}

// wrong names the pegs that stand wrong.
func wrong(e compare.Explanation) (pegs []string) {
	for _, m := range e.Pegs {
		pegs = append(pegs, string(m.Name))
	}
	return pegs
}

// numbers of pegs in words.
var numbers = [...]string{"No", "One", "Two", "Three"}

// ofPegs tells of pegs that stand wrong, each by itself.
func (c compared) ofPegs(e compare.Explanation) (all []string) {
	if pegs := wrong(e); len(pegs) > 1 {
		count := numbers[len(pegs)]
		if len(e.Outside) > 0 {
			count = "At least " + phrase.Small(count)
		}
		all = append(all, fmt.Sprintf("%s pegs stand wrong, %s. Mend %s first, measure again, then %s.", count, geom.Listed(pegs), pegs[0], strings.Join(pegs[1:], ", then ")))
	}
	for _, m := range e.Pegs {
		all = append(all, c.moved(m).stands()+" "+c.moved(m).moveIt())
		if len(m.Then) > 0 {
			all = append(all, c.then(m))
		}
		if m.Known == 1 {
			all = append(all, fmt.Sprintf("Only the direction to %s is known of %s: measure it from another peg as well.", m.From, m.Name))
		}
	}
	return all
}

// again asks for a reading to be taken anew.
func (c compared) again(i int) string {
	r := c.Readings[i]
	return fmt.Sprintf("Measure %s again: it reads %s and should read %s.", r.Measurement.Subject(), c.figure(r, r.Found), c.figure(r, r.Wanted))
}

// ofReading are the pegs that may stand wrong if a reading is right: "A or B".
func ofReading(r compare.Compared, held []geom.Name) string {
	var pegs []string
	for _, n := range r.Measurement.Points() {
		if !slices.Contains(held, n) {
			pegs = append(pegs, string(n))
		}
	}
	if len(pegs) == 0 {
		return "a peg that is said to be fixed"
	}
	return phrase.Or(pegs)
}

func (c compared) misread(e compare.Explanation) string {
	r := c.Readings[e.Reading[0]]
	w := phrase.Figures{Style: c.style, Kind: r.Measurement.Kind, Spread: tape.Expansion * e.Sigma.Bare(r.Measurement.Kind)}
	others := e.Others
	if r.Measurement.Kind != triangle.Angle {
		others.Length = c.Reads(others.Length)
	}
	lead := "No peg stands wrong by the other readings, but %s contradicts them"
	if len(e.Outside) > 0 {
		lead = "%s contradicts the other readings"
	}
	return fmt.Sprintf(lead+": it reads %s and they say %s ± %s. Measure it again before anything is moved; if it reads the same, %s stands wrong.",
		r.Measurement.Subject(), c.figure(r, r.Found), w.Of(others.Bare(r.Measurement.Kind)), w.Of(w.Spread), ofReading(r, c.Held))
}

// unexplained tells what to do where nothing explains it.
func (c compared) unexplained() []string {
	out := phrase.Many(c.outside())
	e := c.Nearest
	if e == nil {
		return []string{
			"It is too little to tell by it which peg stands wrong.",
			"Measure " + out + " again. What stays outside is set out anew.",
		}
	}
	return []string{
		"First read " + out + " again.",
		"No one, two or three pegs, no two readings and no tape explain it all: more than that is wrong, or the readings are less sure than their tolerances say.",
		"The most of it would go if " + c.briefly(*e) + ", though the rest still disagrees.",
		"What stays outside then is set out anew from the baseline.",
	}
}

// then says what a peg's readings are to be afterwards, those that are outside first.
func (c compared) then(m compare.Moved) string {
	inside := func(i int) bool { return c.Readings[i].Inside }
	at := append(slices.DeleteFunc(slices.Clone(m.Then), inside), slices.DeleteFunc(slices.Clone(m.Then), func(i int) bool { return !inside(i) })...)
	var all []string
	for _, i := range at {
		r := c.Readings[i]
		all = append(all, r.Measurement.Subject()+" "+c.figure(r, r.Wanted))
	}
	return fmt.Sprintf("Then measure again: %s should read %s.", phrase.Of(len(all), "it", "they"), phrase.Few(all))
}
