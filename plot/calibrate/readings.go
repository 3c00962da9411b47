package calibrate

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/unit"
)

// Promise is how far any length on a corrected page may be off, of its length.
type Promise struct {
	Reading float64 // what 95 of 100 pages keep if the rule is true
	Rule    float64 // the most that the rule itself adds
}

// All of it: a rule that is wrong is wrong for every page, so its share is added whole.
func (p Promise) All() float64 { return p.Reading + p.Rule }

// Promised is what the fit to those readings can promise. The rule's share is that of the
// worst rule within its limits: off by all that it may be at some of the marks of width,
// height and diagonals (which lie side by side), true at the others, and alike on every
// sheet; of several rules each may be at its worst.
func Promised(fit geom.Fit, all []Readings) Promise {
	p := Promise{Reading: fit.Uncertainty()}
	seen := map[string]bool{}
	for _, r := range all {
		if !seen[r.Rule.Name] {
			seen[r.Rule.Name] = true
			p.Rule += ruleShare(fit, all, r.Rule.Name)
		}
	}
	return p
}

// ruleShare is by how much the rule of that name can bend the fit.
func ruleShare(fit geom.Fit, all []Readings, name string) float64 {
	worst := 0.0
	for way := 1; way < 8; way++ { // at which of the three it is off
		var spans []geom.Span
		for _, r := range all {
			for i, s := range r.Spans() {
				if r.Rule.Name == name && way>>min(i, 2)&1 == 1 {
					s.Found += r.Rule.Wrong(s.Found)
				}
				spans = append(spans, s)
			}
		}
		bent, err := geom.FitDistortion(spans)
		if err != nil {
			continue // it was fixed before, and a tenth of a millimetre does not undo that
		}
		d := geom.Distortion{Across: bent.Across - fit.Across, Along: bent.Along - fit.Along, Skew: bent.Skew - fit.Skew}
		worst = max(worst, d.Worst())
	}
	return worst
}

// Larger are readings of a sheet so many times as wide and high that came out true,
// read as these were.
func (r Readings) Larger(times float64) Readings {
	r.Width, r.Height, r.Corrected = r.Width*unit.Length(times), r.Height*unit.Length(times), geom.Distortion{}
	d := unit.Length(math.Hypot(r.Width.MM(), r.Height.MM()))
	r.AB, r.AD, r.AC, r.BD = r.Width, r.Height, d, d
	return r
}

// Readings are the four lengths of a sheet, from cross to cross, as found on paper.
type Readings struct {
	Width, Height unit.Length // of the rectangle as it was meant
	Corrected     geom.Distortion
	AB, AD        unit.Length
	AC, BD        unit.Length
	Fine          bool        // read by the ticks, to a tenth
	Noise         unit.Length // of the hand and the eye besides the step, one standard deviation
	Rule          Rule
}

// Steps of reading: by eye between the marks of a rule, and by the ticks.
const (
	EyeStep  unit.Length = 0.25
	FineStep unit.Length = 0.1
)

// Step to which the lengths are read.
func (r Readings) Step() unit.Length {
	if r.Fine {
		return FineStep
	}
	return EyeStep
}

// Limit is how far a diagonal may be from what the other readings make of it.
// Readings that are within half a step leave at most (1 + √2) steps, in a square:
// 0.6 mm by eye. The ticks have a little more for the rule's zero. Four readings of a
// standard deviation s leave √6 s, of which 3.3 are passed once in a thousand sheets; a
// rule that is off at the diagonals alone leaves twice that. Both at once are rare.
func (r Readings) Limit() unit.Length {
	least := unit.Length(0.6)
	if r.Fine {
		least = 0.3
	}
	if r.Noise == 0 && r.Rule.Wrong(r.AC) == 0 {
		return least
	}
	return max(least, unit.Length(math.Hypot(3.3*math.Sqrt(6)*r.spread(), 2*r.Rule.Wrong(r.AC).MM())))
}

// spread of one reading, rounding and noise, as one standard deviation in mm.
func (r Readings) spread() float64 {
	return math.Hypot(r.Step().MM()/math.Sqrt(12), r.Noise.MM())
}

// Agreement is how far a reading may be from what all sheets together make of it:
// half a step of a first sheet, as much for the others, and a little for the paper.
const Agreement unit.Length = 0.3

