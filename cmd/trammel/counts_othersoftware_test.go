//go:build othersoftware

package main

// How much the tests try in the gate.
const (
	kills       = 50     // of a run that writes a file
	folderKills = 15     // of a run that writes a folder
	replayHomes = 11     // hostile profiles that each job is opened under
	largePages  = "full" // of a large example that PDFium reads
)
