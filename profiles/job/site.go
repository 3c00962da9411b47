package job

import (
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/pegging"
	"trammel/geom/tape"
	"trammel/geom/unit"
	"trammel/profiles"
	"trammel/profiles/strict"
)

// Site is what is known of the ground, the tools and the day: from the trade, over
// it the job's site, over that the options.
type Site struct {
	Tools tape.Tools
	// Methods that the tools allow, two arcs first.
	Methods   []pegging.Method
	Permitted unit.Length // the K of ±K√L; 0: not said
	Every     unit.Length // from mark to mark along each edge; 0: no marks
	Boards    unit.Length // profile boards clear of the digging by that; 0: none
	Origin    geom.Point  // of the pegs' coordinates, x east and y north: the end of the baseline named first, or else its zero end
	Bearing   unit.Angle  // of the baseline, clockwise from north; along x where it was not said
	Placed    bool        // origin or bearing was said
	NorthUp   bool        // plans lie with north up, not with their baseline level
	Standard  tape.Standard
	// Conditions that the tape is used in; nil: no corrections are asked for.
	Conditions *tape.Conditions
	// From says of each word of siteKeys where it was written, the trade's too.
	From map[string]string
}

// Where a tape is true and how steel behaves, unless its own figures are given:
// Directive 2014/32/EU, annex X, and the usual figures of handbooks.
var steel = tape.Standard{
	Temperature: tape.NormalTemperature, Pull: tape.NormalPull,
	Expansivity: tape.SteelExpansivity, Modulus: tape.SteelModulus,
}

// Limits of what somebody says of a site.
const (
	leastTolerance, mostTolerance = 0.1 * unit.Millimetre, 50 * unit.Millimetre // as a trade's reading
	leastK, mostK                 = 0.1 * unit.Millimetre, 100 * unit.Millimetre
	leastApart, mostApart         = 10 * unit.Millimetre, 1000 * unit.Metre
	leastTape, mostTape           = 1 * unit.Metre, 1000 * unit.Metre
	// farthest is beyond any grid of coordinates: the equator is 40 000 km round.
	farthest = 20_000_000 * unit.Metre
	// mostBare is the most that a bare number of a place counts: a site is not 100 m
	// away in mm, and a grid counts hundreds of thousands of metres.
	mostBare = 100_000
)

// siteKeys are what a job may say under site: of the ground, the tools and the day.
// Each is a text that those read who know what it means; the command line has some
// of them as flags.
//
//	site:
//	  tape: II              accuracy class; hook: yes where the zero is a hook
//	  reading: 1 mm         of a nail and an eye
//	  instrument: none      or square, protractor, theodolite; angle: 30' is what it keeps
//	  permitted: 1.5 mm     the K of a permitted deviation of ±K√L, L in metres
//	  every: 1 m            marks along each edge
//	  boards: 1 m           profile boards, clear of the digging by that
//	  origin: 1000,2000     of the pegs' coordinates: the baseline's first end
//	  bearing: 35deg        of the baseline, clockwise from north; north: up turns the plan to it
//	  temperature: 31C      pull: 50N, span: 10 m: how the tape is used
//	  tape_says: 30 m       and what it is: tape_is: 30.004 m at tape_temperature: 20C
//	                        under tape_pull: 50N; expansion, section, modulus, weight
var siteKeys = []string{"tape", "hook", "reading", "instrument", "angle", "permitted", "every", "boards", "origin", "bearing", "north",
	"temperature", "pull", "span", "tape_says", "tape_is", "tape_temperature", "tape_pull", "expansion", "section", "modulus", "weight"}

func site(v strict.Value) (map[string]Setting, error) {
	fields, err := v.Fields("site", append(slices.Clone(siteKeys), "slope")...)
	if err != nil {
		return nil, err
	}
	all := map[string]Setting{}
	for _, f := range fields {
		if f.Key == "slope" {
			return nil, Slope().In(f.Value.Where())
		}
		if all[f.Key], err = setting(f.Value, f.Key); err != nil {
			return nil, err
		}
	}
	return all, nil
}

// site decides what is known of the site.
func (s settings) site(w *Merged) (Site, error) {
	t := w.Trade
	hook := "no"
	if t.Hook {
		hook = "yes"
	}
	all := map[string]Setting{"tape": {t.Tape, t.From["tape"]}, "instrument": {t.Instrument, t.From["instrument"]}, "hook": {hook, t.From["hook"]}, "reading": {"", t.From["reading"]}}
	maps.Copy(all, s.job.Site)
	maps.Copy(all, s.said.Site)
	r := siteReader{all: all, site: Site{Standard: steel, From: map[string]string{}}, bare: w.Bare}
	r.site.Tools.Reading = t.Reading
	for key, t := range all {
		r.site.From[key] = t.Where
	}
	r.tools()
	r.ground()
	r.tape()
	return r.site, r.err
}

