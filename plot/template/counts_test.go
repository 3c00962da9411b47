package template

import "trammel/geom/gate"

// How much the tests try: a few in every run, all in the gate.
var (
	anyShapes       = gate.Of(20, 60)
	netsWithLabels  = gate.Of(20, 60)
	lettersOf       = gate.Of(40, 100) // triangles
	measuredPieces  = gate.Of(20, 60)
	trianglesLabels = gate.Of(120, 2000)
)
