package profiles

import (
	"errors"
	"fmt"
	"regexp"
	"strings"

	"trammel/geom/unit"
	"trammel/profiles/strict"
)

// From says of each key of a profile where its value was written: BuiltIn, a
// file with its line, or the flag.
type From map[string]string

// Paper is a kind of sheet, upright as it is named.
type Paper struct {
	Name          string
	Width, Height unit.Length
	Roll          bool // as long as is needed: Height is the most
	From          From
}

// Printer is what a printer leaves free at the edges of a sheet, and what
// neighbouring pages show twice.
type Printer struct {
	Name                     string
	Left, Top, Right, Bottom unit.Length
	Overlap                  unit.Length
	From                     From
}

// Trade is how one trade writes and what it has at hand.
type Trade struct {
	Name       string
	Unit       unit.Unit   // of a bare number
	Figures    unit.Style  // how figures are written
	Lettering  unit.Length // height of figures
	Show       map[string]bool
	Compass    unit.Length // longest radius, 0 where it does not matter
	Protractor unit.Angle  // smallest step that can be set
	Saw        unit.Angle  // how far the mitre saw turns to each side of a square cut
	Tape       string      // accuracy class: I, II or III
	Hook       bool        // the tape's zero is a hook or the end of its case
	Instrument string      // what angles are set out with: one of Instruments
	Reading    unit.Length // of nail and eye over the tape, one pull
	From       From
}

// Shown are the words that show may hold.
func Shown() []string { return []string{"arcs", "heights", "angles", "lengths", "steps", "settings"} }

// Classes are the accuracy classes of tapes (OIML R 35).
func Classes() []string { return []string{"I", "II", "III"} }

// Instruments are what angles are set out with; square is a 3-4-5 triangle of
// tape and string.
func Instruments() []string { return []string{"none", "square", "protractor", "theodolite"} }

// Default is the name of the paper, printer or trade to take where nobody says,
// and where that was written.
func (s Set) Default(kind string) (name, from string) {
	d := s.values.Defaults
	return map[string]string{"paper": d.Paper, "printer": d.Printer, "trade": d.Trade}[kind], s.from[path("defaults", kind)]
}

var custom = regexp.MustCompile(`^\s*([0-9].*?)\s*[xX×]\s*(.+?)\s*$`)

// Paper finds a paper by its name, or reads a size such as 300x500 or 12x18in:
// width by height, mm where no unit stands. A *unit.Fault has no place yet.
func (s Set) Paper(name string) (Paper, error) {
	if m := anyFirst.FindStringSubmatch(name); m != nil {
		return Paper{}, &unit.Fault{What: fmt.Sprintf("%q: the width of a roll comes first, and it is a length", strict.Shorten(name)), Hint: "write the width and then any, such as 914xany"}
	}
	if m := custom.FindStringSubmatch(name); m != nil {
		return customPaper(name, m[1], m[2])
	}
	text, ok := s.values.Papers[id(name)]
	if !ok {
		return Paper{}, s.unknown("paper", "papers", name, "; a size of its own: 300x500 or 12x18in")
	}
	p := Paper{Name: s.nameOf("papers", id(name)), From: s.origins("papers", id(name))}
	var errs [2]error
	p.Width, errs[0] = lengthBetween(text.Width, leastPaper, mostPaper)
	p.Height, errs[1] = lengthBetween(text.Height, leastPaper, mostPaper)
	return p, errors.Join(errs[:]...)
}

// anyLength is written for the length of a roll.
const anyLength = "any"

var anyFirst = regexp.MustCompile(`(?i)^\s*any\s*[x×]`)

func customPaper(name, width, height string) (Paper, error) {
	p := Paper{Name: name, From: From{}}
	if strings.EqualFold(height, anyLength) {
		p.Roll, p.Height = true, mostPaper
		var err error
		if p.Width, err = lengthBetween(width, leastPaper, mostPaper); err != nil {
			bad := &unit.Fault{What: err.Error()}
			errors.As(err, &bad)
			return p, &unit.Fault{What: bad.What, Hint: "a roll is its width and any, such as 914xany or 36inxany"}
		}
		return p, nil
	}
	bare := unit.MM
	if _, err := lengthBetween(height, leastPaper, mostPaper); err == nil {
		// 12x18in: both are inches, once the second is known to be a length.
		if r, err := unit.ParseLength(height, bare); err == nil {
			bare = r.Unit
		}
	}
	for _, side := range []struct {
		text string
		to   *unit.Length
	}{{width, &p.Width}, {height, &p.Height}} {
		l, err := unit.ParseSetting(side.text, bare, leastPaper, mostPaper)
		if err != nil {
			bad := &unit.Fault{What: err.Error()}
			errors.As(err, &bad)
			return p, &unit.Fault{What: bad.What, Hint: "a size is width x height in mm, such as 300x500; inches are written 12x18in"}
		}
		*side.to = l
	}
	return p, nil
}

