package shape

import (
	"regexp"
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
	t, f := read(token, "setting of an edge", bare)
	a := Allowance{Text: t.text}
	if f == nil {
		a.Edge, f = t.edge()
	}
	if f == nil {
		f = t.word("allow")
	}
	if f == nil {
		a.By, f = t.length(t.rest(), -MaxAllowance, MaxAllowance)
	}
	if f != nil {
		return Allowance{}, t.fault(f, edgeForm)
	}
	return a, nil
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
	t, f := read(token, "setting of a corner", bare)
	c := Corner{Text: t.text}
	if f == nil {
		c.At, f = t.corner()
	}
	if f == nil {
		c.Do, f = t.treatment()
	}
	if f == nil && c.Do == Mitre {
		if c.Parts, f = t.parts(); f != nil {
			return Corner{}, t.fault(f, mitreForm)
		}
		return c, nil
	}
	if f == nil {
		c.By, f = t.length(t.until(func(w string) bool { return w == "allow" }), Least, unit.Longest)
	}
	if f == nil && len(t.words) > 0 && c.Do != Cut {
		f = &unit.Fault{What: "only a corner that is cut makes an edge with an allowance of its own", Hint: "leave the allowance out, or give one to the edges beside the corner"}
	}
	if f == nil && len(t.words) > 0 {
		t.words, c.Stated = t.words[1:], true
		c.Allow, f = t.length(t.rest(), -MaxAllowance, MaxAllowance)
	}
	if f != nil {
		return Corner{}, t.fault(f, cornerForm)
	}
	return c, nil
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
	t, f := read(token, "hole", bare)
	h := Hole{Text: t.text}
	if f == nil {
		h.Diameter, f = t.length(t.until(func(w string) bool { return w == "at" }), Least, unit.Longest)
	}
	if f == nil {
		f = t.word("at")
	}
	if f == nil {
		if len(t.words) > 0 && cornerName.MatchString(t.words[0]) {
			h.Centre, f = t.fromCorners()
		} else {
			h.Centre, f = t.fromEdge()
		}
	}
	if f != nil {
		return Hole{}, t.fault(f, holeForm)
	}
	return h, nil
}

// token is one token while it is read, its words that are still to come.
type token struct {
	text  string
	words []string
	bare  unit.Unit
}

var (
	cornerName = regexp.MustCompile(`^[A-Z](0|[1-9][0-9]{0,2})?$`)
	edgeName   = regexp.MustCompile(`^([A-Z](?:0|[1-9][0-9]{0,2})?)([A-Z](?:0|[1-9][0-9]{0,2})?)$`)
)

func read(text, what string, bare unit.Unit) (token, *unit.Fault) {
	t := token{bare: bare}
	if f := unit.CheckText(text, what); f != nil {
		return t, f // which quotes the text itself
	}
	t.words = strings.Fields(text)
	if strings.ContainsFunc(strings.Join(t.words, ""), func(r rune) bool { return !strconv.IsPrint(r) }) {
		return t, &unit.Fault{What: unit.Quote(text) + " holds a character that cannot be printed"}
	}
	t.text = strings.Join(t.words, " ")
	return t, nil
}

