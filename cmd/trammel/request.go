package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"
	"syscall"

	"trammel/cmd/internal/app"
	"trammel/cmd/internal/config"
	"trammel/cmd/internal/output"
	"trammel/cmd/internal/solved"
	"trammel/geom/construct"
	"trammel/geom/unit"
	"trammel/profiles/job"
	"trammel/profiles/strict"
)

func (r *request) overrides() (o job.Overrides, err error) {
	if err := swallowed(r.flags); err != nil {
		return o, err
	}
	for _, s := range []struct {
		name string
		to   *job.Setting
	}{
		{"unit", &o.Unit}, {"fraction", &o.Fraction}, {"voice", &o.Voice}, {"angles", &o.Angles}, {"trade", &o.Trade.Name}, {"paper", &o.Paper.Name}, {"printer", &o.Printer.Name},
		{"margin", &o.Margin}, {"overlap", &o.Overlap}, {"pages", &o.Pages}, {"without", &o.Without}, {"turn", &o.Turn}, {"copies", &o.Copies},
	} {
		if *s.to, err = r.said(s.name); err != nil {
			return o, err
		}
	}
	for name, to := range map[string]*job.Setting{"landscape": &o.Landscape, "apart": &o.Apart} {
		if r.on(name) {
			*to = job.Setting{Text: "yes", Where: "--" + name}
		}
	}
	if r.on("both-hands") {
		o.BothHands = job.Setting{Text: "yes", Where: "--both-hands"}
	}
	if err := r.overPieces(&o); err != nil {
		return o, err
	}
	o.Site = map[string]job.Setting{}
	for _, f := range siteFlags {
		s, err := r.said(f.name)
		if err != nil {
			return o, err
		}
		if s.Where != "" {
			o.Site[f.name] = s
		}
	}
	return o, nil
}

func (r *request) overPieces(o *job.Overrides) error {
	p := &o.Piece
	with, method := construct.AsMeasured, &p.With
	if r.command == "setout" { // it says how the pegs are placed
		method = &with
	}
	for _, f := range []struct {
		name string
		read func(text string) error
	}{
		{"pick", func(s string) (err error) { p.Pick, err = job.ParsePick(s); return err }},
		{"base", func(s string) (err error) { p.BaseAt = "--base"; p.Base, err = job.ParseBase(s); return err }},
		{"with", func(s string) (err error) { *method, err = job.ParseMethod(s); return err }},
		{"outline", func(s string) (err error) { p.Outline, err = job.ParseOutline(s); return err }},
		{"side", func(s string) (err error) { p.Sides, err = job.ParseSides(s, "--side"); return err }},
		{"slope", func(string) error { return job.Slope() }},
		{"levels", func(s string) (err error) { p.Levels, err = job.ParseLevels(s, "--levels"); return err }},
		{"walls", func(s string) (err error) { p.Walls, err = job.ParseWalls(s); return err }},
		{"blocked", func(s string) (err error) { p.Blocked, err = job.ParseBlocked(s); return err }},
	} {
		if !r.flags.Changed(f.name) {
			continue
		}
		if err := f.read(r.text(f.name)); err != nil {
			return unit.Placed(err, "--"+f.name)
		}
	}
	o.Pegs.Text = job.MethodWord(with)
	return nil
}

// merged is the job that the arguments name, with flags and profiles.
func merged(r *request, args []string) (m job.Merged, err error) {
	flags, err := r.overrides()
	if err != nil {
		return m, err
	}
	j, err := r.job(args)
	if err != nil {
		return m, err
	}
	profiles, out := r.text("config"), r.text("output")
	if profiles != "" && out != "" && output.SameFile(profiles, out) {
		return m, overItself(out, "the profiles file")
	}
	set, err := config.Profiles(profiles, readFile)
	if err != nil {
		return m, err
	}
	return job.Merge(j, flags, set, kept, says)
}

func (r *request) open(args []string) (app.Order, error) {
	m, err := merged(r, args)
	if err != nil {
		return app.Order{}, err
	}
	w, err := app.Open(m, r.bar.progress())
	return app.Order{Work: w}, err
}

