package job

import (
	"fmt"
	"slices"

	"trammel/profiles/strict"
)

// Over is what counts over the lines of a job file, so that the job is the same
// wherever it is opened: what a document was made with. It stands in the file that
// the document carries, under made_with, and counts over all profiles too; what the
// command line says counts over it.
//
//	made_with:
//	  unit: mm               of a bare number, where the job says none
//	  figures: in            unit that figures are written in; fraction, angles: their form
//	  trade: {name: joiner, lettering: 3.5 mm, show: arcs lengths, …}
//	  paper: {name: A4, width: 210 mm, height: 297 mm}; without sides a size as written
//	  landscape: yes         apart: yes, pages: outline, turn: 30, without: notes
//	  printer: {name: office, left: 10 mm, …}
//	  correction: …          what the pages were corrected for, on that printer alone
//	  site: {every: 1 m}     over the job's site
//	  pick: 1                base, with, outline, side: over those of each piece
//	  pegs: square           the way to set out
//	  found: [AB=4510]       what was measured back, of the piece found_of: 1
//	  source: site.csv       what was read, where it was no job file; places: of each measurement in it
type Over struct {
	Unit, Figures, Fraction, Angles   Setting
	Trade, Paper, Printer             Profile
	Margin, Overlap                   Setting // said by flags alone: the printer has them then
	Landscape, Pages, Turn, Apart     Setting
	Without, Correction, Pegs, Source Setting
	Site                              map[string]Setting // by the words of siteKeys
	Piece                             Piece              // pick, base, with, outline, side, levels, found, fixed: the rest is empty
	FoundOf                           int                // the piece that Found is of, counted from 1
	Places                            []Setting          // line:column of each measurement in Source
}

// Profile is a paper, a printer or a trade with its values. Empty: not said.
type Profile struct {
	Name   Setting
	Values []Value
}

// Value of a profile under its key.
type Value struct {
	Key string
	Setting
}

// CommandLine is the source of measurements that stood in no file.
const CommandLine = "command line"

// madeWith is the key of what a document was made with.
const madeWith = "made_with"

// words are the settings under their keys, in the order in which they are written.
func (o *Over) words() []struct {
	key string
	to  *Setting
} {
	return []struct {
		key string
		to  *Setting
	}{
		{"source", &o.Source}, {"unit", &o.Unit}, {"figures", &o.Figures}, {"fraction", &o.Fraction}, {"angles", &o.Angles},
		{"landscape", &o.Landscape}, {"correction", &o.Correction}, {"pages", &o.Pages}, {"turn", &o.Turn}, {"apart", &o.Apart}, {"without", &o.Without}, {"pegs", &o.Pegs},
	}
}

func (o *Over) profiles() []struct {
	key string
	to  *Profile
} {
	return []struct {
		key string
		to  *Profile
	}{{"trade", &o.Trade}, {"paper", &o.Paper}, {"printer", &o.Printer}}
}

// ofPiece are the keys of a piece that may count over those of each.
var ofPiece = slices.Concat([]string{"pick", "base", "with"}, netKeys)

// readOver reads what stands under made_with.
func readOver(v strict.Value) (o Over, err error) {
	known := slices.Concat([]string{"site", "found_of", "places"}, ofPiece)
	words, profiles := map[string]*Setting{}, map[string]*Profile{}
	for _, w := range o.words() {
		words[w.key], known = w.to, append(known, w.key)
	}
	for _, p := range o.profiles() {
		profiles[p.key], known = p.to, append(known, p.key)
	}
	fields, err := v.Fields(madeWith, known...)
	for _, f := range fields {
		switch {
		case words[f.Key] != nil:
			*words[f.Key], err = setting(f)
		case profiles[f.Key] != nil:
			*profiles[f.Key], err = profile(f)
		default:
			err = o.read(f)
		}
		if err != nil {
			return o, err
		}
	}
	for _, yes := range []Setting{o.Landscape, o.Apart} {
		if yes.Text != "" && yes.Text != "yes" {
			return o, v.Fault(fmt.Sprintf("%s: %q is not known in it", madeWith, strict.Shorten(yes.Text)), "write yes, or take the line out")
		}
	}
	if o.Pegs.Text != "" {
		if _, bad := ParseMethod(o.Pegs.Text); bad != nil {
			return o, v.Fault(madeWith+": pegs: "+bad.Error(), "write arcs, square or angle")
		}
	}
	return o, err
}

