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
	profiles, err := s.entries("")
	return append([]Entry{d}, profiles...), err
}

// Show finds every profile of that name, of whatever kind. A *unit.Fault has no
// place yet.
func (s Set) Show(name string) ([]Entry, error) {
	found, err := s.entries(id(name))
	if found != nil || err != nil {
		return found, err
	}
	f := &unit.Fault{What: fmt.Sprintf("%q is no profile that is known", strict.Shorten(name)), Advice: unit.Advice{Code: unit.Unlisted}}
	if near := strict.Nearest(id(name), s.Names()); near != "" {
		f.Hint, f.Code = strict.Suggest(id(name), s.Names()), unit.Plain
	}
	return nil, f
}

// entries are the profiles of an id, or all, each with what it inherits.
func (s Set) entries(only string) (all []Entry, err error) {
	for _, k := range kinds {
		for _, id := range s.ids(k.name) {
			if only != "" && id != only {
				continue
			}
			e := Entry{Kind: strings.TrimSuffix(k.name, "s"), Name: s.names[path(k.name, id)], Values: s.said(k, id)}
			if k.name == printers.name {
				p, err := s.Printer(id)
				if err != nil {
					return nil, err
				}
				e.Values = p.Said()
			}
			for i, v := range e.Values {
				if v.Key == "show" {
					e.Values[i].Text = shown(v.words())
				}
			}
			all = append(all, e)
		}
	}
	return all, nil
}

// shown is what a trade shows, in words.
func shown(words []string) string {
	show := slices.DeleteFunc(Shown(), func(w string) bool { return !slices.Contains(words, w) })
	if len(show) == 0 {
		return nothing
	}
	return strings.Join(show, ", ")
}

// nothing is written for a list without a word.
const nothing = "nothing"
