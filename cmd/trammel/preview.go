package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"trammel/cmd/internal/app"
	"trammel/cmd/internal/output"
	"trammel/geom/unit"
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
	cmd.RunE = func(_ *cobra.Command, args []string) error {
		if sheet {
			return r.previewSetout(args, page, pixels)
		}
		return r.preview(args, page, pixels)
	}
	return cmd
}

// picture opens the job for a picture.
func (r *request) picture(args []string, pixels int) (goal, app.Work, error) {
	g, err := r.goal("preview.png", false, "png")
	if err != nil {
		return g, app.Work{}, err
	}
	if pixels < 100 || pixels > 10000 {
		return g, app.Work{}, &unit.Fault{Where: "--pixels", What: fmt.Sprintf("%d is not from 100 to 10000", pixels)}
	}
	if err := output.CheckFile(g.path); err != nil {
		return g, app.Work{}, err
	}
	w, err := r.open(args)
	return g, w, err
}

func (r *request) preview(args []string, page string, pixels int) error {
	g, w, err := r.picture(args, pixels)
	if err != nil {
		return err
	}
	t, err := w.Template()
	if err != nil {
		return err
	}
	var p app.Picture
	if r.flags.Changed("page") {
		p, err = t.Page(page)
		err = in("--page", err)
	} else {
		p, err = t.Overview()
	}
	return r.paint(g, w, t.Report(), p, pixels, err)
}

func (r *request) previewSetout(args []string, page string, pixels int) error {
	g, w, err := r.picture(args, pixels)
	if err != nil {
		return err
	}
	s, err := w.Setout()
	if err != nil {
		return err
	}
	if err := s.Lay(); err != nil {
		return err
	}
	if !r.flags.Changed("page") {
		page = "1"
	}
	p, err := s.Page(page)
	return r.paint(g, w, s.Report(), p, pixels, in("--page", err))
}

// paint writes the picture, if there is one.
func (r *request) paint(g goal, w app.Work, report app.Report, p app.Picture, pixels int, err error) error {
	if err != nil {
		return err
	}
	if err := r.keeper.File(g.path, p.PNG(pixels)); err != nil {
		return err
	}
	return r.done(report, w, g.path+": "+p.Words)
}
