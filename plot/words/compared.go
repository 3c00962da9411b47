package words

import (
	"fmt"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/compare"
	"trammel/geom/unit"
)

// compared is a comparison while it is told.
type compared struct {
	compare.Comparison
	style unit.Style
	voice Voice
}

func (c compared) moved(m compare.Moved) moved { return moved{m, c.style} }

// outside names the readings that lie outside their ranges.
func (c compared) outside() []string { return c.names(c.Outside()) }

// firstAgain asks for readings before anything is moved, where most lie outside.
func (c compared) firstAgain() string {
	out := c.outside()
	if 2*len(out) <= len(c.Readings) || len(c.Readings) < 2 {
		return ""
	}
	return fmt.Sprintf("Most of what was read lies outside: first read %s again. What follows holds if %s the same.", many(out), of(len(out), "it reads", "they read"))
}

// names of readings.
func (c compared) names(at []int) (all []string) {
	for _, i := range at {
		all = append(all, c.Readings[i].Measurement.Subject())
	}
	return all
}

func (c compared) subjects(at []int) string { return geom.Listed(c.names(at)) }

// figure of a reading, as it is printed.
func (c compared) figure(r compare.Compared, f adjust.Figure) string {
	return figures{c.style, r.Measurement.Kind, 0}.of(f.Bare(r.Measurement.Kind))
}
