package main

import (
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"trammel/cmd/internal/app"
	"trammel/cmd/internal/output"
	"trammel/geom/unit"
	"trammel/profiles/strict"
)

func setoutCommand(c console) *cobra.Command {
	return c.command(command{
		use:   "setout JOB | MEASUREMENT... -o OUT",
		short: "the setting-out sheet for what is larger than paper: .pdf, .svg, .csv or .txt",
		long: `Setout makes a sheet to peg out a triangle or a net of 1 m to 100 m with: the plan,
where each peg stands, what to hold and pull, numbered steps, and checks to close on
with the range to accept: one leaf, front and back. --office adds a page on how sure
each peg is. Every baseline is compared with
every way that the tools allow (two arcs; an offset by 3-4-5; angle and distance) and
the surest used, unless --base and --with say otherwise.

--every adds marks along the edges, --boards profile boards and where their strings
cross, --permitted a comparison with ±K√L. --temperature, --pull and --span ask for
what the tape must read, beside the true lengths; --levels, how high pegs stand, for
what it must read along the ground.

OUT.txt is plain text for a phone, OUT.csv for other software. --pegs writes where
the pegs stand for a total station: point,x,y.`,
		example: `  trammel setout AB=7.200m A=35deg B=35deg -o gable.pdf
  trammel setout examples/boathouse-gable.yaml --paper A3 -o gable.pdf
  trammel setout examples/boathouse-gable.yaml -o gable.txt
  trammel setout AB=12000 BC=8000 CD=12000 DA=8000 AC=14422 BD=14422 --outline ABCD --boards 1m -o house.pdf
  trammel setout site.csv --origin 1000,2000 --bearing 35deg --pegs pegs.csv -o gable.pdf`,
		flags: [][]option{jobFlags, paperFlags, siteFlags, groundFlags, {
			{"with", "", "`way` to place the pegs, whatever is surest: arcs, square (an offset by 3-4-5) or angle (and distance)"},
			{"office", false, "a page more for the office: how sure each peg is, the ways compared, corrections, a second way"},
			{"pegs", "", "`file` to write the pegs to as well: .csv with point,x,y in mm, x east and y north, as --origin and --bearing place them"},
		}},
		output: ".pdf, .svg, .csv or .txt",
		run: func(r *request, args []string) error {
			return r.make(func() (app.Order, error) {
				if err := r.pegsGoal(args); err != nil {
					return app.Order{}, err
				}
				o, err := r.open(args)
				o.Office = r.on("office")
				return o, err
			})
		},
	})
}

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
	case slices.ContainsFunc(args, func(a string) bool { return !strings.Contains(a, "=") && output.SameFile(a, pegs) }):
		return fault("is the job file itself, which would be lost", "name another file to write")
	case profiles != "" && output.SameFile(profiles, pegs):
		return fault("is the profiles file itself, which would be lost", "name another file to write")
	}
	return output.CheckFile(pegs)
}

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
