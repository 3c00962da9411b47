package job

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"path"
	"strings"

	"trammel/geom/construct"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/profiles"
	"trammel/profiles/strict"
)

// Merged is a job with all that counts for it: the flags over what a document was made
// with, over the lines of the job, over the profiles. What is known by it is a value, and
// nobody asks any more where it was said, but to name the place in a message.
type Merged struct {
	Job                                // each piece with what counts for it
	Carries   Overrides                // what counts over its lines, for a document to carry
	Measured  [][]triangle.Measurement // of each piece
	Trade     profiles.Trade
	Figures   unit.Style
	Bare      unit.Unit // that a bare number counts
	Voice     string    // one of profiles.Voices: whose words the pages speak; empty: the trade's, or what suits the page
	Paper     profiles.Paper
	Landscape bool
	Printer   profiles.Printer
	Known     *profiles.Calibration // that the pages are corrected by; nil: they are not
	EdgesOnly bool                  // only the pages that carry the edges of the piece
	Turn      *unit.Angle           // of the baseline on the paper, where it was asked for
	Apart     bool                  // each piece has pages of its own
	Copies    int                   // of each template
	BothHands bool                  // of a pair each hand has its own template
	Office    profiles.Paper        // on which what is not true to scale is printed
	Roll      profiles.Paper        // of the usual width
	Site      Site
	Notes     []string // what is not as in the document that the job came from

	Says     unit.Says // how a sentence says what to write
	unitSaid bool      // the job or a flag says what a bare number counts
}

// Merge merges what the flags say with the job and the profiles. Where of each flag's
// setting is the flag. Calibration is what is known of a printer, nil where nothing is;
// a nil function: no printer is calibrated. Says is how a setting is said in a note. The errors are
// *unit.Fault.
func Merge(j Job, flags Overrides, set profiles.Set, calibration func(printer string) (*profiles.Calibration, error), says unit.Says) (Merged, error) {
	if calibration == nil {
		calibration = func(string) (*profiles.Calibration, error) { return nil, nil }
	}
	m := Merged{Job: j, Says: says}
	s := settings{set, flags, flags.over(j.MadeWith), j, calibration}
	if err := s.trade(&m); err != nil {
		return m, err
	}
	m.unitSaid = first(flags.Unit, j.Unit, j.MadeWith.Unit).Text != ""
	if err := s.paper(&m); err != nil {
		return m, err
	}
	var err error
	if m.Site, err = s.site(&m); err != nil {
		return m, err
	}
	if m.Pieces, err = s.pieces(); err != nil {
		return m, err
	}
	if err := s.measurements(&m); err != nil {
		return m, err
	}
	m.Site.Tools.Feet = m.Figures.Unit >= unit.IN
	m.Carries = s.carried(m)
	return m, nil
}

// settings decides what flags, job and profiles say together: the first of them that
// says anything counts.
type settings struct {
	set         profiles.Set
	flags       Overrides // what they alone say
	said        Overrides // over what an earlier document was made with
	job         Job
	calibration func(string) (*profiles.Calibration, error)
}

// over is what the flags say, over what an earlier document was made with.
func (o Overrides) over(m Overrides) Overrides {
	for _, s := range []struct {
		to   *Setting
		made Setting
	}{{&o.Voice, m.Voice}, {&o.Pages, m.Pages}, {&o.Turn, m.Turn}, {&o.Without, m.Without}, {&o.Apart, m.Apart}, {&o.Copies, m.Copies}, {&o.BothHands, m.BothHands}, {&o.Pegs, m.Pegs}} {
		*s.to = first(*s.to, s.made)
	}
	if o.Paper.Name.Text == "" { // it goes with the paper
		o.Landscape = first(o.Landscape, m.Landscape)
	}
	piece := m.Piece
	piece.take(o.Piece)
	o.Piece, o.FoundOf = piece, m.FoundOf
	site := map[string]Setting{}
	maps.Copy(site, m.Site)
	maps.Copy(site, o.Site)
	o.Site = site
	return o
}

