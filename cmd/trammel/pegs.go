package main

import (
	"path/filepath"
	"slices"
	"strings"

	"trammel/cmd/internal/app"
	"trammel/cmd/internal/output"
	"trammel/geom/unit"
	"trammel/profiles/strict"
)

// pegsGoal tries the name that --pegs gives, before anything is made.
func (r *request) pegsGoal(args []string) error {
	pegs, out, profiles := r.text("pegs"), r.text("output"), r.text("config")
	if _, err := r.said("pegs"); err != nil || pegs == "" {
		return err
	}
	fault := func(what, hint string) error {
		return &unit.Fault{Where: "--pegs " + strict.Shorten(pegs), What: what, Hint: hint}
	}
	base := filepath.Base(pegs)
	switch {
	case strings.ContainsRune(pegs, 0):
		return fault("holds a character that no name can", "")
	case !strings.EqualFold(filepath.Ext(base), ".csv") || strings.HasPrefix(base, ".csv"):
		return fault("is not a name that ends in .csv", "such as --pegs pegs.csv")
	case output.Same(pegs, out):
		return fault("leads to the same file as -o "+strict.Shorten(out), "name another file for the pegs")
	case slices.ContainsFunc(args, func(a string) bool { return !strings.Contains(a, "=") && sameFile(a, pegs) }):
		return fault("is the job file itself, which would be lost", "name another file to write")
	case profiles != "" && sameFile(profiles, pegs):
		return fault("is the profiles file itself, which would be lost", "name another file to write")
	}
	return output.CheckFile(pegs)
}

// writePegs writes them where they were asked for, and says so.
func (r *request) writePegs(d *app.Document) (line []string, err error) {
	pegs := r.text("pegs")
	if pegs == "" {
		return nil, nil
	}
	if err := r.keeper.File(pegs, d.Pegs); err != nil {
		return nil, err
	}
	return []string{pegs + ": where the pegs stand, point,x,y in mm; " + d.Grid()}, nil
}
