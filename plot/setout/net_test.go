package setout

import (
	"fmt"
	"maps"
	"math"
	"math/cmplx"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"trammel/geom"
	"trammel/geom/net"
	"trammel/geom/pegging"
	"trammel/geom/tape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/internal/pagetest"
	"trammel/plot/lettering"
	"trammel/plot/paging"
	"trammel/plot/phone"
	"trammel/plot/sheet"
)

// nets are pieces of several triangles, each set out in every way.
func nets(t *testing.T, each func(name string, s Sheet)) {
	for _, c := range []struct{ name, tokens, outline string }{
		{"house", house, "ABCD"}, {"floor", floor, "ABCDEF"},
		{"yard with a well", "AB=20000 BC=15000 AC=25000 CD=20000 DA=15000 BD=25000 AW=9220 BW=14318 DW=11402", "ABCD"},
	} {
		for m := range pegging.AngleDistance + 1 {
			for _, base := range [][2]geom.Name{{}, {"A", "B"}, {"D", "B"}} {
				if base[0] == "D" && m == pegging.TwoArcs && c.name == "floor" {
					base = [2]geom.Name{"D", "A"} // from D and B the arcs at F cross at 5°
				}
				s := preparedNet(t, c.tokens, c.outline, func(in *Input) {
					in.Method, in.Base = &m, base
					in.Every, in.Boards, in.Permitted = 1500, 1000, 2
					if base[0] == "D" {
						in.Tools.Instrument = tape.Theodolite
					}
				})
				each(fmt.Sprintf("%s, %v from %s", c.name, m, edge(s.Ranking.Best[s.Ranking.Used].Base)), s)
			}
		}
	}
}

// Whoever follows the steps by their words alone comes to the right places: the
// figures are read out of the sentences, the places worked out by formulas of the
// test's own, and compared with the distances that were measured (the nets are made
// from whole coordinates, the misclosures are below 1 mm).
func TestFollowingTheSteps(t *testing.T) {
	nets(t, func(name string, s Sheet) {
		h := newFollower(t, exact())
		var short []string
		pulls := 0
		for _, x := range s.Says().Short() {
			short, pulls = append(short, x.Words), pulls+x.Pulls
		}
		h.follow(short)
		inShort := h.at
		if n := h.follow(s.Steps); n != len(s.Pulls) || pulls != len(s.Steps) {
			t.Errorf("%s: %d of %d pulls are told: %q; %d of %d in short ones", name, n, len(s.Pulls), s.Steps, pulls, len(s.Steps))
		}
		at := h.at
		if !maps.Equal(at, inShort) {
			t.Errorf("%s: the short steps lead elsewhere: %q", name, short)
		}
		within := 4.0 // whole millimetres are pulled
		if s.Method == pegging.AngleDistance && s.Tools.Instrument != tape.Theodolite {
			within = 25 // 0.05° on 14 m, twice
		}
		for _, r := range s.Net.Results {
			a, b := string(r.Measurement.At[0]), string(r.Measurement.At[1])
			p, first := at[a]
			q, second := at[b]
			if got := cmplx.Abs(p - q); !first || !second || math.Abs(got-r.Measured.Length.MM()) > within {
				t.Errorf("%s: %s to %s comes to %.2f, measured %.2f (%v %v)", name, a, b, got, r.Measured.Length.MM(), first, second)
			}
		}
	})
}

// US Navy, NAVEDTRA 14043: a rectangle of 40 × 35 ft has a diagonal of 53.1507 ft,
// which is 53'-1 13/16".
func TestRectangleOfTheHandbook(t *testing.T) {
	feet := func(in *Input) {
		in.Style = unit.Style{Unit: unit.FT}
		in.Base = [2]geom.Name{"A", "B"}
		m := pegging.OffsetSquare
		in.Method = &m
	}
	s := preparedNet(t, "AB=40'0\" BC=35'0\" ABC=90deg+-0.001deg CD=40'0\" DA=35'0\"", "ABCD", feet)
	found := 0
	for _, c := range s.Checks {
		if pegging.SameLine([2]geom.Name{c.From, c.To}, [2]geom.Name{"A", "C"}) || pegging.SameLine([2]geom.Name{c.From, c.To}, [2]geom.Name{"B", "D"}) {
			found++
			if math.Abs(float64(c.Value/unit.Foot)-53.1507) > 5e-5 || s.Figure(c.Value) != `53'-1 13/16"` {
				t.Errorf("%s to %s: %.4f ft, %s", c.From, c.To, c.Value/unit.Foot, s.Figure(c.Value))
			}
		}
	}
	if found != 2 {
		t.Errorf("%d diagonals are checked", found)
	}
}

