package words_test

import (
	"math"
	"regexp"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/compare"
	"trammel/geom/triangle"
)

// sentence is one that may be said, and what it is held against.
type sentence struct {
	form *regexp.Regexp
	hear func(l *listener, m []string)
}

func says(form string, hear func(l *listener, m []string)) sentence {
	return sentence{regexp.MustCompile(`^` + form), hear}
}

func unheld(*listener, []string) {}

const (
	mm   = `([0-9\x{2009}]+(?:\.[0-9]+)?)(?: mm)?`
	aPeg = `([A-Z])`
)

var sentences = []sentence{
	says(`Most of what was read lies outside: first read (.*?) again\. What follows holds if (?:they read|it reads) the same\.`, func(l *listener, m []string) {
		out := 0
		for _, r := range l.c.Readings {
			if !r.Inside {
				out++
			}
		}
		if 2*out <= len(l.c.Readings) {
			l.lies("%d of %d are most", out, len(l.c.Readings))
		}
	}),
	says(`(Two|Three|At least two|At least three) pegs stand wrong, ([A-Z, and]+)\. Mend [A-Z] first, measure again, then (?:[A-Z]|, then )+\.`, func(l *listener, m []string) {
		// That each of them does is heard below; there may be more that show in no reading.
		if names := letters.FindAllString(m[2], -1); !l.pegsAre(names) && !strings.HasPrefix(m[1], "At least") && slices.ContainsFunc(l.c.Explanations[0].Outside, func(int) bool { return true }) {
			l.lies("%v stand wrong", names)
		}
	}),
	says(aPeg+` stands `+mm+` ± `+mm+` (?:off its place|(too near to|too far from) `+aPeg+`)(?:, and )?\.?`, func(l *listener, m []string) {
		i := l.peg(m[1])
		l.last, l.off, l.figure95, l.one = m[1], number64(m[2]), number64(m[3]), m[4] != ""
		l.pegs = append(l.pegs, m[1])
		if l.perhaps {
			return
		}
		if !strings.Contains(l.kind, "peg") || !slices.Contains(l.planted.pegs, i) {
			l.lies("%s stands wrong", m[1])
			return
		}
		if m[4] == "" {
			l.inFigure.add(math.Abs(l.stand[i].To(l.where[i])-l.off) <= l.figure95+0.5)
			return
		}
		near := l.where[i].To(l.where[l.peg(m[5])]) - l.stand[i].To(l.stand[l.peg(m[5])])
		if m[4] == "too far from" {
			near = -near
		}
		if math.Abs(near-l.off) > 2*l.figure95+1 {
			l.lies("%s is truly %.1f mm %s %s", m[1], near, m[4], m[5])
		}
	}),
	says(`Move it (?:`+mm+` (towards|away from) `+aPeg+`)?(?: and )?(?:`+mm+` to the (left|right))?(?:, seen from `+aPeg+`)?\.`, func(l *listener, m []string) { l.move(l.last, m[1:]) }),
	says(`Move `+aPeg+` (?:`+mm+` (towards|away from) `+aPeg+`)?(?: and )?(?:`+mm+` to the (left|right))?(?:, seen from `+aPeg+`)?\.`, func(l *listener, m []string) {
		l.move(m[1], m[2:])
	}),
	says(aPeg+` stays\.`, func(l *listener, m []string) {
		if d := l.stand[l.peg(m[1])].To(l.where[l.peg(m[1])]); d > 4*l.sigma+1 {
			l.lies("%s stays, and stands %.0f mm off", m[1], d)
		}
	}),
	says(`That would be mended by `+aPeg+` going (?:`+mm+` (towards|away from) `+aPeg+`)?(?: and )?(?:`+mm+` to the (left|right))?(?:, seen from `+aPeg+`)?\.`, unheld),
	says(`Then measure again: (?:they|it) should read (.*?)\.(?:\n|$)`, func(l *listener, m []string) {
		l.toRead(m[1])
	}),
	says(`Then measure all again: of what is outside now, (.*?) should be read\.(?:\n|$)`, func(l *listener, m []string) { l.toRead(m[1]) }),
	says(`Or more is wrong than one of these alone\.`, func(l *listener, m []string) { l.either = true }),
	says(`Only the direction to `+aPeg+` is known of `+aPeg+`: measure it from another peg as well\.`, unheld),
	says(`All other readings agree with that\.`, func(l *listener, m []string) {
		for i, r := range l.c.Readings {
			p, q := string(r.Measurement.At[0]), string(r.Measurement.At[1])
			touched := slices.Contains(l.pegs, p) || slices.Contains(l.pegs, q) || l.held[p+q] || l.held[q+p]
			if !touched && !r.Inside && i != l.slip {
				l.lies("%s lies outside, and is said to agree", r.Measurement.Subject())
			}
			if touched && l.kind != "racked" { // with the peg where it should stand, and the slip of this reading
				a, b := l.peg(p), l.peg(q)
				v := r.Found.Length.MM() + l.mended(a).To(l.mended(b)) - l.stand[a].To(l.stand[b])
				if slack := 3*l.sigma + 4; v < r.Least.Length.MM()-slack || v > r.Greatest.Length.MM()+slack {
					l.lies("%s will read %.1f, and is said to agree", r.Measurement.Subject(), v)
				}
			}
		}
	}),
	says(`Nothing more was measured that would confirm it\.`, unheld),
	says(`([A-Z, and]+) would lie outside (?:its range|their ranges) even then: measure (?:it|them) again\.`, func(l *listener, m []string) {
		for _, s := range letters.FindAllString(m[1], -1) {
			l.besides[s] = true
		}
	}),
	says(`([A-Z, and]+) would lie outside even then\.`, unheld),
	says(`No peg stands wrong by the other readings, but ([A-Z]+) contradicts them: it reads `+mm+` and they say `+mm+` ± `+mm+`\. Measure it again before anything is moved; if it reads the same, `+aPeg+` or `+aPeg+` stands wrong\.`, func(l *listener, m []string) { l.misread(m) }),
	says(`([A-Z]+) contradicts the other readings: it reads `+mm+` and they say `+mm+` ± `+mm+`\. Measure it again before anything is moved; if it reads the same, `+aPeg+`(?: or `+aPeg+`)? stands wrong\.`, func(l *listener, m []string) { l.misread(m) }),
	says(`([A-Z, and]+) (?:is|are) misread\.?`, func(l *listener, m []string) {
		l.cause("misread", l.kind == "misread" && slices.Equal(letters.FindAllString(m[1], -1), []string{l.asked.Found[max(0, l.slip)].Subject()}))
	}),
	says(`Measure ([A-Z]+) again: it reads `+mm+` and should read `+mm+`\.`, func(l *listener, m []string) {
		if l.slip < 0 || l.asked.Found[l.slip].Subject() != m[1] {
			l.lies("%s is misread", m[1])
		}
	}),
	says(`[Tt]he tape, or its hook: (every length reads|on the whole the lengths read) about `+mm+` too (long|short), the short ones as much as the long ones\.`, func(l *listener, m []string) { l.ofTape("tape zero", m, 1) }),
	says(`[Tt]he tape: (every length reads|on the whole the lengths read) too (long|short) in proportion, about `+mm+` in 10 m\.`, func(l *listener, m []string) {
		l.ofTape("tape scale", []string{m[0], m[1], m[3], m[2]}, 10000)
	}),
	says(`Move no peg\. Hold the tape against another one that is known to be right, over a (?:short length and a long one|long length), and measure all again\.`, unheld),
	says(`If this tape is right, the pegs were set out with one that is not: then set them out anew\.`, unheld),
	says(`Hold the tape against another one that is known to be right, over a short length and a long one\.`, unheld),
	says(`[Tt]he frame is racked: its sides are right, (?:its corners are not|but ([^.]*))\.(?: Hold ([A-Z]) and ([A-Z])\.)?`, func(l *listener, m []string) {
		l.cause("racked", l.kind == "racked" || l.sidesRight())
		for _, w := range regexp.MustCompile(`([A-Z])([A-Z]) is `+mm+` too (long|short)`).FindAllStringSubmatch(m[1], -1) {
			off := l.stand[l.peg(w[1])].To(l.stand[l.peg(w[2])]) - l.where[l.peg(w[1])].To(l.where[l.peg(w[2])])
			said := number64(w[3])
			if w[4] == "short" {
				said = -said
			}
			if !l.perhaps && math.Abs(off-said) > 8 {
				l.lies("%s, truly %.1f", w[0], off)
			}
		}
	}),
	says(`[Tt]he whole is (shifted|turned about [ABC]|shifted and turned|shifted, or turned, or both): all pegs but [ABC, and]+ stand right to one another, and (?:`+mm+` ± `+mm+` off as [ABC, and]+ stand|`+aPeg+`, which is off most, is `+mm+` ± `+mm+` off)\.`, func(l *listener, m []string) {
		planted := map[string]string{"shifted": "shifted", "turned": "turned about A"}[l.kind]
		l.cause(l.kind, planted != "" && (m[1] == planted || m[1] == "shifted, or turned, or both"))
		l.figure95 = number64(m[3] + m[6])
		if v := m[2] + m[5]; !l.perhaps && planted != "" && math.Abs(number64(v)-l.moved) > 2*l.figure95+1 {
			l.lies("%s, truly %.1f", m[0], l.moved)
		}
	}),
	says(`It is too little to tell by it which peg stands wrong\.`, unheld),
	says(`Measure ([A-Z, and0-9more]+) again\. What stays outside is set out anew\.`, unheld),
	says(`Measure ([A-Z, and0-9more]+) again\.`, unheld),
	says(`First read (.*?) again\.`, unheld),
	says(`No one, two or three pegs, no two readings and no tape explain it all: more than that is wrong, or the readings are less sure than their tolerances say\.`, func(l *listener, m []string) {
		l.lies("nothing explains it")
	}),
	says(`The most of it would go if .*?, though the rest still disagrees\.`, unheld),
	says(`What stays outside then is set out anew from the baseline\.`, unheld),
	says(`Move nothing yet: what was measured does not tell which of these it is\.`, func(l *listener, m []string) { l.perhaps = true }),
	says(`([A-Z, and]+) stands? wrong(?: and ([A-Z, and]+) (?:is|are) misread)?(, but that does not explain all that was read\. Move nothing yet)?\.`, func(l *listener, m []string) {
		names := letters.FindAllString(m[1], -1)
		l.pegs = append(l.pegs, names...)
		for _, n := range names {
			if !l.perhaps && (!strings.Contains(l.kind, "peg") || !slices.Contains(l.planted.pegs, l.peg(n))) {
				l.lies("%s stands wrong", n)
			}
		}
		if m[2] != "" {
			l.pegs = append(l.pegs, "?")
		}
	}),
	says(`[Tt]he frame is racked, but that does not explain all that was read\. Move nothing yet\.`, func(l *listener, m []string) { l.cause("racked", l.kind == "racked") }),
	says(`[Tt]he whole is (shifted|turned|shifted and turned|shifted or turned), but that does not explain all that was read\. Move nothing yet\.`, func(l *listener, m []string) {
		l.cause(l.kind, l.kind == m[1] || m[1] == "shifted or turned" && (l.kind == "shifted" || l.kind == "turned"))
	}),
	says(`Measure ([A-Z, and0-9more]+) again, and check anew\.`, func(l *listener, m []string) {
		for _, s := range letters.FindAllString(m[1], -1) {
			l.held[s] = true
		}
	}),
	says(`Then measure all again\.`, unheld),
	says(`([A-Z, and]+) stand right to one another\. If they are known to stand fast, it is all the others that are shifted or turned: then move none of these, say that ([A-Z, and]+) are fixed, and check anew\.`, func(l *listener, m []string) {
		names := letters.FindAllString(m[1], -1)
		for i, p := range names {
			for _, q := range names[:i] {
				a, b := l.peg(p), l.peg(q)
				if d := l.stand[a].To(l.stand[b]) - l.where[a].To(l.where[b]); math.Abs(d) > 4*math.Sqrt2*l.sigma+4 {
					l.lies("%s%s is %.1f mm off, and said to be right", q, p, d)
				}
			}
		}
	}),
	says(`If some of the pegs are known to stand fast, say that they are fixed, and check anew\.`, unheld),
	says(`(Either|Or) `, func(l *listener, m []string) { l.alternative() }),
	says(`Measure ([A-Z]+) as well: [^\n]*`, unheld),
	says(`Measure from one more peg, or set one out on purpose, to tell them apart\.`, unheld),
	says(`([A-Z, and]+) (?:was|were) not measured back: nothing here speaks for (?:it|them)\.`, func(l *listener, m []string) {
		for _, n := range letters.FindAllString(m[1], -1) {
			if slices.ContainsFunc(l.asked.Found, func(x triangle.Measurement) bool { return slices.Contains(x.Points(), geom.Name(n)) }) {
				l.lies("%s was measured back", n)
			}
		}
	}),
	says(`What was measured does not hold the shape: pegs that stand askew could read the same\. Measure [A-Z]+ as well, which should read `+mm+`\.`, unheld),
}

