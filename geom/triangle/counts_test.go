package triangle

import "trammel/geom/gate"

// How much the tests try: a few in every run, all in the gate.
var (
	oracleEvery = gate.Of(10, 1) // one in so many lines of the oracle is solved
)
