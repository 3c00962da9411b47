package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"trammel/cmd/internal/app"
	"trammel/geom"
	"trammel/geom/unit"
	"trammel/profiles/strict"
)

func floorCommand(c console) *cobra.Command {
	return c.command(command{
		use:   "floor JOB -o OUT",
		short: "where the first tile of a floor goes, what is cut, the lines to snap, what to buy",
		long: `Floor lays the tiles that a job names on each of its floors. It looks for the best
start and proves it: balanced, the narrowest cut as wide as it can be, and the fewest
cuts, side by side. It draws the plan with every tile numbered, the lines to snap and
their distances from the walls, a gauge rod, a card and a template for every kind of cut,
which pieces come from which tile, and what to buy.

Under the piece the job says the tiles, and what they go round:

  openings: [post at AB 1200 from A 900 size 150x150]
  tiles:
    size: 600x300        as measured; 600 alone is square
    joint: 3
    gap: 8               to every wall; or [AB 5, FA 12], the others 0
    pattern: straight    brick 1/2, brick 1/3, herringbone
    along: AB            a wall, an angle such as 45deg, or best
    layout: widest       balanced or fewest; else all three
    centre: AB           the wall that must look even
    kerf: 3
    box: 11              tiles in a box

--shift U,V lays the lower left corner of one tile there, along the rows and across, and
says what comes of it.`,
		example: `  trammel floor kitchen.yaml
  trammel floor kitchen.yaml -o kitchen.pdf
  trammel floor kitchen.yaml --shift 281.5,284.5 --json`,
		flags: [][]option{jobFlags, paperFlags, {
			{"shift", "", "`place` of the lower left corner of one tile, such as 281.5,284.5: along the rows from the origin of the piece, and across them"},
		}},
		output: ".pdf, .svg, .csv or .txt",
		run: func(r *request, args []string) error {
			return r.make(func() (o app.Order, err error) {
				if o, err = r.open(args); err != nil {
					return o, err
				}
				o.Shift, err = shift(r, o.Work.Bare)
				return o, err
			})
		},
	})
}

// shift is where one tile is to lie; nil where nobody said it.
func shift(r *request, bare unit.Unit) (*geom.Point, error) {
	s, err := r.said("shift")
	if err != nil || s.Text == "" {
		return nil, err
	}
	u, v, ok := strings.Cut(s.Text, ",")
	if !ok {
		return nil, &unit.Fault{Where: s.Where, What: fmt.Sprintf("%q is not two distances", strict.Shorten(s.Text)), Hint: "along the rows and across them, such as --shift 281.5,284.5"}
	}
	var at geom.Point
	for text, to := range map[string]*unit.Length{u: &at.X, v: &at.Y} {
		if *to, err = unit.ParseSetting(text, bare, -unit.Longest, unit.Longest); err != nil {
			return nil, unit.Placed(err, s.Where)
		}
	}
	if u == v {
		at.Y = at.X
	}
	return &at, nil
}
