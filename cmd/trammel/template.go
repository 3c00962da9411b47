package main

import (
	"slices"

	"github.com/spf13/cobra"

	"trammel/cmd/internal/app"
	"trammel/geom/unit"
)

func templateCommand(c console) *cobra.Command {
	return c.command(command{
		use:   "template JOB | MEASUREMENT... -o OUT",
		short: "the true-scale template: OUT.pdf, OUT.svg, or a folder of page SVGs",
		long: `Template draws the triangle at full size and spreads it over pages that join, with
an index page first where there is more than one. Print the PDF at 100 % (actual
size) and measure the check bar before you cut.

OUT.pdf is one file. OUT.svg is one page; where there are more, they go into the
folder OUT, a file each. OUT without an ending is such a folder.

Small pieces share pages where that takes fewer, each with its name and steps; with
--apart each has its own.

What is done to a piece stands in its job: edges: [AB allow 3] for the cut line,
corners: [A cut 30, B round 25, C blunt 5, D mitre] and holes: [12 at AB 40 from A 90].
"D mitre" says that two parts meet at D: saw and square are then set for their joint,
D mitre CD 100 DE 60 for parts of two widths; everywhere else for the corner of the
piece itself, as far as the trade's saw turns (trammel profiles --help).

--without construction leaves arcs and arms out and keeps the marks: corners and
centres of holes to prick through, ticks where a rounding begins.

With --whole each piece is one SVG at full size for a laser or a knife: the group
"cut" holds closed paths alone, "marks" and "words" the rest, all in hairlines.`,
		example: `  trammel template AB=600 BC=450 CA=450 -o brace.pdf
  trammel template examples/gusset-plate.yaml --paper A3 -o gusset.pdf
  trammel template AB=8m BC=6m CA=5m --pages outline -o gable.pdf
  trammel template AB=600 BC=450 CA=450 --whole -o brace.svg`,
		flags:  [][]option{jobFlags, toolFlags, paperFlags, pageFlags, {{"whole", false, "each piece in one SVG at full size, for a machine that cuts: no pages"}}},
		output: ".pdf, .svg, or a folder for page SVGs",
		run:    (*request).template,
	})
}

func (r *request) template(args []string) error {
	if !r.on("whole") {
		return r.make(func() (app.Order, error) { return r.open(args) })
	}
	g, err := r.goal()
	if err != nil {
		return err
	}
	o, err := r.open(args)
	if err != nil {
		return err
	}
	if err := o.Work.Picked(); err != nil {
		return err
	}
	if g.ending == "pdf" {
		return &unit.Fault{Where: "--whole", What: "is for machines that cut, and they do not read PDF", Hint: "name an SVG file: -o piece.svg"}
	}
	for _, f := range slices.Concat(paperFlags, pageFlags) {
		if f.name != "without" && r.flags.Changed(f.name) {
			return &unit.Fault{Where: "--" + f.name, What: "is about pages, and a whole piece has none", Hint: "leave --" + f.name + " or --whole out"}
		}
	}
	return r.document("whole", g, o)
}
