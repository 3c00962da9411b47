//go:build !unix

package main

import "os"

var stops = []os.Signal{os.Interrupt}

func ignoreFileLimit() {}
