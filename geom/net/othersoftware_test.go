//go:build othersoftware

package net

import (
	"bytes"
	"os/exec"
	"testing"
)

// 1,000 nets that testdata does not hold, made and adjusted by SciPy now.
func TestMoreNetsAgainstSciPy(t *testing.T) {
	cmd := exec.Command("/usr/bin/python3", "testdata/nets.py", "1000", "2")
	var complaint bytes.Buffer
	cmd.Stderr = &complaint
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v: %s", err, complaint.String())
	}
	againstSciPy(t, bytes.NewReader(out), 1000)
}

// 2,000 nets with a planted slip: too many for every run.
func TestMorePlantedSlipsAreNamed(t *testing.T) { plantedSlips(t, 2000, 5) }

// 2,000 nets against brute force over all their placements.
func TestEveryReflectionOfMany(t *testing.T) { everyReflection(t, 2000) }
