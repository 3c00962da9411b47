package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"trammel/cmd/internal/app"
	"trammel/cmd/internal/output"
	"trammel/geom/unit"
	"trammel/profiles/strict"
)

// make makes and writes the document that the command is for.
func (r *request) make(order func() (app.Order, error)) error {
	g, err := r.goal()
	if err != nil {
		return err
	}
	o, err := order()
	if err != nil {
		return err
	}
	return r.document(r.command, g, o)
}

// document makes a document, writes it and says so. A wrong place is said before it is
// made, which may take a while.
func (r *request) document(kind string, g goal, o app.Order) error {
	if err := g.free(); err != nil {
		return err
	}
	d, err := app.KindOf(kind).Make(o)
	if err != nil {
		return err
	}
	if name := r.text("pegs"); name != "" && d.Pegs == nil {
		return &unit.Fault{Where: "--pegs " + strict.Shorten(name), What: fmt.Sprintf("a file of pegs is of one sheet, and this job has %d", d.Sheets), Hint: "make a job of the piece"}
	}
	wrote, err := r.write(g, d)
	if err != nil {
		return err
	}
	return r.done(d, g, wrote)
}

// write writes the document and returns the name of the file or folder.
func (c console) write(g goal, d *app.Document) (wrote string, err error) {
	switch {
	case g.path == "" && d.Said != nil: // what was found is all that is asked for
		return "", nil
	case g.path == "":
		return "", d.Seen()
	}
	out, err := d.As(g.ending)
	if err != nil {
		return "", err
	}
	if out.File != nil {
		return g.path, c.keeper.File(g.path, out.File)
	}
	wrote = g.asFolder()
	if err := output.CheckFolder(wrote); err != nil {
		return "", err
	}
	return wrote, c.keeper.Folder(wrote, out.Folder)
}

// done writes the pegs where they were asked for, says what was found and written and
// what is doubtful; the report goes to standard output where it was asked for, and
// every other word then not.
func (r *request) done(d *app.Document, g goal, wrote string) error {
	more, err := r.writePegs(d)
	if err != nil {
		return err
	}
	words := io.Writer(r.out)
	switch {
	case r.on("json"):
		if err := writeJSON(r.out, d.Report()); err != nil {
			return err
		}
		words = r.err
	case d.Said != nil:
		if err := d.Said(r.out); err != nil {
			return err
		}
		if wrote != "" {
			fmt.Fprintln(words)
		}
	}
	if wrote != "" {
		lines := d.Summary()
		lines[0] = folderName(wrote) + ": " + lines[0]
		if g.ending == "pdf" && d.Travels != "" {
			lines = append(lines, d.Travels)
		}
		for _, l := range append(lines, more...) {
			fmt.Fprintln(words, oneLine(l))
		}
	}
	for _, l := range d.Warnings {
		fmt.Fprintln(r.err, oneLine("warning: "+l))
	}
	if d.Failed {
		return errNotPassed
	}
	return nil
}

func folderName(path string) string {
	if info, err := os.Stat(path); err == nil && info.IsDir() && !strings.HasSuffix(path, string(filepath.Separator)) {
		return path + string(filepath.Separator)
	}
	return path
}
