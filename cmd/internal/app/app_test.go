package app

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"math"
	"slices"
	"strings"
	"testing"

	"trammel/cmd/internal/report"
	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/triangle"
	"trammel/geom/unit"
	"trammel/plot/paging"
	"trammel/plot/template"
	"trammel/profiles"
	"trammel/profiles/job"
)

// Options is what flags say, in the words of these tests.
type Options struct {
	Unit, Fraction, Angles, Trade, Paper, Printer, Margin, Overlap, Cover, Without, Turn, Copies job.Setting

	Landscape, Apart, BothHands bool
	Pick                        job.Pick
	Base                        [2]geom.Name
	With                        construct.Method
	Levels                      []job.Level
	Site                        map[string]job.Setting
	Tell                        Progress
	Calibration                 func(printer string) (*profiles.Calibration, error)
}

func (o Options) over() job.Overrides {
	yes := func(is bool) job.Setting { return job.Setting{Text: map[bool]string{true: "yes"}[is]} }
	m := job.Overrides{Unit: o.Unit, Fraction: o.Fraction, Angles: o.Angles, Margin: o.Margin, Overlap: o.Overlap, Pages: o.Cover, Without: o.Without, Turn: o.Turn, Site: o.Site,
		Landscape: yes(o.Landscape), Apart: yes(o.Apart), Copies: o.Copies, BothHands: yes(o.BothHands), Piece: job.Piece{Pick: o.Pick, Base: o.Base, With: o.With, Levels: o.Levels}}
	m.Trade.Name, m.Paper.Name, m.Printer.Name = o.Trade, o.Paper, o.Printer
	return m
}

