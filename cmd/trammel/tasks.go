package main

import (
	"github.com/spf13/cobra"

	"trammel/cmd/internal/app"
	"trammel/cmd/internal/output"
	"trammel/geom/unit"
	"trammel/plot/png"
	"trammel/profiles/strict"
)

func tasksCommand(c console) *cobra.Command {
	return c.command(command{
		use:   "tasks JOB -o OUT.pdf",
		short: "triangles for a class to draw by hand: task sheets, the key and the films that mark them",
		long: `Tasks draws numbers for a class, so that each pupil has triangles of its own that can be
constructed by hand with school instruments, measured and marked. The job says so under
tasks: who is in the class, which kinds of triangle, how fine the numbers are.

Task sheets bear no answer, neither on the page nor anywhere in the file; the key has the
range that is accepted for each box and what a pupil has who made a usual mistake. One
file holds either task sheets or what the teacher keeps; a folder (-o set/) has a file
of each, of the task sheets one for each pupil.

The same seed gives the same set for ever.`,
		example: `  trammel tasks examples/class-set.yaml -o tasks.pdf
  trammel tasks examples/class-set.yaml --sheets key,overlay -o marking.pdf
  trammel tasks examples/class-set.yaml --sheets task,key,overlay -o set/`,
		flags: [][]option{{
			{"sheets", "", "`which` sheets, parted by commas: task, key, overlay, answers, model (how it is done, on paper), screen (the same for a projector); task alone unless you say"},
			{"pupils", "", "class list as a CSV `file`: one name a line, or columns name, level, demand"},
			{"two-sided", false, "each pupil begins on a new sheet of paper, printed on both sides"},
			{"trade", "", "`trade` profile; it says the words of the pages"},
			{"config", "", "profiles `file` over your own"},
		}, paperFlags},
		output: ".pdf, .csv (the key), or a folder",
		run: func(r *request, args []string) error {
			return r.make(func() (app.Order, error) { return openClass(r, args) })
		},
	})
}

// openClass reads a job with tasks, and the class list where one is named.
func openClass(r *request, args []string) (o app.Order, err error) {
	m, err := merged(r, args)
	if err != nil {
		return o, err
	}
	if o.Class.Sheets, err = r.said("sheets"); err != nil {
		return o, err
	}
	o.Class.TwoSided, o.Picture.Paint = r.on("two-sided"), png.Write
	if r.flags.Changed("pupils") && m.Tasks != nil {
		name := r.text("pupils")
		if out := r.text("output"); output.SameFile(name, out) {
			return o, overItself(out, "the class list")
		}
		data, err := readFile(name)
		if err != nil {
			return o, unit.Placed(err, "--pupils")
		}
		if err := m.Tasks.TakePupils(strict.Shorten(name), data); err != nil {
			return o, err
		}
	}
	o.Work = app.OpenClass(m, r.bar.progress())
	return o, nil
}
