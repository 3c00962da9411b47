//go:build !(js && wasm)

// Wasm is the program for a page that no server answers: it sets trammelAnswer, which takes
// the bytes of an ask and gives those of the reply, and stays.
//
// Files, from the top floor to the ground: main.go, elsewhere.go.
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
