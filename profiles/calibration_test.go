package profiles

import (
	"bytes"
	"errors"
	"math"
	"reflect"
	"strings"
	"testing"

	"trammel/geom/unit"
)

func shed() Calibration {
	return Calibration{
		Printer: "Shed laser", Paper: "A4", Width: 210, Height: 297,
		Found: Misprint{-0.0044, 0.00125, 0.1375 * unit.Degree}, Uncertainty: 0.00065, OfRule: 0.0002,
		Edges: &Edges{4, 5.5, 4, 12.25},
		Sheets: []SheetRecord{
			{Date: "2024-06-11", Width: 190, Height: 277, AB: 189.25, AD: 277.5, AC: 336, BD: 335.25},
			{Date: "2024-06-12", Width: 189.95, Height: 276.85, Corrected: Misprint{-0.0045, 0.00127, -0.1 * unit.Degree}, Fine: true, AB: 189.9, AD: 276.8, AC: 335.7, BD: 335.8, Tool: RuleSaid{Rule: "I", Reading: "0.07 mm"}},
		},
	}
}

// A calibration that is written and read again is the same, and is written the same.
func TestCalibrationIsKept(t *testing.T) {
	for _, edges := range []*Edges{shed().Edges, nil} {
		c := shed()
		c.Edges = edges
		text := c.Text()
		got, err := ReadCalibration("x.yaml", text)
		if err != nil {
			t.Fatalf("%v\n%s", err, text)
		}
		if again := got.Text(); !bytes.Equal(again, text) {
			t.Errorf("written again:\n%s\nfirst:\n%s", again, text)
		}
		for _, p := range []*Misprint{&got.Found, &c.Found, &got.Sheets[1].Corrected, &c.Sheets[1].Corrected} {
			p.Skew = unit.Angle(math.Round(p.Skew.Degrees()*1e7) / 1e7)
		}
		c.From = "x.yaml"
		if !reflect.DeepEqual(got, c) {
			t.Errorf("%+v\nis read as\n%+v", c, got)
		}
	}
}

// A file from before the rule was reckoned with is read: nothing was said of the rule.
func TestCalibrationFromBefore(t *testing.T) {
	old := string(shed().Text())
	for _, s := range []string{"of the rule: \"0.0002\"\n", ", rule: \"I\", reading: \"0.07 mm\""} {
		if !strings.Contains(old, s) {
			t.Fatalf("%q is not in the file", s)
		}
		old = strings.Replace(old, s, "", 1)
	}
	c, err := ReadCalibration("x.yaml", []byte(old))
	if err != nil || c.OfRule != 0 || c.Sheets[1].Tool != (RuleSaid{}) || c.Uncertainty != 0.00065 {
		t.Errorf("%v: %+v", err, c)
	}
}

