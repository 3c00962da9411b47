//go:build othersoftware

package tiling

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"os/exec"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
)

// 1,000 random layouts by Debian's python3-shapely: the region by its own offset, what is
// whole, cut and dropped, and their areas.
func TestAgainstShapely(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(13, 3))
	var in bytes.Buffer
	var mine [][7]float64
	pairs := func(p geom.Polygon) (all [][2]float64) {
		for _, q := range p {
			all = append(all, [2]float64{q.X.MM(), q.Y.MM()})
		}
		return all
	}
	for len(mine) < 1000 {
		f := randomFloor(r)
		if _, _, crossing := f.Walls.Crossing(); crossing {
			continue
		}
		gap := []unit.Length{0, 5, 8, 20}[r.IntN(4)]
		for i := range f.Gaps {
			f.Gaps[i] = gap
		}
		for i := range f.Openings {
			f.Openings[i].Gap = gap
		}
		g := randomGrid(r)
		region, err := f.Region()
		if err != nil || g.Pattern == Herringbone {
			continue
		}
		at := vec{X: 600 * r.Float64(), Y: 300 * r.Float64()}
		y := region.Lay(g, at.Point())
		mine = append(mine, [7]float64{float64(region.Area()), float64(y.Areas.Whole), float64(y.Areas.Cut), float64(y.Areas.Dropped), float64(len(y.Whole)), float64(len(y.Pieces)), float64(y.Dropped)})
		openings := [][][2]float64{}
		for _, o := range f.Openings {
			openings = append(openings, pairs(o.Ring))
		}
		line, err := json.Marshal(map[string]any{
			"walls": pairs(f.Walls), "openings": openings, "gap": gap.MM(), "angle": float64(g.Angle), "tile": [3]float64{g.Along.MM(), g.Across.MM(), g.Joint.MM()},
			"offset": [2]int{g.Step, max(g.Of, 1)}, "shift": [2]float64{at.X, at.Y},
		})
		if err != nil {
			t.Fatal(err)
		}
		in.Write(append(line, '\n'))
	}
	cmd := exec.Command("/usr/bin/python3", "testdata/oracle.py")
	cmd.Stdin = &in
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	n, worst, counts := 0, 0.0, 0
	for lines := bufio.NewScanner(bytes.NewReader(out)); lines.Scan(); n++ {
		var want [7]float64
		for i, field := range bytes.Fields(lines.Bytes()) {
			if _, err := fmt.Sscan(string(field), &want[i]); err != nil {
				t.Fatal(err)
			}
		}
		for i := range 4 {
			worst = max(worst, math.Abs(mine[n][i]-want[i])/want[0])
		}
		if mine[n][4] != want[4] || mine[n][5] != want[5] {
			counts++
			t.Logf("%d: whole, cut, dropped %v, by shapely %v", n, mine[n][4:], want[4:])
		}
	}
	if n != len(mine) || worst > 1e-6 || counts > 0 {
		t.Errorf("%d layouts, areas %v of the region off at worst, %d counts differ", n, worst, counts)
	}
	t.Logf("%d layouts, areas %v of the region off at worst", n, worst)
}
