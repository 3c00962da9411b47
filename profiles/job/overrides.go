package job

import (
	"fmt"
	"slices"
	"strconv"

	"trammel/geom/unit"
	"trammel/profiles"
	"trammel/profiles/strict"
)

// Overrides are what counts over the lines of a job file, so that the job is the same
// wherever it is opened: what a document was made with. They stand in the file that
// the document carries, under made_with, and count over all profiles too; what the
// command line says counts over them.
//
//	made_with:
//	  unit: mm               of a bare number, where the job says none
//	  figures: in            unit that figures are written in; fraction, angles: their form
//	  voice: floor           whose words the pages speak, over the job's and the trade's
//	  trade: {name: joiner, lettering: 3.5 mm, show: arcs lengths, …}
//	  paper: {name: A4, width: 210 mm, height: 297 mm}; without sides a size as written
//	  office: {name: A4, …}  paper of the words, where sheets are too large for it
//	  landscape: yes         apart: yes, copies: 2, both_hands: yes, pages: outline, turn: 30, without: notes
//	  printer: {name: office, left: 10 mm, …}
//	  correction: …          what the pages were corrected for, on that printer alone
//	  site: {every: 1 m}     over the job's site
//	  pick: 1                base, with, outline, side: over those of each piece
//	  pegs: square           the way to set out
//	  found: [AB=4510]       what was measured back, of the piece found_of: 1
//	  source: site.csv       what was read, where it was no job file; places: of each measurement in it
type Overrides struct {
	Unit, Figures, Fraction, Angles   Setting
	Voice                             Setting
	Trade, Paper, Printer             Profile
	Office                            Profile // paper of the words that go with sheets too large for it
	Margin, Overlap                   Setting // said by flags alone: the printer has them then
	Landscape, Pages, Turn, Apart     Setting
	Copies, BothHands                 Setting // how often each template is made; of a pair each hand
	Without, Correction, Pegs, Source Setting
	Site                              map[string]Setting // by the words of siteKeys
	Piece                             Piece              // what pieceKeys may write: the rest is empty
	FoundOf                           int                // the piece that Found is of, counted from 1
	Places                            []Setting          // line:column of each measurement in Source
}

// Profile is a paper, a printer or a trade with its values. Empty: not said.
type Profile struct {
	Name   Setting
	Values []profiles.Item
}

// CommandLine is the source of measurements that stood in no file.
const CommandLine = "command line"

const madeWith = "made_with"

// overrideKeys in the order in which they are written.
var overrideKeys = slices.Concat([]key[Overrides]{
	word("source", func(o *Overrides) *Setting { return &o.Source }),
	word("unit", func(o *Overrides) *Setting { return &o.Unit }),
	word("figures", func(o *Overrides) *Setting { return &o.Figures }),
	word("fraction", func(o *Overrides) *Setting { return &o.Fraction }),
	word("angles", func(o *Overrides) *Setting { return &o.Angles }),
	word("voice", func(o *Overrides) *Setting { return &o.Voice }),
	word("landscape", func(o *Overrides) *Setting { return &o.Landscape }),
	word("correction", func(o *Overrides) *Setting { return &o.Correction }),
	word("pages", func(o *Overrides) *Setting { return &o.Pages }),
	word("turn", func(o *Overrides) *Setting { return &o.Turn }),
	word("apart", func(o *Overrides) *Setting { return &o.Apart }),
	word("copies", func(o *Overrides) *Setting { return &o.Copies }),
	word("both_hands", func(o *Overrides) *Setting { return &o.BothHands }),
	word("without", func(o *Overrides) *Setting { return &o.Without }),
	word("pegs", func(o *Overrides) *Setting { return &o.Pegs }),
	profile("trade", func(o *Overrides) *Profile { return &o.Trade }),
	profile("paper", func(o *Overrides) *Profile { return &o.Paper }),
	profile("office", func(o *Overrides) *Profile { return &o.Office }),
	profile("printer", func(o *Overrides) *Profile { return &o.Printer }),
	{"site", func(o *Overrides, v strict.Value) (err error) { o.Site, err = site(v); return err }, func(o Overrides) any {
		all := keyed{}
		for _, key := range siteKeys {
			all.add(key, o.Site[key].Text)
		}
		return all
	}},
}, ofPiece("pick", "base", "with", "outline", "side", "levels", "walls", "blocked", "found", "fixed"), []key[Overrides]{
	{"found_of", func(o *Overrides, v strict.Value) (err error) {
		o.FoundOf, err = v.Integer("found_of", 1, MaxPieces)
		return err
	},
		func(o Overrides) any {
			if o.FoundOf == 0 {
				return ""
			}
			return fmt.Sprint(o.FoundOf)
		}},
	{"places", func(o *Overrides, v strict.Value) (err error) { o.Places, err = places(v); return err }, func(o Overrides) any { return texts(o.Places) }},
})

