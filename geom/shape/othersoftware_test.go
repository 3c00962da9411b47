//go:build othersoftware

package shape

import (
	"bytes"
	"os/exec"
	"testing"
)

// 10,000 random pieces, made by Debian's python3-shapely as the test runs.
func TestTenThousandAgainstShapely(t *testing.T) {
	out, err := exec.Command("/usr/bin/python3", "testdata/oracle.py", "10000").Output()
	if err != nil {
		t.Fatal(err)
	}
	againstShapely(t, bytes.NewReader(out), 10000)
}
