package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"
	"syscall"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"trammel/cmd/internal/app"
	"trammel/cmd/internal/config"
	"trammel/cmd/internal/solved"
	"trammel/geom/construct"
	"trammel/geom/unit"
	"trammel/profiles/job"
	"trammel/profiles/strict"
)

// request is what the flags and arguments of a command ask for.
type request struct {
	console
	flags *pflag.FlagSet

	json, landscape, whole, apart                         bool
	config, out, name                                     string
	unit, fraction, angles, trade, pick, base, with       string
	paper, printer, margin, overlap, pages, turn, without string
	outline, side, pegs, levels, slope                    string
	site                                                  map[string]*string // by the words of a site
	setsOut                                               bool               // --with is a way of setting out
}

// read adds the flags that say how a job is read.
func (r *request) read(cmd *cobra.Command) {
	f := cmd.Flags()
	r.flags = f
	f.BoolVar(&r.json, "json", false, "print the report as JSON on standard output; every other word goes to standard error")
	f.StringVar(&r.unit, "unit", "", "`unit` of bare numbers and of figures: mm, cm, m, in or ft")
	f.StringVar(&r.fraction, "fraction", "", "finest `fraction` of an inch that is written: 1/8, 1/16, 1/32 or 1/64")
	f.StringVar(&r.angles, "angles", "", "`form` of angles: decimal or minutes")
	f.StringVar(&r.trade, "trade", "", "`trade` profile: joiner, tiler, teacher or one of your own")
	f.StringVar(&r.pick, "pick", "", "`which` triangle where two fit: 1, 2 or both")
	f.StringVar(&r.base, "base", "", "the baseline by its two `ends`, such as AB")
	f.StringVar(&r.with, "with", "", "`way` to construct it, whatever was measured: arcs, angle or square")
	f.StringVar(&r.outline, "outline", "", "`corners` of the piece in the order of walking round, such as A,B,C,D, where more than three points were measured")
	f.StringVar(&r.side, "side", "", "`side` on which points lie where two places fit: left, right, or D left, E right of AB")
	f.StringVar(&r.name, "name", "", "`name` of the piece that the measurements make")
	f.StringVar(&r.config, "config", "", "profiles `file` over your own")
}

// print adds the flags that say what it is printed on.
func (r *request) print(cmd *cobra.Command) {
	f := cmd.Flags()
	f.StringVar(&r.paper, "paper", "", "`paper`: A4, Letter, Arch D …, or a size such as 300x500, 12x18in, or 914xany off a roll")
	f.BoolVar(&r.landscape, "landscape", false, "paper lying on its side")
	f.StringVar(&r.printer, "printer", "", "`printer` profile or one that is calibrated: margins, overlap and correction")
	f.StringVar(&r.margin, "margin", "", "`width` of all four margins, such as 10mm or 1/2in; a bare number counts mm, and is refused where bare numbers count another unit")
	f.StringVar(&r.overlap, "overlap", "", "`width` of what neighbouring pages show twice, written like a margin")
}

// spread adds the flags that say what comes on the pages of a template.
func (r *request) spread(cmd *cobra.Command) {
	f := cmd.Flags()
	f.StringVar(&r.pages, "pages", "", "`which` pages: full for every page of the piece, outline for only those that carry its edges")
	f.StringVar(&r.turn, "turn", "", "`angle` of the baseline on the paper, 0 along its lower edge; else the turn with the fewest pages")
	f.BoolVar(&r.apart, "apart", false, "small pieces do not share pages: each has its own")
	f.StringVar(&r.without, "without", "", "`layers` to leave out: "+strings.Join(app.Layers(), ","))
}

// siteFlags say of the ground, the tools and the day what a job says under site:.
var siteFlags = [][2]string{
	{"tape", "accuracy `class` of the tape: I, II or III (OIML R 35)"},
	{"instrument", "`what` angles are set out with: none, square, protractor or theodolite"},
	{"permitted", "`K` in mm of the permitted deviation ±K√L, L in metres, 2K under 5 m"},
	{"every", "`distance` from mark to mark along each edge"},
	{"boards", "`distance` by which profile boards stand clear of the digging"},
	{"origin", "`place` of the end of the baseline that is named first: easting,northing; beyond 100000 with its unit"},
	{"bearing", "`angle` of the baseline, clockwise from north"},
	{"temperature", "`temperature` of the tape when it is used, such as 31C or 88F: its readings are corrected"},
	{"pull", "`force` it is pulled with, such as 50N or 12lb"},
	{"span", "`distance` between its supports, where it hangs"},
}

// readWith adds the flags that say what it was measured with, which measurements to
// spare are weighed by.
func (r *request) readWith(cmd *cobra.Command) {
	r.site = map[string]*string{}
	r.site["tape"] = cmd.Flags().String("tape", "", "accuracy `class` of the tape that measured: I, II or III (OIML R 35)")
	r.site["instrument"] = cmd.Flags().String("instrument", "", "`what` angles were measured with: protractor or theodolite")
}

// onSite adds the flags of the setting-out.
func (r *request) onSite(cmd *cobra.Command) {
	r.site = map[string]*string{}
	for _, s := range siteFlags {
		r.site[s[0]] = cmd.Flags().String(s[0], "", s[1])
	}
	f := cmd.Flags()
	f.StringVar(&r.levels, "levels", "", "`heights` of pegs, such as \"A 0, B 320\": the tape's readings follow the ground")
	f.StringVar(&r.slope, "slope", "", "")
	_ = f.MarkHidden("slope") // an older word, refused with what to write
}

func (r *request) output(cmd *cobra.Command, what string) {
	cmd.Flags().StringVarP(&r.out, "output", "o", "", "`file` to write: "+what)
}

