package profiles

import (
	"fmt"
	"strings"

	"trammel/geom/unit"
	"trammel/profiles/strict"
)

// Entry is one profile as text, for people to read.
type Entry struct {
	Kind   string `json:"kind"` // paper, printer, trade or default
	Name   string `json:"name"`
	Values []Item `json:"values"`
}

// Item is one value and where it was written.
type Item struct {
	Key  string `json:"key"`
	Text string `json:"value"`
	From string `json:"from"`
}

// Entries are all profiles: what is taken by default first, then the kinds.
func (s Set) Entries() ([]Entry, error) {
	d := Entry{Kind: "default", Name: "defaults"}
	for _, k := range defaultKeys {
		name, from := s.Default(k)
		d.Values = append(d.Values, Item{k, name, from})
	}
	all := []Entry{d}
	for _, k := range kinds {
		for _, id := range s.ids(k.name) {
			e, err := s.entry(k.name, id)
			if err != nil {
				return nil, err
			}
			all = append(all, e)
		}
	}
	return all, nil
}

// Show finds every profile of that name, of whatever kind. A *unit.Fault has no
// place yet.
func (s Set) Show(name string) ([]Entry, error) {
	var found []Entry
	for _, k := range kinds {
		for _, i := range s.ids(k.name) {
			if i != id(name) {
				continue
			}
			e, err := s.entry(k.name, i)
			if err != nil {
				return nil, err
			}
			found = append(found, e)
		}
	}
	if found == nil {
		hint := "trammel profiles lists them"
		if near := strict.Nearest(id(name), s.Names()); near != "" {
			hint = strict.Suggest(id(name), s.Names())
		}
		return nil, &unit.Fault{What: fmt.Sprintf("%q is no profile that is known", strict.Shorten(name)), Hint: hint}
	}
	return found, nil
}

// entry writes one profile out, with what it inherits.
func (s Set) entry(kind, id string) (Entry, error) {
	var texts map[string]string
	var from From
	name := s.names[path(kind, id)]
	switch kind {
	case "papers":
		p, err := s.Paper(name)
		if err != nil {
			return Entry{}, err
		}
		t := s.values.Papers[id]
		from, texts = p.From, map[string]string{"width": t.Width, "height": t.Height}
	case "printers":
		p, err := s.Printer(name)
		if err != nil {
			return Entry{}, err
		}
		from, texts = p.From, map[string]string{"left": plain(p.Left), "top": plain(p.Top), "right": plain(p.Right), "bottom": plain(p.Bottom), "overlap": plain(p.Overlap)}
	case "trades":
		t, err := s.Trade(name)
		if err != nil {
			return Entry{}, err
		}
		from, texts = t.From, s.tradeTexts(id, t)
	}
	e := Entry{Kind: strings.TrimSuffix(kind, "s"), Name: name}
	for _, k := range keysOf(kind) {
		if from[k.name] != "" {
			e.Values = append(e.Values, Item{k.name, texts[k.name], from[k.name]})
		}
	}
	return e, nil
}

func (s Set) tradeTexts(id string, t Trade) map[string]string {
	own, base := s.values.Trades[id], s.values.Trades["general"]
	or := func(a, b string) string {
		if a != "" {
			return a
		}
		return b
	}
	var show []string
	for _, w := range Shown() {
		if t.Show[w] {
			show = append(show, w)
		}
	}
	return map[string]string{
		"unit": or(own.Unit, base.Unit), "fraction": or(own.Fraction, base.Fraction), "angles": or(own.Angles, base.Angles),
		"lettering": or(own.Lettering, base.Lettering), "show": or(strings.Join(show, ", "), "nothing"), "compass": or(own.Compass, base.Compass),
		"protractor": or(own.Protractor, base.Protractor), "saw": or(own.Saw, base.Saw), "tape": t.Tape,
		"hook": or(own.Hook, base.Hook), "instrument": t.Instrument, "reading": or(own.Reading, base.Reading),
	}
}
