package app

import (
	"context"
	"fmt"
	"io"

	"trammel/cmd/internal/flooring"
	"trammel/cmd/internal/lines"
	"trammel/geom/unit"
	"trammel/plot/floor"
)

// floorSheets are the floors of a job with their tiles.
type floorSheets struct {
	sheets[floor.Sheet]
	floors []flooring.Floor
}

// floorReport is what the floors of a job are, for other software. Fields may be added.
type floorReport struct {
	Version int               `json:"version"`
	Job     string            `json:"job"`
	Unit    string            `json:"unit"` // that figures are written in
	Date    string            `json:"date,omitempty"`
	Floors  []flooring.Report `json:"floors"`
}

// makeFloor lays every piece of the job that has tiles. The errors are those of Open and
// a *unit.Fault.
func makeFloor(o Order) (*Document, error) {
	w := o.Work
	if err := w.Picked(); err != nil {
		return nil, err
	}
	if err := w.Sound(); err != nil {
		return nil, err
	}
	f := &floorSheets{sheets: sheets[floor.Sheet]{work: w, stem: "floor", subject: "setting-out of a tiled floor", noRoll: "the sheets of a floor are read beside it and want a sheet, not a roll"}}
	for _, p := range w.Pieces {
		j := w.Job.Pieces[p.Index]
		if p.Other || j.Tiles.Where == "" {
			continue
		}
		w.tell.say("looking for the best start", len(f.floors), len(w.Pieces))
		ctx := o.Context
		if ctx == nil {
			ctx = context.Background()
		}
		one, err := flooring.Of(ctx, p, j, w.Bare, o.Shift)
		if err != nil {
			return nil, w.InPiece(p, err)
		}
		f.floors, f.of = append(f.floors, one), append(f.of, p)
		f.all = append(f.all, one.Sheet(w.Work))
	}
	if len(f.floors) == 0 {
		return nil, &unit.Fault{Where: w.Job.File, What: "no piece of the job says which tiles it is laid with", Hint: "tiles: and below it  size: 600x300  and  joint: 3"}
	}
	d := f.document(f.summary, func() any { return f.report() })
	d.Said = func(out io.Writer) error {
		for _, one := range f.all {
			if err := one.Brief(out); err != nil {
				return err
			}
		}
		return nil
	}
	return d, nil
}

func (f *floorSheets) report() floorReport {
	r := floorReport{Version: 1, Job: f.work.Title, Unit: f.work.Figures.Unit.String(), Date: f.work.Job.Date, Floors: []flooring.Report{}}
	for _, one := range f.floors {
		r.Floors = append(r.Floors, one.Report())
	}
	return r
}

func (f *floorSheets) summary() string {
	if len(f.pages) > 0 {
		return f.made("floor")
	}
	return fmt.Sprint(lines.Plural(len(f.all), "floor"))
}
