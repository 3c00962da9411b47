package profiles

import (
	"fmt"
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
	said, err := alone(papers, said, "")
	if err != nil {
		return Paper{}, err
	}
	return paperOf(name, said)
}

// ReadPrinter is such a printer.
func ReadPrinter(name string, said []Item) (Printer, error) {
	said, err := alone(printers, said, "office")
	if err != nil {
		return Printer{}, err
	}
	return printerOf(name, said)
}

// ReadTrade is such a trade.
func ReadTrade(name string, said []Item) (Trade, error) {
	said, err := alone(trades, said, "general")
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
func alone(k kind, said []Item, lender string) (all []Item, err error) {
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
	for _, v := range built.said(k, lender, "") {
		if !slices.ContainsFunc(all, func(i Item) bool { return i.Key == v.Key }) {
			all = append(all, v)
		}
	}
	if k.name == papers.name && len(all) < len(k.keys) {
		return nil, &unit.Fault{Where: all[0].From, What: "the paper has one side alone", Hint: "write width and height"}
	}
	return all, nil
}
