package main

import (
	"slices"

	"trammel/cmd/internal/app"
	"trammel/cmd/internal/output"
	"trammel/geom/unit"
)

// pageFlags say what a page is; a whole piece has none.
var pageFlags = []string{"paper", "landscape", "printer", "margin", "overlap", "pages", "turn", "apart"}

// wholeTemplate writes each piece as one SVG for a machine that cuts.
func (r *request) wholeTemplate(g goal, w app.Work) error {
	if g.ending == "pdf" {
		return &unit.Fault{Where: "--whole", What: "is for machines that cut, and they do not read PDF", Hint: "name an SVG file: -o piece.svg"}
	}
	for _, name := range pageFlags {
		if f := r.flags.Lookup(name); f != nil && f.Changed {
			return &unit.Fault{Where: "--" + name, What: "is about pages, and a whole piece has none", Hint: "leave --" + name + " or --whole out"}
		}
	}
	h, err := w.Whole()
	if err != nil {
		return err
	}
	wrote := g.path
	if g.ending == "svg" && h.Count() == 1 {
		err = r.keeper.File(g.path, h.OneSVG)
	} else {
		wrote = g.asFolder()
		if err = output.CheckFolder(wrote); err == nil {
			err = r.keeper.Folder(wrote, h.SVG)
		}
	}
	if err != nil {
		return err
	}
	lines := slices.Clone(h.Summary())
	lines[0] = folderName(wrote) + ": " + lines[0]
	return r.done(h.Report(), w, lines...)
}
