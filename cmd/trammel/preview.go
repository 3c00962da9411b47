package main

import (
	"github.com/spf13/cobra"

	"trammel/geom/unit"
)

func previewCommand(c console) *cobra.Command {
	r := &request{console: c}
	var page string
	var pixels int
	cmd := &cobra.Command{
		Use:   "preview JOB | MEASUREMENT... -o OUT.png",
		Short: "what it will look like, on screen",
		Long: `Preview makes a picture for the screen: the whole piece with its pages, or one page
with --page, which is a label such as B2 or the page's number in the PDF. A
picture is for looking, never for measuring.`,
		Example: `  trammel preview AB=600 BC=450 CA=450 -o brace.png
  trammel preview examples/gusset.yaml --page A1 -o page.png`,
	}
	r.read(cmd)
	r.print(cmd)
	f := cmd.Flags()
	f.StringVar(&r.pages, "pages", "", "`full`: every page of the piece; outline: only those that carry its edges")
	f.StringVar(&page, "page", "", "one page: its `label` or number")
	f.IntVar(&pixels, "pixels", 1600, "longest side of the picture in `pixels`, 100 to 10000")
	r.output(cmd, ".png")
	cmd.RunE = func(_ *cobra.Command, args []string) error { return r.preview(args, page, pixels) }
	return cmd
}

func (r *request) preview(args []string, page string, pixels int) error {
	g, err := r.goal("preview.png", false, "png")
	if err != nil {
		return err
	}
	if pixels < 100 || pixels > 10000 {
		return &unit.Fault{Where: "--pixels", What: "is not from 100 to 10000"}
	}
	w, err := r.open(args)
	if err != nil {
		return err
	}
	t, err := w.Template()
	if err != nil {
		return err
	}
	picture := t.Overview
	if r.flags.Changed("page") {
		picture = t.Page(page)
	}
	p, err := picture()
	if err != nil {
		return in("--page", err)
	}
	if err := r.keeper.File(g.path, p.PNG(pixels)); err != nil {
		return err
	}
	return r.done(t.Report(), w, g.path+": "+p.Words)
}
