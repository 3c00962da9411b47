package check

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"trammel/geom"
	"trammel/geom/adjust"
	"trammel/geom/compare"
	"trammel/geom/gate"
	"trammel/geom/tape"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/draw"
	"trammel/plot/internal/pagetest"
	"trammel/plot/lettering"
	"trammel/plot/paging"
	"trammel/plot/pdf"
	"trammel/plot/phone"
	"trammel/plot/readback"
	"trammel/plot/sheet"
	"trammel/plot/words"
)

// ring is a layout of n pegs round a site, every length up to a reach found, with
// some pegs off their places.
func ring(n int, size, reach float64, off map[int]geom.Point) compare.Asked {
	var a compare.Asked
	var stands []geom.Point
	for i := range n {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		name := geom.Name(fmt.Sprintf("%c", 'A'+i%26))
		if i >= 26 {
			name = geom.Name(fmt.Sprintf("%c%d", 'A'+i%26, i/26))
		}
		at := geom.Point{X: unit.Length(size * c), Y: unit.Length(size * s * (0.7 + 0.3*math.Cos(5*float64(i))))}
		a.Pegs, a.Outline = append(a.Pegs, compare.Stake{Name: name, At: at}), append(a.Outline, name)
		stands = append(stands, at.Plus(off[i]))
	}
	for j := range n {
		for i := range j {
			if d := stands[i].Distance(stands[j]); float64(d) < reach && len(a.Found) < adjust.MostMeasurements {
				m, err := triangle.ParseMeasurement(fmt.Sprintf("%s%s=%.0f", a.Pegs[i].Name, a.Pegs[j].Name, d.MM()), unit.MM)
				if err != nil {
					panic(err)
				}
				a.Found = append(a.Found, m)
			}
		}
	}
	return a
}

// carried is a layout with pegs that are fixed.
func carried(a compare.Asked, fixed ...geom.Name) compare.Asked {
	a.Fixed = fixed
	return a
}

// ofHook is a layout that was measured back with a hook that is so many mm off.
func ofHook(a compare.Asked, off float64) compare.Asked {
	for i, m := range a.Found {
		var err error
		if a.Found[i], err = triangle.ParseMeasurement(fmt.Sprintf("%s=%.0f", m.Subject(), m.Value.Length().MM()+off), unit.MM); err != nil {
			panic(err)
		}
	}
	return a
}

// What the whole has in common: each cause by its name, the moves on the plan, and all
// to be measured again.
func TestFoundOfAll(t *testing.T) {
	want := map[string]struct {
		cause compare.Cause
		moves int
		words string
	}{
		"shifted": {compare.Shifted, 4, "The whole is shifted: all pegs but A and B stand right to one another, and 50 ± "},
		"hook":    {compare.TapeZero, 0, "The tape, or its hook: every length reads about 28 mm too long"},
	}
	seen := 0
	founds(t, func(name string, f Sheet) {
		w, ok := want[name]
		if !ok {
			return
		}
		seen++
		c := f.Comparison
		if len(c.Explanations) != 1 || c.Explanations[0].Cause != w.cause || len(f.shown()) != w.moves || len(f.again()) != len(c.Readings) {
			t.Errorf("%s: %d moves, %d readings again of %d: %+v", name, len(f.shown()), len(f.again()), len(c.Readings), c.Explanations)
		}
		if words := strings.Join(f.Says().Advice(c, f.Figures.Style), "\n"); !strings.Contains(words, w.words) {
			t.Errorf("%s: %s", name, words)
		}
	})
	if seen != len(want) {
		t.Errorf("%d of %d seen", seen, len(want))
	}
}