// fault puts the token in front of what is wrong in it.
func (t token) fault(f *unit.Fault, form string) *unit.Fault {
	if f.Hint == "" {
		f.Hint = form
	}
	if t.text == "" {
		return f
	}
	return f.In(t.text)
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
func (t *token) word(want string) *unit.Fault {
	switch w := t.take(); w {
	case want:
		return nil
	case "":
		return &unit.Fault{What: "ends before its " + unit.Quote(want)}
	default:
		return &unit.Fault{What: unit.Quote(w) + " stands where " + unit.Quote(want) + " should"}
	}
}

// until takes the words before one that ends them, or all.
func (t *token) until(end func(string) bool) []string {
	n := 0
	for n < len(t.words) && !end(t.words[n]) {
		n++
	}
	taken := t.words[:n]
	t.words = t.words[n:]
	return taken
}

func (t *token) rest() []string { return t.until(func(string) bool { return false }) }

func (t *token) length(words []string, least, most unit.Length) (unit.Length, *unit.Fault) {
	if len(words) == 0 {
		return 0, &unit.Fault{What: "a length is missing"}
	}
	l, err := unit.ParseSetting(strings.Join(words, " "), t.bare, least, most)
	if err == nil {
		return l, nil
	}
	f, ok := err.(*unit.Fault)
	if !ok {
		f = &unit.Fault{What: err.Error()}
	}
	return 0, f
}

func (t *token) corner() (geom.Name, *unit.Fault) {
	w := t.take()
	switch up := strings.ToUpper(w); {
	case cornerName.MatchString(w):
		return geom.Name(w), nil
	case w == "":
		return "", &unit.Fault{What: "a corner is missing"}
	case up != w && cornerName.MatchString(up):
		return "", small(w, up)
	}
	return "", &unit.Fault{What: unit.Quote(w) + " is not the name of a corner"}
}

func (t *token) edge() ([2]geom.Name, *unit.Fault) {
	w := t.take()
	m, up := edgeName.FindStringSubmatch(w), strings.ToUpper(w)
	switch {
	case m != nil && m[1] != m[2]:
		return [2]geom.Name{geom.Name(m[1]), geom.Name(m[2])}, nil
	case w == "":
		return [2]geom.Name{}, &unit.Fault{What: "an edge is missing"}
	case up != w && edgeName.MatchString(up):
		return [2]geom.Name{}, small(w, up)
	}
	return [2]geom.Name{}, &unit.Fault{What: unit.Quote(w) + " is not the name of an edge"}
}

func small(w, up string) *unit.Fault {
	return &unit.Fault{What: unit.Quote(w) + " has a small letter", Hint: "points have capital letters: write " + up}
}

func (t *token) treatment() (Treatment, *unit.Fault) {
	switch w := t.take(); w {
	case "cut":
		return Cut, nil
	case "round":
		return Round, nil
	case "blunt":
		return Blunt, nil
	case "mitre", "miter":
		return Mitre, nil
	case "":
		return Sharp, &unit.Fault{What: "ends before it says what is done to the corner"}
	default:
		return Sharp, &unit.Fault{What: unit.Quote(w) + " is nothing that is done to a corner"}
	}
}

// parts are the edges that a mitre joins and how wide the parts along them are; none
// where nothing follows.
func (t *token) parts() (p [2]Part, f *unit.Fault) {
	if len(t.words) == 0 {
		return p, nil
	}
	for i := range p {
		if p[i].Edge, f = t.edge(); f != nil {
			return p, f
		}
		if p[i].Wide, f = t.length(t.until(edgeName.MatchString), Least, unit.Longest); f != nil {
			return p, f
		}
	}
	if len(t.words) > 0 {
		return p, &unit.Fault{What: unit.Quote(strings.Join(t.words, " ")) + " stands behind the mitre"}
	}
	return p, nil
}

func (t *token) fromEdge() (c FromEdge, f *unit.Fault) {
	if c.Edge, f = t.edge(); f != nil {
		return c, f
	}
	if c.Square, f = t.length(t.until(func(w string) bool { return w == "from" }), 0, unit.Longest); f != nil {
		return c, f
	}
	if f = t.word("from"); f != nil {
		return c, f
	}
	if c.From, f = t.corner(); f != nil {
		return c, f
	}
	if c.From != c.Edge[0] && c.From != c.Edge[1] {
		return c, noEnd(c)
	}
	c.Along, f = t.length(t.rest(), 0, unit.Longest)
	return c, f
}

func noEnd(c FromEdge) *unit.Fault {
	return &unit.Fault{What: string(c.From) + " is no end of edge " + string(c.Edge[0]+c.Edge[1]), Hint: "say from which of its ends the distance along it runs"}
}

func (t *token) fromCorners() (c FromCorners, f *unit.Fault) {
	for i := range c.Corners {
		if c.Corners[i], f = t.corner(); f != nil {
			return c, f
		}
		if c.Arms[i], f = t.length(t.until(cornerName.MatchString), Least, unit.Longest); f != nil {
			return c, f
		}
	}
	if c.Corners[0] == c.Corners[1] {
		return c, &unit.Fault{What: string(c.Corners[0]) + " is named twice", Hint: "name two corners"}
	}
	if len(t.words) > 0 {
		return c, &unit.Fault{What: unit.Quote(strings.Join(t.words, " ")) + " stands behind the hole"}
	}
	return c, nil
}
