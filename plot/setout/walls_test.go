package setout

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"math/cmplx"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/gate"
	"trammel/geom/passage"
	"trammel/geom/pegging"
	"trammel/geom/triangle"
)

// room is a simple polygon, counter-clockwise, in mm.
type room []complex128

func turnOf(a, b, c complex128) float64 { return imag(cmplx.Conj(b-a) * (c - a)) }

// crossed says whether two lines cross at a place within both.
func crossed(a, b, c, d complex128) bool {
	return turnOf(a, b, c)*turnOf(a, b, d) < 0 && turnOf(c, d, a)*turnOf(c, d, b) < 0
}

func offLine(a, b, p complex128) float64 {
	t := real((p-a)*cmplx.Conj(b-a)) / (cmplx.Abs(b-a) * cmplx.Abs(b-a))
	return cmplx.Abs(p - a - complex(min(1, max(0, t)), 0)*(b-a))
}

// holds says whether a place lies in the room, or by so much in its walls.
func (r room) holds(p complex128, by float64) bool {
	wound := 0.0
	for i, a := range r {
		b := r[(i+1)%len(r)]
		if offLine(a, b, p) <= by {
			return true
		}
		wound += cmplx.Phase((b - p) / (a - p))
	}
	return wound > math.Pi
}

// clear says whether a line stays in the room: walked in small steps, that is the test's
// own way to look at it.
func (r room) clear(a, b complex128, by float64) bool {
	n := 20 + int(cmplx.Abs(b-a)/8)
	for k := range n + 1 {
		if !r.holds(a+(b-a)*complex(float64(k)/float64(n), 0), by) {
			return false
		}
	}
	return true
}

// randomRoom joins random corners in a ring that does not cross itself.
func randomRoom(r *rand.Rand, n int) room {
	for {
		var all room
		for len(all) < n {
			p := complex(float64(r.IntN(11000)), float64(r.IntN(8000)))
			if !slices.ContainsFunc(all, func(q complex128) bool { return cmplx.Abs(p-q) < 900 }) {
				all = append(all, p)
			}
		}
		for again := true; again; { // uncross
			again = false
			for i := range n {
				for j := i + 2; j < n; j++ {
					if (i != 0 || j != n-1) && crossed(all[i], all[i+1], all[j], all[(j+1)%n]) {
						slices.Reverse(all[i+1 : j+1])
						again = true
					}
				}
			}
		}
		area, tight := 0.0, false
		for i, a := range all {
			area += imag(cmplx.Conj(a) * all[(i+1)%n])
			for j := range all {
				if j != i && j != (i+1)%n && offLine(a, all[(i+1)%n], all[j]) < 150 {
					tight = true
				}
			}
		}
		if tight {
			continue
		}
		if area < 0 {
			slices.Reverse(all)
		}
		return all
	}
}

func (r room) name(i int) geom.Name { return geom.Name("ABCDEFGHJKLM"[i : i+1]) }

// asked measures every line of the room.
func (r room) asked(t *testing.T, walls passage.Bars) pegging.Asked {
	var tokens, outline []string
	for i, p := range r {
		outline = append(outline, string(r.name(i)))
		for j := range i {
			tokens = append(tokens, fmt.Sprintf("%s%s=%.4f", r.name(j), r.name(i), cmplx.Abs(p-r[j])))
		}
	}
	return pegging.Asked{Net: adjusted(t, strings.Join(tokens, " "), strings.Join(outline, "")), Bars: walls}
}

// reached is what can be placed from the best baseline by arcs and offsets, tried in every
// order: the test's own.
func (r room) reached() (most int) {
	n := len(r)
	sees := func(a, b int) bool { return r.clear(r[a], r[b], 2) }
	for a := range n {
		for b := range a {
			if cmplx.Abs(r[a]-r[b]) < 1000 || !sees(a, b) {
				continue
			}
			stands := map[int]bool{a: true, b: true}
			for more := true; more; {
				more = false
				for c := range n {
					for p := range n {
						for q := range n {
							if p != q && stands[p] && stands[q] && !stands[c] && r.placed(c, p, q, sees) {
								stands[c], more = true, true
							}
						}
					}
				}
			}
			most = max(most, len(stands))
		}
	}
	return most
}