// A tape of 100 ft that is true at 100.02 ft: lay out 500.00 ft by 0.10 less; another
// of 100.010 ft at 68 °F and 12 lb, A 0.0075 in², E 29e6 psi, 6.45e-6/°F, at 95 °F
// under 20 lb: lay out 529.81 ft by reading 529.6453 (worked examples of handbooks).
func TestReadingsToLayOff(t *testing.T) {
	long := tape.Standard{Nominal: 100 * unit.Foot, True: 100.02 * unit.Foot}
	s := prepared(t, "AB=30480 BC=30480 CA=30480", func(in *Input) { in.Standard, in.Conditions = long, &tape.Conditions{Temperature: 20} })
	r, _ := s.Reads(500*unit.Foot, 0)
	isNear(t, "500 ft", (r-500*unit.Foot)/unit.Foot, -0.10, 5e-5)
	// 100 ft as it is printed: 30480/1.0002 = 30473.9, pulled to the millimetre.
	s.Office = true
	if text := textOf(t, s); !strings.Contains(text, "30\u2009474  hold") || !strings.Contains(strings.Join(strings.Fields(text), " "), "calibration +6.09, lay off 30 474") {
		t.Error("the reading is not printed:\n" + text)
	}
	for _, p := range s.Pulls {
		if (p.Use == pegging.ForLeg) != (p.Reads == p.Length) {
			t.Errorf("pull %d, %s: %v reads %v", p.Number, p.Use, p.Length, p.Reads)
		}
	}
	warm := tape.Standard{Nominal: 100 * unit.Foot, True: 100.010 * unit.Foot, Temperature: tape.Fahrenheit(68), Pull: 12 * tape.PoundForce,
		Expansivity: 6.45e-6 * tape.PerFahrenheit, Section: 0.0075 * 25.4 * 25.4, Modulus: 29e6 * tape.PoundsPerSqInch}
	s = prepared(t, "AB=30480 BC=30480 CA=30480", func(in *Input) {
		in.Standard, in.Conditions = warm, &tape.Conditions{Temperature: tape.Fahrenheit(95), Pull: 20 * tape.PoundForce}
	})
	r, _ = s.Reads(529.81*unit.Foot, 0)
	isNear(t, "529.81 ft", r/unit.Foot, 529.6453, 5e-5)
}

// ±K√L, 2K below 5 m (IS 11134:1984 as summarised): K = 2 permits 4 mm at 4 m and
// 2·√14.422 = 7.6 mm over the diagonal.
func TestPermittedIsCompared(t *testing.T) {
	s := preparedNet(t, house, "ABCD", func(in *Input) { in.Permitted = 2; in.Base = [2]geom.Name{"A", "C"} })
	for _, x := range s.Sure {
		want := 2 * math.Sqrt(8) // B and D are 8 m from an end
		if x.Peg == "A" || x.Peg == "C" {
			want = 2 * math.Sqrt(14.422)
		}
		isNear(t, string(x.Peg), x.Permitted, want, 1e-4)
		if x.Inside != (x.Both <= x.Permitted) || x.Both < x.Measured || x.Both < x.SetOut || x.Both > x.Measured+x.SetOut+1e-9 {
			t.Errorf("%+v", x)
		}
	}
	s.Office = true
	if text := textOf(t, s); !strings.Contains(text, "outside 5.7") && !strings.Contains(text, "inside 5.7") {
		t.Error("what is permitted is not told")
	}
}

