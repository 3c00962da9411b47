package calibration

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"trammel/geom"
	"trammel/geom/tape"
	"trammel/geom/unit"
	"trammel/plot/calibrate"
	"trammel/profiles"
)

// reading is how closely a length is read where nobody says it: one standard
// deviation besides the rounding, of a careful eye on half millimetres (judgement).
const reading unit.Length = 0.1

// tool takes what is said of the rule and of the reading.
func (c *Step) tool(o Options) error {
	c.said = profiles.RuleSaid{Rule: strings.TrimSpace(o.Rule.Text), Reading: strings.TrimSpace(o.Reading.Text)}
	var rule, reading error
	if c.said.Rule != "" {
		_, _, rule = profiles.ParseRule(c.said.Rule)
	}
	if c.said.Reading != "" {
		_, reading = profiles.ParseReading(c.said.Reading)
	}
	return cmp.Or(unit.Placed(rule, o.Rule.Where), unit.Placed(reading, o.Reading.Where))
}

// tool is the rule, and the noise of its readings, for what was said of them: a rule
// of which nothing was said is taken for class II, the usual one.
func tool(said profiles.RuleSaid) (calibrate.Rule, unit.Length) {
	noise := reading
	if said.Reading != "" {
		noise, _ = profiles.ParseReading(said.Reading) // it was read when it was said
	}
	class, wrong := "II", unit.Length(0)
	if said.Rule != "" {
		class, wrong, _ = profiles.ParseRule(said.Rule)
	}
	if class == "" {
		return calibrate.Rule{Name: "known to " + said.Rule, Fixed: wrong}, noise
	}
	t := tape.Tape{Class: map[string]tape.Class{"I": tape.ClassI, "II": tape.ClassII, "III": tape.ClassIII}[class]}
	r := calibrate.Rule{Name: "class " + class}
	r.Fixed, r.PerMetre, _ = t.Terms()
	return r, noise
}

// Learned is a calibration just made.
type Learned struct {
	profiles.Calibration
	readings calibrate.Readings
	came     *geom.Fit // how a corrected sheet came out
	says     unit.Says
}

// Learn makes of what was found on the sheet a calibration to keep. The error is a
// *unit.Fault that has no place yet.
func (c Step) Learn(f Found, date string) (Learned, error) {
	s := c.Sheet
	r := s.Blank()
	r.AB, r.AD, r.AC, r.BD = f.AB, f.AD, f.AC, f.BD
	r.Rule, r.Noise = tool(c.said)
	if r.Fine {
		for _, l := range []unit.Length{f.AB, f.AD, f.AC, f.BD} {
			if ten := l.MM() * 10; math.Abs(ten-math.Round(ten)) > 1e-6 {
				return Learned{}, &unit.Fault{What: fmt.Sprintf("%g is not in tenths, and a corrected sheet is read in tenths, by its ticks", l.MM()), Hint: "the tick that meets a millimetre mark of the rule is the tenths"}
			}
		}
	}
	if err := r.Check(s.Paper); err != nil {
		return Learned{}, err
	}
	made := profiles.Calibration{Printer: s.Printer, Paper: s.Paper, Width: s.Width, Height: s.Height, Edges: f.Edges}
	all := []calibrate.Readings{r}
	if s.Number > 1 {
		made.Sheets = c.known.Sheets
		if n := len(made.Sheets); n >= profiles.MostSheets {
			made.Sheets = made.Sheets[n-profiles.MostSheets+1:]
		}
		all = append(readings(made.Sheets), r)
	}
	if c.known != nil && f.Edges == nil {
		made.Edges = c.known.Edges
	}
	fit, err := calibrate.Solve(all)
	if err != nil {
		return Learned{}, err
	}
	if err := calibrate.Plausible(fit.Distortion, s.Paper); err != nil {
		return Learned{}, err
	}
	p := calibrate.Promised(fit, all)
	made.Found, made.Uncertainty, made.OfRule = profiles.Misprint(fit.Distortion), p.All(), p.Rule
	made.Sheets = append(made.Sheets[:len(made.Sheets):len(made.Sheets)], profiles.SheetRecord{
		Date: date, Width: r.Width, Height: r.Height, Corrected: profiles.Misprint(r.Corrected), Fine: r.Fine, AB: f.AB, AD: f.AD, AC: f.AC, BD: f.BD, Tool: c.said,
	})
	l := Learned{Calibration: made, readings: r, says: s.Says}
	if s.Number > 1 {
		if one, err := geom.FitDistortion(inPlace(r).Spans()); err == nil {
			l.came = &one
		}
	}
	return l, nil
}

// next is what one more sheet, corrected and read by its ticks, would leave open.
func (l Learned) next() calibrate.Promise {
	r := readings(l.Sheets)
	more := r[len(r)-1].Larger(1)
	more.Fine = true
	return promised(append(r, more))
}

