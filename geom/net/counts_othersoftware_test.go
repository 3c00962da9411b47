//go:build othersoftware

package net

// How much the tests try in the gate.
const (
	netsWithoutOutline = 200 // triangulations of 4 to 60 points
	netsToNearest      = 60  // of 8, 20 and 40 points
	netsThatAsk        = 40  // that lack lines
)
