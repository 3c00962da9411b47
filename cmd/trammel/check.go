package main

import (
	"errors"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"trammel/cmd/internal/app"
	"trammel/cmd/internal/output"
	"trammel/geom/unit"
	"trammel/profiles/job"
	"trammel/profiles/strict"
)

// errNotPassed ends the program with status notPassed; all has been said already.
var errNotPassed = errors.New("what was found lies outside what is accepted")

func checkCommand(c console) *cobra.Command {
	return c.command(command{
		use:   "check JOB | MEASUREMENT... --found AB=4510,BC=3005",
		short: "what was pegged against what was asked: passed or not, which peg stands wrong, how to mend it",
		long: `Check holds what was measured back after setting out against what the job asks for.
It says of each length how far it is off and whether that is accepted, which peg
stands wrong where the lengths tell it, and the move that mends it: so far towards
another peg, so far to the left; or that it is the tape, that a frame is racked, or that
the whole is shifted or turned against the pegs that are fixed.

What was found is given with --found, as measurements parted by commas or as a file
of them (a table from,to,value or one measurement a line), or in the job, under the
piece, as found: [AB=4510, BC=3005]. Pegs that are known to stand right, such as the
corners of a wall, are named with --fixed A,B or under the piece as fixed: [A, B].

The exit status is 0 where all lies within its range and 4 where not. -o writes a
sheet for the file as well: .pdf, .svg, .txt or .csv; --office says on it how the ranges
are reckoned.`,
		example: `  trammel check AB=4m BC=3m CA=5m --found AB=4001,BC=3009,CA=5015
  trammel check floor.yaml --found site.csv -o floor-check.pdf
  trammel check examples/boathouse-floor-found.yaml`,
		flags: [][]option{jobFlags, paperFlags, siteFlags, groundFlags, {
			{"found", []string(nil), "`what` was measured back: AB=4510,BC=3005, or a file of measurements"},
			{"piece", "", "`name` of the piece that was found, where the job has several"},
			{"office", false, "say on the sheet how the ranges are reckoned, part by part"},
			{"fixed", "", "`pegs` that are known to stand right, such as A,B: the rest may be shifted or turned as a whole"},
		}},
		output: ".pdf, .svg, .txt or .csv, a sheet for the file",
		run: func(r *request, args []string) error {
			return r.make(func() (o app.Order, err error) {
				if o, err = r.open(args); err == nil {
					o.Office = r.on("office")
					o.Findings, err = r.findings()
				}
				return o, err
			})
		},
	})
}

func (r *request) findings() (f app.Findings, err error) {
	piece, err := r.said("piece")
	if err != nil {
		return f, err
	}
	f.Piece, f.PieceAt = strings.TrimSpace(piece.Text), "--piece"
	if r.flags.Changed("fixed") {
		f.FixedAt = "--fixed"
		if f.Fixed, err = job.ParsePegs(r.text("fixed")); err != nil {
			return f, unit.Placed(err, "--fixed")
		}
	}
	for _, text := range r.flags.Lookup("found").Value.(pflag.SliceValue).GetSlice() {
		tokens, err := r.measuredBack(text)
		if err != nil {
			return f, err
		}
		f.Where, f.Tokens = "--found", append(f.Tokens, tokens...)
	}
	return f, nil
}

// measuredBack reads one --found: measurements where it has an equals sign, else
// the file of that name.
func (r *request) measuredBack(text string) ([]job.Setting, error) {
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
		return nil, unit.Placed(err, "--found")
	}
	if out := r.text("output"); out != "" && output.SameFile(text, out) {
		return nil, overItself(out, "the file of what was found")
	}
	return job.ReadMeasurements(strict.Shorten(text), data)
}
