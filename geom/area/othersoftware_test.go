//go:build othersoftware

package area_test

import (
	"bufio"
	"bytes"
	"math"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/area"
	"trammel/geom/unit"
)

// 2,000 pairs of random rings, hollow ones among them, by Debian's
// python3-shapely: areas of what is common, united and left.
func TestAgainstShapely(t *testing.T) {
	out, err := exec.Command("/usr/bin/python3", "testdata/oracle.py", "2000").Output()
	if err != nil {
		t.Fatal(err)
	}
	n, worst := 0, 0.0
	for lines := bufio.NewScanner(bytes.NewReader(out)); lines.Scan(); n++ {
		part := strings.Split(lines.Text(), ";")
		r, s := of(t, ring(t, part[0])), of(t, ring(t, part[1]))
		for i, do := range []func(area.Region) (area.Region, error){r.Common, r.United, r.Less} {
			want, err := strconv.ParseFloat(part[2+i], 64)
			if err != nil {
				t.Fatal(err)
			}
			got, err := do(s)
			if err != nil {
				t.Fatal(err)
			}
			worst = max(worst, math.Abs(float64(got.Area())-want))
		}
	}
	if n != 2000 || worst > 1e-3 {
		t.Errorf("%d pairs, %v mm² off at worst", n, worst)
	}
	t.Logf("%d pairs, %v mm² off at worst", n, worst)
}

// ring reads "x y x y …".
func ring(t *testing.T, text string) geom.Polygon {
	t.Helper()
	var p geom.Polygon
	fields := strings.Fields(text)
	for i := 0; i < len(fields); i += 2 {
		x, err1 := strconv.ParseFloat(fields[i], 64)
		y, err2 := strconv.ParseFloat(fields[i+1], 64)
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		p = append(p, geom.Point{X: unit.Length(x), Y: unit.Length(y)})
	}
	return p
}
