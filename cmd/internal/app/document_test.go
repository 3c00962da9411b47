package app

import (
	"io"
	"slices"
	"testing"

	"trammel/cmd/internal/calibration"
	"trammel/plot/png"
	"trammel/profiles"
	"trammel/profiles/job"
)

// Every kind of document is made of what it says it needs, in every form that it says
// it has, and has a report and a line that says what was made.
func TestEveryKindOfDocument(t *testing.T) {
	set, err := profiles.Load()
	if err != nil {
		t.Fatal(err)
	}
	w := mustOpen(t, "pieces: [{name: Bay, measure: [AB=6000, BC=5000, CA=4000], tiles: {size: 600, joint: 3}}]\n", Options{})
	readings := Findings{Tokens: Tokens("AB=6000,BC=5000,CA=4000", "--found"), Where: "--found"}
	for _, k := range Kinds() {
		var o Order
		if k.Needs&Job != 0 {
			o.Work, o.Picture = w, PictureOptions{Pixels: 200, Paint: png.Write}
		}
		if k.Needs&Readings != 0 {
			o.Findings = readings
		}
		if k.Needs&Printer != 0 {
			o.Profiles, o.Calibration = set, calibration.Options{Printer: job.Setting{Text: "shed"}}
		}
		if k.Needs&Tasks != 0 {
			o.Work = classOf(t, "tasks: {pupils: 3, kinds: [SSS, SAS]}\n")
		}
		d, err := k.Make(o)
		if err != nil {
			t.Errorf("%s: %v", k.Name, err)
			continue
		}
		for _, ending := range []string{"pdf", "svg", "csv", "txt", "png", ""} {
			out, err := d.As(ending)
			if listed := slices.Contains(k.Endings, ending); listed != (err == nil) && ending != "" {
				t.Errorf("%s as %q: %v, and its endings are %q", k.Name, ending, err, k.Endings)
			}
			n := 0
			switch {
			case err != nil:
				continue
			case out.File != nil:
				n, err = 1, out.File(io.Discard)
			default:
				err = out.Folder(func(_ string, write func(io.Writer) error) error { n++; return write(io.Discard) })
			}
			if err != nil || n == 0 {
				t.Errorf("%s as %q: %d files, %v", k.Name, ending, n, err)
			}
		}
		if lines := d.Summary(); len(lines) == 0 || lines[0] == "" {
			t.Errorf("%s says nothing of itself", k.Name)
		}
		if k.Needs&Job != 0 && d.Report() == nil {
			t.Errorf("%s has no report", k.Name)
		}
	}
}
