//go:build !race

package main

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"slices"
	"sort"
	"strings"
	"sync"
	"testing"

	"trammel/cmd/internal/report"
	"trammel/geom"
	"trammel/geom/gate"
	"trammel/geom/unit"
	"trammel/plot/readback"
)

// example is a job of the folder examples with what is known of it from outside:
// computed with mpmath at 30 digits from the measurements by the rules of sine
// and cosine, or for nets with SciPy 1.10's least_squares (testdata/nets.py).
type example struct {
	name   string
	pieces int
	sides  []map[string]float64
	apex   float64 // height of the first piece over AB
	setout int     // status of trammel setout
	made   int     // status of trammel template
	near   float64 // of the sides, in mm; 0: 1e-8
	large  bool    // hundreds of pages, each of which would be a file
}

var examples = []example{
	{"gusset-plate", 1, []map[string]float64{{"AB": 600, "BC": 450, "CA": 450}}, 335.410196624968, statusWords, statusDone, 0, false},
	{"corner-cut", 1, []map[string]float64{{"AB": 419.1, "BC": 332.720380289467, "CA": 298.45}}, 298.45 * 0.788010753606722, statusWords, statusDone, 0, false},
	{"class-sheet", 5, []map[string]float64{
		{"AB": 90, "BC": 80, "CA": 60},
		{"DE": 85, "EF": 66.9016251277, "FD": 70},
		{"GH": 95, "HI": 63.218956630, "IG": 89.136492084},
		{"KL": 80, "LM": 60, "MK": 104.190467420},
		{"KL": 80, "LM": 60, "MK": 26.873859666},
	}, 0, statusWords, statusDone, 0, false},
	{"boathouse-heel-plates", 2, []map[string]float64{{"AB": 320, "BC": 260, "CA": 210}, {"AB": 320, "BC": 260, "CA": 210}}, 170.005098154254, statusWords, statusDone, 0, false},
	{"boathouse-gable", 1, []map[string]float64{{"AB": 7200, "BC": 4394.788519541, "CA": 4394.788519541}}, 2520.747137555, statusDone, statusDone, 0, true},
	{"boathouse-floor", 1, []map[string]float64{{"AB": 5210.098153, "BC": 2484.060103, "CD": 1670.100252, "DE": 1385.186536, "EF": 3582.257992, "FA": 3942.111251}}, 0, statusDone, statusDone, 2e-6, true},
	{"boathouse-floor-slip", 1, []map[string]float64{{"AB": 5204.611755, "BC": 2489.675877, "CD": 1678.715575, "DE": 1381.071063, "EF": 3576.529506, "FA": 3934.078829}}, 0, statusNoTriangle, statusNoTriangle, 2e-6, true},
	{"boathouse-floor-found", 1, []map[string]float64{{"AB": 5210.098153, "BC": 2484.060103, "CD": 1670.100252, "DE": 1385.186536, "EF": 3582.257992, "FA": 3942.111251}}, 0, statusDone, statusDone, 2e-6, true},
	// As taped: what was to spare moves no length by a millimetre.
	{"boathouse-washroom", 1, []map[string]float64{{"AB": 7800, "BC": 5201, "CD": 2600, "DE": 3310, "EF": 2650, "FG": 2805, "GH": 2550, "HA": 4690}}, 0, statusDone, statusDone, 1, true},
	{"galley-floor", 1, []map[string]float64{{"AB": 3660, "BC": 2475, "CD": 1338, "DE": 968, "EF": 2342, "FA": 3405}}, 0, statusDone, statusDone, 1, true},
	{"rigging-store-floor", 1, []map[string]float64{{"AB": 3810, "BC": 2660.65, "CD": 2933.7, "DA": 2470.15}}, 0, statusDone, statusDone, 4, true},
	{"hatch-board", 1, []map[string]float64{{"AB": 639.693005, "BC": 240.826884, "CD": 235.606459, "DE": 175.120942, "EF": 422.125398, "FA": 417.963514}}, 0, statusWords, statusDone, 2e-6, false},
}

// report runs a command with --json and reads its report.
func reportOf(t *testing.T, dir string, args ...string) report.Report {
	t.Helper()
	status, out, errs := trammel(t, dir, "", append(args, "--json")...)
	if status != 0 {
		t.Fatalf("%q: status %d, %s", args, status, errs)
	}
	var r report.Report
	if err := json.Unmarshal([]byte(out), &r); err != nil {
		t.Fatalf("%q: %v", args, err)
	}
	return r
}

// onPages is on which pages an example is laid that has hundreds of them.
func (e example) onPages() []string {
	if e.large {
		return []string{"--pages", largePages}
	}
	return nil
}

