package app

import (
	"context"
	"fmt"
	"io"
	"iter"
	"slices"

	"trammel/cmd/internal/calibration"
	"trammel/geom"
	"trammel/plot/draw"
	"trammel/plot/pdf"
	"trammel/plot/svg"
	"trammel/profiles"
)

// Kind is a kind of document. Whatever makes documents ranges over Kinds or takes one
// by its name; a new one is an entry there.
type Kind struct {
	Name    string
	Needs   Needs
	Endings []string // that it is written as, in the order to be named in; empty: a folder of drawings
	Example string   // the name of such a file
	Make    func(Order) (*Document, error)
}

// Needs is what a document cannot be made without.
type Needs uint8

const (
	Job      Needs = 1 << iota // solved pieces
	Readings                   // what was measured back of them
	Printer                    // by its name
	Tasks                      // of a class
)

// Order is what a document is made of. Each kind takes of it what it needs.
type Order struct {
	Work     Work
	Findings Findings
	Picture  PictureOptions
	Office   bool            // a setting-out sheet with the office's pages, a check sheet with its ranges reckoned
	Shift    *geom.Point     // where a tile of a floor lies; nil: where it comes out best
	Context  context.Context // nil: nothing stops a search but its effort
	Class    ClassOptions

	Profiles    profiles.Set
	Calibration calibration.Options
}

// Says tells whether what was found is said where nothing is to be written.
func (k Kind) Says() bool { return k.Needs&Readings != 0 || k.Name == "floor" }

// Kinds of documents that there are.
func Kinds() []Kind {
	return []Kind{
		{"template", Job, []string{"pdf", "svg", ""}, "template.pdf", MakeTemplate},
		{"whole", Job, []string{"svg", ""}, "piece.svg", makeWhole},
		{"setout", Job, []string{"pdf", "svg", "csv", "txt"}, "setout.pdf", makeSetout},
		{"floor", Job, []string{"pdf", "svg", "csv", "txt"}, "floor.pdf", makeFloor},
		{"check", Job | Readings, []string{"pdf", "svg", "txt", "csv"}, "check.pdf", makeCheck},
		{"preview", Job, []string{"png"}, "preview.png", makePreview},
		{"tasks", Tasks, []string{"pdf", "csv", ""}, "tasks.pdf", makeTasks},
		{"calibrate", Printer, []string{"pdf"}, "sheet.pdf", makeCalibration},
	}
}

// KindOf is the kind of that name.
func KindOf(name string) Kind {
	all := Kinds()
	return all[slices.IndexFunc(all, func(k Kind) bool { return k.Name == name })]
}

// Document is one that is made, but not written yet. What it has no form for is nil.
type Document struct {
	Summary  func() []string // what was written, in a few lines
	Report   func() any      // for other software, with the pages as they were written last
	Warnings []string        // what is doubtful
	Said     func(io.Writer) error
	Pegs     func(io.Writer) error // point,x,y in the site's grid
	Grid     func() string         // how those lie
	Sheets   int                   // of setting out: pegs are written of one alone
	Travels  string                // what goes with a PDF to whoever gets it
	Failed   bool                  // what was found lies outside what is accepted

	head    draw.Document
	lay     func() error               // draws the pages, where that is not done yet
	pages   func() iter.Seq[draw.Page] // one after the other
	names   func() []string            // of the pages as files, without their ending
	single  func() bool                // all is on one page
	carried func() (*draw.Attachment, error)
	drawn   func(io.Writer, draw.Page, draw.Document) error                       // one page as SVG
	files   map[string]func(io.Writer) error                                      // that are no drawings, by their endings
	folder  func(file func(name string, write func(io.Writer) error) error) error // instead of a folder of drawings
	apart   func() error                                                          // refuses what must not stand in one file
}

// drawn are pages that lie ready, with their names as files.
type drawn struct {
	pages []draw.Page
	names []string
}

// into makes them the pages of a document.
func (p *drawn) into(d *Document) {
	d.pages, d.names = func() iter.Seq[draw.Page] { return slices.Values(p.pages) }, func() []string { return p.names }
	d.single = func() bool { return len(p.pages) == 1 }
}

// Output is a document in one form: a file, or a folder of them.
type Output struct {
	File   func(io.Writer) error                                                 // nil: a folder
	Folder func(file func(name string, write func(io.Writer) error) error) error // each with its name
}

// As is the document as files of an ending are; empty: as a folder of drawings. One
// drawing of several pages is a folder too. What cannot be drawn is refused here,
// before anything is written.
func (d *Document) As(ending string) (Output, error) {
	if d.files[ending] == nil {
		if err := d.laid(); err != nil {
			return Output{}, err
		}
	}
	switch {
	case ending == "" && d.folder != nil:
		return Output{Folder: d.folder}, nil
	case ending == "pdf" && d.apart != nil && d.apart() != nil:
		return Output{}, d.apart()
	case ending == "pdf" && d.pages != nil && d.drawn == nil: // what a machine cuts has no paper
		return Output{File: d.pdf}, nil
	case ending == "svg" && d.names != nil && d.single():
		return Output{File: func(out io.Writer) error {
			return d.drawings(func(_ string, write func(io.Writer) error) error { return write(out) })
		}}, nil
	case (ending == "svg" || ending == "") && d.names != nil:
		return Output{Folder: d.drawings}, nil
	case d.files[ending] != nil:
		return Output{File: d.files[ending]}, nil
	}
	return Output{}, fmt.Errorf("a document of this kind is not written as %q", ending)
}

// Seen makes every page once, so that the report has them although nothing is written.
func (d *Document) Seen() error {
	if err := d.laid(); err != nil || d.pages == nil {
		return err
	}
	for range d.pages() {
	}
	return nil
}

// laid draws the pages where that is not done yet.
func (d *Document) laid() error {
	if d.lay == nil {
		return nil
	}
	lay := d.lay
	d.lay = nil
	return lay()
}

func (d *Document) pdf(out io.Writer) (err error) {
	doc := d.head
	doc.Pages = d.pages()
	if d.carried != nil {
		if doc.Attachment, err = d.carried(); err != nil {
			return err
		}
	}
	return pdf.Write(out, doc)
}

func (d *Document) drawings(file func(name string, write func(io.Writer) error) error) error {
	names, write := d.names(), d.drawn
	if write == nil {
		write = svg.Write
	}
	n := 0
	for p := range d.pages() {
		if err := file(names[n]+".svg", func(out io.Writer) error { return write(out, p, d.head) }); err != nil {
			return err
		}
		n++
	}
	return nil
}
