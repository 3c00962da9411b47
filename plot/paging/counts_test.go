package paging

import "trammel/geom/gate"

// How much the tests try: a few in every run, all in the gate.
var (
	boxesOfPlaces = gate.Of(12000, 60000)
	placesCounted = gate.Of(10000, 40000) // by rows, and along the outline
)

// The same for the tests from outside.
var (
	ManyTriangles  = gate.Of(250, 1000)
	ManyPolygons   = gate.Of(40, 100)
	SheetsLessOne  = gate.Of(60, 200) // of which no page can go
	ManySheets     = gate.Of(50, 150) // odd ones
	PiecesAttacked = gate.Of(15, 50)
	RandomPieces   = gate.Of(8, 25) // drawn on their pages
	LargePieces    = gate.Of(1, 2)
)
