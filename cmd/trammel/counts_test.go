//go:build !othersoftware

package main

// How much the tests try in every run; the gate does what counts_othersoftware_test.go says.
const (
	kills       = 10        // of a run that writes a file
	folderKills = 5         // of a run that writes a folder
	replayHomes = 2         // hostile profiles that each job is opened under
	largePages  = "outline" // of a large example that PDFium reads
)