func TestCalibrationFaults(t *testing.T) {
	good := string(shed().Text())
	for _, c := range []struct{ old, new, where, what string }{
		{"across: \"-0.0044\"", "across: \"-0.044\"", "x.yaml:7:9", `across: "-0.044" is not a number from -0.03 to 0.03`},
		{"across: \"-0.0044\"", "across: NaN", "x.yaml:7:9", `across: "NaN" is not a number`},
		{"across: \"-0.0044\"", "across: [1]", "x.yaml:7:9", "across is a list, not text"},
		{"across: \"-0.0044\"\n", "", "x.yaml:3:1", "there is no across"},
		{"skew: \"0.1375\"", "skew: \"2\"", "x.yaml:9:7", `skew: "2" is not a number from -1 to 1`},
		{"width: 210 mm", "width: 2 mm", "x.yaml:5:8", "is less than"},
		{"width: 210 mm", "width: wide", "x.yaml:5:8", "is not a length"},
		{"paper: \"A4\"", "sheet: A4", "x.yaml:4:1", `unknown key "sheet" in the calibration`},
		{"rule: \"I\"", "rule: true", "x.yaml", `"true" says nothing of a rule`},
		{"reading: \"0.07 mm\"", "reading: 3 mm", "x.yaml", `"3 mm" is more than 1 mm`},
		{"of the rule: \"0.0002\"", "of the rule: much", "x.yaml:11:14", `of the rule: "much" is not a number`},
		{"read: ticks", "read: ears", "x.yaml", `read: "ears" is not known`},
		{"top: 5.5 mm", "above: 5.5 mm", "x.yaml:12", `unknown key "above" in edges`},
		{"edges: {left: 4 mm, ", "edges: {", "x.yaml:12:8", "there is no left"},
		{"AB: 189.25 mm, ", "", "x.yaml:14:5", "there is no AB"},
		{`"Shed laser"`, `"../shed"`, "x.yaml:3:10", "cannot be the name of a printer"},
		{"sheets: # as read, mm", "sheets: 7\nmore:", "x.yaml", "unknown key"},
		{good[strings.Index(good, "sheets:"):], "sheets: []\n", "x.yaml:13:9", "sheets is not a list of 1 to 6 sheets"},
		{good[strings.Index(good, "sheets:"):], "", "x.yaml:3:1", "sheets is not a list of 1 to 6 sheets"},
		{good, "", "x.yaml:1:1", "the file is empty"},
		{good, "[]", "x.yaml:1:1", "the calibration is not keys with values"},
	} {
		if !strings.Contains(good, c.old) {
			t.Fatalf("%q is not in the file", c.old)
		}
		_, err := ReadCalibration("x.yaml", []byte(strings.Replace(good, c.old, c.new, 1)))
		var f *unit.Fault
		if !errors.As(err, &f) || !strings.HasPrefix(f.Where, c.where) || !strings.Contains(f.What, c.what) {
			t.Errorf("%q: %v, want %s: %s", c.new, err, c.where, c.what)
		}
	}
}

// What is read of any bytes is a fault with a place, or a calibration within limits.
func FuzzCalibration(f *testing.F) {
	f.Add(shed().Text())
	f.Add([]byte("printer: a\nsheets: [{}]\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		c, err := ReadCalibration("x.yaml", data)
		if err != nil {
			var fault *unit.Fault
			if !errors.As(err, &fault) || !strings.HasPrefix(fault.Where, "x.yaml") || strings.Contains(err.Error(), "\n") {
				t.Fatalf("%v", err)
			}
			return
		}
		if math.Abs(c.Found.Across) > MostStretch || math.Abs(c.Found.Along) > MostStretch || len(c.Sheets) == 0 {
			t.Fatalf("%+v", c)
		}
		if _, err := ReadCalibration("x.yaml", c.Text()); err != nil {
			t.Fatalf("%v\n%s", err, c.Text())
		}
	})
}

// Margins of a printer are those that somebody wrote for it, else the edges that
// were read, and never less than these.
func TestPrinterWith(t *testing.T) {
	s, err := Load(File{"own.yaml", []byte("printers:\n  shed-laser: {left: 7 mm, top: 2 mm}\n")})
	if err != nil {
		t.Fatal(err)
	}
	bare, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	c := shed()
	c.From = "kept.yaml"
	none := c
	none.Edges = nil
	for _, x := range []struct {
		set                      Set
		name                     string
		c                        *Calibration
		left, top, right, bottom unit.Length
		from                     string // of top
	}{
		{s, "shed laser", &c, 7, 5.5, 4, 12.25, "kept.yaml"},
		{s, "shed laser", &none, 7, 2, 10, 10, "own.yaml:2"},
		{s, "shed laser", nil, 7, 2, 10, 10, "own.yaml:2"},
		{bare, "Shed laser", &c, 4, 5.5, 4, 12.25, "kept.yaml"},
		{bare, "Shed laser", &none, 10, 10, 10, 10, "built in, from office"},
		{bare, "office", &c, 4, 5.5, 4, 12.25, "kept.yaml"},
	} {
		p, err := x.set.PrinterWith(x.name, x.c)
		if err != nil {
			t.Fatal(err)
		}
		if p.Left != x.left || p.Top != x.top || p.Right != x.right || p.Bottom != x.bottom || p.Overlap != 10 || p.From["top"] != x.from {
			t.Errorf("%s: %+v, want %v %v %v %v, top from %s", x.name, p, x.left, x.top, x.right, x.bottom, x.from)
		}
	}
	if _, err := bare.PrinterWith("Shed laser", nil); err == nil {
		t.Error("a printer that nobody knows is found")
	}
}
