// Package gate is for tests alone: it says how much of a long test is tried.
//
// Files, from the top floor to the ground: gate.go, full.go, few.go.
package gate

// Of is all that there is to try where the gate runs (the tag othersoftware), else a few.
func Of[T any](few, all T) T {
	if full {
		return all
	}
	return few
}
