package shape

import (
	"errors"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"trammel/geom"
	"trammel/geom/unit"
)

// Limits of what a token may say.
const (
	Least        unit.Length = 0.5        // of a set-back, a radius, a diameter: the width of a cut line on paper
	MaxAllowance unit.Length = unit.Metre // to either side
)

// The forms of the tokens, as hints tell them.
const (
	edgeForm   = "an allowance is written AB allow 3, or AB allow -1.5mm where the cut line lies inside the finished edge"
	cornerForm = "a corner is written A cut 20, A cut 20 allow 2, A round 15, A blunt 10 or A mitre"
	mitreForm  = "a mitre is written A mitre, or A mitre AB 100 CA 60 where the parts along the edges are 100 and 60 wide"
	holeForm   = "a hole is written 12 at AB 40 from A 60 (diameter 12, 40 square to AB, 60 along it from A) or 12 at A 80 B 95 (80 from A, 95 from B)"
)

// ParseAllowance reads one token of edges:
//
//	EDGE "allow" LENGTH
//
// EDGE is the names of its two ends (AB), LENGTH as unit.ParseSetting reads it, from
// −MaxAllowance to MaxAllowance; below zero the cut line lies inside the finished
// edge. In all tokens words are parted by spaces, points have capital letters and
// units small ones, so that a length may hold spaces (7ft 10 1/2in), and a bare
// length counts the given unit. Errors are *unit.Fault.
func ParseAllowance(token string, bare unit.Unit) (Allowance, error) {
	t := read(token, "setting of an edge", bare)
	a := Allowance{Text: t.text, Edge: t.edge()}
	t.word("allow")
	a.By = t.length(t.rest(), -MaxAllowance, MaxAllowance)
	return done(t, a, edgeForm)
}

// ParseCorner reads one token of corners:
//
//	CORNER "cut" SET-BACK
//	CORNER "cut" SET-BACK "allow" LENGTH
//	CORNER "round" RADIUS
//	CORNER "blunt" LENGTH
//	CORNER "mitre"
//	CORNER "mitre" EDGE WIDTH EDGE WIDTH
//
// SET-BACK and RADIUS are lengths from Least; the allowance of the edge that a cut
// makes is as in ParseAllowance; see Treatment for their meaning. Errors are
// *unit.Fault.
func ParseCorner(token string, bare unit.Unit) (Corner, error) {
	t := read(token, "setting of a corner", bare)
	c := Corner{Text: t.text, At: t.corner(), Do: t.treatment()}
	if t.wrong == nil && c.Do == Mitre {
		c.Parts = t.parts()
		return done(t, c, mitreForm)
	}
	c.By = t.length(t.until(func(w string) bool { return w == "allow" }), Least, unit.Longest)
	if len(t.words) > 0 && c.Do != Cut {
		t.fail("only a corner that is cut makes an edge with an allowance of its own", "leave the allowance out, or give one to the edges beside the corner")
	}
	if len(t.words) > 0 {
		t.words, c.Stated = t.words[1:], true
		c.Allow = t.length(t.rest(), -MaxAllowance, MaxAllowance)
	}
	return done(t, c, cornerForm)
}

// ParseHole reads one token of holes:
//
//	DIAMETER "at" EDGE SQUARE "from" CORNER ALONG
//	DIAMETER "at" CORNER ARM CORNER ARM
//
// SQUARE is the centre's distance square to the edge, on its inner side, ALONG
// that along the edge from the corner named, which is one of its ends. ARM is
// the centre's distance from the corner before it. DIAMETER and ARM are lengths
// from Least, SQUARE and ALONG from 0. Errors are *unit.Fault.
func ParseHole(token string, bare unit.Unit) (Hole, error) {
	t := read(token, "hole", bare)
	h := Hole{Text: t.text}
	h.Diameter = t.length(t.until(func(w string) bool { return w == "at" }), Least, unit.Longest)
	t.word("at")
	if len(t.words) > 0 && cornerName.MatchString(t.words[0]) {
		h.Centre = t.fromCorners()
	} else {
		h.Centre = t.fromEdge()
	}
	return done(t, h, holeForm)
}

// token is one token while it is read, its words that are still to come, and the first
// thing that is wrong in it: after that nothing is read.
type token struct {
	text  string
	words []string
	bare  unit.Unit
	wrong *unit.Fault
}

var (
	cornerName = regexp.MustCompile(`^[A-Z](0|[1-9][0-9]{0,2})?$`)
	edgeName   = regexp.MustCompile(`^([A-Z](?:0|[1-9][0-9]{0,2})?)([A-Z](?:0|[1-9][0-9]{0,2})?)$`)
)

func read(text, what string, bare unit.Unit) *token {
	t := &token{bare: bare}
	if t.wrong = unit.CheckText(text, what); t.wrong != nil {
		return t // which quotes the text itself
	}
	t.words = strings.Fields(text)
	if strings.ContainsFunc(strings.Join(t.words, ""), func(r rune) bool { return !strconv.IsPrint(r) }) {
		t.fail(unit.Quote(text)+" holds a character that cannot be printed", "")
		return t
	}
	t.text = strings.Join(t.words, " ")
	return t
}