// placed says whether a corner can be placed from two others: by arcs that cross at 10°
// at least, or by an offset from a place between them, or beside one of them by less than
// 300 mm, with any 3-4-5 that has room.
func (r room) placed(c, p, q int, sees func(a, b int) bool) bool {
	crossing := math.Abs(cmplx.Phase((r[p] - r[c]) / (r[q] - r[c])))
	crossing = min(crossing, math.Pi-crossing)
	if sees(p, c) && sees(q, c) && crossing > 10*math.Pi/180 {
		return true
	}
	b := cmplx.Abs(r[q] - r[p])
	way := (r[q] - r[p]) / complex(b, 0)
	seen := (r[c] - r[p]) * cmplx.Conj(way)
	x := real(seen)
	if math.Abs(x) < 300 {
		x = 0
	} else if math.Abs(x-b) < 300 {
		x = b
	}
	foot := r[p] + way*complex(x, 0)
	turn := foot + way*complex(0, imag(seen))
	if x < 0 || x > b || b < 300 || !sees(p, q) || !r.clear(foot, turn, 2) || !r.clear(turn, r[c], 2) {
		return false
	}
	for _, u := range []float64{50, 100, 200, 300, 400, 500, 600, 800, 1000, 1500, 2000, 2500, 3000} {
		for _, legs := range [][2]float64{{3, 4}, {4, 3}} {
			for _, back := range []float64{1, -1} {
				along := x + back*u*legs[0]
				leg := foot + way*complex(back*u*legs[0], 0)
				top := foot + way*complex(0, math.Copysign(u*legs[1], imag(seen)))
				if along >= 0 && along <= b && u*legs[1] <= max(b/4, math.Abs(imag(seen))) && r.clear(foot, top, 2) && r.clear(leg, top, 2) {
					return true
				}
			}
		}
	}
	return false
}

// 500 rooms of 4 to 12 corners, all of their edges walls: no line that is printed leaves
// the room, the steps followed by their words alone bring each corner to its place, and what is
// refused has a corner that no order of arcs and offsets reaches.
func TestNoLineThroughAWall(t *testing.T) {
	times := gate.Of(30, 500)
	refused, chained, offsets := 0, 0, 0
	for k := range times {
		r := rand.New(rand.NewPCG(uint64(k), 3))
		in := randomRoom(r, 4+k%9)
		voice := in.asked(t, passage.Bars{Around: true})
		s, err := Prepare(Input{Asked: voice})
		if err != nil {
			var no *triangle.NoTriangle
			if !errors.As(err, &no) || no.Hint == "" {
				t.Fatalf("room %d: %v", k, err)
			}
			refused++
			if n := in.reached(); n == len(in) {
				t.Errorf("room %d: %v, and every corner can be reached: %v", k, err, in)
			}
			continue
		}
		at := func(n geom.Name) complex128 { // in the room, by the plan of the sheet
			p, _ := s.Peg(n)
			return in.place(s, p.At)
		}
		for _, p := range s.Pulls {
			if !in.clear(at(p.Hold), at(p.To), 2.5) {
				t.Errorf("room %d: %s to %s leaves it: %v", k, p.Hold, p.To, in)
			}
		}
		for _, c := range s.Checks {
			if !in.clear(at(c.From), at(c.To), 2.5) {
				t.Errorf("room %d: the check %s to %s leaves it: %v", k, c.From, c.To, in)
			}
		}
		if s.Method == pegging.Mixed {
			chained++
		}
		in.followed(t, fmt.Sprintf("room %d", k), s)
		for _, x := range s.planned().Sides { // as the plan shows it
			if want := fmt.Sprintf("%.0f", cmplx.Abs(at(x.From)-at(x.To))); strings.ReplaceAll(x.Words, "\u2009", "") != want {
				t.Errorf("room %d: the plan says %s between %s and %s, which are %s apart", k, x.Words, x.From, x.To, want)
			}
		}
		for _, x := range s.Main {
			if x.Method == pegging.OffsetSquare && s.Method == pegging.Mixed {
				offsets++
			}
		}
		feetApart(t, fmt.Sprintf("room %d", k), s)
	}
	t.Logf("%d rooms: %d from one baseline, %d peg from peg with %d offsets, %d refused", times, times-refused-chained, chained, offsets, refused)
}

