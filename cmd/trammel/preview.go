package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"trammel/cmd/internal/app"
	"trammel/geom/unit"
	"trammel/plot/png"
)

func previewCommand(c console) *cobra.Command {
	r := &request{console: c}
	var page string
	var pixels int
	var sheet bool
	cmd := &cobra.Command{
		Use:   "preview JOB | MEASUREMENT... -o OUT.png",
		Short: "what it will look like, on screen",
		Long: `Preview makes a picture for the screen: the whole piece with its pages, or one page
with --page, which is a label such as B2 or the page's number in the PDF. A
picture is for looking, never for measuring.`,
		Example: `  trammel preview AB=600 BC=450 CA=450 -o brace.png
  trammel preview examples/gusset-plate.yaml --page B2 -o page.png
  trammel preview examples/boathouse-gable.yaml --setout -o gable.png`,
	}
	r.read(cmd)
	r.readWith(cmd)
	r.print(cmd)
	r.spread(cmd)
	f := cmd.Flags()
	f.StringVar(&page, "page", "", "one page: its `label` or number")
	f.BoolVar(&sheet, "setout", false, "a page of the setting-out sheet, the first unless --page says another")
	f.IntVar(&pixels, "pixels", 1600, "longest side of the picture in `pixels`, 100 to 10000")
	r.output(cmd, ".png")
	cmd.RunE = func(_ *cobra.Command, args []string) error { return r.preview(args, page, sheet, pixels) }
	return cmd
}

func (r *request) preview(args []string, page string, sheet bool, pixels int) error {
	g, err := r.goal(app.KindOf("preview"))
	if err != nil {
		return err
	}
	if pixels < 100 || pixels > 10000 {
		return &unit.Fault{Where: "--pixels", What: fmt.Sprintf("%d is not from 100 to 10000", pixels)}
	}
	o, err := r.open(args)
	if err != nil {
		return err
	}
	o.Picture = app.PictureOptions{Setout: sheet, Page: r.said("page", page), Pixels: pixels, Paint: png.Write}
	return r.document("preview", g, o)
}
