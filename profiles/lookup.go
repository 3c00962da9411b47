package profiles

import (
	"fmt"
	"maps"
	"regexp"
	"strconv"
	"strings"

	"slices"

	"trammel/geom/unit"
	"trammel/profiles/strict"
)

// A job may bring the profiles along that it was made with. They are read as those of
// a file are, From of each value its place, and stand alone: what they do not say is
// as it is built in, whatever anybody's own file says.

// ReadPaper is such a paper: without values a size as it is written, such as 300x500.
// Its errors are *unit.Fault, with a place where a value is wrong.
func ReadPaper(name string, said []Item) (Paper, error) {
	if len(said) == 0 {
		return Set{}.Paper(name)
	}
	said, err := alone(papers, said)
	if err != nil {
		return Paper{}, err
	}
	return paperOf(name, said)
}

// ReadPrinter is such a printer.
func ReadPrinter(name string, said []Item) (Printer, error) {
	said, err := alone(printers, said)
	if err != nil {
		return Printer{}, err
	}
	return printerOf(name, said)
}

// ReadTrade is such a trade.
func ReadTrade(name string, said []Item) (Trade, error) {
	said, err := alone(trades, said)
	if err != nil {
		return Trade{}, err
	}
	return tradeOf(name, said)
}

// Carried are the values of a trade as ReadTrade takes them.
func (t Trade) Carried() []Item {
	all := slices.Clone(t.Said)
	for i, v := range all {
		if v.Key == "show" && v.Text == "" {
			all[i].Text = nothing
		}
	}
	return all
}

// alone tries what was said and adds what is built in.
func alone(k kind, said []Item) (all []Item, err error) {
	for _, v := range said {
		if !slices.Contains(k.keys, v.Key) {
			return nil, &unit.Fault{Where: v.From, What: fmt.Sprintf("%q is not known of %s", strict.Shorten(v.Key), k.name), Hint: strict.Suggest(v.Key, k.keys)}
		}
		if v.Key == "show" && v.Text == nothing {
			v.Text = ""
		}
		for _, w := range v.words() {
			if err := k.try(v.Key, w); err != nil {
				bad := faultOf(err)
				return nil, &unit.Fault{Where: v.From, What: v.Key + ": " + bad.What, Hint: bad.Hint}
			}
		}
		all = append(all, v)
	}
	built, err := Load()
	if err != nil {
		return nil, err
	}
	for _, v := range built.said(k, k.lender) {
		if !slices.ContainsFunc(all, func(i Item) bool { return i.Key == v.Key }) {
			all = append(all, v)
		}
	}
	if k.name == papers.name && len(all) < len(k.keys) {
		return nil, &unit.Fault{Where: all[0].From, What: "the paper has one side alone", Hint: "write width and height"}
	}
	return all, nil
}

// From says of each key of a profile where its value was written: BuiltIn, a
// file with its line, or the flag.
type From map[string]string

// Paper is a kind of sheet, upright as it is named.
type Paper struct {
	Name          string
	Width, Height unit.Length
	Roll          bool   // as long as is needed: Height is the most
	Said          []Item // of a profile; of a size as it was written none
}

// Large says whether a paper goes through no office's printer: it is longer than A3 and
// Tabloid, or a roll.
func (p Paper) Large() bool {
	const most unit.Length = 440
	return p.Roll || max(p.Width, p.Height) > most
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
	Voice      string      // the place that words are said for: one of Voices
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
	v := s.values[path("defaults", kind)]
	return v.text, v.from
}

// DefaultAt is that place as messages name it, to the column and with its key.
func (s Set) DefaultAt(kind string) string { return s.values[path("defaults", kind)].at }

// Preferring is the set with another default of a kind, from the place that says so.
func (s Set) Preferring(kind, name, place string) Set {
	s.values = maps.Clone(s.values)
	s.values[path("defaults", kind)] = value{name, place, place}
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
	return paperOf(s.nameOf("papers", id(name)), s.said(papers, name))
}

func paperOf(name string, said []Item) (Paper, error) {
	p := Paper{Name: name, Said: said}
	return p, readAll(&p, paperKeys, said)
}

// anyLength is written for the length of a roll.
const anyLength = "any"

var anyFirst = regexp.MustCompile(`(?i)^\s*any\s*[x×]`)

func customPaper(name, width, height string) (Paper, error) {
	p := Paper{Name: name}
	if strings.EqualFold(height, anyLength) {
		p.Roll, p.Height = true, mostPaper
		var err error
		if p.Width, err = lengthBetween(width, leastPaper, mostPaper); err != nil {
			return p, &unit.Fault{What: faultOf(err).What, Hint: "a roll is its width and any, such as 914xany or 36inxany"}
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
	for i, text := range []string{width, height} {
		l, err := unit.ParseSetting(text, bare, leastPaper, mostPaper)
		if err != nil {
			return p, &unit.Fault{What: faultOf(err).What, Hint: "a size is width x height in mm, such as 300x500; inches are written 12x18in"}
		}
		*paperKeys[i].of(&p) = l
	}
	return p, nil
}

// Printer finds a printer by its name. A *unit.Fault has no place yet.
func (s Set) Printer(name string) (Printer, error) {
	if !s.has("printers", name) {
		return Printer{}, s.unknown("printer", "printers", name, "")
	}
	return printerOf(s.nameOf("printers", id(name)), s.said(printers, name))
}

func printerOf(name string, said []Item) (Printer, error) {
	p := Printer{Name: name, From: fromOf(said)}
	return p, readAll(&p, printerKeys, said)
}

// Said is the printer as its values would say it: read again they are the same.
func (p Printer) Said() (items []Item) {
	for _, k := range printerKeys {
		items = append(items, Item{k.name, exact(*k.of(&p)), p.From[k.name]})
	}
	return items
}

// Trade finds a trade by its name. A *unit.Fault has no place yet.
func (s Set) Trade(name string) (Trade, error) {
	if !s.has("trades", name) {
		return Trade{}, s.unknown("trade", "trades", name, "")
	}
	return tradeOf(s.nameOf("trades", id(name)), s.said(trades, name))
}

func tradeOf(name string, said []Item) (Trade, error) {
	t := Trade{Name: name, From: fromOf(said), Said: said, Show: map[string]bool{}}
	return t, readAll(&t, tradeKeys, said)
}

func (s Set) has(kind, name string) bool { return s.names[path(kind, id(name))] != "" }

// said are the values of a profile in the order of its kind's keys: its own, and
// those of the kind's lender where it has none.
func (s Set) said(k kind, name string) (all []Item) {
	for _, key := range k.keys {
		if own, ok := s.values[path(k.name, id(name), key)]; ok {
			all = append(all, Item{key, own.text, own.from})
		} else if lent, ok := s.values[path(k.name, k.lender, key)]; ok {
			all = append(all, Item{key, lent.text, lent.from + ", from " + k.lender})
		}
	}
	return all
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
	f := &unit.Fault{What: fmt.Sprintf("%q is no %s that is known", strict.Shorten(name), what), Hint: strict.Suggest(id(name), known)}
	switch {
	case strict.Nearest(id(name), known) != "":
	case len(known) > 12:
		f.Hint, f.Code = strings.TrimPrefix(more, "; "), unit.Unlisted
	default:
		f.Hint += more
	}
	return f
}

// exact is a length that is the same when it is read again.
func exact(l unit.Length) string { return strconv.FormatFloat(l.MM(), 'f', -1, 64) + " mm" }
