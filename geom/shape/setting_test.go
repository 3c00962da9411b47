package shape

import (
	"math"
	"testing"

	"trammel/geom"
	"trammel/geom/unit"
)

// Saw settings of one corner. Sources: KATZ thisiscarpentry.com 2011/07/29 (35 → 55;
// 48.2 → 41.8 by the formula 90 − θ); FHB finehomebuilding.com 1989/09/01 ("90-degree
// jig": 25 → set 25; stops at 50 reach 40); WW45 woodweb.com (sharper than 45); TPUB
// NAVEDTRA 14044, rafters at 8 in 12: plumb 33.69, level 56.31. Over 90° the saw leans
// the other way by θ − 90°: geometry.
func TestSawSettings(t *testing.T) {
	for _, c := range []struct {
		source               string
		interior, most       float64
		how                  How
		scale, line, fromCut float64
		out, inward          bool
	}{
		{"KATZ", 35, 60, AtFence, 55, 35, 55, false, false},
		{"FHB, KATZ", 48.2, 45, AtFence, 41.8, 48.2, 41.8, false, false},
		{"FHB", 25, 45, AtBlock, 25, 25, 65, false, false},
		{"FHB, range 50", 40, 50, AtFence, 50, 40, 50, false, false},
		{"FHB, range 50", 39, 50, AtBlock, 39, 39, 51, false, false},
		{"range 45", 45, 45, AtFence, 45, 45, 45, false, false},
		{"range 45", 44.9, 45, AtBlock, 44.9, 44.9, 45.1, false, false},
		{"range 60, from memory", 30, 60, AtFence, 60, 30, 60, false, false},
		{"geometry: neither way", 50, 30, ToLine, 0, 50, 40, false, false},
		{"square", 90, 45, AtFence, 0, 90, 0, false, false},
		{"geometry", 120, 45, AtFence, 30, 60, 30, true, false},
		{"geometry", 135, 45, AtFence, 45, 45, 45, true, false},
		{"geometry", 150, 45, AtBlock, 30, 30, 60, true, false},
		{"TPUB plumb cut, 8 in 12", 90 - 33.690067525979785, 45, AtFence, 33.690067525979785, 56.309932474020215, 33.690067525979785, false, false},
		{"inward: no cut runs through", 270, 45, ToLine, 0, 90, 0, false, true},
		{"inward, of the waste 60", 300, 45, ToLine, 0, 60, 30, false, true},
	} {
		s := SettingOf(unit.Angle(c.interior) * unit.Degree)
		how, scale := s.How(unit.Angle(c.most) * unit.Degree)
		if how != c.how || !near(scale.Degrees(), c.scale) || !near(s.Line.Degrees(), c.line) || !near(s.Saw.Degrees(), c.fromCut) || s.Out != c.out || s.Inward != c.inward {
			t.Errorf("%s: %v°: how %d, scale %v°, %+v", c.source, c.interior, how, scale.Degrees(), s)
		}
	}
}

// The other arm of a square. Sources: POCKET chestofbooks.com, Building Trades Pocketbook,
// "Laying Out Angles" (35 → 8 13/32, 30 → 6 15/16, printed in 32nds: within half of one);
// on 100 mm by school tables of tangents; taper sled: L·tan θ (ShopNotes 82).
func TestSquareSettings(t *testing.T) {
	for _, c := range []struct {
		source         string
		interior       float64
		run, along, up float64
		within         float64
	}{
		{"POCKET", 35, 12, 12, 8 + 13.0/32, 1.0 / 64},
		{"POCKET", 30, 12, 12, 6 + 15.0/16, 1.0 / 64},
		{"formula", 35, 12, 12, 8.402, 5e-4},
		{"formula", 30, 12, 12, 6.928, 5e-4},
		{"tables", 35, 100, 100, 70.02, 5e-3},
		{"3-4-5", 36.86989764584402, 100, 100, 75, 1e-9},
		{"arms changed", 52, 100, 78.13, 100, 5e-3},
		{"square", 90, 100, 0, 100, 1e-9},
		{"over 90, from the edge carried on", 128, 100, 78.13, 100, 5e-3},
		{"taper sled", 12, 600, 600, 127.53, 5e-3},
	} {
		along, up := SettingOf(unit.Angle(c.interior) * unit.Degree).Square(unit.Length(c.run))
		if math.Abs(float64(along)-c.along) > c.within || math.Abs(float64(up)-c.up) > c.within {
			t.Errorf("%s: %v° on %v: %v along, %v up", c.source, c.interior, c.run, along, up)
		}
	}
}

// Chords. Sources: TPUB draftingmanuals.tpub.com/14276 p. 2-37 (2R·sin θ/2); hinged
// taper jig 2L·sin(θ/2) (ShopNotes 82).
func TestChords(t *testing.T) {
	for _, c := range [][3]float64{{500, 35, 300.71}, {500, 60, 500}, {600, 12, 125.43}} {
		if got := Chord(unit.Length(c[0]), unit.Angle(c[1])*unit.Degree); math.Abs(float64(got)-c[2]) > 5e-3 {
			t.Errorf("R %v, %v°: %v", c[0], c[1], got)
		}
	}
}

