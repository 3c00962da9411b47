package net

import "trammel/geom/gate"

// How much the tests try: a few in every run, all in the gate.
var (
	netsWithoutOutline = gate.Of(30, 200) // triangulations of 4 to 60 points
	netsToNearest      = gate.Of(9, 60)   // of 8, 20 and 40 points
	netsThatAsk        = gate.Of(12, 40)  // that lack lines
	netsThatSlipped    = gate.Of(20, 60)  // without an outline
	netsWithSlips      = gate.Of(200, 500)
	netsReflected      = gate.Of(100, 200) // 2,000 others in the gate
)
