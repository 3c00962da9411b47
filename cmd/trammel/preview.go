package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"trammel/cmd/internal/app"
	"trammel/geom/unit"
	"trammel/plot/png"
	"trammel/profiles/job"
)

func previewCommand(c console) *cobra.Command {
	return c.command(command{
		use:   "preview JOB | MEASUREMENT... -o OUT.png",
		short: "what it will look like, on screen",
		long: `Preview makes a picture for the screen: the whole piece with its pages, or one page
with --page, which is the number of a sheet, index, or the name that the page has
as a file. A picture is for looking, never for measuring.`,
		example: `  trammel preview AB=600 BC=450 CA=450 -o brace.png
  trammel preview examples/boathouse-heel-plates.yaml --page 2 -o page.png
  trammel preview examples/boathouse-gable.yaml --setout -o gable.png`,
		flags: [][]option{jobFlags, toolFlags, paperFlags, pageFlags, {
			{"page", "", "one page: its `number`, index, or its name"},
			{"setout", false, "a page of the setting-out sheet, the first unless --page says another"},
			{"pixels", 1600, "longest side of the picture in `pixels`, 100 to 10000"},
		}},
		output: ".png",
		run: func(r *request, args []string) error {
			return r.make(func() (app.Order, error) { return r.picture(args) })
		},
	})
}

func (r *request) picture(args []string) (app.Order, error) {
	pixels, _ := r.flags.GetInt("pixels")
	if pixels < 100 || pixels > 10000 {
		return app.Order{}, &unit.Fault{Where: "--pixels", What: fmt.Sprintf("%d is not from 100 to 10000", pixels)}
	}
	o, err := r.open(args)
	o.Picture = app.PictureOptions{Setout: r.on("setout"), Pixels: pixels, Paint: png.Write}
	if r.flags.Changed("page") {
		o.Picture.Page = job.Setting{Text: unit.Composed(r.text("page")), Where: "--page"}
	}
	return o, err
}
