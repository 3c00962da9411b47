package main

import (
	"cmp"

	"trammel/cmd/internal/report"

	"github.com/spf13/cobra"
)

func solveCommand(c console) *cobra.Command {
	return c.command(command{
		use:   "solve JOB | MEASUREMENT...",
		short: "print the triangle: sides, angles, heights, area, what else fits",
		long: `Solve prints the triangle that the measurements fix: its sides, angles, heights
and area, and how far a slip in each measurement moves each corner. Where two
triangles fit, it prints both. Where the points of a net may lie in several ways,
it prints each with the side that tells it from the others, and ends with 3.`,
		example: `  trammel solve AB=600 BC=450 CA=450
  trammel solve AB=2.4m A=35deg "BC=7'-10 1/2\""
  trammel solve examples/class-sheet.yaml --json`,
		flags: [][]option{jobFlags, toolFlags},
		run:   (*request).solve,
	})
}

func (r *request) solve(args []string) error {
	o, err := r.open(args)
	if err != nil {
		return err
	}
	if r.on("json") {
		err = writeJSON(r.out, report.Of(o.Work.Work))
	} else {
		err = o.Work.Text(r.out)
	}
	return cmp.Or(err, o.Work.Told())
}