// agreement is that of several sheets, with their noise: passed by one length of a
// thousand, as Limit is.
func agreement(all []Readings) unit.Length {
	most := Agreement
	for _, r := range all {
		if r.Noise > 0 {
			most = max(most, unit.Length(3.3*r.spread()))
		}
	}
	return most
}

// names of the lengths in the order of all lists here.
var names = [4]string{"AB", "AD", "AC", "BD"}

func (r Readings) found() [4]unit.Length { return [4]unit.Length{r.AB, r.AD, r.AC, r.BD} }

// over are the four lengths from end to end, as meant.
func (r Readings) over() [4]geom.Point {
	return [4]geom.Point{{X: r.Width}, {Y: r.Height}, {X: r.Width, Y: r.Height}, {X: -r.Width, Y: r.Height}}
}

// Spans are the lengths that were really compared with the rule. By eye those are
// from cross to cross. By the ticks it is the one from the first cross to the tick
// that met a mark of the rule: a scale of 1 % moves that tick too.
func (r Readings) Spans() []geom.Span {
	file, _ := r.Corrected.Affine().Inverse()
	var all []geom.Span
	over, found := r.over(), r.found()
	for i := range over {
		v, l := over[i], found[i]
		if r.Fine {
			_, tenths := math.Modf(l.MM())
			back := tickStart(r.Width, r.Height, i >= 2) + tickPitch*unit.Length(math.Round(tenths*10))
			long := v.Distance(geom.Point{})
			v, l = v.Times(float64((long-back)/long)), l-back
		}
		all = append(all, geom.Span{Over: file.Apply(v), Found: l, Step: r.Step(), Noise: r.Noise})
	}
	return all
}

// Closing is by how much a diagonal is too long for the other three readings,
// which is all that four readings of a rectangle say about each other.
func (r Readings) Closing() unit.Length { return geom.Closing(r.AB, r.AD, r.AC, r.BD) }

// suspect is one reading, what the other three make of it, and how far from true
// the printer would be by those.
type suspect struct {
	name      string
	read, ask unit.Length
	odd       float64
}

// suspects are the readings that may be the wrong one, the likeliest first: the one
// whose removal leaves the most ordinary printer.
func (r Readings) suspects() []suspect {
	f := r.found()
	sq := func(l unit.Length) float64 { return l.MM() * l.MM() }
	half := (sq(f[2]) + sq(f[3])) / 2
	twice := 2 * (sq(f[0]) + sq(f[1]))
	var all []suspect
	for i, v := range [4]float64{half - sq(f[1]), half - sq(f[0]), twice - sq(f[3]), twice - sq(f[2])} {
		q := f
		q[i] = unit.Length(math.Sqrt(max(v, 0)))
		g := r
		g.Fine, g.AB, g.AD, g.AC, g.BD = false, q[0], q[1], q[2], q[3]
		odd := math.Inf(1)
		if fit, err := geom.FitDistortion(g.Spans()); err == nil && q[i] > 0 {
			odd = math.Hypot(math.Hypot(fit.Across, fit.Along), math.Hypot(fit.Across-fit.Along, 2*fit.Skew.Radians()))
		}
		all = append(all, suspect{names[i], f[i], q[i], odd})
	}
	slices.SortStableFunc(all, func(a, b suspect) int { return cmp.Compare(a.odd, b.odd) })
	return all
}

// Check refuses readings that do not belong to one rectangle, or to a page that
// was printed at its size. The error is a *unit.Fault.
func (r Readings) Check(paper string) error {
	if err := r.swapped(); err != nil {
		return err
	}
	if c := r.Closing(); math.Abs(c.MM()) > r.Limit().MM() || math.IsNaN(c.MM()) {
		way := "long"
		if c < 0 {
			way = "short"
		}
		s := r.suspects()
		var rest []string
		for _, x := range s[1:] {
			rest = append(rest, fmt.Sprintf("%s %.1f", x.name, x.ask.MM()))
		}
		return &unit.Fault{
			What: fmt.Sprintf("the four readings do not belong together: the diagonals are %.1f mm too %s for the sides, and reading and rule leave %.1f mm at most", math.Abs(c.MM()), way, r.Limit().MM()),
			Hint: fmt.Sprintf("measure %s again first: by the other three it is about %.1f, and %s was read; if it stays, one of the others is off (%s), or the rule is: try another rule", s[0].name, s[0].ask.MM(), number(s[0].read), strings.Join(rest, ", ")),
		}
	}
	fit, err := geom.FitDistortion(r.Spans())
	if err != nil {
		return &unit.Fault{What: err.Error(), Hint: "measure again from cross to cross"}
	}
	return Plausible(fit.Distortion, paper)
}

