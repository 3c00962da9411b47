package shape

import (
	"errors"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"trammel/geom"
	"trammel/geom/unit"
)

func TestTokens(t *testing.T) {
	near := func(got unit.Length, want float64) bool { return close(float64(got), want) }
	for _, c := range []struct {
		text string
		bare unit.Unit
		edge [2]geom.Name
		by   float64
	}{
		{"AB allow 3", unit.MM, [2]geom.Name{"A", "B"}, 3},
		{"  AB   allow\t0 ", unit.MM, [2]geom.Name{"A", "B"}, 0},
		{"BC allow -1.5mm", unit.IN, [2]geom.Name{"B", "C"}, -1.5},
		{"K2K10 allow \u22121/8in", unit.MM, [2]geom.Name{"K2", "K10"}, -3.175},
		{"CA allow 5/8", unit.IN, [2]geom.Name{"C", "A"}, 15.875},
		{"CA allow 1 cm", unit.MM, [2]geom.Name{"C", "A"}, 10},
	} {
		a, err := ParseAllowance(c.text, c.bare)
		if err != nil || a.Edge != c.edge || !near(a.By, c.by) || a.Text != strings.Join(strings.Fields(c.text), " ") {
			t.Errorf("%q: %+v, %v", c.text, a, err)
		}
	}
	for _, c := range []struct {
		text   string
		at     geom.Name
		do     Treatment
		by     float64
		allow  float64
		stated bool
	}{
		{"A cut 20", "A", Cut, 20, 0, false},
		{"A cut 2 cm allow 2", "A", Cut, 20, 2, true},
		{"A cut 20 allow -1mm", "A", Cut, 20, -1, true},
		{"B7 round 1/2in", "B7", Round, 12.7, 0, false},
		{`B round 7'-10 1/2"`, "B", Round, 2400.3, 0, false},
		{"C blunt 10", "C", Blunt, 10, 0, false},
		{"C mitre", "C", Mitre, 0, 0, false},
		{"C miter CD 100 BC 2in", "C", Mitre, 0, 0, false},
	} {
		k, err := ParseCorner(c.text, unit.MM)
		if err != nil || k.At != c.at || k.Do != c.do || !near(k.By, c.by) || !near(k.Allow, c.allow) || k.Stated != c.stated {
			t.Errorf("%q: %+v, %v", c.text, k, err)
		}
	}
	for _, c := range []struct {
		text     string
		diameter float64
		centre   Centre
	}{
		{"12 at AB 40 from A 60", 12, FromEdge{[2]geom.Name{"A", "B"}, 40, "A", 60}},
		{"12mm at BA 4 cm from A 0.5m", 12, FromEdge{[2]geom.Name{"B", "A"}, 40, "A", 500}},
		{"12 at A 80 B 95", 12, FromCorners{[2]geom.Name{"A", "B"}, [2]unit.Length{80, 95}}},
		{"1 cm at B2 8 cm A 1 m", 10, FromCorners{[2]geom.Name{"B2", "A"}, [2]unit.Length{80, 1000}}},
		{"12 at AB 40 from B 0", 12, FromEdge{[2]geom.Name{"A", "B"}, 40, "B", 0}},
		{"12 at AB 12 345 from B 100", 12, FromEdge{[2]geom.Name{"A", "B"}, 12345, "B", 100}},
	} {
		h, err := ParseHole(c.text, unit.MM)
		if err != nil || !near(h.Diameter, c.diameter) || h.Centre != c.centre {
			t.Errorf("%q: %+v, %v", c.text, h, err)
		}
	}
}

