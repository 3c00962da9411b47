package app

import (
	"bytes"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/pdf"
	"trammel/profiles"
	"trammel/profiles/job"
	"trammel/profiles/strict"
)

// over is what the options say, over what an earlier document was made with.
func (o Options) over(m job.Over) Options {
	for _, s := range []struct {
		to   *job.Setting
		made job.Setting
	}{{&o.Cover, m.Pages}, {&o.Turn, m.Turn}, {&o.Without, m.Without}} {
		*s.to = first(*s.to, s.made)
	}
	o.Landscape = o.Landscape || o.Paper.Text == "" && m.Landscape.Text != "" // it goes with the paper
	o.Apart = o.Apart || m.Apart.Text != ""
	p := m.Piece
	if o.Pick == job.Unpicked {
		o.Pick = p.Pick
	}
	if o.Base == [2]geom.Name{} {
		o.Base, o.BaseAt = p.Base, p.BaseAt
	}
	if o.With == construct.AsMeasured {
		o.With = p.With
	}
	if len(o.Outline) == 0 {
		o.Outline, o.OutlineAt = p.Outline, p.OutlineAt
	}
	if len(o.Sides) == 0 {
		o.Sides = p.Sides
	}
	if len(o.Levels) == 0 {
		o.Levels = p.Levels
	}
	site := maps.Clone(m.Site)
	if site == nil {
		site = map[string]job.Setting{}
	}
	maps.Copy(site, o.Site)
	o.Site = site
	return o
}

// madeWith is what the work is made with, as far as it changes a number or what is
// shown: every setting, wherever it came from. A job that has it with it is the same
// job everywhere.
func (w Work) madeWith(o Options) job.Over {
	say := func(text string) job.Setting { return job.Setting{Text: text} }
	yes := func(is bool) job.Setting { return say(map[bool]string{true: "yes"}[is]) }
	f := w.Figures
	m := job.Over{
		Unit: say(w.bare.String()), Figures: say(f.Unit.String()), Fraction: say(fmt.Sprintf("1/%d", f.Denominator)), Angles: say(map[bool]string{true: "minutes", false: "decimal"}[f.Minutes]),
		Trade: brought(w.Trade.Name, w.Trade.Carried(), "unit", "fraction", "angles"), Printer: brought(w.Printer.Name, w.Printer.Said()), Paper: brought(w.paper.Name, w.paper.Said),
		Landscape: yes(o.Landscape), Pages: o.Cover, Turn: o.Turn, Apart: yes(o.Apart), Without: o.Without, Correction: say(w.madeFor.correction()),
		Site:  o.Site,
		Piece: job.Piece{Pick: o.Pick, Base: o.Base, With: o.With, Outline: o.Outline, Sides: o.Sides, Levels: o.Levels, Found: w.Job.Over.Piece.Found, Fixed: w.Job.Over.Piece.Fixed},
		Pegs:  w.Job.Over.Pegs, FoundOf: w.Job.Over.FoundOf,
	}
	m.Source, m.Places = w.source()
	return m
}

// brought is a profile as a job brings it along, without what the job says itself.
func brought(name string, said []profiles.Item, without ...string) job.Profile {
	p := job.Profile{Name: job.Setting{Text: name}}
	for _, v := range said {
		if !slices.Contains(without, v.Key) {
			p.Values = append(p.Values, job.Value{Key: v.Key, Setting: job.Setting{Text: v.Text}})
		}
	}
	return p
}

// items are the values of a profile that a job brings along.
func items(p job.Profile) (all []profiles.Item) {
	for _, v := range p.Values {
		all = append(all, profiles.Item{Key: v.Key, Text: v.Text, From: v.Where})
	}
	return all
}