// Mitres. Equal parts, 120 → 60/30: common practice. Unequal, 100 and 60 wide at 90°:
// 59.04 and 30.96, 116.62 long (common point of both inner edges; the right-angled case:
// homeownershub 101440). The long of 116.62 is √(100² + 60²).
func TestMitres(t *testing.T) {
	s := lined(120 * unit.Degree / 2)
	if !near(s.Line.Degrees(), 60) || !near(s.Saw.Degrees(), 30) || s.Out {
		t.Errorf("120°: %+v", s)
	}
	a, b, long := MitreOf(90*unit.Degree, 100, 60)
	if math.Abs(a.Degrees()-59.04) > 5e-3 || math.Abs(b.Degrees()-30.96) > 5e-3 || math.Abs(float64(long)-116.62) > 5e-3 {
		t.Errorf("100 and 60 at 90°: %v, %v, %v", a.Degrees(), b.Degrees(), long)
	}
	for _, interior := range []unit.Angle{20 * unit.Degree, 90 * unit.Degree, 160 * unit.Degree} {
		if a, b, _ := MitreOf(interior, 70, 70); math.Abs(float64(a-interior/2)) > 1e-12 || math.Abs(float64(b-interior/2)) > 1e-12 {
			t.Errorf("like parts at %v: %v, %v", interior, a, b)
		}
	}
}

// Of a whole piece: the longer edge is held; a mitre only where the job says so; the
// edge that a cut makes has a setting of its own, half of the corner's angle from square
// and leaning out.
func TestSettingsOfAPiece(t *testing.T) {
	p, names := outlineOf(t, right)
	o := geom.OutlineOf(names, p)
	for _, c := range []struct {
		corners string
		want    []Setting
	}{
		{"", []Setting{
			{Corner: "A", Interior: 90 * unit.Degree, Edge: "AB", Line: 90 * unit.Degree},
			{Corner: "B", Interior: 36.86989764584402 * unit.Degree, Edge: "BC", Line: 36.86989764584402 * unit.Degree, Saw: 53.13010235415598 * unit.Degree},
			{Corner: "C", Interior: 53.13010235415598 * unit.Degree, Edge: "BC", Line: 53.13010235415598 * unit.Degree, Saw: 36.86989764584402 * unit.Degree},
		}},
		{"A mitre;B round 10;C cut 20", []Setting{
			{Corner: "A", Do: Mitre, Interior: 90 * unit.Degree, Line: 45 * unit.Degree, Saw: 45 * unit.Degree},
			{Corner: "B", Interior: 36.86989764584402 * unit.Degree, Edge: "BC", Line: 36.86989764584402 * unit.Degree, Saw: 53.13010235415598 * unit.Degree},
			{Corner: "C", Interior: 53.13010235415598 * unit.Degree, Edge: "BC", Line: 53.13010235415598 * unit.Degree, Saw: 36.86989764584402 * unit.Degree},
			{Corner: "C", Do: Cut, Interior: 116.56505117707799 * unit.Degree, Edge: "BC", Line: 63.43494882292201 * unit.Degree, Saw: 26.56505117707799 * unit.Degree, Out: true},
		}},
		{"A mitre CA 60 AB 100", []Setting{
			{Corner: "A", Do: Mitre, Interior: 90 * unit.Degree, Edge: "CA", Line: 30.96375653207352 * unit.Degree, Saw: 59.03624346792648 * unit.Degree},
			{Corner: "A", Do: Mitre, Interior: 90 * unit.Degree, Edge: "AB", Line: 59.03624346792648 * unit.Degree, Saw: 30.96375653207352 * unit.Degree},
			{Corner: "B", Interior: 36.86989764584402 * unit.Degree, Edge: "BC", Line: 36.86989764584402 * unit.Degree, Saw: 53.13010235415598 * unit.Degree},
			{Corner: "C", Interior: 53.13010235415598 * unit.Degree, Edge: "BC", Line: 53.13010235415598 * unit.Degree, Saw: 36.86989764584402 * unit.Degree},
		}},
	} {
		got := Settings(o, shaped(t, right, "", c.corners, "").Corners)
		if len(got) != len(c.want) {
			t.Fatalf("%q: %+v", c.corners, got)
		}
		for i, w := range c.want {
			g := got[i]
			same := near(g.Interior.Degrees(), w.Interior.Degrees()) && near(g.Line.Degrees(), w.Line.Degrees()) && near(g.Saw.Degrees(), w.Saw.Degrees())
			if g.Interior, g.Line, g.Saw = w.Interior, w.Line, w.Saw; !same || g != w {
				t.Errorf("%q: %+v, want %+v", c.corners, got[i], w)
			}
		}
	}
}

// The cut drawn from the figures of the square and the one drawn by the saw's angle
// are the next edge of the piece, at corners of every kind.
func TestSettingsLieOnTheEdge(t *testing.T) {
	for degrees := 5.0; degrees < 355; degrees += 2.5 {
		if math.Abs(degrees-180) < 3 {
			continue
		}
		sin, cos := math.Sincos(degrees * math.Pi / 180)
		s := SettingOf(unit.Angle(degrees) * unit.Degree)
		// The edge held runs from the corner at the origin to the right, the piece above
		// it; the other edge at the interior angle.
		along, up := s.Square(100)
		x, y := float64(along), float64(up)
		if s.Out {
			x = -x
		}
		if s.Inward {
			y = -y
		}
		if cross := x*sin - y*cos; math.Abs(cross) > 1e-9 || x*cos+y*sin <= 0 {
			t.Errorf("%v°: the square leads to (%v, %v)", degrees, x, y)
		}
		lean := s.Saw // from straight up, towards the edge held
		if s.Out {
			lean = -lean
		}
		y, x = math.Sincos(math.Pi/2 - float64(lean))
		if s.Inward {
			y = -y
		}
		if cross := x*sin - y*cos; math.Abs(cross) > 1e-12 || x*cos+y*sin <= 0 {
			t.Errorf("%v°: the saw leads to (%v, %v)", degrees, x, y)
		}
	}
}

func near(got, want float64) bool { return math.Abs(got-want) <= 1e-9 }
