package paste

import "trammel/geom/gate"

// How much the tests try: a few in every run, all in the gate.
var (
	opaqueTemplates = gate.Of(12, 300)
)