func open(t testing.TB, text string, o Options) (Work, error) {
	t.Helper()
	j, err := job.Read("job.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	set, err := profiles.Load()
	if err != nil {
		t.Fatal(err)
	}
	m, err := job.Merge(j, o.over(), set, o.Calibration, nil)
	if err != nil {
		return Work{}, err
	}
	return Open(m, o.Tell)
}

func mustOpen(t *testing.T, text string, o Options) Work {
	t.Helper()
	w, err := open(t, text, o)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// The report's form is a contract, so it is compared as other software sees it:
// by its keys. The triangle is one with two sides and the angle between; its
// figures were computed with mpmath at 30 digits by the rule of cosines.
func TestReport(t *testing.T) {
	w := mustOpen(t, "job: Sill\npieces: [{name: Cut, measure: [AB=640, A=52deg, CA=455], base: AB}]\n", Options{})
	tpl, err := w.template()
	if err != nil {
		t.Fatal(err)
	}
	if err := tpl.document().pdf(io.Discard); err != nil {
		t.Fatal(err)
	}
	data, err := json.Marshal(tpl.report())
	if err != nil {
		t.Fatal(err)
	}
	var r struct {
		Version int
		Job     string
		Pieces  []struct {
			Name, Case    string
			Pick, Answers int
			Points        map[string][2]float64
			Sides, Angles map[string]float64
			Heights       map[string]float64
			Area          float64 `json:"area_mm2"`
			Perimeter     float64
		}
		Pages []struct {
			Number        int
			Label, Kind   string
			Width, Height float64
			Places        []struct {
				Piece, Copy int
				Matrix      [6]float64
			}
		}
	}
	if err := json.Unmarshal(data, &r); err != nil {
		t.Fatal(err)
	}
	if r.Version != 1 || r.Job != "Sill" || len(r.Pieces) != 1 {
		t.Fatalf("%+v", r)
	}
	p := r.Pieces[0]
	if p.Name != "Cut" || p.Case != "SAS" || p.Pick != 1 || p.Answers != 1 {
		t.Errorf("%+v", p)
	}
	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-9*math.Abs(want) {
			t.Errorf("%s is %v, want %v", what, got, want)
		}
	}
	near("BC", p.Sides["BC"], 507.9997606006686)
	near("C.x", p.Points["C"][0], 280.1259712731745)
	near("C.y", p.Points["C"][1], 358.5448928910585)
	if p.Points["A"] != [2]float64{0, 0} || p.Points["B"] != [2]float64{640, 0} || p.Sides["AB"] != 640 {
		t.Errorf("points %v", p.Points)
	}
	near("angle A", p.Angles["A"], 52)
	near("sum of angles", p.Angles["A"]+p.Angles["B"]+p.Angles["C"], 180)
	near("height C", p.Heights["C"], 358.5448928910585)
	near("area", p.Area, 320*358.5448928910585)
	near("perimeter", p.Perimeter, 640+455+507.9997606006686)
	if len(p.Sides) != 3 || len(p.Angles) != 3 || len(p.Heights) != 3 || len(p.Points) != 3 {
		t.Errorf("%+v", p)
	}
	if len(r.Pages) != tpl.count || r.Pages[0].Kind != "index" || r.Pages[len(r.Pages)-1].Kind != "template" {
		t.Fatalf("%d pages", len(r.Pages))
	}
	for i, g := range r.Pages {
		if g.Number != i+1 || g.Width != 210 || g.Height != 297 {
			t.Errorf("page %+v", g)
		}
		if g.Kind != "template" {
			continue
		}
		m := g.Places[0].Matrix
		if g.Label == "" || g.Places[0].Copy != 1 || math.Abs(m[0]*m[3]-m[1]*m[2]-1) > 1e-12 {
			t.Errorf("page %+v is not true to scale", g)
		}
	}
}

// A job's own unit counts for its bare numbers; the flag then turns figures alone.
func TestUnits(t *testing.T) {
	const piece = "pieces: [{measure: [AB=24, BC=18, CA=18]}]\n"
	in := Options{Unit: job.Setting{Text: "in", Where: "--unit"}}
	for _, c := range []struct {
		text    string
		o       Options
		ab      unit.Length
		figures unit.Unit
	}{
		{piece, Options{}, 24, unit.MM},
		{"unit: cm\n" + piece, Options{}, 240, unit.CM},
		{piece, in, 609.6, unit.IN},
		{"unit: cm\n" + piece, in, 240, unit.IN},
		{"trade: tiler\n" + piece, Options{}, 24, unit.MM},
		{`pieces: [{measure: [AB=24in, BC=18in, CA=18in]}]`, Options{}, 609.6, unit.IN},
		{`pieces: [{measure: [AB=2ft, BC=18in, CA=18in]}]`, Options{}, 609.6, unit.FT},
		{`pieces: [{measure: [AB=2ft, BC=18in, CA=450mm]}]`, Options{}, 609.6, unit.MM},
		{`{unit: mm, pieces: [{measure: [AB=2ft, BC=18in, CA=18in]}]}`, Options{}, 609.6, unit.MM},
	} {
		w := mustOpen(t, c.text, c.o)
		if got := report.Of(w.Work).Pieces[0].Sides["AB"]; math.Abs(got-c.ab.MM()) > 1e-9 || w.Figures.Unit != c.figures {
			t.Errorf("%q with %+v: AB %v, figures in %v", c.text, c.o.Unit, got, w.Figures.Unit)
		}
	}
}

const twoFit = "pieces:\n  - name: Cut\n    measure: [A=35deg, AB=80, BC=60]\n"

func TestPick(t *testing.T) {
	for _, c := range []struct {
		text    string
		flag    job.Pick
		answers []int
		picked  bool
	}{
		{twoFit, job.Unpicked, []int{0, 1}, false},
		{twoFit, job.First, []int{0}, true},
		{twoFit, job.Second, []int{1}, true},
		{twoFit, job.Both, []int{0, 1}, true},
		{twoFit + "    pick: 2\n", job.Unpicked, []int{1}, true},
		{twoFit + "    pick: 2\n", job.First, []int{0}, true},
		{twoFit + "    pick: both\n", job.Unpicked, []int{0, 1}, true},
	} {
		w := mustOpen(t, c.text, Options{Pick: c.flag})
		var got []int
		for _, p := range w.Pieces {
			got = append(got, p.Answer)
		}
		var none *triangle.NoTriangle
		err := w.Picked()
		if !slices.Equal(got, c.answers) || (err == nil) != c.picked || !c.picked && !errors.As(err, &none) {
			t.Errorf("%q, flag %d: answers %v, %v", c.text, c.flag, got, err)
		}
		for _, r := range report.Of(w.Work).Pieces {
			if r.Name != "Cut" || r.Answers != 2 {
				t.Errorf("%q: %+v", c.text, r)
			}
		}
	}
}

// Flags count over the job, the job over the profiles, and margins know who said them.
func TestSettings(t *testing.T) {
	text := "paper: A3\nprinter: plotter\npieces: [{measure: [AB=60, BC=45, CA=45]}]\n"
	say := func(s string) job.Setting { return job.Setting{Text: s, Where: "--flag"} }
	w := mustOpen(t, text, Options{})
	if w.Sheet.Width != 297 || w.Sheet.Left != 15 || w.Sheet.Overlap != 20 || w.Cover != paging.Full || w.Printer.From["left"] != profiles.BuiltIn {
		t.Errorf("%+v", w.Sheet)
	}
	w = mustOpen(t, text, Options{Paper: say("A5"), Margin: say("7"), Overlap: say("0.5in"), Cover: say("outline"), Landscape: true})
	if s := w.Sheet; s.Width != 210 || s.Height != 148 || s.Left != 7 || s.Bottom != 7 || s.Overlap != 12.7 || w.Cover != paging.OutlineOnly || w.Printer.From["top"] != "--flag" {
		t.Errorf("%+v from %v", s, w.Printer.From)
	}
}

// What is too much is refused before any page is laid out.
func TestTooManyPages(t *testing.T) {
	for _, c := range []struct {
		measure string
		o       Options
	}{
		{"AB=900m, BC=900m, CA=900m", Options{}},
		{"AB=999m, BC=999m, CA=999m", Options{Cover: job.Setting{Text: "outline"}, Paper: job.Setting{Text: "50x50"}, Margin: job.Setting{Text: "15"}, Overlap: job.Setting{Text: "1"}}},
	} {
		w := mustOpen(t, "pieces: [{measure: ["+c.measure+"]}]", c.o)
		_, err := w.template()
		var f *unit.Fault
		if !errors.As(err, &f) || !strings.Contains(f.What, "the most is 20000") || !strings.HasPrefix(f.Where, "job.yaml:1:10") {
			t.Errorf("%s: %v", c.measure, err)
		}
	}
}

// A protractor of whole degrees has no mark for 52.4°: it is set off by its chord, so
// that nothing is left to warn of. The compasses of a class reach 120. (2·120·sin 26.2° = 106.0.)
func TestBetweenMarks(t *testing.T) {
	job := func(angle string) string {
		return "trade: teacher\npieces: [{measure: [AB=90, A=" + angle + ", CA=70]}]"
	}
	for angle, want := range map[string]string{"52.4deg": "Produce AB beyond B. With compasses, centre A, radius 120 mm, draw an arc that crosses this line. With the crossing as centre, radius 106 mm, cut", "52deg": "On the scale whose 0 lies on AB mark 52°.", "6in12": "For 6 in 12 at A measure 60 mm from A along AB. With the set square go 30 mm up from there."} {
		w := mustOpen(t, job(angle), Options{})
		steps := strings.Join(template.Steps(w.templatePiece(w.Pieces[0]), w.style()), "\n")
		if !strings.Contains(steps, want) || len(w.Warnings()) != 0 {
			t.Errorf("%s: %q and %q", angle, steps, w.Warnings())
		}
	}
}

// The same work gives the same bytes, also when one value writes twice.
func TestSameBytes(t *testing.T) {
	w := mustOpen(t, "pieces: [{measure: [AB=600, BC=450, CA=450], quantity: 2}]", Options{})
	tpl, err := w.template()
	if err != nil {
		t.Fatal(err)
	}
	var a, b bytes.Buffer
	if err := tpl.document().pdf(&a); err != nil {
		t.Fatal(err)
	}
	if err := tpl.document().pdf(&b); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(a.Bytes(), b.Bytes()) || a.Len() == 0 {
		t.Errorf("%d and %d bytes", a.Len(), b.Len())
	}
	if len(tpl.report().Pages) != tpl.count {
		t.Errorf("%d pages in the report, %d were written", len(tpl.report().Pages), tpl.count)
	}
}

func TestFileNames(t *testing.T) {
	for name, want := range map[string]string{"Brace plate": "brace-plate", "../../etc": "etc", "Ünter": "nter", "中": "piece", "Nul": "nul-piece", "COM1": "com1-piece", "Nul plate": "nul-plate", "a/b\\c": "a-b-c", "": "piece"} {
		if got := fileName(name); got != want {
			t.Errorf("%q becomes %q, want %q", name, got, want)
		}
	}
}
