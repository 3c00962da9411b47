//go:build !race

package main

import (
	"bytes"
	"encoding/json"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"trammel/geom/unit"
	"trammel/plot/pdf"
	"trammel/profiles"
)

// hostile are profiles that somebody else may have, each of which would change a job
// that left anything to them.
var hostile = map[string]string{
	"counts inches":   "trades: {general: {unit: in}, joiner: {unit: in}, tiler: {unit: ft}, teacher: {unit: cm}}",
	"another trade":   "defaults: {trade: thatcher}\ntrades: {thatcher: {unit: cm, lettering: 7 mm, show: [arcs], compass: 100 mm, tape: I}}",
	"another paper":   "defaults: {paper: Letter}",
	"other papers":    "defaults: {paper: leaf}\npapers: {leaf: {width: 120 mm, height: 130 mm}, A4: {width: 180 mm, height: 250 mm}, A3: {width: 250 mm, height: 360 mm}}",
	"another printer": "defaults: {printer: shed}\nprinters: {shed: {left: 30 mm, overlap: 25 mm}, office: {left: 22 mm, top: 21 mm, right: 20 mm, bottom: 23 mm, overlap: 24 mm}}",
	"nothing of it":   "defaults: {paper: nowhere, printer: nobody, trade: none}",
	"other tools": "trades:\n" + each("general joiner tiler teacher",
		"{tape: III, hook: yes, instrument: theodolite, reading: 6 mm, protractor: 7deg, compass: 40 mm}"),
	"shows nothing":     "trades:\n" + each("general joiner tiler teacher", "{show: [], lettering: 15 mm}"),
	"writes otherwise":  "trades:\n" + each("general joiner tiler teacher", "{fraction: 1/64, angles: minutes, voice: ground}"),
	"has it calibrated": "defaults: {printer: office}",
	"all at once": "defaults: {paper: A5, printer: none, trade: general}\nprinters: {office: {left: 18 mm}}\ntrades:\n" +
		each("general joiner tiler teacher Thatcher", "{unit: ft, fraction: 1/8, angles: minutes, lettering: 9 mm, show: [steps], protractor: 3deg, tape: I, hook: yes, reading: 9 mm, instrument: none, compass: 60 mm}"),
}

func each(names, profile string) string {
	var b strings.Builder
	for _, n := range strings.Fields(names) {
		b.WriteString("  " + n + ": " + profile + "\n")
	}
	return b.String()
}

// own are profiles that nobody else has.
const own = `papers: {Quay-board: {width: 11 in, height: 16.5 in}}
printers: {Boat-shed: {left: 4.3 mm, top: 0.25 in, overlap: 13 mm}}
trades:
  Sail-maker: {unit: in, fraction: 1/32, lettering: 4.2 mm, show: [lengths, angles], compass: 410 mm, protractor: 0.1deg, tape: I, reading: 0.7 mm, instrument: protractor}
`

// replayed are jobs beside the examples: what names or measures them, and how they
// are printed.
var replayed = []struct {
	name         string
	job, printed []string
}{
	{"in millimetres", []string{"AB=600", "BC=450", "CA=450"}, nil},
	{"in inches", []string{"AB=24", "BC=18", "CA=18", "--unit", "in", "--fraction", "1/8"}, []string{"--paper", "Arch B"}},
	{"in feet", []string{`AB=2'-10 1/2"`, "BC=2ft", `CA=30"`}, nil},
	{"every flag", []string{"AB=80", "BC=60", "A=35deg", "--pick", "2", "--with", "arcs", "--base", "AC", "--name", `Pete's "cut": #1`, "--trade", "tiler", "--angles", "minutes", "--voice", "class"},
		[]string{"--paper", "A5", "--landscape", "--margin", "7.25 mm", "--overlap", "1/2in", "--pages", "outline", "--turn", "1:12", "--without", "notes,construction", "--apart"}},
	{"both answers, a roll", []string{"AB=800", "BC=600", "A=35deg", "--pick", "both"}, []string{"--paper", "36inxany", "--printer", "plotter"}},
	{"a net", []string{"AB=500", "BC=400", "CD=500", "DA=400", "AC=640", "BD=640", "--outline", "A,B,C,D", "--base", "BC"}, nil},
	{"profiles of one's own", []string{"AB=24", "BC=18", "CA=18", "--trade", "sail maker", "--config", "own.yaml"}, []string{"--paper", "Quay Board", "--printer", "boat-shed"}},
	{"a table", []string{"site.csv", "--name", "Quay wall"}, nil},
	{"a list", []string{"list.txt", "--unit", "cm"}, nil},
	{"JSON", []string{"gate.json", "--pick", "1"}, []string{"--paper", "A2"}},
	{"flow", []string{"flow.yaml", "--unit", "in"}, []string{"--turn", "0"}},
}