// toRead are lengths with what they are to read: what is wanted.
func (l *listener) toRead(text string) {
	for _, w := range regexp.MustCompile(`([A-Z])([A-Z]) `+mm).FindAllStringSubmatch(text, -1) {
		if d := l.where[l.peg(w[1])].To(l.where[l.peg(w[2])]); math.Abs(d-number64(w[3])) > 0.06 {
			l.lies("%s%s should read %s, wanted %.1f", w[1], w[2], w[3], d)
		}
		l.held[w[1]+w[2]] = true
	}
}

// sidesRight says whether a whole of four pegs is shifted, or turned, so that its sides
// read right: then two pegs went sideways, as those of a racked frame do.
func (l *listener) sidesRight() bool {
	return len(l.where) == 4 && l.moved > 0 && !slices.ContainsFunc(l.c.Readings, func(r compare.Compared) bool {
		a, b := l.peg(string(r.Measurement.At[0])), l.peg(string(r.Measurement.At[1]))
		d := l.stand[a].To(l.stand[b]) - l.where[a].To(l.where[b])
		return (b-a)%2 != 0 && math.Abs(d) > float64(r.Greatest.Length-r.Least.Length)/2
	})
}

// alternative begins another of those that it may be.
func (l *listener) alternative() {
	// Of several pegs that stand wrong it may be that some show in no reading.
	if len(l.pegs) > 0 && strings.Contains(l.kind, "peg") && !slices.ContainsFunc(l.pegs, func(n string) bool { return n == "?" || !slices.Contains(l.planted.pegs, l.peg(n)) }) {
		l.either = true
	}
	l.pegs = nil
}