// founds are the sheets that the tests look at.
func founds(t testing.TB, do func(name string, f Sheet)) {
	t.Helper()
	for _, x := range []struct {
		name  string
		a     compare.Asked
		style unit.Style
	}{
		{"sound", ring(4, 4000, 1e9, nil), unit.Style{}},
		{"one wrong", ring(4, 4000, 1e9, map[int]geom.Point{2: {X: 30, Y: -20}}), unit.Style{}},
		{"one wrong of six", ring(6, 9000, 1e9, map[int]geom.Point{1: {X: -45}}), unit.Style{Unit: unit.M}},
		{"two wrong of seven", ring(7, 9000, 1e9, map[int]geom.Point{1: {X: -45}, 4: {Y: 60}}), unit.Style{}},
		{"many wrong", ring(7, 9000, 1e9, map[int]geom.Point{1: {X: -45}, 2: {Y: 60}, 3: {X: 80}, 5: {X: 60}}), unit.Style{}},
		{"undecided", ring(4, 4000, 7000, map[int]geom.Point{2: {Y: 25}}), unit.Style{}},
		{"shifted", carried(ring(6, 9000, 1e9, map[int]geom.Point{2: {X: 40, Y: 30}, 3: {X: 40, Y: 30}, 4: {X: 40, Y: 30}, 5: {X: 40, Y: 30}}), "A", "B"), unit.Style{}},
		{"hook", ofHook(ring(5, 6000, 1e9, nil), 28), unit.Style{}},
		{"feet", ring(5, 6000, 1e9, map[int]geom.Point{3: {X: 25}}), unit.Style{Unit: unit.FT}},
		{"forty", ring(40, 45000, 32000, map[int]geom.Point{9: {X: 90, Y: 90}}), unit.Style{}},
	} {
		x.a.Grain, x.a.Fine = Grains(x.style)
		c, err := compare.Compare(x.a)
		if err != nil {
			t.Fatalf("%s: %v", x.name, err)
		}
		do(x.name, Sheet{TitleBlock: sheet.TitleBlock{Job: "Tidal boathouse", Piece: "Slip floor", Date: "2026-11-25"}, Figures: tape.FiguresOf(x.style, tape.Instrument{}), Comparison: c, Outline: x.a.Outline})
	}
}