// onLargePaper is the same for a test that asks nothing of the pages: on paper that takes
// few of them, but in the gate.
func (e example) onLargePaper() []string {
	if e.large {
		return gate.Of([]string{"--paper", "A3", "--pages", "outline"}, e.onPages())
	}
	return nil
}

// finished is a PDF that several tests read, and what was said: each is made once.
func finished(t *testing.T, args ...string) (said string, file []byte) {
	t.Helper()
	type made struct {
		once       sync.Once
		status     int
		said, errs string
		file       []byte
	}
	slot, _ := finishedOnce.LoadOrStore(strings.Join(args, "\x00"), new(made))
	m := slot.(*made)
	m.once.Do(func() {
		dir := t.TempDir()
		m.status, m.said, m.errs = trammel(t, dir, "", append(args, "-o", "out.pdf")...)
		m.file, _ = os.ReadFile(filepath.Join(dir, "out.pdf"))
	})
	if m.file == nil {
		t.Fatalf("%q: status %d, %s", args, m.status, m.errs)
	}
	return m.said, m.file
}

var finishedOnce sync.Map

// Every example goes through every command that suits it.
func TestExamples(t *testing.T) {
	t.Parallel()
	files, err := filepath.Glob("../../examples/*.yaml")
	files = slices.DeleteFunc(files, func(name string) bool { return filepath.Base(name) == "class-set.yaml" }) // tasks, and no pieces
	if err != nil || len(files) != len(examples) {
		t.Errorf("%d files in examples, %d in this test", len(files), len(examples))
	}
	for _, e := range examples {
		t.Run(e.name, func(t *testing.T) {
			t.Parallel()
			e.run(t)
		})
	}
}

func (e example) run(t *testing.T) {
	dir := t.TempDir()
	job, err := filepath.Abs("../../examples/" + e.name + ".yaml")
	if err != nil {
		t.Fatal(err)
	}
	solved := reportOf(t, dir, "solve", job)
	if len(solved.Pieces) != e.pieces || len(solved.Pages) != 0 {
		t.Fatalf("%d pieces, %d pages", len(solved.Pieces), len(solved.Pages))
	}
	for i, sides := range e.sides {
		for name, want := range sides {
			// As many digits as the table has.
			if got := solved.Pieces[i].Sides[name]; math.Abs(got-want) > max(e.near, 1e-8) {
				t.Errorf("piece %d: %s is %v, want %v", i, name, got, want)
			}
		}
	}
	if h := solved.Pieces[0].Heights["C"]; e.apex != 0 && math.Abs(h-e.apex) > 1e-6 {
		t.Errorf("height %v, want %v", h, e.apex)
	}

	if e.made != statusDone {
		for _, command := range []string{"template", "setout"} {
			if status, _, errs := trammel(t, dir, "", command, job, "-o", "out.pdf"); status != e.made {
				t.Errorf("%s: status %d, want %d: %s", command, status, e.made, errs)
			}
		}
		return
	}
	out, file := finished(t, append([]string{"template", job, "--json"}, e.onPages()...)...)
	var made report.Report
	if err := json.Unmarshal([]byte(out), &made); err != nil {
		t.Fatal(err)
	}
	pages := readback.Open(t, file)
	if len(pages) != len(made.Pages) {
		t.Fatalf("%d pages, the report has %d", len(pages), len(made.Pages))
	}
	if made.Pieces[0].Shape == nil { // the outlines of others have a test of their own
		e.matches(t, made, pages)
	}

	for _, out := range []string{"plates", "whole.png", "page.png", "setout.pdf", "setout.txt", "setout.csv", "setout.svg"} {
		args, want := []string{"template", job, "-o", out}, statusDone
		switch filepath.Ext(out) {
		case ".png":
			args[0] = "preview"
			if out == "page.png" {
				page := "1"
				if len(made.Pieces) == 2 && !e.large { // each has a sheet 1
					page = "1-heel-plate-sheet-1"
				}
				args = append(args, "--page", page)
			}
		case "":
			if e.large {
				continue // hundreds of files that nobody would cut from
			}
		default:
			args[0], want = "setout", e.setout
		}
		status, _, errs := trammel(t, dir, "", args...)
		if status != want {
			t.Errorf("%q: status %d, want %d: %s", args, status, want, errs)
		}
		if _, err := os.Stat(filepath.Join(dir, out)); (err == nil) != (want == statusDone) && out != "setout.svg" {
			t.Errorf("%q: %v", args, err)
		}
	}
}