// job is the job that the arguments name or spell out.
func (r *request) job(args []string) (job.Job, error) {
	var tokens []job.Setting
	var files []string
	for _, a := range args {
		if strings.Contains(a, "=") {
			tokens = append(tokens, job.Setting{Text: a})
		} else {
			files = append(files, a)
		}
	}
	const both = "name one job file, or give measurements such as AB=600 BC=450 CA=450"
	if err := numbersAlone(files, tokens); err != nil {
		return job.Job{}, err
	}
	switch {
	case len(files)+len(tokens) == 0:
		return job.Job{}, &unit.Fault{What: "no job and no measurements", Hint: both}
	case len(files) > 0 && len(tokens) > 0:
		return job.Job{}, &unit.Fault{Where: strict.Shorten(files[0]), What: "is not a measurement, and a job file does not go with measurements", Hint: both}
	case len(files) > 1:
		return job.Job{}, &unit.Fault{Where: strict.Shorten(files[1]), What: "is a second job file", Hint: both}
	}
	name := unit.Composed(strings.TrimSpace(r.text("name")))
	if n := len([]rune(name)); n > job.MaxName {
		return job.Job{}, &unit.Fault{Where: "--name", What: fmt.Sprintf("is longer than %d letters", job.MaxName)}
	}
	if len(files) == 0 {
		return solved.Named(name, tokens), nil
	}
	j, err := jobFile(files[0], r.in, r.text("output"))
	if err != nil || !r.flags.Changed("name") {
		return j, err
	}
	if j.Raw != nil {
		return job.Job{}, &unit.Fault{Where: "--name", What: "a job file names its pieces itself", Hint: "leave --name out"}
	}
	j.Pieces[0].Name = name // of a list of measurements
	return j, nil
}

// jobFile reads the job of a name; out is what is to be written.
func jobFile(path string, in io.Reader, out string) (job.Job, error) {
	if path == "-" {
		data, err := io.ReadAll(io.LimitReader(in, strict.MaxBytes+1))
		if err != nil {
			return job.Job{}, err
		}
		if app.IsPDF(data) {
			return job.Job{}, &unit.Fault{Where: "standard input", What: "is a PDF, and a PDF is read from a file", Hint: "name the file: trammel solve gusset.pdf"}
		}
		return job.ReadAny("standard input", data)
	}
	data, err := readFile(path)
	if err != nil {
		var f *unit.Fault
		if errors.As(err, &f) && f.Hint == "" {
			f.Hint = "name a job file, or give measurements such as AB=600 BC=450 CA=450"
		}
		return job.Job{}, err
	}
	if app.IsPDF(data) {
		return carried(path)
	}
	if out != "" && output.SameFile(path, out) {
		return job.Job{}, overItself(out, "the job file")
	}
	return job.ReadAny(path, data)
}

// overItself refuses an output that would take the place of what was read.
func overItself(out, what string) error {
	return &unit.Fault{Where: "-o " + strict.Shorten(out), What: "is " + what + " itself, which would be lost", Hint: "name another file to write"}
}

func carried(path string) (job.Job, error) {
	f, err := os.Open(path)
	if err != nil {
		return job.Job{}, err
	}
	defer f.Close()
	info, err := f.Stat()
	switch {
	case err != nil:
		return job.Job{}, err
	case !info.Mode().IsRegular():
		return job.Job{}, &unit.Fault{Where: strict.Shorten(path), What: "is a PDF, but not an ordinary file", Hint: "save it as a file first"}
	}
	return app.Carried(path, f, info.Size())
}

// readFile reads a file that somebody named, and no more of it than any reader
// takes. A missing file is the user's mistake; an unreadable one is the
// machine's failure.
func readFile(path string) ([]byte, error) {
	f, err := os.Open(path)
	switch {
	case errors.Is(err, fs.ErrNotExist), errors.Is(err, syscall.ENOTDIR):
		if path == "" {
			path = `""`
		}
		return nil, &unit.Fault{Where: strict.Shorten(path), What: "there is no such file"}
	case err != nil:
		return nil, err
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil && info.IsDir() {
		return nil, &unit.Fault{Where: strict.Shorten(path), What: "is a folder", Advice: unit.Advice{Code: unit.Folder}}
	}
	return io.ReadAll(io.LimitReader(f, strict.MaxBytes+1))
}
