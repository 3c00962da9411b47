//go:build !race

package main

import (
	"crypto/sha256"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

var writeManifest = flag.Bool("manifest", false, "write testdata/manifest.txt anew instead of comparing with it")

// made is one run of the program whose whole output the manifest holds.
type made struct {
	name string   // in the manifest
	args []string // outputs go to files named out.*
}

// manifestExamples runs every example through every command and writer.
func manifestExamples(t *testing.T) (runs []made) {
	t.Helper()
	files, err := filepath.Glob("../../examples/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatal("no examples", err)
	}
	for _, f := range files {
		name := filepath.Base(f)
		path, err := filepath.Abs(f)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range []string{
			"solve", "solve --json", "template -o out.pdf --json", "template -o out.svg --whole", "setout -o out.pdf", "setout -o out.svg",
			"setout -o out.csv", "setout -o out.txt", "check", "check -o out.pdf", "check --json", "preview -o out.png", "preview --setout -o out.png", "preview --page 1 -o out.png",
		} {
			words := strings.Fields(c)
			runs = append(runs, made{name + ": " + c, append([]string{words[0], path}, words[1:]...)})
		}
	}
	return runs
}

// manifestTriangles are a hundred random triangles of 60 mm to 4 m, each under one set of flags.
func manifestTriangles() (runs []made) {
	flags := []string{
		"solve --json", "solve", "template -o out.pdf", "template --pages outline -o out.pdf", "template --paper A3 --turn 0 -o out.pdf", "template --paper letter --unit in -o out.pdf",
		"template --whole -o out.svg", "setout -o out.pdf", "setout --with square -o out.txt", "setout -o out.csv", "preview -o out.png", "template --trade teacher -o out.pdf",
		"template --without construction -o out.pdf", "template --overlap 15 --margin 6 -o out.pdf", "setout --trade tiler -o out.txt",
	}
	rng := rand.New(rand.NewPCG(2026, 9))
	for i := range 100 {
		size := math.Exp(math.Log(60) + rng.Float64()*math.Log(4000.0/60))
		if strings.HasPrefix(flags[i%len(flags)], "setout") {
			size = 20 * size // what is pegged is no bracket
		}
		a, b := size*(0.5+rng.Float64()/2), size*(0.5+rng.Float64()/2)
		angle := (30 + 110*rng.Float64()) * math.Pi / 180
		c := math.Sqrt(a*a + b*b - 2*a*b*math.Cos(angle))
		tokens := []string{fmt.Sprintf("AB=%.1fmm", c), fmt.Sprintf("BC=%.1fmm", a), fmt.Sprintf("CA=%.1fmm", b)}
		switch i % 4 {
		case 1:
			tokens = []string{fmt.Sprintf("AB=%.1fmm", a), fmt.Sprintf("BC=%.1fmm", b), fmt.Sprintf("B=%.1fdeg", angle*180/math.Pi)}
		case 2:
			tokens = []string{fmt.Sprintf("AB=%.1fmm", c), fmt.Sprintf("A=%.2fdeg", 20+40*rng.Float64()), fmt.Sprintf("B=%.2fdeg", 30+60*rng.Float64())}
		case 3:
			tokens = []string{fmt.Sprintf("AB=%.1fmm", c), fmt.Sprintf("C-AB=%.1fmm", c*(0.4+rng.Float64()/2)), fmt.Sprintf("A=%.2fdeg", 40+45*rng.Float64())}
		}
		words := strings.Fields(flags[i%len(flags)])
		name := strings.Join(tokens, " ") + ": " + flags[i%len(flags)]
		runs = append(runs, made{name, append(append([]string{words[0]}, tokens...), words[1:]...)})
	}
	return runs
}

// manifestNets are forty random convex nets of 4 to 8 points with one diagonal to spare.
func manifestNets() (runs []made) {
	flags := []string{"solve --json", "solve", "template -o out.pdf --json", "setout -o out.pdf", "setout -o out.csv", "setout --with square -o out.txt", "preview -o out.png", "template --paper A1 --pages outline -o out.pdf", "setout --permitted 2 --every 1m -o out.pdf", "template --whole -o out.svg"}
	rng := rand.New(rand.NewPCG(2026, 10))
	for i := range 40 {
		n := 4 + i%5
		size := 400 + 3600*rng.Float64()
		x, y := make([]float64, n), make([]float64, n)
		for k := range n {
			at := 2 * math.Pi * (float64(k) + 0.5*rng.Float64()) / float64(n)
			x[k], y[k] = size*math.Cos(at), 0.7*size*math.Sin(at)
		}
		name := func(k int) string { return string(rune('A' + k)) }
		var tokens []string
		length := func(a, b int) {
			tokens = append(tokens, fmt.Sprintf("%s%s=%.0fmm", name(a), name(b), math.Hypot(x[a]-x[b], y[a]-y[b])))
		}
		for k := range n {
			length(k, (k+1)%n)
		}
		for k := 2; k < n-1; k++ {
			length(0, k)
		}
		length(1, n-1)
		outline := ""
		for k := range n {
			outline += name(k)
		}
		words := strings.Fields(flags[i%len(flags)])
		args := append(append([]string{words[0]}, tokens...), "--outline", outline)
		runs = append(runs, made{strings.Join(args[1:], " ") + ": " + flags[i%len(flags)], append(args, words[1:]...)})
	}
	return runs
}

// sum runs the program in a new folder and reduces all that came out: status, words, files.
func (m made) sum(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	status, out, errs := trammel(t, dir, "", m.args...)
	all := sha256.New()
	home, err := filepath.Abs("../..")
	if err != nil {
		t.Fatal(err)
	}
	fmt.Fprint(all, status, "\n", strings.ReplaceAll(out+errs, home, ""))
	for _, f := range everything(t, dir) {
		if at, err := os.Stat(f); err != nil || at.IsDir() {
			continue
		}
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		fmt.Fprint(all, strings.TrimPrefix(f, dir), len(data))
		all.Write(data)
	}
	return fmt.Sprintf("%x %d %s", all.Sum(nil)[:16], status, m.name)
}

// wrongTexts reduces the tables of bad input, whose whole texts the tests of each hold.
func wrongTexts() (lines []string) {
	for name, cases := range map[string][]wrong{"measurements": wrongMeasurements, "settings": wrongSettings, "jobs": wrongJobs, "shapes": wrongShapes, "files": wrongFiles} {
		all := sha256.New()
		for _, c := range cases {
			fmt.Fprintf(all, "%q %q %q %d %q %q\n", c.args, c.job, c.stdin, c.status, c.line, c.hint)
		}
		lines = append(lines, fmt.Sprintf("%x - bad input: %s", all.Sum(nil)[:16], name))
	}
	slices.Sort(lines)
	return lines
}

// While the rooms of the house are moved nothing that comes out changes: every file,
// every word on the screen and every refusal is the one that the manifest names.
// A difference is a decision, and has a commit of its own that writes the manifest anew.
func TestManifest(t *testing.T) {
	runs := slices.Concat(manifestExamples(t), manifestTriangles(), manifestNets())
	got := make([]string, len(runs))
	for i, r := range runs {
		got[i] = r.sum(t)
	}
	got = append(got, wrongTexts()...)
	const path = "testdata/manifest.txt"
	if *writeManifest {
		if err := os.WriteFile(path, []byte(strings.Join(got, "\n")+"\n"), 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	want := strings.Split(strings.TrimSuffix(string(data), "\n"), "\n")
	if len(want) != len(got) {
		t.Fatalf("%d lines in the manifest, %d runs", len(want), len(got))
	}
	for i, g := range got {
		if g != want[i] {
			t.Errorf("\n got %s\nwant %s", g, want[i])
		}
	}
}
