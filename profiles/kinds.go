package profiles

import (
	"errors"
	"fmt"
	"maps"
	"regexp"
	"strconv"
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
	Said          []Item // of a profile; of a size as it was written none
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
	Said       []Item // what it is made of, as text, with what general lends it
}

// Default is the name of the paper, printer or trade to take where nobody says,
// and where that was written.
func (s Set) Default(kind string) (name, from string) {
	return s.values[path("defaults", kind)], s.from[path("defaults", kind)]
}

// DefaultAt is that place as messages name it, to the column and with its key.
func (s Set) DefaultAt(kind string) string { return s.at[path("defaults", kind)] }

// Preferring is the set with another default of a kind, from the place that says so.
func (s Set) Preferring(kind, name, place string) Set {
	p := path("defaults", kind)
	s.values, s.from, s.at = maps.Clone(s.values), maps.Clone(s.from), maps.Clone(s.at)
	s.values[p], s.from[p], s.at[p] = name, place, place
	return s
}

var custom = regexp.MustCompile(`^\s*([0-9].*?)\s*[xX×]\s*(.+?)\s*$`)

// Paper finds a paper by its name, or reads a size such as 300x500 or 12x18in:
// width by height, mm where no unit stands. A *unit.Fault has no place yet.
func (s Set) Paper(name string) (Paper, error) {
	if m := anyFirst.FindStringSubmatch(name); m != nil {
		return Paper{}, &unit.Fault{What: fmt.Sprintf("%q: the width of a roll comes first, and it is a length", strict.Shorten(name)), Hint: "write the width and then any, such as 914xany"}
	}
	if m := custom.FindStringSubmatch(name); m != nil {
		return customPaper(strings.Join(strings.Fields(name), " "), m[1], m[2])
	}
	if !s.has("papers", name) {
		return Paper{}, s.unknown("paper", "papers", name, "; a size of its own: 300x500 or 12x18in")
	}
	return paperOf(s.nameOf("papers", id(name)), s.said("papers", name, ""))
}

// paperOf is a paper as its values say.
func paperOf(name string, said []Item) (Paper, error) {
	p := Paper{Name: name, From: fromOf(said), Said: said}
	var errs [2]error
	p.Width, errs[0] = lengthBetween(textOf(said, "width"), leastPaper, mostPaper)
	p.Height, errs[1] = lengthBetween(textOf(said, "height"), leastPaper, mostPaper)
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
	if !s.has("printers", name) {
		return Printer{}, s.unknown("printer", "printers", name, "")
	}
	return printerOf(s.nameOf("printers", id(name)), s.said("printers", name, "office"))
}

// printerOf is a printer as its values say.
func printerOf(name string, said []Item) (p Printer, err error) {
	p = Printer{Name: name, From: fromOf(said)}
	for key, to := range map[string]*unit.Length{"left": &p.Left, "top": &p.Top, "right": &p.Right, "bottom": &p.Bottom, "overlap": &p.Overlap} {
		l, wrong := lengthBetween(textOf(said, key), 0, mostMargin)
		if wrong != nil {
			err = wrong
		}
		*to = l
	}
	return p, err
}

// Said is the printer as its values would say it: read again they are the same.
func (p Printer) Said() []Item {
	items := []Item{{Key: "left", Text: exact(p.Left)}, {Key: "top", Text: exact(p.Top)}, {Key: "right", Text: exact(p.Right)}, {Key: "bottom", Text: exact(p.Bottom)}, {Key: "overlap", Text: exact(p.Overlap)}}
	for i := range items {
		items[i].From = p.From[items[i].Key]
	}
	return items
}

// Trade finds a trade by its name. A *unit.Fault has no place yet.
func (s Set) Trade(name string) (Trade, error) {
	if !s.has("trades", name) {
		return Trade{}, s.unknown("trade", "trades", name, "")
	}
	return tradeOf(s.nameOf("trades", id(name)), s.said("trades", name, "general"))
}

// tradeOf is a trade as its values say.
func tradeOf(name string, said []Item) (Trade, error) {
	t := Trade{Name: name, From: fromOf(said), Said: said, Show: map[string]bool{}}
	get := func(key string) string { return textOf(said, key) }
	var errs [8]error
	t.Unit, errs[0] = unit.ParseUnit(get("unit"))
	t.Figures.Unit = t.Unit
	t.Figures.Denominator, errs[1] = ParseFraction(get("fraction"))
	t.Figures.Minutes, errs[2] = ParseAngles(get("angles"))
	t.Lettering, errs[3] = lengthBetween(get("lettering"), leastLettering, mostLettering)
	t.Protractor, errs[4] = parseStep(get("protractor"))
	t.Saw, errs[7] = parseSaw(get("saw"))
	if c := get("compass"); c != "" {
		t.Compass, errs[5] = lengthBetween(c, 10, 100*unit.Metre)
	}
	t.Tape = get("tape")
	t.Hook = get("hook") == "yes"
	t.Instrument = get("instrument")
	t.Reading, errs[6] = lengthBetween(get("reading"), leastReading, mostReading)
	for _, w := range strings.Fields(get("show")) {
		t.Show[w] = true
	}
	return t, errors.Join(errs[:]...)
}

// has says whether there is a profile of that kind and name.
func (s Set) has(kind, name string) bool { return s.names[path(kind, id(name))] != "" }

// said are the values of a profile in the order of its kind's keys: its own, and
// those that the lender has where it has none.
func (s Set) said(kind, name, lender string) (all []Item) {
	for _, k := range keysOf(kind) {
		own, lent := path(kind, id(name), k.name), path(kind, lender, k.name)
		switch {
		case s.from[own] != "":
			all = append(all, Item{k.name, s.values[own], s.from[own]})
		case s.from[lent] != "":
			all = append(all, Item{k.name, s.values[lent], s.from[lent] + ", from " + lender})
		}
	}
	return all
}

// textOf is the value of a key, empty where it is not said.
func textOf(said []Item, key string) string {
	for _, i := range said {
		if i.Key == key {
			return i.Text
		}
	}
	return ""
}

func fromOf(said []Item) From {
	from := From{}
	for _, i := range said {
		from[i.Key] = i.From
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

// exact is a length that is the same when it is read again.
func exact(l unit.Length) string { return strconv.FormatFloat(l.MM(), 'f', -1, 64) + " mm" }
