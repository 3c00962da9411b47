package triangle

import "trammel/geom/gate"

// How much the tests try: a few in every run, all in the gate.
var (
	oracleEvery    = gate.Of(20, 1) // one in so many lines of the oracle is solved
	adjustEvery    = gate.Of(3, 1)  // the same of the sets of SciPy
	everyTriples   = gate.Of(3, 12) // triangles, 84 triples of each
	consistentSets = gate.Of(150, 500)
	slippedSets    = gate.Of(200, 600)
)
