package tiling

import (
	"math"
	"testing"

	"trammel/geom"
	"trammel/geom/gate"
	"trammel/geom/unit"
)

func room(gap unit.Length, at ...unit.Length) Floor {
	var f Floor
	for i := 0; i < len(at); i += 2 {
		f.Walls = append(f.Walls, geom.Point{X: at[i], Y: at[i+1]})
		f.Gaps = append(f.Gaps, gap)
	}
	return f
}

func regionFor(t testing.TB, f Floor) Region {
	t.Helper()
	r, err := f.Region()
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// The floors of the cases, worked out before by another program and an oracle that
// share nothing with this one but the definitions.
var (
	store    = room(0, 0, 0, 2984, 0, 2984, 2384, 0, 2384)
	hall     = room(8, 0, 0, 10000, 0, 10000, 8000, 0, 8000)
	triangle = func() Floor { // AB 2300, BC 1900, CA 2700
		x := (2300.*2300 + 2700*2700 - 1900*1900) / (2 * 2300)
		return room(8, 0, 0, 2300, 0, unit.Length(x), unit.Length(math.Sqrt(2700*2700-x*x)))
	}()

	small    = Grid{Along: 300, Across: 300, Joint: 3, Kerf: 3}
	diagonal = Grid{Along: 300, Across: 300, Joint: 3, Kerf: 3, Angle: 45 * unit.Degree}
	large    = Grid{Along: 600, Across: 600, Joint: 3, Kerf: 3}
	bricks   = Grid{Along: 600, Across: 300, Joint: 3, Kerf: 3, Pattern: Brick, Step: 1, Of: 3}
	herring  = Grid{Along: 600, Across: 297, Joint: 6, Kerf: 3, Pattern: Herringbone}
)

// What comes of a start, to the digits that were worked out. D2 is A108.02 4.3.1–2:
// tiles of 24 in with 1½ in more to fill leave 12¾ in on both sides.
func TestWorkedStarts(t *testing.T) {
	t.Parallel()
	const in = 25.4
	for _, c := range []struct {
		name                                          string
		floor                                         Floor
		grid                                          Grid
		at                                            vec
		region                                        float64
		whole, cut                                    int
		narrowest                                     float64
		half, quarter                                 int
		cutArea, joints                               float64
		bought, least, kinds, dropped, boughtNoBetter int
	}{
		{"D1", store, small, vec{X: 281.5, Y: 284.5}, 7113856.0, 48, 32, 278.500, 0, 0, 2667391.0, 126465.0, 80, 80, 3, 0, 80},
		{"D2", room(0, 0, 0, 121.5*in, 0, 121.5*in, 73.5*in, 0, 73.5*in), Grid{Along: 24 * in, Across: 24 * in, Kerf: 3}, vec{X: 12.75 * in, Y: 12.75 * in}, 5761440.1, 8, 16, 323.850, 0, 0, 2788542.8, 0, 24, 24, 2, 0, 24},
		{"D3", triangle, small, vec{X: 212, Y: 188.5}, 2092762.4, 10, 23, 55.208, 4, 1, 1152308.5, 40453.9, 27, 26, 18, 1, 27},
		{"D5", hall, bricks, vec{X: 181, Y: 258}, 79712256.0, 384, 84, 159.000, 0, 0, 9425916.0, 1166340.0, 450, 450, 12, 0, 450},
		{"D6", store, diagonal, vec{X: 238.5, Y: 241}, 7113856.0, 54, 43, 116.662, 14, 0, 2113561.9, 140294.1, 84, 78, 11, 0, 84},
		{"D7", store, herring, vec{}, 7113856.0, 28, 16, 257.000, 0, 0, 1935724.0, 188532.0, 40, 39, 9, 0, 40},
	} {
		r := regionFor(t, c.floor)
		y := r.Lay(c.grid, c.at.Point())
		near := func(what string, got, want, within float64) {
			if math.Abs(got-want) > within {
				t.Errorf("%s: %s %.4f, want %.4f", c.name, what, got, want)
			}
		}
		near("region", float64(r.Area()), c.region, 0.051)
		near("narrowest", y.Measures.Narrowest, c.narrowest, 0.00051)
		near("area of cuts", float64(y.Areas.Cut), c.cutArea, 0.051)
		near("joints", float64(y.Areas.Joints()+y.Areas.Dropped), c.joints, 0.11)
		for _, n := range []struct {
			what      string
			got, want int
		}{
			{"whole", len(y.Whole), c.whole}, {"cut", len(y.Pieces), c.cut}, {"under half", y.UnderHalf, c.half}, {"under a quarter", y.Measures.Slivers, c.quarter},
			{"bought", y.Bought, c.bought}, {"bought at least", y.Least, c.least}, {"kinds", len(y.Kinds), c.kinds}, {"dropped", y.Dropped, c.dropped},
		} {
			if n.got != n.want {
				t.Errorf("%s: %s %d, want %d", c.name, n.what, n.got, n.want)
			}
		}
	}
}

// Half as a limit is (t − j)/2: a run of 2984 of tiles 300 and joints 3 has eight whole
// ones and two cuts of 278.5 (A108.02 4.3.1, and arithmetic).
func TestHalfCountsTheJoint(t *testing.T) {
	t.Parallel()
	if h := small.bare().half(); h != 148.5 {
		t.Errorf("half of 300 with a joint of 3 is %v", h)
	}
	// One tile short of two halves and a joint: both cuts are exactly half.
	c := regionFor(t, room(0, 0, 0, 300, 0, 300, 300, 0, 300)).Lay(small, geom.Point{X: -151.5})
	if c.UnderHalf != 0 || c.Measures.Narrowest != 148.5 || len(c.Pieces) != 2 {
		t.Errorf("two cuts of half a tile: %d under half, narrowest %v, %d cuts", c.UnderHalf, c.Measures.Narrowest, len(c.Pieces))
	}
}

// The best starts that were proven before: none may come out worse, and each is proven
// again.
func TestProvenStarts(t *testing.T) {
	t.Parallel()
	cases := []struct {
		name                            string
		floor                           Floor
		grid                            Grid
		slivers                         int
		narrowest                       float64 // of the widest
		cuts                            int
		fewestSlivers, fewest, balanced int // slivers and cuts of the fewest, slivers of the balanced
	}{
		{"a", store, small, 0, 257.5, 17, 0, 17, 0},
		{"b", triangle, small, 1, 55.21, 23, 1, 23, 4},
		{"e", hall, large, 0, 336, 46, 0, 46, 0},
		{"f", hall, bricks, 0, 159, 84, 0, 60, 0},
		{"a45", store, diagonal, 0, 116.66, 43, 0, 43, 0},
		{"b45", triangle, diagonal, 0, 76.11, 20, 0, 20, 2},
		{"e45", hall, func() Grid { g := large; g.Angle = 45 * unit.Degree; return g }(), 0, 211.25, 72, 0, 72, 0},
		{"g", hall, herring, 0, 201, 74, 0, 58, 0},
		{"f45", hall, func() Grid { g := bricks; g.Angle = 45 * unit.Degree; return g }(), 12, 6.24, 119, 12, 118, 14},
	}
	for _, c := range cases[:gate.Of(len(cases)-1, len(cases))] {
		p := regionFor(t, c.floor).Best(t.Context(), c.grid, Wish{})
		g := c.grid.bare()
		wide := p.Choices[1]
		want := Measures{Slivers: c.slivers, Narrowest: c.narrowest, Cuts: c.cuts, Least: math.MaxInt, Off: 1e9}.in(byWidth, g)
		if got := wide.Measures.in(byWidth, g); want.less(score{got[0], got[1], got[2], want[3], want[4], want[5]}) {
			t.Errorf("%s: widest %+v, want %d under a quarter, %.2f, %d cuts", c.name, wide.Measures, c.slivers, c.narrowest, c.cuts)
		}
		few := p.Choices[2].Measures
		if few.Slivers > c.fewestSlivers || few.Slivers == c.fewestSlivers && few.Cuts > c.fewest {
			t.Errorf("%s: fewest %+v, want %d cuts", c.name, few, c.fewest)
		}
		if b := p.Choices[0].Measures; b.Slivers > c.balanced {
			t.Errorf("%s: balanced %+v, want %d under a quarter", c.name, b, c.balanced)
		}
		for _, choice := range p.Choices {
			if !choice.Proven {
				t.Errorf("%s: %s is not proven", c.name, choice.Aim)
			}
			if c.grid.Pattern != Herringbone && c.grid.Angle == 0 && choice.Bought > choice.Least+2 {
				t.Errorf("%s: %s buys %d, the bound is %d", c.name, choice.Aim, choice.Bought, choice.Least)
			}
		}
	}
}
