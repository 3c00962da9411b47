//go:build !othersoftware

package triangle

// How much the tests try in every run; the gate does what counts_othersoftware_test.go says.
const (
	oracleEvery = 10 // one in so many lines of the oracle is solved
)
