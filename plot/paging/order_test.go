package paging_test

import (
	"strconv"
	"testing"

	"trammel/plot/paging"
)

// Round the outline each sheet joins the one before it or, where the way turns back, one
// laid earlier; of a ring the last joins the first. By rows, numbers rise from the left
// and from the top.
func TestNumbersAreTheOrderOfLaying(t *testing.T) {
	for _, sides := range [][3]float64{{2800, 2100, 3500}, {900, 880, 900}, {900, 640, 1100}, {3000, 2990, 60}} {
		for _, cover := range []paging.Cover{paging.Full, paging.OutlineOnly} {
			p, err := paging.Lay(bySides(sides[0], sides[1], sides[2]), sheetA4, cover, nil, paging.Effort{})
			if err != nil {
				t.Fatal(err)
			}
			turnsBack := 0
			for i, c := range p.Cells {
				if c.Label != strconv.Itoa(i+1) {
					t.Fatalf("%v: sheet %d is called %q", sides, i+1, c.Label)
				}
				joins, before := false, false
				for _, n := range []string{c.LeftOf, c.RightOf, c.Above, c.Below} {
					k, _ := strconv.Atoi(n)
					joins, before = joins || k > 0 && k <= i, before || k == i
				}
				if i == 0 {
					continue
				}
				last := p.Cells[i-1]
				if cover == paging.Full && (c.Row < last.Row || c.Row == last.Row && c.Col <= last.Col) {
					t.Errorf("%v: sheet %d lies before %d", sides, i+1, i)
				}
				if cover == paging.OutlineOnly && !joins {
					t.Errorf("%v: sheet %d joins none before it", sides, i+1)
				}
				if !before {
					turnsBack++
				}
			}
			if cover == paging.OutlineOnly && turnsBack > len(p.Cells)/5 {
				t.Errorf("%v: of %d sheets round the outline %d do not join the one before", sides, len(p.Cells), turnsBack)
			}
		}
	}
}
