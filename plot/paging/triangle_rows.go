package paging

import (
	"math"

	"trammel/geom"
)

// flat is the height under which an edge counts as level, so that its slope is
// never asked for: it moves a corner by less than what windows are grown by.
const flat = 1e-7

// choice is one way to lay the pages of a row: the columns that the left and the
// right chain of edges go over. With Full they are the same: all columns.
type choice struct {
	al, bl, ar, br int
	own            int // pages of this row
	cost           int // pages of the best choices of all rows up to this one
	left, right    int // pages that the way from the row below may have taken on the inside of the chains
}

func newChoice(al, bl, ar, br int) choice {
	return choice{al: al, bl: bl, ar: ar, br: br, own: br - al + 1 - max(0, ar-bl-1)}
}

// boundTriangle is a number of pages that the triangle needs, moved by shift, and still
// needs when no point of it is moved by more than (dx, dy) from there. It takes time in
// proportion to the rows, is never more than what is needed and seldom less; without it
// a quarter of the triangles of 3 to 20 m are not proven in the same effort.
//
// In the band of a row that no other row shows, the columns whose core is met
// are needed. Where rows that follow each other have no column in common, one
// must reach across, since pages are joined at their sides; and a corner that
// sticks out inside a horizontal strip needs pages of its own.
func boundTriangle(t [3]geom.Vector, shift geom.Vector, dx, dy float64, g grid, c Cover) int {
	dx, dy = dx+grow, dy+grow
	p, q, u, v := g.p, g.q, g.u+2*dx, g.v+2*dy
	if u >= p || v >= q {
		return 1 // three windows show one point: nothing can be said yet
	}
	for k := range t {
		// The grown window (i, j) is [ip − dx, …]: it starts at ip for a shape moved by dx.
		t[k].X += shift.X + dx
		t[k].Y += shift.Y + dy
	}
	low, mid, top := t[0], t[1], t[2]
	if mid.Y < low.Y {
		low, mid = mid, low
	}
	if top.Y < low.Y {
		low, top = top, low
	}
	if top.Y < mid.Y {
		mid, top = top, mid
	}
	// Slopes of the long edge and of the two others, x over y.
	var m, m1, m2 float64
	if top.Y-low.Y > flat {
		m = (top.X - low.X) / (top.Y - low.Y)
	}
	if mid.Y-low.Y > flat {
		m1 = (mid.X - low.X) / (mid.Y - low.Y)
	}
	if top.Y-mid.Y > flat {
		m2 = (top.X - mid.X) / (top.Y - mid.Y)
	}
	short := func(y float64) float64 { // the chain over the middle corner
		if y < mid.Y {
			return low.X + (y-low.Y)*m1
		}
		return top.X - (top.Y-y)*m2
	}
	midLeft := mid.X < low.X+(mid.Y-low.Y)*m
	i0 := floor(min(low.X, mid.X, top.X) / p)
	i1 := max(i0, ceil((max(low.X, mid.X, top.X)-u)/p)-1)
	j0 := floor(low.Y / q)
	j1 := max(j0, ceil((top.Y-v)/q)-1)

	var memory [2][4]choice
	row, below := &memory[0], &memory[1]
	nb := 0
	for j := j0; j <= j1; j++ {
		y0, y1 := float64(j)*q+v, float64(j+1)*q
		if j == j0 {
			y0 = low.Y
		}
		if j == j1 {
			y1 = top.Y
		}
		// The long chain, and the chain over the middle corner.
		la, lb := low.X+(y0-low.Y)*m, low.X+(y1-low.Y)*m
		if j == j1 {
			lb = top.X
		}
		sa, sb := low.X, top.X
		if j > j0 {
			sa = short(y0)
		}
		if j < j1 {
			sb = short(y1)
		}
		l0, l1 := min(la, lb), max(la, lb)
		s0, s1 := min(sa, sb), max(sa, sb)
		if y0 <= mid.Y && mid.Y <= y1 {
			s0, s1 = min(s0, mid.X), max(s1, mid.X)
		}
		// The left chain lies between L and l, the right one between r and R.
		L, l, r, R := l0, l1, s0, s1
		if midLeft {
			L, l, r, R = s0, s1, l0, l1
		}
		L, R = min(L, r), max(R, l)
		if c == Full {
			l, r = R, L
		}
		tip := mid.Y > float64(j)*q && mid.Y < float64(j)*q+v
		al, bl := floor(L/p), ceil((l-u)/p)-1
		ar, br := floor(r/p), ceil((R-u)/p)-1
		n := 1
		if al <= bl && ar <= br {
			w := &below[0]
			row[0] = newChoice(al, bl, ar, br)
			// Mostly each chain goes on in a column that it has been in.
			if nb == 1 && !tip && al <= w.bl && w.al <= bl && ar <= w.br && w.ar <= br {
				row[0].cost = w.cost + row[0].own
				row, below = below, row
				continue
			}
		} else {
			n = choices(row, newChoice(al, bl, ar, br), i0, i1)
		}
		for k := range row[:n] {
			o := &row[k]
			if o.cost = o.own; j == j0 {
				continue
			}
			best := math.MaxInt
			for h := range below[:nb] {
				w := &below[h]
				more, left, right := between(w, o)
				more += w.cost
				if tip && midLeft {
					more += max(0, min(o.al, w.al)-floor(mid.X/p))
				} else if tip {
					more += max(0, ceil((mid.X-u)/p)-1-max(o.br, w.br))
				}
				best = min(best, more)
				o.left, o.right = max(o.left, left), max(o.right, right)
			}
			o.cost += best
		}
		row, below, nb = below, row, n
	}
	best := below[0].cost
	for _, o := range below[1:nb] {
		best = min(best, o.cost)
	}
	return best
}

