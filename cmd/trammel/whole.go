package main

import (
	"trammel/cmd/internal/app"
	"trammel/geom/unit"
)

// pageFlags say what a page is; a whole piece has none.
var pageFlags = []string{"paper", "landscape", "printer", "margin", "overlap", "pages", "turn", "apart"}

// wholeTemplate writes each piece as one SVG for a machine that cuts.
func (r *request) wholeTemplate(g goal, o app.Order) error {
	if err := o.Work.Picked(); err != nil {
		return err
	}
	if g.ending == "pdf" {
		return &unit.Fault{Where: "--whole", What: "is for machines that cut, and they do not read PDF", Hint: "name an SVG file: -o piece.svg"}
	}
	for _, name := range pageFlags {
		if f := r.flags.Lookup(name); f != nil && f.Changed {
			return &unit.Fault{Where: "--" + name, What: "is about pages, and a whole piece has none", Hint: "leave --" + name + " or --whole out"}
		}
	}
	return r.document("whole", g, o)
}