type siteReader struct {
	all  map[string]Setting
	site Site
	bare unit.Unit
	err  error
}

func (r *siteReader) has(keys ...string) bool {
	return slices.ContainsFunc(keys, func(k string) bool { return r.all[k].Text != "" })
}

// answer hands the text under a key, where there is one, to who can read it.
func answer[T any](r *siteReader, key string, to *T, read func(string) (T, error)) {
	t := r.all[key]
	if r.err != nil || t.Text == "" {
		return
	}
	if v, err := read(t.Text); err != nil {
		r.fail(key, err)
	} else {
		*to = v
	}
}

// fail gives an error the place where the key's value was written.
func (r *siteReader) fail(key string, err error) {
	var f *unit.Fault
	if r.err = err; errors.As(err, &f) {
		r.err = &unit.Fault{Where: r.all[key].Where, Subject: unit.Site, Of: key, What: f.What, Hint: f.Hint}
	}
}

// between reads a length within limits; a bare number counts u.
func between(u unit.Unit, least, most unit.Length) func(string) (unit.Length, error) {
	return func(text string) (unit.Length, error) { return unit.ParseSetting(text, u, least, most) }
}

func choice(words ...string) func(string) (string, error) {
	return func(text string) (string, error) {
		if slices.Contains(words, strings.ToLower(text)) {
			return strings.ToLower(text), nil
		}
		return "", &unit.Fault{What: fmt.Sprintf("%q is not known here", strict.Shorten(text)), Hint: strict.Suggest(text, words)}
	}
}

// tools are what the site is measured and set out with.
func (r *siteReader) tools() {
	t := &r.site.Tools
	answer(r, "tape", &t.Tape.Class, tape.ParseClass)
	var hook, instrument string
	answer(r, "hook", &hook, choice("yes", "no"))
	t.Tape.Hook = hook == "yes"
	answer(r, "reading", &t.Reading, between(r.bare, leastTolerance, mostTolerance))
	answer(r, "instrument", &instrument, choice(profiles.Instruments()...))
	// Each does what those before it do: whoever has a theodolite has a tape and a string.
	r.site.Methods = []pegging.Method{pegging.TwoArcs, pegging.OffsetSquare, pegging.AngleDistance}
	t.Instrument = tape.Protractor // angles that were measured were measured with something
	switch instrument {
	case "none":
		r.site.Methods = r.site.Methods[:1]
	case "theodolite":
		t.Instrument = tape.Theodolite
	case "protractor":
	default:
		r.site.Methods = r.site.Methods[:2]
	}
	answer(r, "angle", &t.Instrument.Angle, instrumentAngle)
}

// instrumentAngle reads what an instrument keeps: 30', 20", 0.1deg.
func instrumentAngle(text string) (unit.Angle, error) {
	if !unit.IsAngle(text) {
		return 0, &unit.Fault{What: unit.Quote(text) + " is not an angle", Hint: `what 95 of 100 angles keep: write 30', 20" or 0.1deg`}
	}
	r, err := unit.ParseAngle(text)
	if err != nil { // minutes or seconds alone
		if r, err = unit.ParseAngle("0°" + text); err != nil {
			return 0, err
		}
	}
	if a := r.Angle(); a >= unit.Degree/3600 && a <= 5*unit.Degree {
		return a, nil
	}
	return 0, &unit.Fault{What: unit.Quote(text) + ` is not between 1" and 5°, what instruments keep`, Hint: `write 30', 20" or 0.1deg`}
}

// ground is what is to be built and where.
func (r *siteReader) ground() {
	answer(r, "permitted", &r.site.Permitted, between(unit.MM, leastK, mostK))
	answer(r, "every", &r.site.Every, between(r.bare, leastApart, mostApart))
	answer(r, "boards", &r.site.Boards, between(r.bare, leastApart, mostApart))
	answer(r, "origin", &r.site.Origin, func(text string) (geom.Point, error) { return parsePlace(text, r.bare) })
	answer(r, "bearing", &r.site.Bearing, parseBearing)
	var north string
	if answer(r, "north", &north, choice("up")); r.err == nil && north != "" && !r.has("bearing") {
		r.fail("north", &unit.Fault{What: "nothing says where north is", Hint: "say how the baseline lies as well: bearing: 35deg"})
	}
	r.site.NorthUp = north == "up"
	r.site.Placed = r.has("origin", "bearing")
	if !r.has("bearing") {
		r.site.Bearing = unit.Turn / 4 // along x
	}
}