// choices lists how the pages of a row may lie where the left chain is on columns
// al to bl and the right one on ar to br. A chain inside a strip, which has the
// second number below the first, may be on either side of it.
func choices(to *[4]choice, on choice, i0, i1 int) int {
	al, bl, ar, br := on.al, on.bl, on.ar, on.br
	if br < al { // all of the row is inside the strip of columns al − 1 and al
		if al == i0 || al > i1 {
			al = min(al, i1)
			to[0] = newChoice(al, al, al, al)
			return 1
		}
		to[0] = newChoice(al-1, al-1, al-1, al-1)
		to[1] = newChoice(al, al, al, al)
		to[2] = newChoice(al-1, al, al-1, al)
		return 3
	}
	n := 0
	for left := range 2 {
		o := on
		if bl < al {
			if o.al, o.bl = al-left, al-left; o.al < i0 {
				continue
			}
		} else if left > 0 {
			break
		}
		for right := range 2 {
			if br < ar {
				if o.ar, o.br = br+right, br+right; o.br > i1 {
					continue
				}
			} else if right > 0 {
				break
			}
			to[n] = newChoice(o.al, o.bl, o.ar, o.br)
			n++
		}
	}
	return n
}

// between is how many pages are lacking between a row and the one above it: each chain
// goes up in one column and may use what the other has; those lacking below the lower row
// may serve again. left and right may be taken on the inside of the upper row's chains.
func between(low, up *choice) (n, left, right int) {
	whole := max(0, up.al-low.br, low.al-up.br)
	// Inside of the lower row's chains, or inside of the upper one's, as well.
	lowLeft := max(0, min(up.al, up.ar, low.ar-1)-low.bl)
	lowRight := max(0, low.ar-max(up.br, up.bl, low.bl+1))
	left = max(0, min(low.al, low.ar, up.ar-1)-up.bl)
	right = max(0, up.ar-max(low.br, low.bl, up.bl+1))
	n = whole + lowLeft + lowRight + left + right
	if n == 0 {
		return 0, 0, 0
	}
	if lowLeft+left > 0 && lowRight+right > 0 && max(up.al, low.al) >= min(up.br, low.br) {
		n-- // they meet on one page
	}
	if before, now := low.left+low.right, lowLeft+lowRight; before > 0 && now > 0 {
		n -= before + now - min(low.ar-low.bl-1, max(low.left, lowLeft)+max(low.right, lowRight))
	}
	return n, left, right
}