// pieces are those of the job with what counts over each. Outline, sides, levels and walls
// speak of the one piece that there is.
func (s settings) pieces() ([]Piece, error) {
	over, all := s.said.Piece, slices.Clone(s.job.Pieces)
	for _, f := range []struct {
		of   unit.Subject
		said bool
	}{{unit.Outline, len(over.Outline) > 0}, {unit.SideOf, len(over.Sides) > 0}, {unit.Levels, len(over.Levels) > 0}, {unit.Walls, over.Walls.Said()}, {unit.Blocked, over.Blocked.Said()}} {
		if f.said && len(all) > 1 {
			return nil, &unit.Fault{Subject: f.of, What: fmt.Sprintf("the job has %d pieces, and each has its own", len(all)), Advice: unit.Advice{Code: unit.ManyPieces}}
		}
	}
	pegs, _ := ParseMethod(s.said.Pegs.Text) // tried when it was read
	for i := range all {
		p := &all[i]
		if p.Way = pegs; pegs == construct.AsMeasured {
			p.Way = p.With
		}
		p.take(over)
	}
	return all, nil
}

// measurements reads what was measured of each piece, and refuses what is doubtful in
// it. Who measures in feet and inches reads them on the paper, unless told otherwise.
func (s settings) measurements(m *Merged) error {
	for _, p := range m.Pieces {
		ms, err := m.measured(p)
		if err != nil {
			return err
		}
		m.Measured = append(m.Measured, ms)
	}
	all := slices.Concat(m.Measured...)
	if err := m.mixedSettings(s.flags, s.said, all); err != nil {
		return err
	}
	if u, ok := imperial(all); ok && first(s.flags.Unit, s.job.Unit, s.job.MadeWith.Figures).Text == "" && m.Trade.Figures.Unit < unit.IN {
		m.Figures.Unit = u
	}
	return nil
}

// Default is the first setting that says something; where none does, the default of
// that kind of profile, with the place where that was written.
func Default(set profiles.Set, kind string, said ...Setting) Setting {
	if t := first(said...); t.Text != "" {
		return t
	}
	name, _ := set.Default(kind)
	return Setting{Text: name, Where: set.DefaultAt(kind)}
}

// trade decides the trade, what a bare number counts and how figures are written.
func (s settings) trade(w *Merged) (err error) {
	made := s.job.MadeWith
	if t := made.Trade; t.Name.Text != "" && s.flags.Trade.Name.Text == "" {
		w.Trade, err = profiles.ReadTrade(t.Name.Text, t.Values)
		err = unit.Placed(err, t.Name.Where)
	} else {
		name := Default(s.set, "trade", s.flags.Trade.Name, s.job.Trade)
		w.Trade, err = s.set.Trade(name.Text)
		err = unit.Placed(err, name.Where)
	}
	if err != nil {
		return err
	}
	w.Figures, w.Bare = w.Trade.Figures, w.Trade.Unit
	// A job that says its unit keeps it for its own bare numbers: what somebody
	// wrote is not read otherwise because it is to be printed in inches.
	for _, t := range []Setting{s.flags.Unit, s.job.Unit, made.Unit} {
		if err := decide(&w.Bare, unit.ParseUnit, t); err != nil {
			return err
		}
	}
	f := &w.Figures
	return cmp.Or(decide(&w.Voice, profiles.ParseVoice, s.said.Voice, s.job.Voice), decide(&f.Unit, unit.ParseUnit, s.flags.Unit, made.Figures, s.job.Unit),
		decide(&f.Denominator, profiles.ParseFraction, s.flags.Fraction, made.Fraction, s.job.Fraction),
		decide(&f.Minutes, profiles.ParseAngles, s.flags.Angles, made.Angles, s.job.Angles))
}

// decide reads the first setting that says anything; where none does, all stays as it is.
func decide[T any](to *T, read func(string) (T, error), said ...Setting) error {
	t := first(said...)
	if t.Text == "" {
		return nil
	}
	v, err := read(t.Text)
	if err != nil {
		return unit.Placed(err, t.Where)
	}
	*to = v
	return nil
}

