package profiles

import (
	"fmt"
	"slices"
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
	e := Entry{Kind: strings.TrimSuffix(kind, "s"), Name: s.names[path(kind, id)]}
	var err error
	switch kind {
	case papers.name:
		var p Paper
		p, err = s.Paper(e.Name)
		e.Values = p.Said
	case printers.name:
		var p Printer
		p, err = s.Printer(e.Name)
		e.Values = p.Said()
	case trades.name:
		var t Trade
		t, err = s.Trade(e.Name)
		e.Values = slices.Clone(t.Said)
		for i, v := range e.Values {
			if v.Key == "show" {
				e.Values[i].Text = t.shown()
			}
		}
	}
	return e, err
}

// shown is what the trade shows, in words.
func (t Trade) shown() string {
	show := slices.DeleteFunc(Shown(), func(w string) bool { return !t.Show[w] })
	if len(show) == 0 {
		return nothing
	}
	return strings.Join(show, ", ")
}

// nothing is written for a list without a word.
const nothing = "nothing"