// replayFolder is a folder with the jobs and profiles of this test.
func replayFolder(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range map[string]string{
		"own.yaml": own, "site.csv": "from,to,value,tolerance,note\nA,B,600,3,the quay\n\nB,C,450,,\nC,A,450,,\n",
		"list.txt": "AB=60 # the quay\nBC=45\nCA=45\n", "gate.json": `{"job":"Gate","pieces":[{"name":"Brace","measure":["AB=800","BC=600","A=35deg"]},` + "\n" + `{"measure":["KL=2,4m","LM=2m","MK=2m"],"quantity":2}]}`,
		"flow.yaml": "{job: Gate, pieces: [{measure: [AB=12, BC=13, CA=45cm],\n  holes: [1 at AB 3 from A 4]}]} # }\n",
	} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// as runs the program with somebody's profiles.
func as(t *testing.T, config, dir string, args ...string) (status int, stdout, stderr string) {
	t.Helper()
	cmd := exec.Command("trammel", args...)
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "XDG_CONFIG_HOME="+config)
	var out, errs bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &errs
	if err := cmd.Run(); err != nil && cmd.ProcessState == nil {
		t.Fatal(err)
	}
	return cmd.ProcessState.ExitCode(), out.String(), errs.String()
}

// somebody is a folder of profiles.
func somebody(t *testing.T, text string, printers ...profiles.Calibration) string {
	t.Helper()
	config := t.TempDir()
	if err := os.MkdirAll(filepath.Join(config, "trammel", "printers"), 0o777); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(config, "trammel", "config.yaml"), []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	for _, c := range printers {
		if err := os.WriteFile(filepath.Join(config, "trammel", "printers", c.Printer+".yaml"), c.Text(), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	return config
}

// printer that makes everything longer by so much.
func printer(name string, long float64) profiles.Calibration {
	const side = 180 * unit.Millimetre
	l := side * unit.Length(1+long)
	return profiles.Calibration{Printer: name, Paper: "A4", Width: 210, Height: 297, Found: profiles.Misprint{Across: long, Along: long}, Uncertainty: 0.0003,
		Sheets: []profiles.SheetRecord{{Date: "2031-04-30", Width: side, Height: side, AB: l, AD: l, AC: l * 1.41421356, BD: l * 1.41421356}}}
}

// A PDF is its job, whoever opens it: the reports are those of the job that it was
// made from, to the byte, and so is the PDF that is made from it.
func TestReplay(t *testing.T) {
	t.Parallel()
	jobs := replayed
	for _, e := range examples {
		if e.made == statusDone && (!e.large || replayedLarge(e.name)) {
			jobs = append(jobs, struct {
				name         string
				job, printed []string
			}{e.name, []string{e.name + ".yaml"}, e.onLargePaper()})
		}
	}
	homes := map[string]string{}
	for name, text := range hostile {
		homes[name] = somebody(t, text, printer("office", 0.004))
	}
	if len(homes) < 10 {
		t.Errorf("%d hostile configurations", len(homes))
	}
	mine := somebody(t, "")
	names := slices.Sorted(maps.Keys(homes))
	for i, j := range jobs {
		t.Run(j.name, func(t *testing.T) {
			t.Parallel()
			dir := replayFolder(t)
			if data, err := os.ReadFile(filepath.Join("../../examples", j.job[0])); err == nil {
				if err := os.WriteFile(filepath.Join(dir, j.job[0]), data, 0o666); err != nil {
					t.Fatal(err)
				}
			}
			run := func(config string, args ...string) string {
				status, out, errs := as(t, config, dir, args...)
				if status != statusDone {
					t.Fatalf("%q: status %d: %s", args, status, errs)
				}
				return out
			}
			solved := run(mine, append([]string{"solve", "--json"}, j.job...)...)
			made := run(mine, append(append([]string{"template", "--json", "-o", "x.pdf"}, j.job...), j.printed...)...)
			x := contents(t, dir, "x.pdf")
			a, err := pdf.Attached(bytes.NewReader(x), int64(len(x)))
			if err != nil || strings.HasSuffix(a.Name, ".json") != json.Valid(a.Data) {
				t.Errorf("%s is in it, and JSON %v; %v", a.Name, json.Valid(a.Data), err)
			}
			for k := range min(replayHomes, len(names)) { // others for each job
				name := names[(i*replayHomes+k)%len(names)]
				config := homes[name]
				if got := run(config, "solve", "x.pdf", "--json"); got != solved {
					t.Errorf("%s: solve says %s", name, differs(solved, got))
				}
				if got := run(config, "template", "x.pdf", "--json", "-o", "y.pdf"); got != made {
					t.Errorf("%s: template says %s", name, differs(made, got))
				}
				if !bytes.Equal(x, contents(t, dir, "y.pdf")) {
					t.Errorf("%s: the PDF is another one", name)
				}
			}
		})
	}
}

func contents(t *testing.T, dir, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(dir, name))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// differs is the first line in which two texts differ.
func differs(want, got string) string {
	a, b := strings.Split(want, "\n"), strings.Split(got, "\n")
	for i := range min(len(a), len(b)) {
		if a[i] != b[i] {
			return b[i] + ", and it was " + a[i]
		}
	}
	return "more or less"
}

// Paper and printer belong to a place: others may be asked for, which is said, and so
// is what became of a correction. The numbers of the piece stay.
func TestReplayElsewhere(t *testing.T) {
	t.Parallel()
	dir := replayFolder(t)
	here, elsewhere, anew := somebody(t, "", printer("shed", 0.002)), somebody(t, "", printer("office", 0.004)), somebody(t, "", printer("shed", 0.003))
	job := []string{"AB=600", "BC=450", "CA=450"}
	for out, args := range map[string][]string{"plain.pdf": nil, "shed.pdf": {"--printer", "shed"}} {
		if status, _, errs := as(t, here, dir, append(append([]string{"template", "-o", out}, job...), args...)...); status != statusDone {
			t.Fatal(errs)
		}
	}
	warp := regexp.MustCompile(`"warp": `)
	for _, c := range []struct {
		config string
		args   []string
		said   string // behind "warning: "; empty: nothing
		warped bool
		holds  string // of the report
	}{
		{here, []string{"plain.pdf"}, "", false, `"paper": "A4"`},
		{here, []string{"plain.pdf", "--paper", "A3"}, "plain.pdf was made on A4, and these pages are A3, as --paper says", false, `"paper": "A3"`},
		{here, []string{"plain.pdf", "--paper", "a4"}, "", false, `"paper": "A4"`},
		{elsewhere, []string{"plain.pdf", "--printer", "plotter"}, "plain.pdf was made for the printer office, and these pages are for plotter, as --printer says", false, `"printer": "plotter"`},
		{elsewhere, []string{"plain.pdf"}, "the printer office is calibrated here, and plain.pdf was made without: so are these pages; with --printer office they are corrected", false, `"printer": "office"`},
		{elsewhere, []string{"plain.pdf", "--printer", "office"}, "", true, `"printer": "office"`},
		{here, []string{"shed.pdf"}, "", true, `"printer": "shed"`},
		{elsewhere, []string{"shed.pdf"}, "shed.pdf was corrected for the printer shed, of which nothing is known here: these pages come without the correction, so measure the check bars", false, `"printer": "shed"`},
		{anew, []string{"shed.pdf"}, "the printer shed is calibrated otherwise here than where shed.pdf was made: these pages are corrected as it is here", true, `"printer": "shed"`},
	} {
		status, out, errs := as(t, c.config, dir, append([]string{"template", "--json", "-o", "y.pdf"}, c.args...)...)
		said := ""
		for _, l := range strings.Split(errs, "\n") {
			if s, ok := strings.CutPrefix(l, "warning: "); ok {
				said += s
			}
		}
		if status != statusDone || said != c.said || warp.MatchString(out) != c.warped || !strings.Contains(out, c.holds) || !strings.Contains(out, `"AB": 600,`) {
			t.Errorf("%q: status %d, said %q, want %q; warped %v, want %v; %s in it: %v\n%s", c.args, status, said, c.said, warp.MatchString(out), c.warped, c.holds, strings.Contains(out, c.holds), errs)
		}
	}
}

// What is inside a PDF is said in a line.
func TestWhatTravels(t *testing.T) {
	t.Parallel()
	dir := replayFolder(t)
	nobody := somebody(t, "")
	if err := os.WriteFile(filepath.Join(dir, "remarks.yaml"), []byte("# our quay\n\npieces:\n- measure: [AB=2m, BC=2m, CA=2m]\n  found: [AB=2001]\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	const ends = " and the settings travel inside the PDF; whoever gets it can read them\n"
	for _, c := range []struct {
		args string
		want string
	}{
		{"template AB=60 BC=45 CA=45 -o line.pdf", "the measurements" + ends},
		{"template site.csv -o x.pdf", "the measurements with their notes" + ends},
		{"template list.txt -o x.pdf", "the measurements" + ends},
		{"template line.pdf -o y.pdf", "the measurements" + ends},
		{"template gate.json --pick 1 -o x.pdf", "the job file gate.json" + ends},
		{"template remarks.yaml -o remarks.pdf", "the job file remarks.yaml with its remarks" + ends},
		{"template remarks.pdf -o x.pdf", "the job file remarks.yaml with its remarks" + ends},
		{"setout remarks.yaml -o x.pdf", "the job file remarks.yaml with its remarks" + ends},
		{"check remarks.yaml -o x.pdf", "the job file remarks.yaml with its remarks" + ends},
		{"template AB=60 BC=45 CA=45 -o x.svg", ""}, {"setout remarks.yaml -o x.txt", ""}, {"check remarks.yaml -o x.csv", ""}, {"check remarks.yaml", ""},
	} {
		status, out, errs := as(t, nobody, dir, strings.Fields(c.args)...)
		if status != statusDone || strings.Count(out, ends) != strings.Count(c.want, ends) || !strings.Contains("\n"+out, "\n"+c.want) {
			t.Errorf("%s: status %d, %s%s\nwant the line %s", c.args, status, out, errs, c.want)
		}
	}
}

// The same of what goes out to the site and of what comes back.
func TestReplaySite(t *testing.T) {
	t.Parallel()
	for i, name := range slices.Sorted(maps.Keys(hostile)) {
		if i*replayHomes%len(hostile) >= replayHomes {
			continue // so many of them, spread over all
		}
		text := hostile[name]
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			config, mine := somebody(t, text, printer("office", 0.004)), somebody(t, own)
			for _, c := range []struct {
				command string
				args    []string
			}{
				{"setout", []string{"boathouse-gable.yaml", "--with", "square", "--tape", "I", "--every", "1 m", "--bearing", "35deg"}},
				{"setout", []string{"boathouse-floor.yaml", "--with", "angle", "--instrument", "theodolite", "--permitted", "2 mm", "--paper", "A3"}},
				{"setout", []string{"AB=300", "BC=250", "CA=200", "--trade", "sail maker", "--boards", "40", "--temperature", "31C"}},
				{"check", []string{"boathouse-floor-found.yaml"}},
				{"check", []string{"AB=4m", "BC=3m", "CA=5m", "--found", "AB=4001,BC=3003,CA=5003", "--trade", "teacher"}},
			} {
				dir := replayFolder(t)
				if data, err := os.ReadFile(filepath.Join("../../examples", c.args[0])); err == nil {
					if err := os.WriteFile(filepath.Join(dir, c.args[0]), data, 0o666); err != nil {
						t.Fatal(err)
					}
				}
				for _, r := range []struct {
					config string
					args   []string
				}{
					{mine, append([]string{c.command, "-o", "x.pdf"}, c.args...)}, {mine, append([]string{c.command, "-o", "x.txt"}, c.args...)},
					{config, []string{c.command, "-o", "y.pdf", "x.pdf"}}, {config, []string{c.command, "-o", "y.txt", "x.pdf"}},
				} {
					if status, _, errs := as(t, r.config, dir, r.args...); status != statusDone && status != statusNotPassed {
						t.Fatalf("%q: status %d: %s", r.args, status, errs)
					}
				}
				if want, got := string(contents(t, dir, "x.txt")), string(contents(t, dir, "y.txt")); got != want {
					t.Errorf("%s %q: %s", c.command, c.args, differs(want, got))
				}
				if !bytes.Equal(contents(t, dir, "x.pdf"), contents(t, dir, "y.pdf")) {
					t.Errorf("%s %q: the PDF is another one", c.command, c.args)
				}
			}
		})
	}
}