// parsePlace reads easting and northing: 1000,2000 or 1000 m; 2000,5 m.
func parsePlace(text string, bare unit.Unit) (geom.Point, error) {
	const hint = "write easting,northing, such as 1000,2000; with decimal commas 1000,5; 2000,5"
	cut := ","
	if strings.Contains(text, ";") {
		cut = ";"
	}
	parts := strings.Split(text, cut)
	if len(parts) != 2 {
		return geom.Point{}, &unit.Fault{What: fmt.Sprintf("%q is not a place", strict.Shorten(text)), Hint: hint}
	}
	var xy [2]unit.Length
	for i, p := range parts {
		v, err := unit.ParseSetting(strings.TrimSpace(p), bare, -farthest, farthest)
		if err != nil {
			var f *unit.Fault
			if errors.As(err, &f) && f.Hint == "" {
				f.Hint = hint
			}
			return geom.Point{}, err
		}
		if unit.IsBare(p) && bare != unit.M && bare != unit.FT && math.Abs(float64(v/bare.Length())) > mostBare {
			p = strings.TrimSpace(p)
			return geom.Point{}, &unit.Fault{What: fmt.Sprintf("%s would be %s %s, and looks like metres of a national grid", unit.Quote(p), p, bare),
				Hint: fmt.Sprintf("write %sm, or %s%s", p, p, bare)}
		}
		xy[i] = v
	}
	return geom.Point{X: xy[0], Y: xy[1]}, nil
}

// parseBearing reads an angle clockwise from north, from 0° to less than 360°.
func parseBearing(text string) (unit.Angle, error) {
	a, err := unit.ParseTurn(text)
	if err != nil {
		return 0, err
	}
	if a < 0 || a >= unit.Turn {
		return 0, &unit.Fault{What: unit.Quote(text) + " is not between 0° and 360°", Hint: "a bearing counts clockwise from north: 0 north, 90 east, 180 south, 270 west"}
	}
	return a, nil
}

// tape is what the tape is and how it is used.
func (r *siteReader) tape() {
	if !r.has("temperature", "pull", "span", "tape_says", "tape_is", "tape_temperature", "tape_pull", "expansion", "section", "modulus", "weight") {
		return
	}
	s := &r.site.Standard
	answer(r, "tape_says", &s.Nominal, between(r.bare, leastTape, mostTape))
	answer(r, "tape_is", &s.True, between(r.bare, leastTape, mostTape))
	answer(r, "tape_temperature", &s.Temperature, tape.ParseTemperature)
	answer(r, "tape_pull", &s.Pull, tape.ParseForce)
	answer(r, "expansion", &s.Expansivity, tape.ParseExpansivity)
	answer(r, "section", &s.Section, tape.ParseSection)
	answer(r, "modulus", &s.Modulus, tape.ParseModulus)
	answer(r, "weight", &s.Weight, tape.ParseWeight)
	// What is not said of the day is as it was when the tape was true.
	c := tape.Conditions{Temperature: s.Temperature, Pull: s.Pull}
	answer(r, "temperature", &c.Temperature, tape.ParseTemperature)
	answer(r, "pull", &c.Pull, tape.ParseForce)
	answer(r, "span", &c.Span, between(r.bare, leastApart, mostApart))
	if r.err == nil {
		r.missing(c)
	}
	if r.err == nil {
		r.refused(c)
	}
	r.site.Conditions = &c
}

// missing finds what was said and has no effect because something else was not.
func (r *siteReader) missing(c tape.Conditions) {
	s := r.site.Standard
	lacks := func(key, what, hint string) { r.fail(key, &unit.Fault{What: what, Hint: hint}) }
	switch {
	case r.has("tape_says") && !r.has("tape_is"):
		lacks("tape_says", "nothing says how long the tape truly is", "add tape_is, from its certificate, or leave tape_says out")
	case r.has("tape_is") && !r.has("tape_says"):
		lacks("tape_is", "nothing says what the tape reads over that length", "add tape_says, such as 30 m, or leave tape_is out")
	case c.Span > 0 && s.Weight == 0:
		lacks("span", "a tape that hangs sags, and nothing says what it weighs", "add under site: weight: 0.18N/m, 18g/m or 2.8lb/100ft")
	case c.Pull != s.Pull && s.Section == 0:
		lacks("pull", fmt.Sprintf("the tape is true at %.4g N and stretches otherwise, and nothing says how thick it is", float64(s.Pull)),
			"add under site: section: 4.2mm2 or 0.0075in2 (width times thickness); or tape_pull, where it is true at another pull")
	case r.has("weight") && c.Span == 0:
		lacks("weight", "weight makes a tape sag that hangs, and nothing says how far apart its supports are", "add span, such as 10 m, or leave weight out")
	}
}

// refused asks the tape itself whether it can be used like that.
func (r *siteReader) refused(c tape.Conditions) {
	_, _, err := r.site.Standard.Reading(unit.Metre, c)
	var f *unit.Fault
	if !errors.As(err, &f) {
		r.err = err
		return
	}
	for _, key := range map[string][]string{
		"tape": {"tape_is", "section", "pull"}, "temperature": {"temperature", "tape_temperature"}, "pull": {"pull", "span"},
	}[f.Of] {
		if r.has(key) {
			r.fail(key, f)
			return
		}
	}
	r.err = err
}