// source is what the job was read from where that was no job file, and where in it
// each measurement stands.
func (w Work) source() (name job.Setting, places []job.Setting) {
	j := w.Job
	switch {
	case j.Within != "":
		return j.Over.Source, j.Over.Places
	case j.File == "":
		return job.Setting{Text: job.CommandLine}, nil
	case attachmentName(j.File) == baseName(j.File):
		return job.Setting{}, nil
	case j.Raw == nil: // a table, or a list
		for _, t := range j.Pieces[0].Measure {
			places = append(places, job.Setting{Text: t.Where[len(fileOf(t.Where))+1:]})
		}
	}
	return job.Setting{Text: baseName(j.File)}, places
}

// place is where something was written, as a report has it: of a job that a document
// carries, where it was written at first.
func (w Work) place(where string) string {
	j := w.Job
	inner, ok := strings.CutPrefix(where, j.Within+" ("+j.File+":")
	if j.Within == "" || !ok {
		return where
	}
	inner = strings.TrimSuffix(inner, ")")
	source := j.Over.Source.Text
	switch {
	case source == job.CommandLine:
		return ""
	case source == "":
		return j.File + ":" + inner
	case len(j.Over.Places) == len(j.Pieces[0].Measure):
		if i := slices.IndexFunc(j.Pieces[0].Measure, func(t job.Setting) bool { return t.Where == where }); i >= 0 {
			inner = j.Over.Places[i].Text
		}
	}
	return source + ":" + inner
}

// places are those of a report, where the job was written at first.
func (w Work) places(r *PieceReport) {
	for i := range r.Measured {
		r.Measured[i].Where = w.place(r.Measured[i].Where)
	}
	if r.Shape == nil {
		return
	}
	for i := range r.Shape.Holes {
		r.Shape.Holes[i].Where = w.place(r.Shape.Holes[i].Where)
	}
}

func baseName(file string) string { return file[strings.LastIndexAny(file, `/\\`)+1:] }

// attachmentName is the name of the job file that a document carries.
func attachmentName(file string) string {
	name := baseName(file)
	if ending := strings.ToLower(name); !strings.HasSuffix(ending, ".yaml") && !strings.HasSuffix(ending, ".yml") && !strings.HasSuffix(ending, ".json") {
		return "job.yaml" // measurements, standard input, a name that says nothing
	}
	return name
}

// attachment is the job file that a document carries: the bytes as read, and under
// them what it was made with, so that the document opened as a job gives the same
// pages, whatever whoever opens it has for profiles.
func (w Work) attachment() (*draw.Attachment, error) {
	data, err := job.Write(w.Job, w.over)
	if err != nil {
		return nil, err
	}
	return &draw.Attachment{Name: attachmentName(w.Job.File), Data: data}, nil
}

// travels says in a line what goes with a PDF to whoever gets it.
func (w Work) travels() string {
	j := w.Job
	what := "the job file " + attachmentName(j.File)
	noted := func(p job.Piece) bool { return slices.ContainsFunc(p.Notes, func(s string) bool { return s != "" }) }
	switch {
	case j.Raw == nil && slices.ContainsFunc(j.Pieces, noted):
		what = "the measurements with their notes"
	case j.Raw == nil, j.Over.Source.Text == job.CommandLine:
		what = "the measurements"
	case j.Remarks():
		what += " with its remarks"
	}
	return what + " and the settings travel inside the PDF; whoever gets it can read them"
}

// IsPDF says whether a file that begins so is a PDF.
func IsPDF(data []byte) bool { return bytes.HasPrefix(data, []byte(pdf.Magic)) }

// Carried is the job that one of trammel's own PDFs carries. The file is read at a
// few places only. Errors are *unit.Fault, those of the job with the places of
// both files: gusset.pdf (job.yaml:7:12).
func Carried(file string, r io.ReaderAt, size int64) (job.Job, error) {
	a, err := pdf.Attached(r, size)
	if err != nil {
		return job.Job{}, placed(err, file)
	}
	if f := unit.HiddenFault(a.Name); f != nil {
		return job.Job{}, &unit.Fault{Where: file, What: "the name of the job that it carries " + f.What, Hint: "make the PDF anew, of a job whose name holds none"}
	}
	return job.ReadWithin(file, strict.Shorten(a.Name), a.Data)
}