// No two feet that a sheet marks stand nearer to each other than 300 mm, by whatever way it
// sets out (common practice, no source).
func TestFeetOfExamplesStandApart(t *testing.T) {
	t.Parallel()
	dir, feet := t.TempDir(), 0
	for _, e := range examples {
		if e.setout != statusDone {
			continue
		}
		job, err := filepath.Abs("../../examples/" + e.name + ".yaml")
		if err != nil {
			t.Fatal(err)
		}
		for _, way := range [][]string{nil, {"--with", "square"}} {
			r := reportOf(t, dir, append([]string{"setout", job, "-o", "out.txt"}, way...)...)
			for _, p := range r.Pieces {
				var at [][2]float64
				for _, q := range p.Setout.Pegs {
					if q.Role == "foot" {
						at = append(at, q.At)
					}
				}
				for i, a := range at {
					for _, b := range at[:i] {
						if d := math.Hypot(a[0]-b[0], a[1]-b[1]); d < 300 {
							t.Errorf("%s %q: two feet stand %.0f mm apart", e.name, way, d)
						}
					}
				}
				feet += len(at)
			}
		}
	}
	if feet < 5 {
		t.Errorf("%d feet in all examples", feet)
	}
}

// matches compares the strokes of the outline, as PDFium reads them, with the
// report: each lies on an edge of a piece placed there, and on the pages of each
// copy together the edges are drawn from end to end.
func (e example) matches(t *testing.T, r report.Report, pages []readback.Page) {
	type edge struct {
		piece, copy int
		name        string
	}
	drawn := map[edge][][2]float64{}
	for i, p := range r.Pages {
		if p.Number != i+1 || math.Abs(p.Width-pages[i].Width.MM()) > 0.001 || math.Abs(p.Height-pages[i].Height.MM()) > 0.001 {
			t.Errorf("page %d of the report is %+v, the file has %v x %v", i+1, p, pages[i].Width, pages[i].Height)
		}
		if p.Kind != "template" {
			continue
		}
		if len(p.Places) == 0 {
			t.Errorf("page %d carries nothing", i+1)
		}
		for _, path := range pages[i].Paths {
			if path.Layer != "outline" {
				continue
			}
			c := path.Corners()
			if path.Closed {
				c = append(c, c[0])
			}
			for k := 1; k < len(c); k++ {
				stroke := geom.Line{From: c[k-1], To: c[k]}
				found := false
				for _, place := range p.Places {
					for name, l := range edges(r.Pieces[place.Piece], place.Matrix) {
						if stroke.Length() > 0 && offLine(stroke.From, l) < near && offLine(stroke.To, l) < near {
							found = true
							key := edge{place.Piece, place.Copy, name}
							drawn[key] = append(drawn[key], along(stroke, l))
						}
					}
				}
				if !found && stroke.Length() > near {
					t.Errorf("page %d: a stroke of the outline from %v to %v is no edge", i+1, stroke.From, stroke.To)
				}
			}
		}
	}
	for i, piece := range r.Pieces {
		for name, length := range piece.Sides { // printed once, whatever the quantity
			covered(t, name, length, drawn[edge{i, 1, name}])
		}
	}
}

// edges are a piece's sides on a page.
func edges(p report.PieceReport, m [6]float64) map[string]geom.Line {
	at := func(n string) geom.Point {
		x, y := p.Points[n][0], p.Points[n][1]
		return geom.Point{X: unit.Length(m[0]*x + m[2]*y + m[4]), Y: unit.Length(m[1]*x + m[3]*y + m[5])}
	}
	all := map[string]geom.Line{}
	for name := range p.Sides {
		all[name] = geom.Line{From: at(name[:1]), To: at(name[1:])}
	}
	return all
}

func offLine(p geom.Point, l geom.Line) float64 {
	d := l.To.Minus(l.From)
	v := p.Minus(l.From)
	return math.Abs(float64(d.X)*float64(v.Y)-float64(d.Y)*float64(v.X)) / l.Length().MM()
}

// along is where on l the stroke begins and ends.
func along(stroke, l geom.Line) [2]float64 {
	d := l.To.Minus(l.From)
	t := func(p geom.Point) float64 {
		v := p.Minus(l.From)
		return (float64(d.X)*float64(v.X) + float64(d.Y)*float64(v.Y)) / l.Length().MM()
	}
	a, b := t(stroke.From), t(stroke.To)
	return [2]float64{math.Min(a, b), math.Max(a, b)}
}

func covered(t *testing.T, name string, length float64, parts [][2]float64) {
	t.Helper()
	sort.Slice(parts, func(i, j int) bool { return parts[i][0] < parts[j][0] })
	at := 0.0
	for _, p := range parts {
		if p[0] > at+near {
			break
		}
		at = math.Max(at, p[1])
	}
	if math.Abs(at-length) > near {
		t.Errorf("%s is drawn to %v, and is %v long", name, at, length)
	}
}
