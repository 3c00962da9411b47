package app

import "trammel/geom/gate"

// How much the tests try: a few in every run, all in the gate.
var (
	manyPrinters  = gate.Of(30, 200) // simulated
	printersEach  = gate.Of(3, 1)    // one in so many of those of which a promise is kept
	chanceOfKept  = gate.Of(5.0, 0)  // per cent that so few leave
	chanceOfCover = gate.Of(5.0, 2)  // per cent that so few printers leave
	pagesHeard    = gate.Of(6, 9999) // of a template in every voice: its index comes first
)
