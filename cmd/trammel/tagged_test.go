//go:build !race

package main

import (
	"path/filepath"
	"strings"
	"testing"

	"trammel/plot/readback"
)

// taggedRuns are the documents whose parts are read: of every example, and a
// calibration sheet.
func taggedRuns(t *testing.T) (runs [][]string) {
	t.Helper()
	for _, e := range examples {
		job, err := filepath.Abs(filepath.Join("../../examples", e.name+".yaml"))
		if err != nil {
			t.Fatal(err)
		}
		if e.made == statusDone && taggedLarge(e.name) {
			runs = append(runs, append([]string{"template", job, "--json"}, e.onPages()...))
		}
		if e.setout == statusDone {
			runs = append(runs, []string{"setout", job})
		}
		if e.name == "boathouse-floor-found" {
			runs = append(runs, []string{"check", job})
		}
	}
	return append(runs, []string{"calibrate", "--printer", "loft", "--paper", "A4"})
}

// tagged makes each document and hands it on.
func tagged(t *testing.T, visit func(t *testing.T, file []byte)) {
	for _, args := range taggedRuns(t) {
		t.Run(args[0]+" "+filepath.Base(args[len(args)-1]), func(t *testing.T) {
			_, file := finished(t, args...)
			visit(t, file)
		})
	}
}

// mayStand says what kinds of part may stand in which (ISO 32000-1, 14.8.4).
var mayStand = map[string]string{
	"Document": "", "H1": "Document", "H2": "Document Sect", "P": "Document Sect", "Sect": "Document", "L": "Document", "LI": "L", "Lbl": "LI", "LBody": "LI",
	"Table": "Document", "TR": "Table", "TH": "TR", "TD": "TR", "Figure": "Document Sect",
}

// Each part stands where the standard has it, figures say what they show, rows of a
// table have as many cells as each other, nothing else is empty.
func TestPartsOfDocuments(t *testing.T) {
	tagged(t, func(t *testing.T, file []byte) {
		all := readback.Structure(t, file)
		figures := 0
		var look func(p readback.Part, in string)
		look = func(p readback.Part, in string) {
			if may, ok := mayStand[p.Role]; !ok || in != "" && !strings.Contains(may, in) {
				t.Errorf("%s in %s", p.Role, in)
			}
			if p.Role == "Figure" {
				figures++
				if !strings.HasSuffix(p.Alt, ".") || len(p.Parts) > 0 {
					t.Errorf("a figure says %q and has %d parts", p.Alt, len(p.Parts))
				}
			}
			if p.Role != "Figure" && p.Role != "TD" && p.Role != "TH" && len(p.Said)+len(p.Parts) == 0 {
				t.Errorf("%s is empty", p.Role)
			}
			for _, q := range p.Parts {
				if p.Role == "Table" && len(q.Parts) != len(p.Parts[0].Parts) {
					t.Errorf("a row of %d cells below one of %d", len(q.Parts), len(p.Parts[0].Parts))
				}
				look(q, p.Role)
			}
		}
		look(all, "")
		if figures == 0 {
			t.Errorf("no figure in\n%s", all)
		}
	})
}
