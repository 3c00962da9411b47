package app

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"trammel/plot/draw"
	"trammel/plot/template"
	"trammel/profiles"
)

var update = flag.Bool("update", false, "write the goldens anew; read them before they are kept")

// Each example by hand in each voice, as its pages say it; the goldens were read. The
// pages of its templates bear the cautions of that voice and of no other.
func TestExamplesInEveryVoice(t *testing.T) {
	files, err := filepath.Glob("../../../examples/*.yaml")
	files = slices.DeleteFunc(files, func(f string) bool {
		return strings.HasSuffix(f, "-slip.yaml") || strings.HasSuffix(f, "class-set.yaml")
	}) // refused; no pieces
	if err != nil || len(files) < 7 {
		t.Fatal(files, err)
	}
	care := map[string]string{"class": "with the teacher", "bench": "guard", "floor": "movement joints", "ground": "overhead lines"}
	for _, voice := range profiles.Voices() {
		var b strings.Builder
		for _, file := range files {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			made := templateOf(t, string(text)+"\nvoice: "+voice+"\n", Options{})
			w := made.work
			fmt.Fprintf(&b, "%s\n", filepath.Base(file))
			for _, p := range w.Pieces {
				fmt.Fprintf(&b, "  %s\n", p.Title())
				for _, step := range template.Steps(w.templatePiece(p), w.style()) {
					fmt.Fprintf(&b, "    %s\n", step)
				}
			}
			var all strings.Builder
			n := 0
			for page := range made.pages() {
				if n++; n > pagesHeard {
					break
				}
				for _, op := range page.Ops {
					if o, ok := op.(draw.Text); ok {
						all.WriteString(o.Words + " ")
					}
				}
			}
			for of, words := range care {
				if says := strings.Contains(strings.ToLower(all.String()), words); says != (of == voice) {
					t.Errorf("%s, %s: the pages say %q: %t", filepath.Base(file), voice, words, says)
				}
			}
		}
		golden(t, "voice-"+voice+".txt", b.String())
	}
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	new, old := strings.Split(got, "\n"), strings.Split(string(want), "\n")
	for i, l := range new {
		if i >= len(old) || l != old[i] {
			t.Errorf("%s:%d: %s", file, i+1, l)
			return
		}
	}
	if len(new) != len(old) {
		t.Errorf("%s has %d lines, said are %d", file, len(old), len(new))
	}
}