// What is wrong with a token, in one line, and what to do.
func TestTokenFaults(t *testing.T) {
	edge := func(s string) error { _, err := ParseAllowance(s, unit.MM); return err }
	corner := func(s string) error { _, err := ParseCorner(s, unit.MM); return err }
	hole := func(s string) error { _, err := ParseHole(s, unit.MM); return err }
	units := "units are mm, cm, m, in or ft"
	lengths := `lengths are written 2400, 2400mm, 240cm, 2.4m, 94.5in, 7ft 10 1/2in or 7'-10 1/2"`
	for _, c := range []struct {
		read             func(string) error
		text, what, hint string
	}{
		{edge, "", "no setting of an edge is written", edgeForm},
		{edge, "AB", `AB: ends before its "allow"`, edgeForm},
		{edge, "AB allow", "AB allow: a length is missing", edgeForm},
		{edge, "AB 3", `AB 3: "3" stands where "allow" should`, edgeForm},
		{edge, "AB alow 3", `AB alow 3: "alow" stands where "allow" should`, edgeForm},
		{edge, "AB allow 3 4", `AB allow 3 4: "3 4" is not a length`, lengths},
		{edge, "ab allow 3", `ab allow 3: "ab" has a small letter`, "points have capital letters: write AB"},
		{edge, "AA allow 3", `AA allow 3: "AA" is not the name of an edge`, edgeForm},
		{edge, "A allow 3", `A allow 3: "A" is not the name of an edge`, edgeForm},
		{edge, "ABC allow 3", `ABC allow 3: "ABC" is not the name of an edge`, edgeForm},
		{edge, "AB allow 3OO", `AB allow 3OO: "3OO" is not a length`, "write digits, not letters that look like them: 300"},
		{edge, "AB allow 3 feets", `AB allow 3 feets: "3 feets" is not a length: "feets" is not a unit of length`, units},
		{edge, "AB allow 1001", `AB allow 1001: "1001" is more than 1000 mm, the most that is read`, "a bare number counts mm here; another unit is written behind it, such as 2.4m"},
		{edge, "AB allow -2m", `AB allow -2m: "-2m" is less than −1000 mm, the least that is read`, edgeForm},
		{edge, "AB allow 3+-1", `AB allow 3+-1: "3+-1" has a tolerance`, "write the length alone: 3"},
		{edge, "AB allow 2,400", `AB allow 2,400: "2,400" can be read in two ways: the comma may part thousands`, "write 2400, or 2.4"},
		{edge, "AB allow nan", `AB allow nan: "nan" is not a length`, "write a number that can be measured; " + lengths},
		{edge, "AB allow \x003", `"AB allow \x003" holds the character U+0000, which cannot be seen`, "take it out, or type the words anew"},
		{edge, "AB allow \xff", `"AB allow \xff" is not text`, "save the words as UTF-8"},
		{corner, "A", "A: ends before it says what is done to the corner", cornerForm},
		{corner, "A cut", "A cut: a length is missing", cornerForm},
		{corner, "AB cut 3", `AB cut 3: "AB" is not the name of a corner`, cornerForm},
		{corner, "a cut 3", `a cut 3: "a" has a small letter`, "points have capital letters: write A"},
		{corner, "A trim 3", `A trim 3: "trim" is nothing that is done to a corner`, cornerForm},
		{corner, "A cut 0", `A cut 0: "0" is no length at all`, "the least is 0.5 mm"},
		{corner, "A round -5", `A round -5: "-5" is negative`, "write a length without a sign"},
		{corner, "A round 5 allow 2", "A round 5 allow 2: only a corner that is cut makes an edge with an allowance of its own", "leave the allowance out, or give one to the edges beside the corner"},
		{corner, "A cut 5 allow", "A cut 5 allow: a length is missing", cornerForm},
		{hole, "12", `12: ends before its "at"`, holeForm},
		{hole, "at A 3 B 4", "at A 3 B 4: a length is missing", holeForm},
		{hole, "12 at", "12 at: an edge is missing", holeForm},
		{hole, "12 at AB", "12 at AB: a length is missing", holeForm},
		{hole, "12 at AB 40", `12 at AB 40: ends before its "from"`, holeForm},
		{hole, "12 at AB 40 from", "12 at AB 40 from: a corner is missing", holeForm},
		{hole, "12 at AB 40 from C 60", "12 at AB 40 from C 60: C is no end of edge AB", "say from which of its ends the distance along it runs"},
		{hole, "12 at AB 40 from A", "12 at AB 40 from A: a length is missing", holeForm},
		{hole, "12 at A 80", "12 at A 80: a corner is missing", holeForm},
		{hole, "12 at A 80 A 90", "12 at A 80 A 90: A is named twice", "name two corners"},
		{hole, "12 at A 80 B 90 C 100", `12 at A 80 B 90 C 100: "C 100" stands behind the hole`, holeForm},
		{hole, "Ø12 at A 80 B 90", `Ø12 at A 80 B 90: "Ø12" is not a length`, lengths},
		{hole, "0.2 at A 80 B 90", `0.2 at A 80 B 90: "0.2" is less than 0.5 mm, the least that is read`, "a bare number counts mm here; another unit is written behind it, such as 2.4m"},
		{hole, strings.Repeat("12 at ", 20), "`12 at 12 at", "at most 64 characters"},
	} {
		err := c.read(c.text)
		var f *unit.Fault
		if !errors.As(err, &f) {
			t.Errorf("%q: %v is no fault", c.text, err)
			continue
		}
		if f.Error() != c.what && !strings.HasPrefix(c.what, "`") || f.Hint != c.hint {
			t.Errorf("%q:\n got %s\n     %s\nwant %s\n     %s", c.text, f, f.Hint, c.what, c.hint)
		}
	}
}