// paper decides the sheet: paper, printer, margins, overlap, and which pages.
func (s settings) paper(w *Merged) error {
	p, err := s.sheet(w)
	if err != nil {
		return err
	}
	known, err := s.printer(w)
	if err != nil {
		return err
	}
	q := &w.Printer
	if err := w.margin(s.flags.Margin, map[string]*unit.Length{"left": &q.Left, "top": &q.Top, "right": &q.Right, "bottom": &q.Bottom}); err != nil {
		return err
	}
	if err := w.margin(s.flags.Overlap, map[string]*unit.Length{"overlap": &q.Overlap}); err != nil {
		return err
	}
	w.Paper, w.Landscape = p, s.said.Landscape.Text != ""
	if p.Roll && w.Landscape {
		return &unit.Fault{Subject: unit.Lying, What: "a roll has no other way to lie", Advice: unit.Advice{Code: unit.OffRoll}}
	}
	w.Apart = s.said.Apart.Text != ""
	if s.said.Turn.Text != "" {
		w.Turn, w.Apart = new(unit.Angle), true
		if err := decide(w.Turn, unit.ParseTurn, s.said.Turn); err != nil {
			return err
		}
	}
	w.BothHands = first(s.said.BothHands, s.job.BothHands).Text == "yes"
	if w.Copies, err = copies(s.said.Copies); err != nil {
		return err
	}
	if w.Office, err = s.office(); err != nil {
		return err
	}
	if w.Roll, err = s.set.Paper("914xany"); err != nil {
		return err
	}
	w.Known = known
	w.EdgesOnly, err = edgesOnly(s.said.Pages)
	return err
}

// sheet is the paper: that which a document was made on, unless another is asked for.
func (s settings) sheet(w *Merged) (profiles.Paper, error) {
	made := s.job.MadeWith.Paper
	if made.Name.Text != "" && s.flags.Paper.Name.Text == "" {
		p, err := profiles.ReadPaper(made.Name.Text, made.Values)
		return p, unit.Placed(err, made.Name.Where)
	}
	name := Default(s.set, "paper", s.flags.Paper.Name, s.job.Paper)
	p, err := s.set.Paper(name.Text)
	if made.Name.Text != "" && made.Name.Text != p.Name {
		w.Notes = append(w.Notes, fmt.Sprintf("%s was made on %s, and these pages are %s, as %s says", s.document(), strict.Shorten(made.Name.Text), p.Name, name.Where))
	}
	return p, unit.Placed(err, name.Where)
}

// office is the paper of a document's words, else the one that is used where nothing is
// asked for; where that is not known, or is no office's, A4.
func (s settings) office() (profiles.Paper, error) {
	if made := s.job.MadeWith.Office; made.Name.Text != "" {
		p, err := profiles.ReadPaper(made.Name.Text, made.Values)
		return p, unit.Placed(err, made.Name.Where)
	}
	p, err := s.set.Paper(Default(s.set, "paper").Text)
	if err != nil || p.Large() {
		return s.set.Paper("A4")
	}
	return p, nil
}

// printer is the one that a document was made for, unless another is asked for, and
// its calibration, where the pages are corrected for it. The document needs neither.
func (s settings) printer(w *Merged) (known *profiles.Calibration, err error) {
	made := s.job.MadeWith.Printer
	if made.Name.Text == "" || s.flags.Printer.Name.Text != "" {
		name := Default(s.set, "printer", s.flags.Printer.Name, s.job.Printer)
		if known, err = s.calibration(name.Text); err != nil {
			return nil, err
		}
		w.Printer, err = s.set.PrinterWith(name.Text, known)
		if made.Name.Text != "" && made.Name.Text != w.Printer.Name {
			w.Notes = append(w.Notes, fmt.Sprintf("%s was made for the printer %s, and these pages are for %s, as %s says", s.document(), strict.Shorten(made.Name.Text), w.Printer.Name, name.Where))
		}
		return known, unit.Placed(err, name.Where)
	}
	if w.Printer, err = profiles.ReadPrinter(made.Name.Text, made.Values); err != nil {
		return nil, unit.Placed(err, made.Name.Where)
	}
	known, err = s.calibration(made.Name.Text)
	was := s.job.MadeWith.Correction.Text
	switch {
	case was == "":
		if err == nil && known != nil {
			w.Notes = append(w.Notes, fmt.Sprintf("the printer %s is calibrated here, and %s was made without: so are these pages; with %s they are corrected", strict.Shorten(made.Name.Text), s.document(), w.Says.Of(unit.Printer, strict.Shorten(made.Name.Text), false)))
		}
		return nil, nil
	case err != nil:
		return nil, err
	case known == nil:
		w.Notes = append(w.Notes, fmt.Sprintf("%s was corrected for the printer %s, of which nothing is known here: these pages come without the correction, so measure the check bars", s.document(), strict.Shorten(made.Name.Text)))
	case correction(known.Found) != was:
		w.Notes = append(w.Notes, fmt.Sprintf("the printer %s is calibrated otherwise here than where %s was made: these pages are corrected as it is here", strict.Shorten(made.Name.Text), s.document()))
	}
	return known, nil
}