func (l *listener) mended(i int) geom.Vector {
	if slices.Contains(l.pegs, string(letter(i))) || l.moved > 0 && slices.Contains(l.planted.pegs, i) {
		return l.where[i]
	}
	return l.stand[i]
}

// move does what the words say to the peg where it truly stands.
func (l *listener) move(name string, m []string) {
	from := m[2] + m[5]
	i, u := l.peg(name), geom.Vector{}
	u = l.stand[i].Minus(l.where[l.peg(from)]).Unit() // as one looks from there
	at := l.stand[i]
	if m[0] != "" {
		d := number64(m[0])
		if m[1] == "towards" {
			d = -d
		}
		at = at.Plus(u.Times(d))
	}
	if m[3] != "" {
		d := number64(m[3])
		if m[4] == "right" {
			d = -d
		}
		at = at.Plus(u.Left().Times(d))
	}
	off := at.To(l.where[i])
	if l.one { // towards that peg, and no more
		a := l.where[l.peg(from)]
		off = math.Abs(at.To(a) - l.where[i].To(a))
	}
	if l.kind == "racked" {
		if before := l.stand[i].To(l.where[i]); off > before && off > 4*l.sigma {
			l.lies("%s comes %.1f mm off by its move, from %.1f", name, off, before)
		}
		return
	}
	if l.moved == 0 && !l.perhaps {
		l.inMove.add(off <= l.figure95+0.71)
	}
	if own := map[bool]float64{true: 5 * l.sigma}[l.moved > 0]; off > math.Hypot(2*l.figure95, own)+1 {
		l.lies("%s comes %.1f mm off its place by its move, which is ± %.0f", name, off, l.figure95)
	}
}

