// Trammel turns a measured triangle into a true-scale template on ordinary
// paper, and into a setting-out sheet for what is larger.
package main

import "os"

func main() {
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}