// Nails are clear of the piece by what was asked for, seen from points set closely
// along its edges; strings cross where the corners are. The hollow corner D of the
// floor, (6, 4) m, has its nails beyond the floor: 6 m and 0.8 m on, and 4 m and 0.8 m.
func TestProfileBoards(t *testing.T) {
	s := preparedNet(t, floor, "ABCDEF", func(in *Input) { in.Boards = 800 })
	if len(s.Nails) != 12 || len(s.Strings) != 6 {
		t.Fatalf("%d nails, %d strings", len(s.Nails), len(s.Strings))
	}
	var edges []geom.Point
	for i, a := range s.Outline {
		l := geom.Line{From: s.Spot(a), To: s.Spot(s.Outline[(i+1)%6])}
		for k := range 2000 {
			edges = append(edges, l.At(float64(k)/2000))
		}
	}
	for _, n := range s.Nails {
		least := math.Inf(1)
		for _, p := range edges {
			least = min(least, p.Distance(n.Point).MM())
		}
		if math.Abs(least-800) > 1 {
			t.Errorf("%s beyond %s is clear by %.1f", edge(n.Edge), n.Beyond, least)
		}
		want := 800.0
		if n.Beyond == "D" {
			want = map[string]float64{"CD": 6800, "DE": 4800}[edge(n.Edge)]
		}
		isNear(t, edge(n.Edge)+" beyond "+string(n.Beyond), n.Past, want, 1)
		if d := math.Hypot(n.Along.MM(), n.Offset.MM()); math.Abs(d-n.Point.Distance(s.Spot(s.Baseline.From)).MM()) > 1e-6 {
			t.Errorf("%+v stands elsewhere", n)
		}
	}
	for _, x := range s.Strings {
		isNear(t, edge(x.Edge), x.Corners[1]-x.Corners[0], s.Between(x.Edge[0], x.Edge[1]).MM(), 1e-6)
	}
}

// Marks lie on their edge, so far from its first corner.
func TestMarksAlongTheEdges(t *testing.T) {
	nets(t, func(name string, s Sheet) {
		if len(s.Marks) == 0 {
			t.Fatalf("%s: no marks", name)
		}
		for _, m := range s.Marks {
			a, b := s.Spot(m.Edge[0]), s.Spot(m.Edge[1])
			if off := a.Distance(m.Point) + m.Point.Distance(b) - a.Distance(b); math.Abs(off.MM()) > 1e-6 || math.Abs(float64(a.Distance(m.Point)-m.At)) > 1e-6 || math.Mod(m.At.MM(), 1500) != 0 {
				t.Errorf("%s: %+v", name, m)
			}
			x, y, side := s.Running(m.Point)
			if x != m.Along || y != m.Offset || side != m.Side {
				t.Errorf("%s: %+v", name, m)
			}
		}
	})
}

// Every peg is held by a check and every length that was measured is pulled, to set out
// or to check; each line once.
func TestEveryPegOfANetIsChecked(t *testing.T) {
	nets(t, func(name string, s Sheet) {
		pulled := map[[2]geom.Name]int{}
		add := func(a, b geom.Name) { pulled[[2]geom.Name{min(a, b), max(a, b)}]++ }
		for _, p := range s.Pulls {
			if p.Use != pegging.ForAngle {
				add(p.Hold, p.To)
			}
		}
		for _, c := range s.Checks {
			add(c.From, c.To)
		}
		for line, n := range pulled {
			if n > 1 {
				t.Errorf("%s: %s is pulled %d times", name, edge(line), n)
			}
		}
		for _, r := range s.Net.Results {
			if m := r.Measurement; pulled[[2]geom.Name{min(m.At[0], m.At[1]), max(m.At[0], m.At[1])}] == 0 {
				t.Errorf("%s: %s is not pulled", name, m.Subject())
			}
		}
		for _, x := range s.Main {
			if !slices.ContainsFunc(s.Checks, func(c pegging.Check) bool { return c.From == x.Peg || c.To == x.Peg }) {
				t.Errorf("%s: %s has no check", name, x.Peg)
			}
		}
	})
}

func TestPagesAndTextOfNets(t *testing.T) {
	ruler := lettering.Go()
	nets(t, func(name string, s Sheet) {
		for _, paper := range []paging.Sheet{pagetest.A4, pagetest.A3Wide} {
			pages := pagesOf(t, s, paper)
			boxes, all := 0, ""
			for i, p := range pages {
				inside := p.Bounds().Grow(-sheet.LeastMargin + 0.3)
				for _, op := range p.Ops {
					if b := op.Bounds(ruler); !inside.Has(b.Min) || !inside.Has(b.Max) {
						t.Errorf("%s on %s: page %d: %+v lies in the margin", name, paper.Name, i+1, op)
					}
					switch o := op.(type) {
					case draw.Text:
						all += o.Words + "\n"
						if c := ruler.Missing(o.Words); c != 0 {
							t.Errorf("%s: the lettering has no %q", name, c)
						}
					case draw.Polyline:
						if b := o.Bounds(ruler); o.Closed && !o.Solid && len(o.Points) == 4 && b.Height() > 8 && b.Height() < 8.2 {
							boxes++
						}
					}
				}
			}
			if boxes != len(s.siteChecks()) || len(s.siteChecks())+len(s.officeChecks()) != len(s.Checks) {
				t.Errorf("%s on %s: %d boxes for %d checks of %d", name, paper.Name, boxes, len(s.siteChecks()), len(s.Checks))
			}
			for _, x := range s.Main { // each peg is shown twice where that can be
				n, all := seenIn(s.siteChecks(), x.Peg), seenIn(s.Checks, x.Peg)
				if n < min(all, 2) {
					t.Errorf("%s: %s is in %d checks of %d", name, x.Peg, n, all)
				}
			}
			for _, want := range []string{"Hold and pull", "Pegs and marks", "Steps", "How sure: with all checks good", "Before the first peg", "Marks along the edges, every 1500 mm", "Strings, and where they cross, from the first nail"} {
				if !strings.Contains(all, want) {
					t.Errorf("%s on %s: the sheet does not say %q", name, paper.Name, want)
				}
			}
			pagetest.Overlaps(t, name, pages, ruler)
		}
		for _, line := range strings.Split(textOf(t, s), "\n") {
			if utf8.RuneCountInString(line) > phone.Width {
				t.Errorf("%s: %q is too wide", name, line)
			}
		}
	})
}

