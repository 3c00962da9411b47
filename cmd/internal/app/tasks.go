package app

import (
	"io"
	"iter"
	"strings"

	"trammel/cmd/internal/classroom"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/words"
	"trammel/profiles/job"
)

// ClassOptions say which sheets of a class are wanted.
type ClassOptions struct {
	Sheets   job.Setting // names parted by commas; empty: task
	TwoSided bool
}

// OpenClass is a merged job whose tasks are to be drawn; its pieces are not looked at.
func OpenClass(m job.Merged, tell Progress) Work {
	w := Work{stock: stockOf(m), tell: tell}
	w.Merged, w.Language = m, words.English{Voice: words.Class}
	if m.Voice != "" {
		w.Language = words.English{Voice: words.Named(m.Voice)}
	}
	w.madeFor, w.Sheet = calibrated(m.Known, w.Sheet)
	return w
}

// makeTasks draws the tasks of a class and its sheets. The errors are a *unit.Fault where the
// rules leave too few, a name has letters that are not there, or the paper is too small.
func makeTasks(o Order) (*Document, error) {
	w := o.Work
	if w.roll {
		return nil, &unit.Fault{Subject: unit.Paper, Of: w.Sheet.Name, What: "a class draws on sheets, not on a roll", Advice: unit.Advice{Code: unit.OffRoll}}
	}
	c := &classroom.Class{On: w.Sheet, Warp: w.warped, FileName: fileName, Paint: o.Picture.Paint}
	var err error
	if c.Sheets, err = classroom.SheetsOf(o.Class.Sheets); err != nil {
		return nil, err
	}
	if c.Set, err = classroom.Draw(w.Merged, w.Language, o.Class.TwoSided); err != nil {
		return nil, err
	}
	seq, err := c.Pages(c.Sheets)
	if err != nil {
		return nil, err
	}
	return &Document{
		Summary: c.Summary, folder: c.Folder, apart: c.Apart,
		head:  draw.Document{Title: c.Title, Subject: strings.Join(c.Sheets, ", "), Language: words.In(w.Language).Aloud().Language(), Date: c.Date},
		pages: func() iter.Seq[draw.Page] { return seq },
		files: map[string]func(io.Writer) error{"csv": c.KeyCSV}, // a table is of the key
	}, nil
}