// Work that cannot be done, with the figures.
func TestRefusals(t *testing.T) {
	for _, c := range []struct{ outline, edges, corners, holes, what, hint string }{
		{equal, "AD allow 3", "", "", "AD allow 3: the piece has no corner D", "its corners are A, B and C"},
		{ell, "AC allow 3", "", "", "AC allow 3: AC is no edge of the piece", "its edges are AB, BC, CD, DE, EF and FA"},
		{equal, "AB allow 3;BA allow 4", "", "", "BA allow 4: edge AB has an allowance already (AB allow 3)", "keep one of both"},
		{equal, "", "D cut 3", "", "D cut 3: the piece has no corner D", "its corners are A, B and C"},
		{equal, "", "A cut 3;A round 4", "", "A round 4: something is done to corner A already (A cut 3)", "keep one of both"},
		{equal, "AB allow -58;BC allow -58;CA allow -58", "", "", "AB allow -58: the allowances eat edge AB: it has 200 mm and they take 200.9 mm of it", "bring the cut lines nearer to the finished edges"},
		{bar, "AB allow -25;CD allow -16", "", "", "AB allow -25: the allowances eat edge BC: it has 40 mm and they take 41 mm of it", "bring the cut lines nearer to the finished edges"},
		{ell, "CD allow 130", "", "", "CD allow 130: the allowances eat edge DE: it has 120 mm and they take 130 mm of it", "bring the cut lines nearer to the finished edges"},
		{equal, "", "A cut 120;B cut 90", "", "A cut 120: corners A and B take 120 mm and 90 mm of edge AB, which has 200 mm", "a set-back of less than 110 mm leaves something of the edge"},
		{equal, "", "A cut 100;B cut 100", "", "A cut 100: corners A and B take 100 mm and 100 mm of edge AB, which has 200 mm", "a set-back of less than 100 mm leaves something of the edge"},
		{equal, "", "A cut 200", "", "A cut 200: the corner takes 200 mm of edge AB, which has 200 mm", "a set-back of less than 200 mm leaves something of the edge"},
		{equal, "", "B round 120", "", "B round 120: the corner takes 207.8 mm of edge AB, which has 200 mm", "the largest radius that AB leaves room for is 115.4 mm"},
		{equal, "", "A round 60;B round 60", "", "A round 60: corners A and B take 103.9 mm and 103.9 mm of edge AB, which has 200 mm", "the largest radius that AB leaves room for is 55.4 mm"},
		{bar, "", "A round 20;B round 20;C round 20;D cut 20", "", "D cut 20: corners D and A take 20 mm and 20 mm of edge DA, which has 40 mm", "a set-back of less than 20 mm leaves something of the edge"},
		{equal, "", "A blunt 5", "", "A blunt 5: edges CA and AB have no allowance outside, so that nothing is to be cut off beyond A", "leave it out"},
		{equal, "AB allow 6", "A blunt 5", "", "A blunt 5: 5 mm beyond A is less than the allowance of 6 mm beside it", "at least 6 mm"},
		{ell, "CD allow 6", "D blunt 10", "", "D blunt 10: corner D points inward: no cut line runs out beyond it", "round it: D round 5"},
		{"0,0 50,0 100,0 50,80", "", "B cut 5", "", "B cut 5: the edges run on straight at B: there is no corner", "leave it out"},
		{"0,0 50,0 100,0 50,80", "AB allow 5", "", "", "AB allow 5: edges AB and BC run on straight at B, so that cut lines at 5 mm and 0 mm do not meet", "give both the same allowance"},
		{"0,0 50,-0.5 100,0 50,80", "BC allow 7", "", "", "BC allow 7: at B (178.9°) the cut lines of AB and BC cross 350 mm from the corner", "cut off what runs out: corners: [B blunt 7mm]"},
		{"0,0 1000,0 1000,8", "AB allow 3;CA allow 3", "", "", "CA allow 3: at A (0.5°) the cut lines of CA and AB cross 750 mm from the corner", "cut off what runs out: corners: [A blunt 3mm]"},
		{equal, "", "", "20 at AB 8 from A 100", "20 at AB 8 from A 100: the hole reaches 2 mm across edge AB", "its centre is 8 mm inside of it and its radius is 10 mm"},
		{equal, "", "", "20 at AB 0 from A 100", "20 at AB 0 from A 100: the hole reaches 10 mm across edge AB", "its centre is 0 mm inside of it and its radius is 10 mm"},
		{equal, "", "", "20 at AB 10 from A 100", "20 at AB 10 from A 100: the hole touches edge AB", "its centre is 10 mm inside of it and its radius is 10 mm"},
		{equal, "", "", "20 at AB 9.96 from A 100", "20 at AB 9.96 from A 100: the hole reaches 0.04 mm across edge AB", "its centre is 10 mm inside of it and its radius is 10 mm"},
		{right, "", "", "20 at AB 200 from A 140", "20 at AB 200 from A 140: the hole reaches 14 mm across edge BC", "its centre is 4 mm outside of it and its radius is 10 mm"},
		{right, "", "", "20 at AB 300 from A 400", "20 at AB 300 from A 400: the hole lies outside the piece: its centre is 240 mm beyond edge BC", "distances are square to the edge on its inner side, and along it from the end that is named"},
		{square, "", "A cut 40", "10 at AB 20 from A 22", "10 at AB 20 from A 22: the hole reaches 3.6 mm across the cut at A", "its centre is 1.4 mm inside of it and its radius is 5 mm"},
		{square, "", "A round 80", "10 at AB 20 from A 20", "10 at AB 20 from A 20: the hole reaches 9.9 mm across the rounding at A", "its centre is 4.9 mm outside of it and its radius is 5 mm"},
		{square, "AB allow -6", "", "10 at AB 10 from A 50", "10 at AB 10 from A 50: the hole reaches 1 mm across the cut line of edge AB", "its centre is 4 mm inside of it and its radius is 5 mm"},
		{square, "", "", "10 at AB 20 from A 20;12 at AB 20 from A 29", "12 at AB 20 from A 29: the hole overlaps the one before it (10 at AB 20 from A 20) by 2 mm", "their centres are 9 mm apart; their radii together are 11 mm"},
		{square, "", "", "10 at AB 20 from A 20;10 at AB 20 from A 30", "10 at AB 20 from A 30: the hole touches the one before it (10 at AB 20 from A 20)", "their centres are 10 mm apart; their radii together are 10 mm"},
		{square, "", "", "40 at AB 50 from A 50;10 at AB 50 from A 50", "10 at AB 50 from A 50: the hole overlaps the one before it (40 at AB 50 from A 50) by 25 mm", "their centres are 0 mm apart; their radii together are 25 mm"},
		{square, "", "", "10 at A 30 B 50", "10 at A 30 B 50: 30 mm from A and 50 mm from B together are 20 mm short of the 100 mm between A and B", ""},
		{square, "", "", "10 at A 30 B 150", "10 at A 30 B 150: 150 mm from B reaches 20 mm beyond the whole arc of 30 mm about A, so that they do not cross", ""},
		{square, "", "", "10 at A 80 C 80", "10 at A 80 C 80: the arcs from A and C cross twice inside the piece", "name the two ends of an edge: the hole is then on its inner side"},
		{square, "", "", "10 at A 40 B 60", "10 at A 40 B 60: the hole reaches 5 mm across edge AB", "its centre is 0 mm inside of it and its radius is 5 mm"},
		// A slot in the upper edge: its cut lines meet in its floor, or at its mouth.
		{"0,0 200,0 200,100 110,100 110,40 90,40 90,100 0,100", "DE allow 12;FG allow 9", "", "", "DE allow 12: the allowances eat edge EF: it has 20 mm and they take 21 mm of it", "bring the cut lines nearer to the finished edges"},
		{"0,0 200,0 200,100 105,100 140,40 60,40 95,100 0,100", "DE allow 6;FG allow 6", "", "", "FG allow 6: the cut lines of edge CD and edge FG cross", "bring the cut line nearer to the finished edges there"},
		// A notch that runs down to near A, across the cut there.
		{"0,0 200,0 200,100 120,100 20,15 60,100 0,100", "", "A cut 95", "", "A cut 95: the finished contour crosses itself: edge DE and the cut at A", "cut or round less at the corners near by"},
		{"0,0 200,0 200,100 120,100 20,15 60,100 0,100", "", "A round 95", "", "A round 95: the finished contour crosses itself: edge DE and the rounding at A", "cut or round less at the corners near by"},
	} {
		p, names := outlineOf(t, c.outline)
		_, err := Make(p, names, tokens(t, c.edges, c.corners, c.holes), unit.Style{})
		var f *unit.Fault
		if !errors.As(err, &f) {
			t.Errorf("%s | %s | %s: %v is no fault", c.edges, c.corners, c.holes, err)
			continue
		}
		if f.Error() != c.what || f.Hint != c.hint {
			t.Errorf("%s | %s | %s:\n got %s\n     %s\nwant %s\n     %s", c.edges, c.corners, c.holes, f, f.Hint, c.what, c.hint)
		}
	}
}

