//go:build unix

package main

import (
	"os"
	"os/signal"
	"syscall"
)

var stops = []os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP, syscall.SIGQUIT}

// ignoreFileLimit turns the signal for a file that grows too large into an error
// of the write that did it.
func ignoreFileLimit() { signal.Ignore(syscall.SIGXFSZ) }
