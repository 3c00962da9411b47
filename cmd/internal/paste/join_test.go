//go:build othersoftware

package paste

import (
	"fmt"
	"math"
	"math/cmplx"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// sheet is a page with its marks, and where it comes to lie.
type sheet struct {
	label
	picture
	marks [4][]complex128
	kept  []complex128 // what is left of it when it is cut, on its picture
	place
}

// place of a page in the pasted plane.
type place struct {
	turn complex128 // of length 1
	move complex128
}

func (p place) put(z complex128) complex128  { return z*p.turn + p.move }
func (p place) back(z complex128) complex128 { return (z - p.move) * cmplx.Conj(p.turn) }

// join is two sheets by index and the marks that they share, in pairs.
type join struct {
	a, b int
	name string
	pair [][2]complex128
}

// joins pairs the marks of neighbours, in order along the join.
func joins(t *testing.T, sheets []sheet) (all []join) {
	t.Helper()
	index := map[string]int{}
	for i, s := range sheets {
		index[s.name] = i
	}
	for i, s := range sheets {
		for edge, name := range s.neighbour {
			e := side(edge)
			if name == "" {
				if len(s.marks[e]) > 0 {
					t.Errorf("%s: marks at an edge where no neighbour is named", s.name)
				}
				continue
			}
			k, ok := index[name]
			if !ok || sheets[k].neighbour[e.opposite()] != s.name {
				t.Fatalf("%s names %s as its neighbour, which does not name it", s.name, name)
			}
			if e == left || e == top {
				continue
			}
			a, b := s.marks[e], sheets[k].marks[e.opposite()]
			if len(a) != len(b) || len(a) == 0 {
				t.Fatalf("%s | %s: %d and %d marks", s.name, name, len(a), len(b))
			}
			j := join{a: i, b: k, name: fmt.Sprintf("%s | %s", s.name, name)}
			for m := range a {
				j.pair = append(j.pair, [2]complex128{a[m], b[m]})
			}
			all = append(all, j)
		}
	}
	return all
}

// paste lays the sheets so that the marks of all joins come together as well as
// they can: least squares over a turn and two shifts for each sheet but the
// first. Turns are small, so that a few rounds of the linear problem do.
func paste(t *testing.T, sheets []sheet, all []join) {
	t.Helper()
	for i := range sheets {
		sheets[i].place = place{turn: 1}
	}
	rows := 0
	for _, j := range all {
		rows += 2 * len(j.pair)
	}
	for range 4 {
		m, rhs := mat.NewDense(rows, 3*(len(sheets)-1), nil), mat.NewVecDense(rows, nil)
		row := 0
		set := func(i int, arm complex128, sign float64) {
			if c := 3 * (i - 1); c >= 0 {
				// A turn by δ moves the mark by iδ·arm; in hundredths, to be of a size
				// with the shifts.
				m.Set(row, c, sign*real(1i*arm)/100)
				m.Set(row+1, c, sign*imag(1i*arm)/100)
				m.Set(row, c+1, sign)
				m.Set(row+1, c+2, sign)
			}
		}
		for _, j := range all {
			a, b := sheets[j.a].place, sheets[j.b].place
			for _, p := range j.pair {
				gap := b.put(p[1]) - a.put(p[0])
				set(j.a, p[0]*a.turn, 1)
				set(j.b, p[1]*b.turn, -1)
				rhs.SetVec(row, real(gap))
				rhs.SetVec(row+1, imag(gap))
				row += 2
			}
		}
		var x mat.VecDense
		if err := x.SolveVec(m, rhs); err != nil {
			t.Fatalf("the marks do not hold the pages: %v", err)
		}
		for i := range sheets[1:] {
			s := &sheets[i+1]
			s.turn *= cmplx.Rect(1, x.AtVec(3*i)/100)
			s.move += complex(x.AtVec(3*i+1), x.AtVec(3*i+2))
		}
	}
}

// gaps of a join as pasted: root mean square and largest.
func (j join) gaps(sheets []sheet) (rms, most float64) {
	for _, p := range j.pair {
		d := cmplx.Abs(sheets[j.a].put(p[0]) - sheets[j.b].put(p[1]))
		rms += d * d
		most = max(most, d)
	}
	return math.Sqrt(rms / float64(len(j.pair))), most
}
