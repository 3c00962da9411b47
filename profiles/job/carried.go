package job

import (
	"fmt"
	"slices"
	"strings"

	"trammel/profiles"
)

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
			places = append(places, Setting{Text: t.Where[len(fileOf(t.Where))+1:]})
		}
	}
	return Setting{Text: baseName(j.File)}, places
}

func baseName(file string) string { return file[strings.LastIndexAny(file, `/\\`)+1:] }

// FileName is the name under which a document carries the job of that file.
func FileName(file string) string {
	name := baseName(file)
	if ending := strings.ToLower(name); !strings.HasSuffix(ending, ".yaml") && !strings.HasSuffix(ending, ".yml") && !strings.HasSuffix(ending, ".json") {
		return "job.yaml" // measurements, standard input, a name that says nothing
	}
	return name
}

// correction is what a page is corrected for, as text that tells two apart.
func correction(m profiles.Misprint) string {
	return fmt.Sprintf("across %.9f, along %.9f, skew %.7f", m.Across, m.Along, m.Skew.Degrees())
}

// fileOf is the file of file:line:column.
func fileOf(where string) string {
	for range 2 {
		if i := strings.LastIndexByte(where, ':'); i > 0 {
			where = where[:i]
		}
	}
	return where
}
