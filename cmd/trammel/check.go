package main

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"trammel/cmd/internal/app"
	"trammel/cmd/internal/output"
	"trammel/geom/unit"
	"trammel/profiles/job"
	"trammel/profiles/strict"
)

// errNotPassed ends the program with status notPassed; all has been said already.
var errNotPassed = errors.New("what was found lies outside what is accepted")

// checkRequest is what trammel check asks for beyond a job.
type checkRequest struct {
	*request
	found []string
	piece string
	fixed string
}

func checkCommand(c console) *cobra.Command {
	r := &checkRequest{request: &request{console: c}}
	cmd := &cobra.Command{
		Use:   "check JOB | MEASUREMENT... --found AB=4510,BC=3005",
		Short: "what was pegged against what was asked: passed or not, which peg stands wrong, how to mend it",
		Long: `Check holds what was measured back after setting out against what the job asks for.
It says of each length how far it is off and whether that is accepted, which peg
stands wrong where the lengths tell it, and the move that mends it: so far towards
another peg, so far to the left; or that it is the tape, that a frame is racked, or that
the whole is shifted or turned against the pegs that are fixed.

What was found is given with --found, as measurements parted by commas or as a file
of them (a table from,to,value or one measurement a line), or in the job, under the
piece, as found: [AB=4510, BC=3005]. Pegs that are known to stand right, such as the
corners of a wall, are named with --fixed A,B or under the piece as fixed: [A, B].

The exit status is 0 where all lies within its range and 4 where not. -o writes a
sheet for the file as well: .pdf, .svg, .txt or .csv.`,
		Example: `  trammel check AB=4m BC=3m CA=5m --found AB=4001,BC=3009,CA=5015
  trammel check floor.yaml --found site.csv -o floor-check.pdf
  trammel check examples/boathouse-floor-found.yaml`,
	}
	r.read(cmd)
	r.print(cmd)
	r.onSite(cmd)
	r.output(cmd, ".pdf, .svg, .txt or .csv, a sheet for the file")
	f := cmd.Flags()
	f.StringArrayVar(&r.found, "found", nil, "`what` was measured back: AB=4510,BC=3005, or a file of measurements")
	f.StringVar(&r.piece, "piece", "", "`name` of the piece that was found, where the job has several")
	f.StringVar(&r.fixed, "fixed", "", "`pegs` that are known to stand right, such as A,B: the rest may be shifted or turned as a whole")
	cmd.RunE = func(_ *cobra.Command, args []string) error { return r.check(args) }
	return cmd
}

func (r *checkRequest) check(args []string) error {
	var g goal
	var err error
	if r.flags.Changed("output") {
		if g, err = r.goal("check.pdf", false, "pdf", "svg", "txt", "csv"); err != nil {
			return err
		}
	}
	w, err := r.open(args)
	if err != nil {
		return err
	}
	found, err := r.findings()
	if err != nil {
		return err
	}
	// Before anything is made: a wrong place is said at once.
	if g.path != "" && g.ending != "svg" {
		if err := output.CheckFile(g.path); err != nil {
			return err
		}
	}
	c, err := w.Check(found)
	if err != nil {
		return err
	}
	wrote, err := r.write(c, g)
	if err != nil {
		return err
	}
	if err := r.tell(c, w, wrote, g.travels(w)...); err != nil {
		return err
	}
	if !c.Passed() {
		return errNotPassed
	}
	return nil
}

// findings reads --found, --fixed and --piece.
func (r *checkRequest) findings() (app.Findings, error) {
	f := app.Findings{Piece: unit.Composed(strings.TrimSpace(r.piece)), PieceAt: "--piece"}
	if r.flags.Changed("piece") && f.Piece == "" {
		return f, &unit.Fault{Where: "--piece", What: "wants a value"}
	}
	if r.flags.Changed("fixed") {
		var err error
		f.FixedAt = "--fixed"
		if f.Fixed, err = job.ParsePegs(r.fixed); err != nil {
			return f, in("--fixed", err)
		}
	}
	if !r.flags.Changed("found") {
		return f, nil
	}
	f.Where = "--found"
	for _, text := range r.found {
		tokens, err := r.measuredBack(text)
		if err != nil {
			return f, err
		}
		f.Tokens = append(f.Tokens, tokens...)
	}
	return f, nil
}

// measuredBack reads one --found: measurements where it has an equals sign, else
// the file of that name.
func (r *checkRequest) measuredBack(text string) ([]job.Setting, error) {
	switch {
	case strings.TrimSpace(text) == "":
		return nil, &unit.Fault{Where: "--found", What: "wants a value", Hint: "what was measured back: --found AB=4510,BC=3005, or a file: --found site.csv"}
	case strings.Contains(text, "="):
		return app.Tokens(text, "--found"), nil
	}
	data, err := readFile(text)
	if err != nil {
		var f *unit.Fault
		if errors.As(err, &f) && f.Hint == "" {
			f.Hint = "name a file of measurements, or give them: --found AB=4510,BC=3005"
		}
		return nil, in("--found", err)
	}
	if r.out != "" && sameFile(text, r.out) {
		return nil, overItself(r.out, "the file of what was found")
	}
	return job.ReadMeasurements(strict.Shorten(text), data)
}

// write writes the sheet where one was asked for, and is its name.
func (r *checkRequest) write(c *app.Check, g goal) (wrote string, err error) {
	if g.path == "" {
		return "", nil
	}
	if g.ending == "pdf" || g.ending == "svg" {
		if err := c.Lay(); err != nil {
			return "", err
		}
	}
	wrote = g.path
	switch {
	case g.ending == "pdf":
		err = r.keeper.File(g.path, c.PDF)
	case g.ending == "csv":
		err = r.keeper.File(g.path, c.CSV)
	case g.ending == "txt":
		err = r.keeper.File(g.path, c.Text)
	case c.Count() == 1:
		err = r.keeper.File(g.path, c.OneSVG)
	default:
		wrote = g.asFolder()
		if err = output.CheckFolder(wrote); err == nil {
			err = r.keeper.Folder(wrote, c.SVG)
		}
	}
	return wrote, err
}

// tell says what was found and what was written.
func (r *checkRequest) tell(c *app.Check, w app.Work, wrote string, more ...string) error {
	words := io.Writer(r.console.out)
	if r.json {
		if err := writeJSON(r.console.out, c.Report()); err != nil {
			return err
		}
		words = r.console.err
	} else if err := c.Words(r.console.out); err != nil {
		return err
	}
	if wrote != "" {
		if !r.json {
			fmt.Fprintln(words)
		}
		for _, l := range append([]string{folderName(wrote) + ": " + c.Summary()}, more...) {
			fmt.Fprintln(words, oneLine(l))
		}
	}
	for _, l := range c.Work().Warnings() {
		fmt.Fprintln(r.console.err, oneLine("take care: "+l))
	}
	return nil
}
