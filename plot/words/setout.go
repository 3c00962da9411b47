package words

import (
	"trammel/geom/pegging"
)

// SetOut tells of a layout that is set out.
type SetOut interface {
	// Bring is what to take along.
	Bring() []string
	// Steps is the work in order, for one person with one helper.
	Steps() []string
	// Doubts about what was measured: a sheet made from a slip sets the slip out.
	Doubts() []string
	// Flat says, for who makes the sheet, which arcs cross so that it is hard to see where.
	Flat() []string
	// Basis is how the ranges are reckoned, in the sheet's own unit where it is metric.
	Basis() []string
	// Crossing is how the arcs cross and what that does, where there is one corner.
	Crossing() string

	// Taping is the rule of the signs, and what the corrections stand on.
	Taping() string
	// Broken is the correction of a pull, broken down.
	Broken(p pegging.Pull) string

	// HowSure is what the figures of how sure it is mean.
	HowSure() string
	// SureInBrief is what the tables of sureness and of ways say, in less room.
	SureInBrief() string
	// Ways is their ranking in a paragraph.
	Ways() string
	// Rank is what stands below a table of the ways.
	Rank() string
	// Why the way that is used, in a sentence; empty where there is no other.
	Why() string

	// In a word or two: what a peg, a check and a pull are for, where a pull's length
	// comes from, whether a peg is as sure as is permitted, and a method.
	Peg(p pegging.Mark) string
	Check(c pegging.Check) string
	Use(p pegging.Pull) string
	Source(p pegging.Pull) string
	Inside(x pegging.Sure) string
	Way(m pegging.Method) string
}

// setOut in English.
type setOut struct {
	pegging.Layout
	in English
}