// ofPiece are keys of a piece that count over those of each.
func ofPiece(names ...string) (all []key[Overrides]) {
	for _, name := range names {
		k := pieceKeys[slices.IndexFunc(pieceKeys, func(k key[Piece]) bool { return k.name == name })]
		all = append(all, key[Overrides]{name, func(o *Overrides, v strict.Value) error { return k.read(&o.Piece, v) },
			func(o Overrides) any { return k.says(o.Piece) }})
	}
	return all
}

func profile(name string, of func(*Overrides) *Profile) key[Overrides] {
	return key[Overrides]{name, func(o *Overrides, v strict.Value) error { return of(o).read(v, name) }, func(o Overrides) any {
		p, all := of(&o), keyed{}
		if p.Name.Text == "" {
			return all
		}
		all.add("name", p.Name.Text)
		for _, v := range p.Values {
			all.add(v.Key, v.Text)
		}
		return all
	}}
}

func (p *Profile) read(v strict.Value, name string) error {
	fields, err := v.Fields(name)
	for _, f := range fields {
		s, err := setting(f.Value, f.Key)
		switch {
		case err != nil:
			return err
		case f.Key == "name":
			p.Name = s
		default:
			p.Values = append(p.Values, profiles.Item{Key: f.Key, Text: s.Text, From: s.Where})
		}
	}
	if err == nil && p.Name.Text == "" {
		err = v.Fault(name+" has no name", "write name: "+name)
	}
	return err
}

// readOverrides reads what stands under made_with.
func readOverrides(v strict.Value) (o Overrides, err error) {
	if err := readKeys(&o, v, madeWith, overrideKeys); err != nil {
		return o, err
	}
	for _, yes := range []Setting{o.Landscape, o.Apart, o.BothHands} {
		if yes.Text != "" && yes.Text != "yes" {
			return o, v.Fault(fmt.Sprintf("%s: %q is not known in it", madeWith, strict.Shorten(yes.Text)), "write yes, or take the line out")
		}
	}
	if _, bad := copies(o.Copies); bad != nil {
		return o, bad
	}
	if o.Pegs.Text != "" {
		if _, bad := ParseMethod(o.Pegs.Text); bad != nil {
			return o, v.Fault(madeWith+": pegs: "+bad.Error(), "write arcs, square or angle")
		}
	}
	return o, nil
}

// copies is how often each template is made.
func copies(t Setting) (int, error) {
	if t.Text == "" {
		return 1, nil
	}
	n, err := strconv.Atoi(t.Text)
	if err != nil || n < 1 || n > MaxQuantity {
		return 0, &unit.Fault{Where: t.Where, What: fmt.Sprintf("%q is not a number of copies", strict.Shorten(t.Text)), Hint: fmt.Sprintf("write how often each template is printed, from 1 to %d; how many are marked from it is the job's quantity", MaxQuantity)}
	}
	return n, nil
}

func places(v strict.Value) (all []Setting, err error) {
	items, ok := v.Items()
	if !ok {
		return nil, v.Fault("places is not a list", "take the line out")
	}
	for _, item := range items {
		s, err := setting(item, "a place")
		if err != nil {
			return nil, err
		}
		all = append(all, s)
	}
	return all, nil
}
