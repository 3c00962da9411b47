package main

import "trammel/geom/gate"

// How much the tests try: a few in every run, all in the gate.
var (
	kills       = gate.Of(6, 50)             // of a run that writes a file
	folderKills = gate.Of(5, 15)             // of a run that writes a folder
	replayHomes = gate.Of(1, 11)             // hostile profiles that each job is opened under
	largePages  = gate.Of("outline", "full") // of a large example that PDFium reads
)
