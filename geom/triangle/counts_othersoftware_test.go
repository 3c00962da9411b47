//go:build othersoftware

package triangle

// How much the tests try in the gate.
const (
	oracleEvery = 1 // one in so many lines of the oracle is solved
)