// A place in a file stands before the token.
func TestPlaces(t *testing.T) {
	p, names := outlineOf(t, equal)
	w := tokens(t, "AB allow -58;BC allow -58;CA allow -58", "", "")
	w.Allowances[0].Where = "job.yaml:7:12"
	_, err := Make(p, names, w, unit.Style{Unit: unit.IN})
	const want = `job.yaml:7:12: AB allow -58: the allowances eat edge AB: it has 7 7/8" and they take 7 15/16" of it`
	if err == nil || err.Error() != want {
		t.Errorf("%v, want %s", err, want)
	}
}

// Outlines that are none.
func TestOutlines(t *testing.T) {
	for text, want := range map[string]string{
		"0,0 1,0":               "an outline of 2 corners with 2 names",
		"0,0 100,0 100,0 0,100": "corners B and C are the same place",
		"0,0 0,100 100,0":       "the outline does not run counter-clockwise",
		"0,0 100,0 50,0":        "the outline runs back on itself at A",
	} {
		p, names := outlineOf(t, text)
		if _, err := Make(p, names, Work{}, unit.Style{}); err == nil || err.Error() != want {
			t.Errorf("%s: %v, want %s", text, err, want)
		}
	}
}

func honest(t *testing.T, text string, err error) {
	t.Helper()
	var f *unit.Fault
	if !errors.As(err, &f) || f.What == "" {
		t.Fatalf("%q: %v is no fault", text, err)
	}
	for _, line := range []string{f.Error(), f.Hint} {
		if !utf8.ValidString(line) || strings.ContainsFunc(line, unicode.IsControl) || len(line) > 1500 {
			t.Fatalf("%q: the message is %q", text, line)
		}
	}
}