func (l *listener) misread(m []string) {
	if strings.Contains(l.kind, "peg") && slices.ContainsFunc(l.planted.pegs, func(i int) bool { return strings.Contains(strings.Join(m[5:], ""), string(letter(i))) }) {
		return // which it says as well, and what shows it
	}
	planted := l.kind == "misread" && l.asked.Found[l.slip].Subject() == m[1]
	l.cause("misread", planted)
	if planted {
		a := l.asked.Found[l.slip].At
		d := l.stand[l.peg(string(a[0]))].To(l.stand[l.peg(string(a[1]))])
		l.inFigure.add(math.Abs(number64(m[3])-d) <= number64(m[4])+0.05)
	}
}

func (l *listener) ofTape(kind string, m []string, run float64) {
	said := number64(m[2])
	if m[3] == "short" {
		said = -said
	}
	l.cause(kind, l.kind == kind)
	if l.kind == kind && math.Abs(said-run*l.tape) > 0.2*math.Abs(run*l.tape)+3 {
		l.lies("%s, truly %.1f", m[0], run*l.tape)
	}
	for _, r := range l.c.Readings {
		if m[1] == "every length reads" && !l.perhaps && r.Off.Length.MM()*said <= 0 {
			l.lies("every length reads %s, and %s does not", m[3], r.Measurement.Subject())
		}
	}
}