// document is what the job came in, in words.
func (s settings) document() string {
	if s.job.Within != "" {
		return s.job.Within
	}
	return "the PDF that this job was taken from"
}

func edgesOnly(t Setting) (bool, error) {
	switch t.Text {
	case "", "full":
		return false, nil
	case "outline":
		return true, nil
	}
	return false, &unit.Fault{
		Where: t.Where, What: fmt.Sprintf("%q is not a choice of pages", strict.Shorten(t.Text)),
		Hint: "full: every page of the piece; outline: only those that carry its edges",
	}
}

// carried is what a job is made with, as far as it changes a number or what is shown:
// every setting, wherever it came from. A job that has it with it is the same job
// everywhere.
func (s settings) carried(w Merged) Overrides {
	say := func(text string) Setting { return Setting{Text: text} }
	o := s.said
	if o.Correction = (Setting{}); w.Known != nil {
		o.Correction = say(correction(w.Known.Found))
	}
	f := w.Figures
	o.Unit, o.Figures, o.Fraction, o.Angles = say(w.Bare.String()), say(f.Unit.String()), say(fmt.Sprintf("1/%d", f.Denominator)), say(map[bool]string{true: "minutes", false: "decimal"}[f.Minutes])
	o.Trade, o.Printer, o.Paper = brought(w.Trade.Name, w.Trade.Carried(), "unit", "fraction", "angles"), brought(w.Printer.Name, w.Printer.Said()), brought(w.Paper.Name, w.Paper.Said)
	if o.Office = (Profile{}); w.Paper.Large() {
		o.Office = brought(w.Office.Name, w.Office.Said)
	}
	o.Source, o.Places = s.job.source()
	return o
}

// brought is a profile as a job brings it along, without what the job says itself.
func brought(name string, said []profiles.Item, without ...string) Profile {
	said = slices.DeleteFunc(slices.Clone(said), func(v profiles.Item) bool { return slices.Contains(without, v.Key) })
	return Profile{Setting{Text: name}, said}
}

// source is what the job was read from where that was no job file, and where in it
// each measurement stands.
func (j Job) source() (name Setting, places []Setting) {
	switch {
	case j.Within != "":
		return j.MadeWith.Source, j.MadeWith.Places
	case j.File == "":
		return Setting{Text: CommandLine}, nil
	case FileName(j.File) == baseName(j.File):
		return Setting{}, nil
	case j.Raw == nil: // a table, or a list
		for _, t := range j.Pieces[0].Measure {
			places = append(places, Setting{Text: strings.TrimPrefix(t.Where, j.File+":")})
		}
	}
	return Setting{Text: baseName(j.File)}, places
}

func baseName(file string) string { return file[strings.LastIndexAny(file, `/\\`)+1:] }

// FileName is the name under which a document carries the job of that file.
func FileName(file string) string {
	name := baseName(file)
	if !namesJob(name) {
		return "job.yaml" // measurements, standard input, a name that says nothing
	}
	return name
}

// namesJob says whether the name of a file is that of a job.
func namesJob(file string) bool {
	return slices.Contains([]string{".yaml", ".yml", ".json"}, strings.ToLower(path.Ext(file)))
}

// correction is what a page is corrected for, as text that tells two apart.
func correction(m profiles.Misprint) string {
	return fmt.Sprintf("across %.9f, along %.9f, skew %.7f", m.Across, m.Along, m.Skew.Degrees())
}
