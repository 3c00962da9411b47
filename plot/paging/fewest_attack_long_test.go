//go:build long

package paging_test

import "testing"

// Some minutes: go test -tags long -run 800000 -timeout 1h ./plot/paging
func TestNoneOf800000PlacementsIsBetter(t *testing.T) { attackMany(t, 50, 800_000) }
