// Page is the least that a page in the browser needs: measurements in, a PDF out. The
// gate builds it for js/wasm and holds its size; as a command it writes the PDF of
//
//	page AB=600 BC=450 CA=450
//
// to its output, and the area of the piece to where errors go. It carries geom/area,
// as a page that lays out floors will.
package main

import (
	"fmt"
	"io"
	"os"

	"trammel/cmd/internal/app"
	"trammel/cmd/internal/solved"
	"trammel/geom/area"
	"trammel/profiles"
	"trammel/profiles/job"
)

func main() {
	if err := run(os.Args[1:], os.Stdout, os.Stderr); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func run(measurements []string, out, notes io.Writer) error {
	set, err := profiles.Load()
	if err != nil {
		return err
	}
	var tokens []job.Setting
	for _, m := range measurements {
		tokens = append(tokens, job.Setting{Text: m})
	}
	m, err := job.Merge(solved.Named("", tokens), job.Overrides{}, set, nil, nil)
	if err != nil {
		return err
	}
	w, err := app.Open(m, nil)
	if err != nil {
		return err
	}
	for _, p := range w.Pieces {
		r, err := area.Of(p.Solution.Answers[p.Answer].Triangle.Polygon())
		if err != nil {
			return err
		}
		fmt.Fprintf(notes, "%.4f m²\n", float64(r.Area())/1e6)
	}
	d, err := app.MakeTemplate(app.Order{Work: w})
	if err != nil {
		return err
	}
	as, err := d.As("pdf")
	if err != nil {
		return err
	}
	return as.File(out)
}