func seenIn(checks []pegging.Check, n geom.Name) (seen int) {
	for _, c := range checks {
		if c.From == n || c.To == n {
			seen++
		}
	}
	return seen
}

// A misread length is told before anything is set out.
func TestSlipIsToldBeforeSettingOut(t *testing.T) {
	s := preparedNet(t, strings.Replace(house, "BD=14422", "BD=14522", 1), "ABCD", nil)
	if len(s.Doubts) == 0 || !strings.Contains(s.Doubts[0], "BD reads 14522") && !strings.Contains(strings.Join(s.Doubts, " "), "BD") || !strings.Contains(textOf(t, s), "BEFORE SETTING OUT") {
		t.Errorf("doubts: %q", s.Doubts)
	}
}

// manyPoints is a field of n points, each measured to those around it: m lengths.
func manyPoints(t testing.TB, n, m int) net.Net {
	t.Helper()
	r := rand.New(rand.NewPCG(1, 1))
	row := int(math.Ceil(math.Sqrt(float64(n))))
	layout := net.Net{Start: map[geom.Name]geom.Point{}}
	name := func(i int) geom.Name { return geom.Name(fmt.Sprintf("%c%d", 'A'+i%26, i/26+1)) }
	type pair struct {
		a, b geom.Name
		d    float64
	}
	var all []pair
	for i := range n {
		at := geom.Point{X: unit.Length(float64(i%row)*60000/float64(row) + r.Float64()*2000), Y: unit.Length(float64(i/row)*60000/float64(row) + r.Float64()*2000)}
		for j := range i {
			all = append(all, pair{name(j), name(i), layout.Start[name(j)].Distance(at).MM()})
		}
		layout.Start[name(i)] = at
	}
	slices.SortFunc(all, func(a, b pair) int { return int(math.Copysign(1, a.d-b.d)) })
	for _, p := range all[:m] {
		x, err := triangle.ParseMeasurement(fmt.Sprintf("%s%s=%.0f+-2", p.a, p.b, p.d), unit.MM)
		if err != nil {
			t.Fatal(err)
		}
		layout.Measured = append(layout.Measured, x)
	}
	return layout
}

// 200 points and 1,000 measurements, from the measurements to the pages.
func BenchmarkManyPoints(b *testing.B) {
	layout := manyPoints(b, 200, 1000)
	for b.Loop() {
		a, err := net.Adjust(layout)
		if err != nil {
			b.Fatal(err)
		}
		s, err := Prepare(Input{Asked: pegging.Asked{Net: a}})
		if err != nil {
			b.Fatal(err)
		}
		pages, err := s.Pages(pagetest.A3, lettering.Go())
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(len(pages)), "pages")
	}
}

// A length that was written to the metre says so on the sheet; one with its tolerance
// or its millimetres does not.
func TestWrittenRoughly(t *testing.T) {
	s := prepared(t, "AB=8m BC=6.000m CA=5m+-2mm", nil)
	if all := strings.Join(s.Doubts, " "); !strings.Contains(all, "Written roughly, and counted so: AB=8m is ±500 mm.") {
		t.Errorf("doubts: %q", s.Doubts)
	}
	if s := prepared(t, "AB=8000 BC=6.000m CA=5m+-2mm", nil); len(s.Doubts) != 0 {
		t.Errorf("doubts: %q", s.Doubts)
	}
}