func TestFoundPages(t *testing.T) {
	ruler := lettering.Go()
	founds(t, func(name string, f Sheet) {
		few := []paging.Sheet{pagetest.A4}
		for _, paper := range gate.Of(few, append(few, pagetest.A3Wide, pagetest.A4Wide, pagetest.A3, pagetest.Letter)) {
			pages, err := f.Pages(paper, ruler)
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			name := fmt.Sprintf("%s on %s %.0f×%.0f", name, paper.Name, paper.Width, paper.Height)
			all, boxes := "", 0
			for i, p := range pages {
				inside := p.Bounds().Grow(-sheet.LeastMargin + 0.3)
				for _, op := range p.Ops {
					if b := op.Bounds(ruler); !inside.Has(b.Min) || !inside.Has(b.Max) {
						t.Errorf("%s: page %d: %+v lies in the margin", name, i+1, op)
					}
					switch o := op.(type) {
					case draw.Text:
						if strings.ContainsAny(o.Words, "σ√²") {
							t.Errorf("%s: page %d says %q", name, i+1, o.Words)
						}
						all += o.Words + "\n"
						if o.Height < draw.NoteHeight {
							t.Errorf("%s: %q is %.2f high", name, o.Words, o.Height)
						}
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
			pagetest.Overlaps(t, name, pages, ruler)
			if again := f.againTable(); len(again.Cells) > 0 && boxes != len(again.Cells) {
				t.Errorf("%s: %d boxes for %d readings", name, boxes, len(again.Cells))
			}
			flow := strings.Join(strings.Fields(pagetest.Running(pages)), "")
			for _, want := range append(f.Says().Advice(f.Comparison, f.Figures.Style), f.Says().Verdict(f.Comparison), f.Says().Held(f.Ranges), "measured by", "accepted by", "Before anything is moved") {
				if !strings.Contains(flow, strings.Join(strings.Fields(want), "")) {
					t.Errorf("%s: the sheet does not say %q", name, want)
				}
			}
			for _, s := range f.Comparison.Standings {
				if !strings.Contains(all, string(s.Name)+"\n") {
					t.Errorf("%s: no %s on the plan", name, s.Name)
				}
			}
			for _, m := range f.Comparison.Wrong() {
				if !strings.Contains(all, f.Says().OnPlan(m, true, f.Figures.Style)+"\n") {
					t.Errorf("%s: the move of %s is not on the plan", name, m.Name)
				}
			}
		}
	})
}

// The boat store's floor with peg D moved, a dozen readings: plan, move and readings
// stand together on the first page, where a larger plan would push them to the next.
func TestFoundStandsOnPageOne(t *testing.T) {
	at := []geom.Point{{X: 0, Y: 0}, {X: 5210, Y: 0}, {X: 5323, Y: 2482}, {X: 3653, Y: 2509}, {X: 3640, Y: 3894}, {X: 58, Y: 3942}}
	stands := slices.Clone(at)
	stands[3] = stands[3].Plus(geom.Point{X: 11, Y: -9})
	var a compare.Asked
	for i, p := range at {
		n := geom.Name("ABCDEF"[i : i+1])
		a.Pegs, a.Outline = append(a.Pegs, compare.Stake{Name: n, At: p}), append(a.Outline, n)
	}
	for _, e := range strings.Fields("AB BC CD DE EF FA AC AD AE BD BF DF") {
		d := stands[e[0]-'A'].Distance(stands[e[1]-'A'])
		m, err := triangle.ParseMeasurement(fmt.Sprintf("%s=%.0f", e, d.MM()), unit.MM)
		if err != nil {
			t.Fatal(err)
		}
		a.Found = append(a.Found, m)
	}
	a.Grain, a.Fine = Grains(unit.Style{})
	c, err := compare.Compare(a)
	if err != nil {
		t.Fatal(err)
	}
	if w := c.Wrong(); len(w) != 1 || w[0].Name != "D" {
		t.Fatalf("%+v", c.Explanations)
	}
	pages, err := Sheet{TitleBlock: sheet.TitleBlock{Piece: "Boat store floor"}, Comparison: c, Outline: a.Outline}.Pages(pagetest.A4, lettering.Go())
	if err != nil {
		t.Fatal(err)
	}
	first := pagetest.Running(pages[:1])
	for _, want := range []string{"What was found", "DF", "Measure again", words.English{}.Checks().OnPlan(c.Wrong()[0], true, unit.Style{})} {
		if !strings.Contains(first, want) {
			t.Errorf("%q is not on page 1 of %d", want, len(pages))
		}
	}
	long := unit.Length(0)
	for _, op := range pages[0].Ops {
		if b := op.Bounds(lettering.Go()); op.Layer() == draw.Outline {
			long = max(long, b.Width(), b.Height())
		}
	}
	if long < largePlan {
		t.Errorf("the plan is too small to be read: %.0f mm", long)
	}
}

// What is too rough to be judged is not called good, and is asked for again.
func TestFoundTooRough(t *testing.T) {
	a := ring(4, 4000, 1e9, nil)
	rough, err := unit.ParseLength(fmt.Sprintf("%.0f+-300", a.Found[0].Value.Length().MM()), unit.MM)
	if err != nil {
		t.Fatal(err)
	}
	a.Found[0].Value = rough // as it was, but for the tolerance
	a.Grain, a.Fine = Grains(unit.Style{})
	c, err := compare.Compare(a)
	if err != nil {
		t.Fatal(err)
	}
	f := Sheet{TitleBlock: sheet.TitleBlock{Piece: "Slip floor"}, Comparison: c, Outline: a.Outline}
	if got := f.again(); !slices.Equal(got, []int{0}) {
		t.Errorf("to be measured again: %v", got)
	}
	for i, r := range c.Readings {
		want := "good"
		if i == 0 {
			want = "too rough"
		}
		if got := f.Says().Reading(r); got != want {
			t.Errorf("%s: %s, want %s", r.Measurement.Text, got, want)
		}
	}
}

// A reading is judged by the figures that are printed: what is printed as found lies
// within what is printed as accepted if and only if it is called good.
func TestFoundIsJudgedByWhatIsPrinted(t *testing.T) {
	figure := func(text string) float64 {
		x, err := strconv.ParseFloat(strings.NewReplacer("\u2009", "").Replace(text), 64)
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	seen := 0
	founds(t, func(name string, f Sheet) {
		if f.Figures.Inches() {
			return
		}
		for _, row := range f.readingsTable().Cells {
			least, greatest, found := figure(row[2]), figure(row[3]), figure(row[4])
			if good := found >= least && found <= greatest; good != (row[6] == "good") {
				t.Errorf("%s: %q", name, row)
			}
			off := figure(strings.NewReplacer("\u2212", "-", "+", "").Replace(row[5]))
			if math.Abs(off-(found-figure(row[1]))) > 0.11 {
				t.Errorf("%s: %q", name, row)
			}
			seen++
		}
	})
	if seen < 100 {
		t.Errorf("only %d readings", seen)
	}
}

// The text for a phone and the table for other software say the same.
func TestFoundTextAndCSV(t *testing.T) {
	founds(t, func(name string, f Sheet) {
		var text, table bytes.Buffer
		if err := f.Text(&text); err != nil {
			t.Fatal(err)
		}
		for _, line := range strings.Split(text.String(), "\n") {
			if utf8.RuneCountInString(line) > phone.Width || strings.TrimRight(line, " ") != line {
				t.Errorf("%s: %q", name, line)
			}
		}
		if err := f.CSV(&table); err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(&table).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		outside := 0
		for _, row := range rows {
			if row[0] == "distance" && row[7] == "outside" {
				outside++
			}
		}
		if want := strings.Count(text.String(), ", outside ("); outside != want || rows[1][0] != "verdict" || (rows[1][7] == "passed") != (outside == 0) {
			t.Errorf("%s: %d and %d outside, %q", name, outside, want, rows[1])
		}
		for _, m := range f.Comparison.Wrong() {
			if !slices.ContainsFunc(rows, func(row []string) bool {
				return row[0] == "move" && row[1] == string(m.Name) && row[8] == f.Says().Move(m, f.Figures.Style)
			}) {
				t.Errorf("%s: no move of %s", name, m.Name)
			}
		}
	})
}

// PDFium reads the verdict and the arrow: from the cross on the side where the peg
// stands, its point at the circle of the peg's place.
func TestFoundPDFHasTheMove(t *testing.T) {
	founds(t, func(name string, f Sheet) {
		if name != "one wrong" {
			return
		}
		var files [2]bytes.Buffer
		for i := range files {
			pages, err := f.Pages(pagetest.A4, lettering.Go())
			if err != nil {
				t.Fatal(err)
			}
			if err := pdf.Write(&files[i], draw.Document{Title: "check", Language: "en", Date: f.Date, Pages: slices.Values(pages)}); err != nil {
				t.Fatal(err)
			}
		}
		if !bytes.Equal(files[0].Bytes(), files[1].Bytes()) {
			t.Error("two runs differ")
		}
		page := readback.Open(t, files[0].Bytes())[0]
		var words []string
		for _, w := range page.Words {
			words = append(words, w.Text)
		}
		if all := strings.Join(words, "\n"); !strings.Contains(all, "Not passed") || !strings.Contains(all, "move 36 mm") { // √(30² + 20²)
			t.Errorf("%s", all)
		}
		// C stands right of and below its place, so the arrow points left and up.
		way := math.Atan2(20, -30)
		arrows := 0
		for _, p := range page.Paths {
			at := p.Corners()
			if !p.Straight() || len(at) != 2 {
				continue
			}
			d := at[1].Minus(at[0])
			if math.Abs(math.Remainder(math.Atan2(float64(d.Y), float64(d.X))-way, 2*math.Pi)) < 0.02 && math.Abs(at[0].Distance(at[1]).MM()-(13-1.3-0.3-3.2)) < 0.01 {
				arrows++
			}
		}
		if arrows != 1 {
			t.Errorf("%d arrows", arrows)
		}
	})
}

// 250 pegs and 2,000 readings, the most that are taken, in seconds.
func TestFoundLarge(t *testing.T) {
	a := ring(adjust.MostPoints, 90000, 45000, map[int]geom.Point{100: {X: 150, Y: 60}})
	a.Grain, a.Fine = Grains(unit.Style{})
	begun := time.Now()
	c, err := compare.Compare(a)
	if err != nil {
		t.Fatal(err)
	}
	compared := time.Since(begun)
	f := Sheet{TitleBlock: sheet.TitleBlock{Piece: "Large"}, Comparison: c, Outline: a.Outline}
	pages, err := f.Pages(pagetest.A3, lettering.Go())
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%d readings: compared in %v, drawn in %v, %d pages", len(a.Found), compared, time.Since(begun)-compared, len(pages))
	if len(a.Found) != adjust.MostMeasurements || len(pages) < 5 {
		t.Errorf("%d readings on %d pages", len(a.Found), len(pages))
	}
	// So many names have no room on the plan: those stand there that something is told of,
	// and the sheet says so.
	const width, height = 180, 170
	fig := f.planFigure(width, height, lettering.Go())
	names, said := map[geom.Name]bool{}, false
	for _, op := range fig.marks {
		if b := op.Bounds(lettering.Go()); b.Min.X < -0.3 || b.Max.X > width+0.3 {
			t.Fatalf("%v runs out of %d mm", op, width)
		}
		if o, ok := op.(draw.Text); ok {
			said = said || strings.HasPrefix(o.Words, "Pegs without a name here: nothing that was read to them is outside")
			names[geom.Name(o.Words)] = true
		}
	}
	for i, p := range a.Pegs {
		told := slices.ContainsFunc(c.Readings, func(r compare.Compared) bool { return !r.Inside && slices.Contains(r.Measurement.At[:], p.Name) })
		if told != names[p.Name] {
			t.Errorf("peg %d, %s: named %v, told of %v", i, p.Name, names[p.Name], told)
		}
	}
	if !fig.fits || !said || fig.high > height {
		t.Errorf("fits %v, said %v, %.1f high", fig.fits, said, fig.high)
	}
}

// Nothing that is told of may be left out: where it has no room either, there is no sheet.
func TestFoundHasNoRoom(t *testing.T) {
	a := ring(80, 45000, 9000, nil)
	a.Grain, a.Fine = Grains(unit.Style{})
	c, err := compare.Compare(a)
	if err != nil {
		t.Fatal(err)
	}
	for i := range c.Readings {
		c.Readings[i].Inside = false
	}
	f := Sheet{TitleBlock: sheet.TitleBlock{Piece: "Narrow"}, Comparison: c, Outline: a.Outline}
	if _, err := f.Pages(paging.Sheet{Name: "narrow", Width: 141, Height: 139}, lettering.Go()); err == nil || !strings.Contains(err.Error(), "a plan of 80 pegs has no room") {
		t.Errorf("narrow: %v", err)
	}
}

// How the ranges come is the office's: its copy says it, that for the site does not.
func TestFoundForTheOffice(t *testing.T) {
	founds(t, func(name string, f Sheet) {
		if name != "one wrong" {
			return
		}
		for _, f.Office = range []bool{false, true} {
			pages, err := f.Pages(pagetest.A4, lettering.Go())
			if err != nil {
				t.Fatal(err)
			}
			for what, want := range map[string]bool{"±√(t² + s²)": f.Office, "Good is what a careful hand": !f.Office} {
				if got := strings.Contains(pagetest.Running(pages), what); got != want {
					t.Errorf("office %v: says %q: %v", f.Office, what, got)
				}
			}
		}
	})
}

func TestFoundRefuses(t *testing.T) {
	founds(t, func(name string, f Sheet) {
		if name != "sound" {
			return
		}
		if _, err := f.Pages(paging.Sheet{Name: "A7", Width: 74, Height: 105}, lettering.Go()); err == nil || !strings.Contains(err.Error(), "too small for a check sheet") {
			t.Errorf("A7: %v", err)
		}
		f.Piece = "Giebel 破"
		if _, err := f.Pages(pagetest.A4, lettering.Go()); err == nil || !strings.Contains(err.Error(), "U+7834") {
			t.Errorf("letters: %v", err)
		}
	})
}