// Printer finds a printer by its name. A *unit.Fault has no place yet.
func (s Set) Printer(name string) (Printer, error) {
	text, ok := s.values.Printers[id(name)]
	if !ok {
		return Printer{}, s.unknown("printer", "printers", name, "")
	}
	p := Printer{Name: s.nameOf("printers", id(name)), From: s.origins("printers", id(name))}
	base := s.values.Printers["office"]
	for _, v := range []struct {
		key, text, base string
		to              *unit.Length
	}{
		{"left", text.Left, base.Left, &p.Left},
		{"top", text.Top, base.Top, &p.Top},
		{"right", text.Right, base.Right, &p.Right},
		{"bottom", text.Bottom, base.Bottom, &p.Bottom},
		{"overlap", text.Overlap, base.Overlap, &p.Overlap},
	} {
		l, err := lengthBetween(s.inherit(p.From, "printers", "office", v.key, v.text, v.base), 0, mostMargin)
		if err != nil {
			return p, err
		}
		*v.to = l
	}
	return p, nil
}

// Trade finds a trade by its name. A *unit.Fault has no place yet.
func (s Set) Trade(name string) (Trade, error) {
	text, ok := s.values.Trades[id(name)]
	if !ok {
		return Trade{}, s.unknown("trade", "trades", name, "")
	}
	t := Trade{Name: s.nameOf("trades", id(name)), From: s.origins("trades", id(name)), Show: map[string]bool{}}
	base := s.values.Trades["general"]
	get := func(key, own, base string) string { return s.inherit(t.From, "trades", "general", key, own, base) }
	var errs [8]error
	t.Unit, errs[0] = unit.ParseUnit(get("unit", text.Unit, base.Unit))
	t.Figures.Unit = t.Unit
	t.Figures.Denominator, errs[1] = ParseFraction(get("fraction", text.Fraction, base.Fraction))
	t.Figures.Minutes, errs[2] = ParseAngles(get("angles", text.Angles, base.Angles))
	t.Lettering, errs[3] = lengthBetween(get("lettering", text.Lettering, base.Lettering), leastLettering, mostLettering)
	t.Protractor, errs[4] = parseStep(get("protractor", text.Protractor, base.Protractor))
	t.Saw, errs[7] = parseSaw(get("saw", text.Saw, base.Saw))
	if c := get("compass", text.Compass, base.Compass); c != "" {
		t.Compass, errs[5] = lengthBetween(c, 10, 100*unit.Metre)
	}
	t.Tape = get("tape", text.Tape, base.Tape)
	t.Hook = get("hook", text.Hook, base.Hook) == "yes"
	t.Instrument = get("instrument", text.Instrument, base.Instrument)
	t.Reading, errs[6] = lengthBetween(get("reading", text.Reading, base.Reading), leastReading, mostReading)
	show := text.Show
	if get("show", strings.Join(text.Show, " "), strings.Join(base.Show, " ")) != "" && t.From["show"] != s.from[path("trades", id(name), "show")] {
		show = base.Show
	}
	for _, w := range show {
		t.Show[w] = true
	}
	return t, errors.Join(errs[:]...)
}

// inherit takes a value from the profile that lends, where the profile itself
// has none, and notes that.
func (s Set) inherit(from From, kind, lender, key, own, lent string) string {
	if from[key] != "" {
		return own
	}
	if origin := s.from[path(kind, lender, key)]; origin != "" {
		from[key] = origin + ", from " + lender
	}
	return lent
}

func (s Set) origins(kind, id string) From {
	from := From{}
	for _, k := range keysOf(kind) {
		if o := s.from[path(kind, id, k.name)]; o != "" {
			from[k.name] = o
		}
	}
	return from
}

func (s Set) unknown(what, kind, name, more string) error {
	var known []string
	for _, id := range s.ids(kind) {
		known = append(known, s.names[path(kind, id)])
	}
	hint := strict.Suggest(id(name), known)
	if strict.Nearest(id(name), known) == "" && len(known) > 12 {
		hint = "trammel profiles lists them"
	}
	if strict.Nearest(id(name), known) == "" {
		hint += more
	}
	return &unit.Fault{What: fmt.Sprintf("%q is no %s that is known", strict.Shorten(name), what), Hint: hint}
}
