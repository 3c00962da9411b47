//go:build !othersoftware

package net

// How much the tests try in every run; the gate does what counts_othersoftware_test.go says.
const (
	netsWithoutOutline = 60 // triangulations of 4 to 60 points
	netsToNearest      = 18 // of 8, 20 and 40 points
	netsThatAsk        = 12 // that lack lines
)
