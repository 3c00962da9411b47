package main

import (
	"slices"

	"trammel/geom/gate"
)

// How much the tests try: a few in every run, all in the gate.
var (
	kills         = gate.Of(6, 50) // of a run that writes a file
	folderKills   = gate.Of(5, 15) // of a run that writes a folder
	replayHomes   = gate.Of(1, 11) // hostile profiles that each job is opened under
	killed        = gate.Of(hundreds, thousand)
	folderSide    = gate.Of("1200", "2m") // of the triangle that the folder is of
	netSides      = gate.Of("AB=8m BC=2800 CD=7600 DA=3200 AC=8400", "AB=20m BC=7m CD=19m DA=8m AC=21m")
	replayedLarge = gate.Of(differsInKind, func(string) bool { return true }) // of the examples of hundreds of pages
	taggedLarge   = gate.Of(smallOrGable, func(string) bool { return true })
	largePages    = gate.Of("outline", "full") // of a large example that PDFium reads
)

// thousand makes a template of some thousand pages, hundreds of a third as many.
var (
	thousand = []string{"template", "AB=14m", "BC=11m", "CA=9m"}
	hundreds = []string{"template", "AB=8m", "BC=6m", "CA=5m"}
)

// differsInKind names a triangle, a net that was checked, and a floor of tiles.
func differsInKind(name string) bool {
	return slices.Contains([]string{"boathouse-gable", "boathouse-floor-found", "galley-floor"}, name)
}

// smallOrGable leaves out the examples whose template takes hundreds of pages, but for one.
func smallOrGable(name string) bool {
	return !slices.Contains([]string{"boathouse-floor", "boathouse-floor-found", "boathouse-washroom", "galley-floor", "rigging-store-floor"}, name)
}