// said is a flag's setting where the flag was given.
func (r *request) said(name, text string) job.Setting {
	if !r.flags.Changed(name) {
		return job.Setting{}
	}
	return job.Setting{Text: unit.Composed(text), Where: "--" + name}
}

// over is what the flags say over the job.
func (r *request) over() (job.Overrides, error) {
	var o job.Overrides
	if err := swallowed(r.flags); err != nil {
		return o, err
	}
	for _, s := range []struct {
		name, text string
		to         *job.Setting
	}{
		{"unit", r.unit, &o.Unit}, {"fraction", r.fraction, &o.Fraction}, {"angles", r.angles, &o.Angles},
		{"trade", r.trade, &o.Trade.Name}, {"paper", r.paper, &o.Paper.Name}, {"printer", r.printer, &o.Printer.Name},
		{"margin", r.margin, &o.Margin}, {"overlap", r.overlap, &o.Overlap}, {"pages", r.pages, &o.Pages}, {"without", r.without, &o.Without},
		{"turn", r.turn, &o.Turn},
	} {
		*s.to = r.said(s.name, s.text)
		if s.to.Where != "" && strings.TrimSpace(s.text) == "" {
			return o, &unit.Fault{Where: "--" + s.name, What: "wants a value"}
		}
	}
	if r.landscape {
		o.Landscape = job.Setting{Text: "yes", Where: "--landscape"}
	}
	if r.apart {
		o.Apart = job.Setting{Text: "yes", Where: "--apart"}
	}
	if err := r.overPieces(&o); err != nil {
		return o, err
	}
	o.Site = map[string]job.Setting{}
	for name, text := range r.site {
		if s := r.said(name, *text); s.Where != "" {
			if strings.TrimSpace(s.Text) == "" {
				return o, &unit.Fault{Where: s.Where, What: "wants a value"}
			}
			o.Site[name] = s
		}
	}
	return o, nil
}

// overPieces is what the flags say over each piece.
func (r *request) overPieces(o *job.Overrides) error {
	p := &o.Piece
	with, method := construct.AsMeasured, &p.With
	if r.setsOut { // it says how the pegs are placed
		method = &with
	}
	for _, f := range []struct {
		name string
		read func() error
	}{
		{"pick", func() (err error) { p.Pick, err = job.ParsePick(r.pick); return err }},
		{"base", func() (err error) { p.BaseAt = "--base"; p.Base, err = job.ParseBase(r.base); return err }},
		{"with", func() (err error) { *method, err = job.ParseMethod(r.with); return err }},
		{"outline", func() (err error) { p.Outline, err = job.ParseOutline(r.outline); return err }},
		{"side", func() (err error) { p.Sides, err = job.ParseSides(r.side, "--side"); return err }},
	} {
		if !r.flags.Changed(f.name) {
			continue
		}
		if err := f.read(); err != nil {
			return unit.Placed(err, "--"+f.name)
		}
	}
	o.Pegs.Text = job.MethodWord(with)
	if r.flags.Changed("slope") {
		return job.Slope().In("--slope")
	}
	if r.flags.Changed("levels") {
		var err error
		p.Levels, err = job.ParseLevels(r.levels, "--levels")
		return unit.Placed(err, "--levels")
	}
	return nil
}

// swallowed finds a flag whose value was forgotten, so that it took the next flag
// for its value, or nothing where only a value makes sense.
func swallowed(flags *pflag.FlagSet) error {
	var err error
	flags.Visit(func(f *pflag.Flag) {
		v := f.Value.String()
		if f.Name == "config" && strings.TrimSpace(v) == "" && err == nil {
			err = &unit.Fault{Where: "--config", What: "wants a value"}
		}
		if f.Value.Type() == "string" && len(v) > 1 && v[0] == '-' && err == nil && (v[1] == '-' || flags.ShorthandLookup(v[1:2]) != nil) {
			err = &unit.Fault{Where: dashed(f.Name), What: fmt.Sprintf("wants a value, and %q stands there", strict.Shorten(v))}
		}
	})
	return err
}

// open reads the job and the profiles and solves.
func (r *request) open(args []string) (app.Order, error) {
	flags, err := r.over()
	if err != nil {
		return app.Order{}, err
	}
	j, err := r.job(args)
	if err != nil {
		return app.Order{}, err
	}
	if r.config != "" && r.out != "" && sameFile(r.config, r.out) {
		return app.Order{}, overItself(r.out, "the profiles file")
	}
	set, err := config.Profiles(r.config, readFile)
	if err != nil {
		return app.Order{}, err
	}
	m, err := job.Merge(j, flags, set, kept, says)
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
	name := unit.Composed(strings.TrimSpace(r.name))
	if n := len([]rune(name)); n > job.MaxName {
		return job.Job{}, &unit.Fault{Where: "--name", What: fmt.Sprintf("is longer than %d letters", job.MaxName)}
	}
	if len(files) == 0 {
		return solved.Named(name, tokens), nil
	}
	j, err := jobFile(files[0], r.in, r.out)
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
	if out != "" && sameFile(path, out) {
		return job.Job{}, overItself(out, "the job file")
	}
	return job.ReadAny(path, data)
}

// sameFile says whether two names are of one file, through links as well.
func sameFile(a, b string) bool {
	x, errX := os.Stat(a)
	y, errY := os.Stat(b)
	return errX == nil && errY == nil && os.SameFile(x, y)
}

// overItself refuses an output that would take the place of what was read.
func overItself(out, what string) error {
	return &unit.Fault{Where: "-o " + strict.Shorten(out), What: "is " + what + " itself, which would be lost", Hint: "name another file to write"}
}

// carried is the job in a PDF.
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
