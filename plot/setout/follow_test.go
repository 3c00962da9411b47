package setout

import (
	"math"
	"math/cmplx"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// The forms of the steps, on the ground and on a floor: the figures are read out of the
// words, the places worked out by formulas of the test's own.
var (
	oneFigure = `(\d[\d\x{2009}.]*)`
	setBase   = regexp.MustCompile(`^(?:Peg|Mark) (\w+)\b.* (?:pull|measure) ` + oneFigure + ` along the line you want and (?:peg|mark) (\w+)`)
	setRun    = regexp.MustCompile(`Tape (?:still )?on (\w+)(, away from the piece)?: at ` + oneFigure + ` (?:mark|peg) (\w+) on the`)
	setArc    = regexp.MustCompile(`^(?:Tape on|From) (\w+) (?:at|swing) ` + oneFigure + `.* on (\w+)'s side: (left|right)`)
	setCross  = regexp.MustCompile(`^(?:Second tape on|From) (\w+) (?:at|swing) ` + oneFigure + `(?:: where both meet, peg| across it: the cross is) (\w+)`)
	setLine   = regexp.MustCompile(`^(?:String|Snap) ([A-Z]\d*)([A-Z]\d*)\. Tape on \w+: at ` + oneFigure + ` (?:mark|peg) (\w+) on the`)
	setPast   = regexp.MustCompile(`^(?:Stretch a string|Carry a chalk line) from (\w+) over (\w+) and on.* Tape on \w+: at ` + oneFigure + ` (?:mark|peg) (\w+) on the`)
	setLook   = regexp.MustCompile(`as you look from (\w+) to (\w+)[.:]`)
	setAside  = regexp.MustCompile(`^(?:String|Snap a line) from (\w+) over (\w+)\. Tape on \w+: (?:pull|measure) ` + oneFigure + ` along it, there turn square, and ` + oneFigure + ` on, the way from (\w+) to (\w+), (?:peg|mark) (\w+)`)
	setLeg    = regexp.MustCompile(`^(?:(?:String|Snap) \w+\. )?Square (?:off|up) at (\w+) by 3-4-5, on \w+'s side: (left|right).*at ` + oneFigure + `: mark (\w+) on the (?:string|line), towards (\w+)\.`)
	setBoth   = regexp.MustCompile(`^(?:Tapes|Swing) ` + oneFigure + ` from (\w+)(?: and|,) ` + oneFigure + ` from (\w+): .*(?:cross|meet), on the (left|right)\b.*(?:peg|is) (\w+)\.`)
	setUp     = regexp.MustCompile(`^(?:Tape on|From) (\w+) (?:at|swing) ` + oneFigure + `.* where (\w+) is to stand`)
	setOff    = regexp.MustCompile(`^(?:String|Snap a line) from (\w+) over (\w+)\. Tape on \w+: (?:pull|measure) ` + oneFigure + ` along it and (?:peg|mark) (\w+)`)
	setTurn   = regexp.MustCompile(`(?:Mark|Turn) ([\d.]+)°(?:(\d+)′(\d+)″)? to the (left|right) of \w+ for (\w+)`)
	setSight  = regexp.MustCompile(`^Tape on (\w+): (?:pull|measure) ` + oneFigure + ` along the sight and (?:peg|mark) (\w+)`)
	setMiddle = regexp.MustCompile(`^Tape on (\w+), along (\w+): at ` + oneFigure + ` (?:mark|peg) (\w+)\.`)
	hands     = map[string]float64{"left": 1, "right": -1}
)

func figureIn(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(strings.ReplaceAll(text, "\u2009", ""), 64)
	if err != nil {
		t.Fatalf("%q: %v", text, err)
	}
	return v
}

// errs is how a hand goes wrong; the zero value does not.
type errs struct {
	pull   func(l float64) float64 // a length as it is pulled
	beside func(x float64) float64 // how far a mark at x of the string lies off its line
	turn   func() float64          // radians that an angle is off
	centre func() complex128       // how far the instrument stands off its nail
	target func() float64          // and its target off its own, across the sight
	square func() float64          // radians that a right angle by eye and try square is off
}

func exact() errs {
	return errs{
		func(l float64) float64 { return l }, func(float64) float64 { return 0 }, func() float64 { return 0 },
		func() complex128 { return 0 }, func() float64 { return 0 }, func() float64 { return 0 },
	}
}

// follower follows steps by their words alone.
type follower struct {
	t     *testing.T
	errs  errs
	at    map[string]complex128
	base  float64
	known map[reading][]string
	// Of the step before: an arc, where it was swung from, on which side; a square's leg.
	from        string
	radius, way float64
	angle       float64 // turned, for the next sight
}

type reading struct {
	form  *regexp.Regexp
	words string
}

func newFollower(t *testing.T, e errs) *follower {
	return &follower{t: t, errs: e, known: map[reading][]string{}}
}

// reads what a form finds in a sentence, which is followed thousands of times.
func (h *follower) reads(form *regexp.Regexp, words string) []string {
	found, read := h.known[reading{form, words}]
	if !read {
		found = form.FindStringSubmatch(words)
		h.known[reading{form, words}] = found
	}
	return found
}

func (h *follower) pull(words string) float64 { return h.errs.pull(figureIn(h.t, words)) }

func cross(p, q complex128, rp, rq, up float64) complex128 {
	d := cmplx.Abs(q - p)
	return p + (q-p)/complex(d, 0)*cmplx.Rect(rp, up*math.Acos((d*d+rp*rp-rq*rq)/(2*d*rp)))
}

func towards(p, q complex128, d float64) complex128 {
	return p + (q-p)/complex(cmplx.Abs(q-p), 0)*complex(d, 0)
}

// follow the steps once; it says how many it understood.
func (h *follower) follow(steps []string) (understood int) {
	h.at = map[string]complex128{}
	for _, w := range steps {
		if h.step(w) {
			understood++
		}
	}
	return understood
}

func (h *follower) step(w string) bool {
	if m := h.reads(setBase, w); m != nil {
		h.base = figureIn(h.t, m[2])
		h.at[m[1]], h.at[m[3]] = 0, complex(h.pull(m[2]), 0)
		return true
	}
	for _, form := range []*regexp.Regexp{setLine, setPast} {
		if m := h.reads(form, w); m != nil {
			h.at[m[4]] = towards(h.at[m[1]], h.at[m[2]], h.pull(m[3]))
			return true
		}
	}
	if m := h.reads(setAside, w); m != nil {
		foot := h.at[m[1]]
		up := towards(foot, h.at[m[2]], 1) - foot
		on := h.at[m[6]] - h.at[m[5]]
		side := up * complex(0, 1)
		if real(side*cmplx.Conj(on)) < 0 {
			side = -side
		}
		h.at[m[7]] = foot + up*complex(h.pull(m[3]), 0) + side*cmplx.Rect(h.pull(m[4]), h.errs.square())
		return true
	}
	if m := h.reads(setRun, w); m != nil && h.reads(setLeg, w) == nil {
		x, sign := figureIn(h.t, m[3]), 1.0
		if m[2] != "" {
			sign = -1
		}
		h.at[m[4]] = complex(sign*h.pull(m[3]), h.errs.beside(sign*x))
		return true
	}
	if m := h.reads(setArc, w); m != nil {
		h.from, h.radius, h.way = m[1], h.pull(m[2]), hands[m[4]]
		return true
	}
	if m, look := h.reads(setLeg, w), h.reads(setLook, w); m != nil && look != nil && imag(h.at[look[1]])+imag(h.at[look[2]]) != 0 {
		if h.way = hands[m[2]]; m[5] == look[1] {
			h.way = -h.way
		}
		h.at[m[4]] = towards(h.at[m[1]], h.at[m[5]], h.pull(m[3]))
		return true
	}
	if m := h.reads(setLeg, w); m != nil {
		foot, way, x := h.at[m[1]], 1.0, figureIn(h.t, m[3])
		if h.way = hands[m[2]]; real(h.at[m[5]]) < real(foot) {
			h.way, way = -h.way, -1
		}
		h.at[m[4]] = complex(real(foot)+way*h.pull(m[3]), h.errs.beside(real(foot)+way*x))
		return true
	}
	if m := h.reads(setUp, w); m != nil {
		h.from, h.radius = m[1], h.pull(m[2])
		return true
	}
	if m := h.reads(setCross, w); m != nil {
		h.at[m[3]] = cross(h.at[h.from], h.at[m[1]], h.radius, h.pull(m[2]), h.way)
		return true
	}
	if m := h.reads(setBoth, w); m != nil {
		h.at[m[6]] = cross(h.at[m[2]], h.at[m[4]], h.pull(m[1]), h.pull(m[3]), hands[m[5]])
		return true
	}
	if m := h.reads(setOff, w); m != nil {
		h.at[m[4]] = towards(h.at[m[1]], h.at[m[2]], h.pull(m[3]))
		return true
	}
	if m := h.reads(setTurn, w); m != nil {
		a := figureIn(h.t, m[1])
		if m[2] != "" {
			a += figureIn(h.t, m[2])/60 + figureIn(h.t, m[3])/3600
		}
		h.angle = hands[m[4]] * a * math.Pi / 180
		return true
	}
	if m := h.reads(setSight, w); m != nil {
		stands := h.errs.centre()
		sight := cmplx.Phase(complex(h.base, h.errs.target())-stands) + h.angle + h.errs.turn()
		// The tape hangs on the nail at 0 and swings to the line of sight.
		tape, d := h.pull(m[2]), cmplx.Abs(stands)
		h.at[m[3]] = cmplx.Rect(tape, sight-math.Asin(d*math.Sin(cmplx.Phase(-stands)-sight)/tape))
		return true
	}
	if m := h.reads(setMiddle, w); m != nil {
		h.at[m[4]] = towards(h.at[m[1]], h.at[strings.TrimPrefix(m[2], m[1])], h.pull(m[3]))
		return true
	}
	return false
}