func (o *Over) read(f strict.Field) (err error) {
	switch {
	case f.Key == "site":
		o.Site, err = site(f.Value)
	case f.Key == "found_of":
		o.FoundOf, err = f.Value.Integer(f.Key, 1, MaxPieces)
	case f.Key == "places":
		o.Places, err = places(f.Value)
	case slices.Contains(netKeys, f.Key):
		err = o.Piece.net(f)
	default:
		err = o.Piece.word(f)
	}
	return err
}

func places(v strict.Value) (all []Setting, err error) {
	items, ok := v.Items()
	if !ok {
		return nil, v.Fault("places is not a list", "take the line out")
	}
	for _, item := range items {
		text, err := item.Text("a place")
		if err != nil {
			return nil, err
		}
		all = append(all, Setting{text, item.Where()})
	}
	return all, nil
}

func setting(f strict.Field) (Setting, error) {
	text, err := f.Value.Text(f.Key)
	return Setting{text, f.Value.Where()}, err
}

func profile(f strict.Field) (p Profile, err error) {
	fields, err := f.Value.Fields(f.Key)
	for _, g := range fields {
		s, err := setting(g)
		switch {
		case err != nil:
			return p, err
		case g.Key == "name":
			p.Name = s
		default:
			p.Values = append(p.Values, Value{g.Key, s})
		}
	}
	if err == nil && p.Name.Text == "" {
		err = f.Value.Fault(f.Key+" has no name", "write name: "+f.Key)
	}
	return p, err
}

// settle gives what was found to the piece that it was found of, and the pegs that
// are known to stand right to every piece that was measured back.
func (j *Job) settle(at strict.Value) error {
	if err := j.settleFound(at); err != nil || len(j.Over.Piece.Fixed) == 0 {
		return err
	}
	for i := range j.Pieces {
		p := &j.Pieces[i]
		switch {
		case len(p.Found) == 0 || j.Over.FoundOf > 0 && i != j.Over.FoundOf-1:
		case len(p.Fixed) > 0:
			return at.Fault("fixed: the piece says as well which pegs are fixed: "+p.FixedAt, "leave one of the two out")
		default:
			p.Fixed, p.FixedAt = j.Over.Piece.Fixed, j.Over.Piece.FixedAt
		}
	}
	return nil
}

func (j *Job) settleFound(at strict.Value) error {
	o := j.Over
	if len(o.Piece.Found) == 0 {
		return nil
	}
	i := max(o.FoundOf, 1) - 1
	switch {
	case i >= len(j.Pieces):
		return at.Fault(fmt.Sprintf("found_of: there is no piece %d", i+1), fmt.Sprintf("the job has %d", len(j.Pieces)))
	case len(j.Pieces[i].Found) > 0:
		return at.Fault("found: the piece says as well what was found: "+j.Pieces[i].FoundAt, "leave one of the two out")
	}
	j.Pieces[i].Found, j.Pieces[i].FoundAt = o.Piece.Found, o.Piece.FoundAt
	return nil
}

// said is what stands in it, in the order of the file: a word, a list, or keys with words.
func (o Over) said() (all keyed) {
	for _, w := range o.words() {
		all.add(w.key, w.to.Text)
	}
	for _, p := range o.profiles() {
		if p.to.Name.Text != "" {
			all.add(p.key, p.to.keyed())
		}
	}
	site := keyed{}
	for _, key := range siteKeys {
		site.add(key, o.Site[key].Text)
	}
	all.add("site", site)
	p := o.Piece
	all.add("pick", p.Pick.String())
	all.add("base", string(p.Base[0]+p.Base[1]))
	all.add("with", MethodWord(p.With))
	all.add("outline", joined(p.Outline))
	all.add("side", sideWords(p.Sides))
	all.add("levels", levelWords(p.Levels))
	all.add("found", texts(p.Found))
	all.add("fixed", joined(p.Fixed))
	if o.FoundOf > 0 {
		all.add("found_of", fmt.Sprint(o.FoundOf))
	}
	all.add("places", texts(o.Places))
	return all
}

func (p Profile) keyed() (all keyed) {
	all.add("name", p.Name.Text)
	for _, v := range p.Values {
		all.add(v.Key, v.Text)
	}
	return all
}

func texts(list []Setting) (all []string) {
	for _, s := range list {
		all = append(all, s.Text)
	}
	return all
}
