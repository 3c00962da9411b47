package main

import (
	"path/filepath"
	"strings"

	"trammel/cmd/internal/app"
	"trammel/cmd/internal/output"
	"trammel/geom/unit"
	"trammel/profiles/strict"
)

// pegsGoal tries the name that --pegs gives, before anything is made.
func (r *request) pegsGoal(args []string) error {
	if !r.flags.Changed("pegs") {
		return nil
	}
	fault := func(what, hint string) error {
		return &unit.Fault{Where: "--pegs " + strict.Shorten(r.pegs), What: what, Hint: hint}
	}
	base := filepath.Base(r.pegs)
	switch {
	case strings.TrimSpace(r.pegs) == "":
		return &unit.Fault{Where: "--pegs", What: "wants a value"}
	case strings.ContainsRune(r.pegs, 0):
		return fault("holds a character that no name can", "")
	case !strings.EqualFold(filepath.Ext(base), ".csv") || strings.HasPrefix(base, ".csv"):
		return fault("is not a name that ends in .csv", "such as --pegs pegs.csv")
	case output.Same(r.pegs, r.out):
		return fault("leads to the same file as -o "+strict.Shorten(r.out), "name another file for the pegs")
	}
	for _, a := range args {
		if !strings.Contains(a, "=") && sameFile(a, r.pegs) {
			return fault("is the job file itself, which would be lost", "name another file to write")
		}
	}
	if r.config != "" && sameFile(r.config, r.pegs) {
		return fault("is the profiles file itself, which would be lost", "name another file to write")
	}
	return output.CheckFile(r.pegs)
}

// writePegs writes them where they were asked for, and says so.
func (r *request) writePegs(d *app.Document) (line []string, err error) {
	if !r.flags.Changed("pegs") {
		return nil, nil
	}
	if err := r.keeper.File(r.pegs, d.Pegs); err != nil {
		return nil, err
	}
	return []string{r.pegs + ": where the pegs stand, point,x,y in mm; " + d.Grid()}, nil
}
