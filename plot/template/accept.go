package template

import (
	"math"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/plot/paging"
)

// What makes a template that was put together differ from the drawing. Slips and
// readings lie anywhere within their limits, one as likely as another; stretches
// are normal, 95 of 100 within what is said. Judgement, no published source, but for
// the sum: JCGM 100:2008 (GUM), 4.3.7 and 5.1, from memory.
const (
	joinSlip unit.Length = 0.2 // of a join, along and across: what the stars and ticks let the eye see
	// Of a rule, at each end up to 0.25 on a line 0.25 to 0.5 wide: of both ends
	// together 95 of 100 are within 2 · 0.25 · (1 − √0.05).
	reading unit.Length = 0.388

	paper   = 0.0002 // of the length: a good tape, and a few per cent of humidity
	cover95 = 1.96   // standard deviations that hold 95 of 100
)

// Expected is how far a length of a template that was put together is from its own,
// 95 times in 100 (held against a simulation: 94 to 96; over a single join, whose slip
// has an end, a little more). Joins add as a random walk, √joins times the slip of
// one; what is left of the printer's scale and what paper does grow with the
// length:
//
//	√(joins · 0.2² · 1.96²/3 + (0.0002 · length)² + (uncertainty · length)²)
//
// The scale of a printer of which nothing is known is not in it. Neither is how far
// a row of pages bends where each is a little turned: no length along it shows
// that, a thread does.
func Expected(length unit.Length, joins int, printer float64) unit.Length {
	stretch := length.MM() * math.Hypot(paper, printer)
	slips := cover95 * cover95 * float64(joins) * joinSlip.MM() * joinSlip.MM() / 3
	return unit.Length(math.Sqrt(slips + stretch*stretch))
}

// Accept is the same with reading it on a rule, at both ends: what a length may
// be found to be off when everything is as it should be, 95 times in 100.
func Accept(length unit.Length, joins int, printer float64) unit.Length {
	return unit.Length(math.Hypot(Expected(length, joins, printer).MM(), reading.MM()))
}

// joinsAlong is over how many joins a side runs: it is as few as the pages allow.
func joinsAlong(plan paging.Plan, side geom.Line) int {
	joins, at, windows := -1, unit.Length(0), plan.Windows()
	for at < side.Length()-1e-6 {
		far := at
		for _, w := range windows {
			if part, ok := geom.ClipLine(side, w); ok && side.From.Distance(part.From) <= at+1e-6 {
				far = max(far, side.From.Distance(part.To))
			}
		}
		if far <= at { // a gap: no page shows it
			break
		}
		at = far
		joins++
	}
	return max(joins, 0)
}
