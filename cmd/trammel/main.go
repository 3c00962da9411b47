// Trammel turns a measured triangle into a true-scale template on ordinary
// paper, and into a setting-out sheet for what is larger.
//
// Files, from the top floor to the ground: main.go, root.go, setout.go, floor.go, template.go, tasks.go,
// check.go, preview.go, solve.go, profiles.go, calibrate.go, browser.go, document.go,
// output.go, request.go, flags.go, advice.go, numbers.go, progress.go,
// signals.go, signals_other.go, signals_unix.go.
package main

import "os"

func main() {
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}
