//go:build !othersoftware

package app

// How much the tests try in every run; the gate does what counts_othersoftware_test.go says.
const (
	manyPrinters  = 60 // simulated
	chanceOfCover = 5  // per cent that so few printers leave
)
