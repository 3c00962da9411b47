package app

import "trammel/geom/gate"

// How much the tests try: a few in every run, all in the gate.
var (
	manyPrinters  = gate.Of(40, 200) // simulated
	chanceOfCover = gate.Of(5.0, 2)  // per cent that so few printers leave
)
