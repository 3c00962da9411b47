//go:build othersoftware

package compare

import (
	"bytes"
	"os/exec"
	"testing"
)

// As many layouts that testdata does not hold, made and fitted by SciPy now.
func TestMoreFoundAgainstSciPy(t *testing.T) {
	cmd := exec.Command("/usr/bin/python3", "testdata/found.py", "1000", "600", "4")
	var complaint bytes.Buffer
	cmd.Stderr = &complaint
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v: %s", err, complaint.String())
	}
	foundAgainstSciPy(t, bytes.NewReader(out), 1, 1000, 600)
}