// place is where a place of the sheet's plane lies in the room.
func (r room) place(s Sheet, p geom.Point) complex128 {
	a, b := s.Spot("A"), s.Spot("B")
	from, to := complex(a.X.MM(), a.Y.MM()), complex(b.X.MM(), b.Y.MM())
	return r[0] + (complex(p.X.MM(), p.Y.MM())-from)*(r[1]-r[0])/(to-from)
}

// followed takes the words alone and sees where each corner comes to.
func (r room) followed(t *testing.T, name string, s Sheet) {
	t.Helper()
	h := newFollower(t, exact())
	if n := h.follow(s.Steps); n != len(s.Pulls) {
		t.Errorf("%s: %d of %d pulls are told: %q", name, n, len(s.Pulls), s.Steps)
	}
	sure := map[geom.Name]float64{}
	for _, x := range s.Sure {
		sure[x.Peg] = x.SetOut.MM()
	}
	zero, end := r.place(s, s.Spot(s.Baseline.From)), r.place(s, s.Spot(s.Baseline.To))
	way := (end - zero) / complex(cmplx.Abs(end-zero), 0)
	for i := range r {
		n := r.name(i)
		if off := cmplx.Abs(h.at[string(n)] - (r[i]-zero)*cmplx.Conj(way)); !(off < 2+sure[n]) {
			t.Errorf("%s: %s comes %.1f from its place, sure to %.1f: %q", name, n, off, sure[n], s.Steps)
		}
	}
}

// Nets set off from one baseline by squares: feet that would stand closer than 300 mm share
// one, at a corner where there is one, and what the words say still brings each peg to its
// place.
func TestCloseFeet(t *testing.T) {
	shared, own, square := 0, 0, pegging.OffsetSquare
	for k := range gate.Of(30, 400) {
		r := rand.New(rand.NewPCG(uint64(k), 4))
		in := randomRoom(r, 4+k%9)
		asked := in.asked(t, passage.Bars{})
		asked.Method = &square
		s, err := Prepare(Input{Asked: asked})
		if err != nil {
			t.Fatal(err)
		}
		name := fmt.Sprintf("net %d", k)
		in.followed(t, name, s)
		feetApart(t, name, s)
		stands := map[geom.Name]bool{}
		for _, x := range s.Main {
			if x.Aside > 0 {
				shared++
			} else {
				own++
			}
			if x.Aside >= 300 || x.Aside > 0 == (x.Toward == "") {
				t.Errorf("%s: %s turns aside %v towards %q", name, x.Peg, x.Aside, x.Toward)
			}
			for _, n := range []geom.Name{s.Baseline.From, s.Baseline.To} { // a corner before a foot
				if f, _ := s.Peg(x.Foot); f.Role == pegging.Foot && f.At.Distance(s.Spot(n)) < 300 && len(s.Main) > 1 {
					t.Errorf("%s: a foot stands %v from %s", name, f.At.Distance(s.Spot(n)), n)
				}
			}
			stands[x.Foot] = true
		}
		for _, c := range s.Checks {
			if math.Abs(float64(c.Value)-cmplx.Abs(in.place(s, s.mark(c.From).At)-in.place(s, s.mark(c.To).At))) > 1e-3 {
				t.Errorf("%s: %s to %s is %v", name, c.From, c.To, c.Value)
			}
		}
	}
	if shared < 20 {
		t.Errorf("%d offsets turn aside", shared)
	}
	t.Logf("%d offsets turn aside, %d do not", shared, own)
}

// feetApart says that no two feet stand nearer to each other than 300 mm.
func feetApart(t *testing.T, name string, s Sheet) {
	t.Helper()
	var feet []pegging.Mark
	for _, p := range s.Pegs {
		if p.Role == pegging.Foot {
			feet = append(feet, p)
		}
	}
	slices.SortFunc(feet, func(a, b pegging.Mark) int { return cmp.Compare(a.Along, b.Along) })
	for i, p := range feet {
		for _, q := range feet[:i] {
			if d := p.At.Distance(q.At); d < 300-0.1 {
				t.Errorf("%s: feet %s and %s stand %.0f apart", name, q.Name, p.Name, d.MM())
			}
		}
	}
}