// Limits of what is a printer's doing; beyond them the page was made to fit.
const (
	mostStretch = 0.03
	mostSkew    = 1 * unit.Degree
)

// Plausible refuses what no printer does by itself. The error is a *unit.Fault.
func Plausible(d geom.Distortion, paper string) error {
	again := unit.Advice{Code: unit.Stretched, Figure: paper}
	for _, s := range []struct {
		way     string
		stretch float64
	}{{"across", d.Across}, {"along", d.Along}} {
		if math.Abs(s.stretch) > mostStretch {
			return &unit.Fault{What: fmt.Sprintf(`%s, the page is %s: "fit to page" is on (3 %% is the most that is a printer's own)`, s.way, Stretch(s.stretch)), Subject: unit.Found, Advice: again}
		}
	}
	if math.Abs(d.Skew.Degrees()) > mostSkew.Degrees() {
		return &unit.Fault{What: fmt.Sprintf(`the page is %.1f° off square: "fit to page" is on, or a diagonal is misread (1° is the most that is a printer's own)`, math.Abs(d.Skew.Degrees())), Subject: unit.Found, Advice: again}
	}
	return nil
}

// Stretch is a stretch in words.
func Stretch(s float64) string {
	switch text := fmt.Sprintf("%.2f %%", 100*math.Abs(s)); {
	case text == "0.00 %":
		return "true"
	case s < 0:
		return text + " too short"
	default:
		return text + " too long"
	}
}

func number(l unit.Length) string { return unit.Decimals(l.MM(), 3) }

// Solve is the least-squares fit to all sheets together. It refuses sheets that
// do not agree: then the printer or its paper is another one than before. The
// error is a *unit.Fault.
func Solve(all []Readings) (geom.Fit, error) {
	var spans []geom.Span
	for _, r := range all {
		spans = append(spans, r.Spans()...)
	}
	fit, err := geom.FitDistortion(spans)
	if err != nil {
		return fit, &unit.Fault{What: err.Error(), Hint: "measure again from cross to cross"}
	}
	if len(all) == 1 {
		return fit, nil // what one sheet can say against itself, Check has looked at
	}
	worst, last := 0.0, 0
	for i, left := range fit.Left {
		worst = max(worst, math.Abs(left.MM()))
		if math.Abs(left.MM()) > math.Abs(fit.Left[len(fit.Left)-4+last].MM()) && i >= len(fit.Left)-4 {
			last = i - (len(fit.Left) - 4)
		}
	}
	if most := agreement(all); worst > most.MM() {
		return fit, &unit.Fault{
			What:    fmt.Sprintf("this sheet does not agree with what is known: a length is %.2f mm from what all sheets give together, and %.1f mm is the most that reading explains", worst, most.MM()),
			Subject: unit.Found, Advice: unit.Advice{Code: unit.Unlike, Figure: names[last]},
		}
	}
	return fit, nil
}

// Rule is what the lengths were read with: between any two of its marks it may be
// wrong by Fixed, and by PerMetre for each metre between them, begun ones counted
// whole. The zero value is a rule without any error.
type Rule struct {
	Name            string // "class II"; readings of one name are by one rule
	Fixed, PerMetre unit.Length
}

// Wrong is how far off the rule may be over a length.
func (r Rule) Wrong(l unit.Length) unit.Length {
	const same = 1e-9 // a whole number of metres but for rounding
	return r.Fixed + r.PerMetre*unit.Length(math.Ceil(math.Abs(l.MM())/1000*(1-same)))
}

// swapped says that the width stands for the height and the other way round: so the
// readings are a printer's, and as they stand they are not.
func (r Readings) swapped() error {
	near := func(found, meant unit.Length) bool { return math.Abs(float64(found/meant)-1) <= mostStretch }
	if near(r.AB, r.Width) && near(r.AD, r.Height) || !near(r.AB, r.Height) || !near(r.AD, r.Width) {
		return nil
	}
	return &unit.Fault{
		What: fmt.Sprintf("width and height are swapped: %s was typed for A to B, which is to be %s mm, and %s for A to D, which is to be %s", number(r.AB), number(r.Width), number(r.AD), number(r.Height)),
		Hint: fmt.Sprintf("look at the letters on the sheet; if that is so, type width=%s,height=%s", number(r.AD), number(r.AB)),
	}
}
