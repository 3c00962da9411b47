package setout

import (
	"bytes"
	"encoding/csv"
	"flag"
	"math"
	"math/rand/v2"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"trammel/geom/pegging"
	"trammel/geom/unit"
	"trammel/plot/phone"
)

var update = flag.Bool("update", false, "write the golden text anew; read it before keeping it")

func textOf(t testing.TB, s Sheet) string {
	t.Helper()
	var b strings.Builder
	if err := s.Text(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// The boathouse gable, 7.2 m across at a pitch of 35°. The text was read line by
// line; its figures follow from 3600/cos 35° = 4394.79 and 3600·tan 35° = 2520.75.
func TestTextOfTheGable(t *testing.T) {
	got := textOf(t, prepared(t, gable, func(in *Input) { in.Date = "2026-03-14" }))
	const name = "testdata/gable.txt"
	if *update {
		if err := os.WriteFile(name, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("the text differs from %s:\n%s", name, got)
	}
}

var pullLine = regexp.MustCompile(`(?m)^ ?\d+  (\w) (\w) +([0-9.\x{2009}]+) +(peg, string|hold|mark|square|peg)$`)

// Whoever follows the text comes to the right place: the figures are read out of
// the text, the arcs crossed by a formula of the test's own, and the apex compared
// with where the exact triangle has it. What the rounding of the printed figures
// costs is what the text says it costs.
func TestFollowingTheText(t *testing.T) {
	follow := func(s Sheet) float64 {
		pulls := map[string]float64{}
		for _, m := range pullLine.FindAllStringSubmatch(textOf(t, s), -1) {
			v, err := strconv.ParseFloat(strings.ReplaceAll(m[3], "\u2009", ""), 64)
			if err != nil {
				t.Fatal(err)
			}
			pulls[m[1]+m[2]] = v
		}
		from, to, apex := string(s.Baseline.From), string(s.Baseline.To), string(s.Main[0].Peg)
		b, ra, rb := pulls[from+to], pulls[from+apex], pulls[to+apex]
		if b == 0 || ra == 0 || rb == 0 {
			t.Fatalf("pulls are missing in the text: %v", pulls)
		}
		// Half-angle formula, not the one that the package crosses arcs by.
		p := (b + ra + rb) / 2
		half := math.Atan2(math.Sqrt((p-b)*(p-ra)), math.Sqrt(p*(p-rb)))
		x, y := ra*math.Cos(2*half), ra*math.Sin(2*half)
		c, _ := s.Peg(s.Main[0].Peg)
		return math.Hypot(x-c.Along.MM(), y-c.Offset.MM())
	}
	gable := prepared(t, gable, nil)
	off := follow(gable)
	exact := [2]float64{3600, 3600 * math.Tan(35*math.Pi/180)}
	c, _ := gable.Peg("C")
	if math.Hypot(c.Along.MM()-exact[0], c.Offset.MM()-exact[1]) > 1e-9 {
		t.Errorf("the apex is at %v, %v", c.Along, c.Offset)
	}
	if off > 0.5 {
		t.Errorf("the gable's apex comes out %.3f mm off", off)
	}
	r := rand.New(rand.NewPCG(5, 6))
	n := 0
	for range 800 {
		s, ok := random(t, r, unit.Style{})
		if !ok {
			continue
		}
		way := s.Main[0]
		if way.Method != pegging.TwoArcs {
			continue
		}
		if math.Sin(float64(way.Crossing.Angle)) < 0.05 {
			continue // arcs that may not meet when rounded
		}
		n++
		off := follow(s)
		if math.Abs(off-way.Rounding.MM()) > 1e-4 {
			t.Fatalf("the apex comes out %.5f mm off, the sheet says %.5f: %+v", off, way.Rounding.MM(), s.Pegs)
		}
		// Three figures, each within 0.5: at most 0.5·2/sin γ and the baseline's own.
		if math.Sin(float64(way.Crossing.Angle)) < 0.2 {
			continue // where the first order does not suffice
		}
		if most := 0.5 * 3 / math.Sin(float64(way.Crossing.Angle)); off > most+1e-6 {
			t.Fatalf("the apex comes out %.5f mm off, more than rounding explains (%.5f)", off, most)
		}
	}
	if n < 150 {
		t.Errorf("only %d triangles were followed", n)
	}
}

func TestTextIsNarrow(t *testing.T) {
	check := func(s Sheet) {
		text := textOf(t, s)
		for _, line := range strings.Split(text, "\n") {
			if utf8.RuneCountInString(line) > phone.Width || strings.TrimRight(line, " ") != line || strings.ContainsAny(line, "\r\t") {
				t.Fatalf("%q is %d wide", line, utf8.RuneCountInString(line))
			}
		}
		for _, p := range s.sitePegs() {
			if !regexp.MustCompile(`(?m)^` + string(p.Name) + ` `).MatchString(text) {
				t.Fatalf("peg %s is missing", p.Name)
			}
		}
		if strings.Count(text, "found ____") != len(s.siteChecks()) {
			t.Fatalf("%d checks: %s", len(s.siteChecks()), text)
		}
	}
	r := rand.New(rand.NewPCG(7, 8))
	for _, style := range []unit.Style{{}, {Unit: unit.CM}, {Unit: unit.M}, {Unit: unit.IN, Denominator: 64}, {Unit: unit.FT, Denominator: 64}} {
		for range 60 {
			if s, ok := random(t, r, style); ok {
				s.Job, s.Piece = strings.Repeat("Donaudampfschifffahrt", 4), "über\tdie\nBrücke"
				check(s)
			}
		}
	}
}

func TestCSV(t *testing.T) {
	s := prepared(t, gable, func(in *Input) { in.Job = `Refit, "north" slip`; in.Piece = "two\nlines" })
	var b bytes.Buffer
	if err := s.CSV(&b); err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(strings.ReplaceAll(b.String(), "\r\n", ""), "\n"); n > 1 {
		t.Errorf("%d lines do not end in CRLF", n)
	}
	rows, err := csv.NewReader(bytes.NewReader(b.Bytes())).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if got := strings.Join(rows[0], ","); got != "kind,from,to,value_mm,accept_from_mm,accept_to_mm,along_mm,offset_mm,note,side,angle_deg,reads_mm,sigma_along_mm,sigma_across_mm" {
		t.Errorf("columns %s", got)
	}
	find := func(kind, from, to string) []string {
		for _, r := range rows {
			if r[0] == kind && r[1] == from && r[2] == to {
				return r
			}
		}
		t.Errorf("no row %s %s %s", kind, from, to)
		return make([]string, 14)
	}
	for _, c := range []struct {
		kind, from, to string
		column         int
		want           string
	}{
		{"sheet", "", "", 8, "Refit, \"north\" slip: two\nlines"},
		{"baseline", "A", "B", 3, "7200.000"},
		{"arc", "A", "C", 3, "4394.789"}, // 3600/cos 35°
		{"height", "F", "C", 3, "2520.747"},
		{"peg", "A", "C", 6, "3600.000"}, {"peg", "A", "C", 7, "2520.747"},
		{"check:height", "C", "F", 4, "2516.000"}, {"check:height", "C", "F", 5, "2525.000"},
		{"baseline", "A", "B", 4, "7197.100"}, // 0.3 + 0.2·8 + 1
		{"baseline", "A", "B", 8, "measured"},
	} {
		if got := find(c.kind, c.from, c.to)[c.column]; got != c.want {
			t.Errorf("%s %s %s: %q, want %q", c.kind, c.from, c.to, got, c.want)
		}
	}
	// Heads, sheet, crossing, and every peg, pull and check once, ways, and three of how sure each point is.
	if want := 3 + len(s.Pegs) + len(s.Pulls) + len(s.Checks) + len(s.Ranking.Best) + 3*len(s.Sure); len(rows) != want {
		t.Errorf("%d rows, want %d", len(rows), want)
	}
	for i, p := range s.Pulls {
		if p.Number != i+1 {
			t.Errorf("pull %d has number %d", i+1, p.Number)
		}
	}
}

type fullDisk struct{}

func (fullDisk) Write([]byte) (int, error) { return 0, os.ErrPermission }

func TestWriteErrorsComeBack(t *testing.T) {
	s := prepared(t, gable, nil)
	if s.CSV(fullDisk{}) == nil || s.Text(fullDisk{}) == nil {
		t.Error("an error of the writer is lost")
	}
}
