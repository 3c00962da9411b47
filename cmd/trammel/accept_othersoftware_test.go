//go:build othersoftware

package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"

	"trammel/plot/readback"
)

// qpdf and pdfcpu accept every kind of file, pdfcpu by the letter of the standard:
// qpdf ends with 2 for errors and with 3 for warnings, and then the test fails.
func TestAccepted(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	example := func(name string) string {
		path, err := filepath.Abs("../../examples/" + name + ".yaml")
		if err != nil {
			t.Fatal(err)
		}
		return path
	}
	for _, args := range [][]string{
		{"template", example("class-sheet")}, // pages that pieces share
		{"template", example("boathouse-heel-plates"), "--paper", "A3"},
		{"template", example("boathouse-heel-plates"), "--paper", "914xany"},
		{"template", example("class-sheet"), "--paper", "914xany"},
		{"template", "AB=9m", "BC=5m", "CA=5m", "--paper", "2mxany"}, // a roll, joined
		{"template", example("gusset-plate"), "--without", "construction,dimensions,joins,notes"},
		{"template", example("class-sheet"), "--without", "notes"},
		{"template", example("boathouse-heel-plates"), "--without", "joins,construction", "--paper", "Letter"},
		{"template", "AB=2800", "BC=2100", "CA=3500", "--pages", "outline"},
		{"setout", example("boathouse-gable")},
		{"check", example("boathouse-floor-found")},
		{"setout", example("boathouse-floor"), "--every", "1m", "--boards", "1m", "--permitted", "2", "--temperature", "31C", "--paper", "A3"},
		{"template", example("hatch-board")},
		{"check", example("boathouse-floor-found")},
		{"calibrate", "--printer", "shed", "--paper", "A4"},
	} {
		name := strings.Join(args, " ")
		want := statusDone
		if args[0] == "check" {
			want = statusNotPassed
		}
		if status, _, errs := trammel(t, dir, "", append(args, "-o", "out.pdf")...); status != want {
			t.Fatalf("%s: %s", name, errs)
		}
		file, err := os.ReadFile(filepath.Join(dir, "out.pdf"))
		if err != nil {
			t.Fatal(err)
		}
		if out := string(readback.Run(t, file, "pdf", "qpdf", "--check", "FILE")); !strings.Contains(out, "No syntax or stream encoding errors found") {
			t.Errorf("%s: %s", name, out)
		}
		strictly := model.NewDefaultConfiguration()
		strictly.ValidationMode = model.ValidationStrict
		if err := api.Validate(bytes.NewReader(file), strictly); err != nil {
			t.Errorf("%s: pdfcpu: %v", name, err)
		}
	}
}