// larger is what paper twice as wide and high would leave open, on one sheet.
func (l Learned) larger() calibrate.Promise {
	r := l.readings.Larger(2)
	r.Fine = false
	return promised([]calibrate.Readings{r})
}

func promised(all []calibrate.Readings) calibrate.Promise {
	var spans []geom.Span
	for _, r := range all {
		spans = append(spans, r.Spans()...)
	}
	fit, err := geom.FitDistortion(spans)
	if err != nil {
		return calibrate.Promise{}
	}
	return calibrate.Promised(fit, all)
}

// Summary says what was learned and what to do next.
func (l Learned) Summary() []string {
	lines := Text(l.Calibration)
	c, limit := l.readings.Closing().MM(), l.readings.Limit().MM()
	lines = append(lines, "",
		fmt.Sprintf("The four readings agree to %.2f mm on a diagonal; up to %.1f mm may come from reading and rule, so a slip smaller than that does not show.", math.Abs(c), limit))
	if w := l.came; w != nil {
		off, open := w.Worst(), calibrate.Promised(*w, []calibrate.Readings{inPlace(l.readings)}).All()
		if off <= open {
			lines = append(lines, fmt.Sprintf("The corrected sheet came out true as far as its readings tell: %.2f mm per metre off, and they leave %.2f open.", 1000*off, 1000*open))
		} else {
			lines = append(lines, fmt.Sprintf("The corrected sheet came out %.2f mm per metre off, more than the %.2f that its readings leave open; both sheets count now. Print another one with %s.", 1000*off, 1000*open, l.says.Of(unit.Again, "", false)))
		}
	}
	if l.Uncertainty > goodEnough {
		lines = append(lines, fmt.Sprintf("Truer: longer lengths, %.2f mm per metre on paper twice as wide and high, with a rule to match; or one more sheet with %s, read in tenths, %.2f.", 1000*l.larger().All(), l.says.Of(unit.Again, "", false), 1000*l.next().All()))
	}
	lines = append(lines, l.ofRule(), l.ofReading())
	if l.Edges == nil {
		lines = append(lines, "No edges were read: margins stay as the printer's profile has them.")
	}
	return lines
}

// ofRule says what the rule may be wrong by, over the longer side that was read.
func (l Learned) ofRule() string {
	said := l.Sheets[len(l.Sheets)-1].Tool.Rule
	r, _ := tool(profiles.RuleSaid{Rule: said})
	long := max(l.readings.AB, l.readings.AD)
	may := func(who string) string {
		e := r.Wrong(long).MM()
		return fmt.Sprintf("%s may be %s mm wrong over %.0f mm, which is %.2f mm per metre", who, unit.Decimals(e, 2), long.MM(), 1000*e/long.MM())
	}
	better := "Larger paper with a longer rule makes it less, and so does a rule that was compared with a known one: " + l.says.Of(unit.Rule, "0.05mm", false) + ", or what it is wrong by at most."
	switch {
	case said == "":
		return may("The rule: its class was not said, and one of class II") + " (Directive 2014/32/EU, annex X). Say which is stamped on it: " + l.says.Of(unit.Rule, "I, II or III", false) + ". " + better
	case strings.HasPrefix(r.Name, "class"):
		return may("The rule: one of "+r.Name) + " (Directive 2014/32/EU, annex X). " + better
	case r.Fixed == 0:
		return "The rule: taken for true, as was said."
	}
	return may("The rule: as was said, it") + "."
}

func (l Learned) ofReading() string {
	said := l.Sheets[len(l.Sheets)-1].Tool.Reading
	_, noise := tool(profiles.RuleSaid{Reading: said})
	step := unit.Decimals(l.readings.Step().MM(), 2)
	if said == "" {
		return fmt.Sprintf("The reading: taken to be good to %s mm two times in three, besides the step of %s mm; if yours is better or worse, say %s.", unit.Decimals(noise.MM(), 2), step, l.says.Of(unit.Closeness, "", false))
	}
	return fmt.Sprintf("The reading: good to %s mm two times in three, as was said, besides the step of %s mm.", unit.Decimals(noise.MM(), 2), step)
}

// goodEnough is a quarter of a millimetre in a metre.
const goodEnough = 0.00025

// First says whether it is made of a first sheet, which nobody has seen come out true.
func (l Learned) First() bool { return l.came == nil }

func readings(records []profiles.SheetRecord) (all []calibrate.Readings) {
	for _, s := range records {
		r := calibrate.Readings{Width: s.Width, Height: s.Height, Corrected: geom.Distortion(s.Corrected), Fine: s.Fine, AB: s.AB, AD: s.AD, AC: s.AC, BD: s.BD}
		r.Rule, r.Noise = tool(s.Tool)
		all = append(all, r)
	}
	return all
}

// inPlace are readings of a sheet as it was to come out, not as the file has it.
func inPlace(r calibrate.Readings) calibrate.Readings {
	r.Corrected = geom.Distortion{}
	return r
}