// done is what was read, or what is wrong, with the token in front of it.
func done[T any](t *token, read T, form string) (T, error) {
	f := t.wrong
	if f == nil {
		return read, nil
	}
	if f.Hint == "" {
		f.Hint = form
	}
	if t.text != "" {
		f = f.In(t.text)
	}
	var none T
	return none, f
}

func (t *token) fail(what, hint string) {
	if t.wrong == nil {
		t.wrong = &unit.Fault{What: what, Hint: hint}
	}
}

// take is the next word, empty where there is none.
func (t *token) take() string {
	if len(t.words) == 0 {
		return ""
	}
	w := t.words[0]
	t.words = t.words[1:]
	return w
}

// word passes over a word that must stand here.
func (t *token) word(want string) {
	switch w := t.take(); w {
	case want:
	case "":
		t.fail("ends before its "+unit.Quote(want), "")
	default:
		t.fail(unit.Quote(w)+" stands where "+unit.Quote(want)+" should", "")
	}
}

// until takes the words before one that ends them, or all.
func (t *token) until(end func(string) bool) []string {
	n := slices.IndexFunc(t.words, end)
	if n < 0 {
		n = len(t.words)
	}
	taken := t.words[:n]
	t.words = t.words[n:]
	return taken
}

func (t *token) rest() []string { return t.until(func(string) bool { return false }) }

func (t *token) length(words []string, least, most unit.Length) unit.Length {
	if len(words) == 0 {
		t.fail("a length is missing", "")
	}
	if t.wrong != nil {
		return 0
	}
	l, err := unit.ParseSetting(strings.Join(words, " "), t.bare, least, most)
	errors.As(err, &t.wrong)
	return l
}

func (t *token) corner() geom.Name {
	w := t.take()
	if !cornerName.MatchString(w) {
		t.notName(w, "a corner", cornerName)
	}
	return geom.Name(w)
}

func (t *token) edge() (ends [2]geom.Name) {
	w := t.take()
	m := edgeName.FindStringSubmatch(w)
	if m == nil || m[1] == m[2] {
		t.notName(w, "an edge", edgeName)
		return ends
	}
	return [2]geom.Name{geom.Name(m[1]), geom.Name(m[2])}
}

// notName says why a word is not the name of a thing.
func (t *token) notName(w, thing string, form *regexp.Regexp) {
	switch up := strings.ToUpper(w); {
	case w == "":
		t.fail(thing+" is missing", "")
	case up != w && form.MatchString(up):
		t.fail(unit.Quote(w)+" has a small letter", "points have capital letters: write "+up)
	default:
		t.fail(unit.Quote(w)+" is not the name of "+thing, "")
	}
}

// treatments as a token says them.
var treatments = map[string]Treatment{"cut": Cut, "round": Round, "blunt": Blunt, "mitre": Mitre, "miter": Mitre}

func (t *token) treatment() Treatment {
	w := t.take()
	do, known := treatments[w]
	switch {
	case w == "":
		t.fail("ends before it says what is done to the corner", "")
	case !known:
		t.fail(unit.Quote(w)+" is nothing that is done to a corner", "")
	}
	return do
}

// parts are the edges that a mitre joins and how wide the parts along them are; none
// where nothing follows.
func (t *token) parts() (p [2]Member) {
	if len(t.words) == 0 {
		return p
	}
	for i := range p {
		p[i].Edge = t.edge()
		p[i].Wide = t.length(t.until(edgeName.MatchString), Least, unit.Longest)
	}
	t.end("the mitre")
	return p
}

// end says that nothing may stand behind a thing.
func (t *token) end(thing string) {
	if len(t.words) > 0 {
		t.fail(unit.Quote(strings.Join(t.words, " "))+" stands behind "+thing, "")
	}
}

func (t *token) fromEdge() (c FromEdge) {
	c.Edge = t.edge()
	c.Square = t.length(t.until(func(w string) bool { return w == "from" }), 0, unit.Longest)
	t.word("from")
	if c.From = t.corner(); t.wrong == nil && c.From != c.Edge[0] && c.From != c.Edge[1] {
		t.wrong = noEnd(c)
	}
	c.Along = t.length(t.rest(), 0, unit.Longest)
	return c
}

func noEnd(c FromEdge) *unit.Fault {
	return &unit.Fault{What: string(c.From) + " is no end of edge " + string(c.Edge[0]+c.Edge[1]), Hint: "say from which of its ends the distance along it runs"}
}

func (t *token) fromCorners() (c FromCorners) {
	for i := range c.Corners {
		c.Corners[i] = t.corner()
		c.Arms[i] = t.length(t.until(cornerName.MatchString), Least, unit.Longest)
	}
	if c.Corners[0] == c.Corners[1] {
		t.fail(string(c.Corners[0])+" is named twice", "name two corners")
	}
	t.end("the hole")
	return c
}
