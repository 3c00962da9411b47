//go:build othersoftware

package app

// How much the tests try in the gate.
const (
	manyPrinters  = 200 // simulated
	chanceOfCover = 2   // per cent that so few printers leave
)
