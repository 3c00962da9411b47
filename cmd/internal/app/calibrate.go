package app

import (
	"iter"
	"slices"

	"trammel/cmd/internal/calibration"
	"trammel/plot/draw"
	"trammel/plot/lettering"
	"trammel/plot/words"
)

func makeCalibration(o Order) (*Document, error) {
	c, err := calibration.Open(o.Profiles, o.Calibration)
	if err != nil {
		return nil, err
	}
	pages, err := c.Pages(lettering.Go())
	if err != nil {
		return nil, err
	}
	return &Document{
		Summary: func() []string { return []string{c.Summary()} },
		head:    draw.Document{Title: "Calibration of " + c.Printer, Subject: "calibration sheet", Language: words.In(nil).Aloud().Language()},
		pages:   func() iter.Seq[draw.Page] { return slices.Values(pages) },
	}, nil
}
