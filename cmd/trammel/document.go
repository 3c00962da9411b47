package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"trammel/cmd/internal/app"
	"trammel/cmd/internal/output"
)

// document makes a document, writes it and says so. A wrong place is said before it is
// made, which may take a while.
func (r *request) document(kind string, g goal, o app.Order) error {
	d, err := prepared(kind, g, o)
	if err != nil {
		return err
	}
	wrote, err := r.write(g, d)
	if err != nil {
		return err
	}
	return r.done(d, g, wrote)
}

func prepared(kind string, g goal, o app.Order) (*app.Document, error) {
	if err := g.free(); err != nil {
		return nil, err
	}
	return app.KindOf(kind).Make(o)
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

// done says what was found and written and what to take care of; the report goes to
// standard output where it was asked for, and every other word then not.
func (r *request) done(d *app.Document, g goal, wrote string, more ...string) error {
	words := io.Writer(r.console.out)
	switch {
	case r.json:
		if err := writeJSON(r.console.out, d.Report()); err != nil {
			return err
		}
		words = r.console.err
	case d.Said != nil:
		if err := d.Said(r.console.out); err != nil {
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
		fmt.Fprintln(r.console.err, oneLine("take care: "+l))
	}
	if d.Failed {
		return errNotPassed
	}
	return nil
}

// folderName marks a folder as one.
func folderName(path string) string {
	if info, err := os.Stat(path); err == nil && info.IsDir() && !strings.HasSuffix(path, string(filepath.Separator)) {
		return path + string(filepath.Separator)
	}
	return path
}
