//go:build !(js && wasm)

package main

import (
	"fmt"
	"os"
)

// Elsewhere there is no page that would ask.
func main() {
	fmt.Fprintln(os.Stderr, "this is built for browsers, by: go run ./cmd/site -o FOLDER")
	os.Exit(2)
}