// Whatever the tokens say, a shape or one line; and a shape is closed and runs
// counter-clockwise, with its holes inside.
func FuzzTokens(f *testing.F) {
	for _, s := range [][3]string{
		{"AB allow 3", "A cut 20", "12 at AB 40 from A 60"},
		{"BC allow -1.5mm", "B round 15", "12 at A 180 B 195"},
		{"CA allow 1/8in", "C blunt 10", "1 cm at BC 4 cm from C 50"},
		{"AC allow -30", "A cut 20 allow 2", `1/2" at CA 1" from A 4"`},
		{"ab allow", "A\x00cut 3", "12 at A 80 A 90"},
		{"", "A round 1e9", "9 at AB 1km from A 1"},
	} {
		f.Add(s[0], s[1], s[2], byte(0))
		f.Add(s[0], s[1], s[2], byte(1))
	}
	outlines := []geom.Polygon{
		{{}, {X: 400}, {Y: 300}},
		{{}, {X: 200}, {X: 60, Y: 60}, {Y: 200}}, // inward at C
	}
	f.Fuzz(func(t *testing.T, edge, corner, hole string, which byte) {
		var w Work
		a, err := ParseAllowance(edge, unit.MM)
		if err == nil {
			w.Allowances = []Allowance{a, {Edge: [2]geom.Name{"B", "C"}, By: a.By / 2}}
		} else {
			honest(t, edge, err)
		}
		if c, err := ParseCorner(corner, unit.MM); err == nil {
			w.Corners = []Corner{c}
		} else {
			honest(t, corner, err)
		}
		if h, err := ParseHole(hole, unit.MM); err == nil {
			w.Holes = []Hole{h}
		} else {
			honest(t, hole, err)
		}
		outline := outlines[which%2]
		s, err := Make(outline, []geom.Name{"A", "B", "C", "D"}[:len(outline)], w, unit.Style{})
		if err != nil {
			honest(t, edge+corner+hole, err)
			return
		}
		for _, c := range []geom.Contour{s.Finished, s.Cut} {
			for i, g := range c {
				if gap := g.At(1).Distance(c[(i+1)%len(c)].At(0)); !(gap < 1e-5) {
					t.Fatalf("%q %q %q: open by %v after segment %d", edge, corner, hole, gap, i)
				}
			}
			if !(c.Area() > 0) {
				t.Fatalf("%q %q %q: area %v", edge, corner, hole, c.Area())
			}
			_ = c.Around(0.5)
		}
		for _, b := range s.Bores {
			for _, c := range []geom.Contour{s.Finished, s.Cut} {
				if !c.Has(b.Circle.Centre) || c.Distance(b.Circle.Centre) < b.Circle.Radius {
					t.Fatalf("%q %q %q: the hole %v is not inside", edge, corner, hole, b.Circle)
				}
			}
		}
	})
}
