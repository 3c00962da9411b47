package main

import (
	"os"
	"os/signal"

	"trammel/cmd/internal/output"
)

// interrupted is the status of a run that was stopped: 128 and the signal's
// number, as shells count it.
const interrupted = 130

// watch takes work in progress away when the run is stopped from outside.
func watch(k *output.Keeper) {
	c := make(chan os.Signal, 1)
	signal.Notify(c, stops...)
	ignoreFileLimit()
	go func() {
		<-c
		k.Stop()
		os.Exit(interrupted)
	}()
}
