package profiles

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"trammel/geom/unit"
)

func load(t *testing.T, files ...File) Set {
	t.Helper()
	s, err := Load(files...)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// ISO 216; ANSI/ASME Y14.1 and the architectural sizes, in inches.
func TestPapers(t *testing.T) {
	s := load(t)
	const in = 25.4
	for _, c := range []struct {
		name          string
		width, height float64
	}{
		{"A0", 841, 1189}, {"a1", 594, 841}, {"A2", 420, 594}, {"A3", 297, 420}, {"A4", 210, 297}, {"A5", 148, 210},
		{"B3", 353, 500}, {"B4", 250, 353}, {"B5", 176, 250},
		{"letter", 8.5 * in, 11 * in}, {"Legal", 8.5 * in, 14 * in}, {"TABLOID", 11 * in, 17 * in},
		{"Arch C", 18 * in, 24 * in}, {"arch-d", 24 * in, 36 * in}, {"arch_e", 36 * in, 48 * in},
		{"ANSI C", 17 * in, 22 * in}, {"ansi-d", 22 * in, 34 * in}, {"ANSI-E", 34 * in, 44 * in},
		{"300x500", 300, 500}, {"12x18in", 12 * in, 18 * in}, {"12inx18in", 12 * in, 18 * in}, {"300 x 500 mm", 300, 500},
		{"8.5×11in", 8.5 * in, 11 * in}, {"30x50cm", 300, 500}, {"1ftx18in", 12 * in, 18 * in},
		{"11x8 1/2in", 11 * in, 8.5 * in}, {"8 1/2x11in", 8.5 * in, 11 * in}, {`12x1'6"`, 12 * in, 18 * in}, {"8½ x 11”", 8.5 * in, 11 * in},
	} {
		p, err := s.Paper(c.name)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if math.Abs(p.Width.MM()-c.width) > 1e-9 || math.Abs(p.Height.MM()-c.height) > 1e-9 {
			t.Errorf("%s: %v × %v, want %v × %v", c.name, p.Width, p.Height, c.width, c.height)
		}
	}
	if p, _ := s.Paper("arch d"); p.Name != "Arch D" {
		t.Errorf("name %q", p.Name)
	}
}

func TestUnknownNames(t *testing.T) {
	s := load(t)
	paper := func(n string) error { _, err := s.Paper(n); return err }
	printer := func(n string) error { _, err := s.Printer(n); return err }
	trade := func(n string) error { _, err := s.Trade(n); return err }
	show := func(n string) error { _, err := s.Show(n); return err }
	const size = "a size is width x height in mm, such as 300x500; inches are written 12x18in"
	for _, c := range []struct {
		find             func(string) error
		name, want, hint string
	}{
		{paper, "lettre", `"lettre" is no paper that is known`, `did you mean "Letter"?`},
		{paper, "10x20", `"10" is less than 50 mm, the least that is read`, size},
		{paper, "300x6m", `"6m" is more than 5080 mm, the most that is read`, size},
		{paper, "300xlots", `"lots" is not a length`, size},
		{paper, "49xany", `"49" is less than 50 mm, the least that is read`, "a roll is its width and any, such as 914xany or 36inxany"},
		{paper, "any x 610", `"any x 610": the width of a roll comes first, and it is a length`, "write the width and then any, such as 914xany"},
		{printer, "ofice", `"ofice" is no printer that is known`, `did you mean "office"?`},
		{printer, "", `"" is no printer that is known`, `known: office, plotter`},
		{trade, "mason", `"mason" is no trade that is known`, `known: general, joiner, tiler, teacher`},
		{show, "joinr", `"joinr" is no profile that is known`, `did you mean "joiner"?`},
	} {
		var f *unit.Fault
		if err := c.find(c.name); !errors.As(err, &f) || f.What != c.want || f.Hint != c.hint {
			t.Errorf("%s: %v, hint %q", c.name, err, f.Hint)
		}
	}
}

const own = `defaults:
  paper: Letter
printers:
  Shed:
    left: 4 mm
    overlap: "0.5 in"
  office:
    top: 12 mm
trades:
  thatcher:
    unit: cm
    show: []
  Joiner:
    lettering: 5 mm
`

// Later files lie over earlier ones, value by value, and each value knows where it was written.
func TestLayers(t *testing.T) {
	s := load(t, File{"own.yaml", []byte(own)}, File{"flag.yaml", []byte("printers: {shed: {left: 6 mm}}")})
	if name, from := s.Default("paper"); name != "Letter" || from != "own.yaml:2" {
		t.Errorf("default paper %q from %q", name, from)
	}
	if name, from := s.Default("printer"); name != "office" || from != BuiltIn {
		t.Errorf("default printer %q from %q", name, from)
	}
	p, err := s.Printer("shed")
	if err != nil {
		t.Fatal(err)
	}
	if p.Name != "Shed" || p.Left != 6 || math.Abs(p.Overlap.MM()-12.7) > 1e-9 || p.Top != 12 || p.Bottom != 10 {
		t.Errorf("%+v", p)
	}
	for key, want := range map[string]string{"left": "flag.yaml:1", "overlap": "own.yaml:6", "top": "own.yaml:8, from office", "bottom": "built in, from office"} {
		if p.From[key] != want {
			t.Errorf("%s from %q, want %q", key, p.From[key], want)
		}
	}
	th, err := s.Trade("thatcher")
	if err != nil {
		t.Fatal(err)
	}
	if th.Unit != unit.CM || len(th.Show) != 0 || th.Figures.Denominator != 16 || th.Lettering != 3.5 || th.From["show"] != "own.yaml:12" || th.From["tape"] != "built in, from general" {
		t.Errorf("%+v", th)
	}
	jo, err := s.Trade("joiner")
	if err != nil {
		t.Fatal(err)
	}
	if jo.Lettering != 5 || jo.Compass != 300 || !jo.Show["arcs"] || !jo.Show["settings"] || jo.From["show"] != "built in" {
		t.Errorf("%+v", jo)
	}
	if _, err := Load(File{"empty.yaml", []byte(" \n")}); err != nil {
		t.Errorf("an empty file: %v", err)
	}
}

// The contract of the job file: a bare number is in mm unless stated, whatever the trade.
func TestBuiltInTradesCountMillimetres(t *testing.T) {
	s := load(t)
	for _, name := range []string{"general", "joiner", "tiler", "teacher"} {
		tr, err := s.Trade(name)
		if err != nil || tr.Unit != unit.MM {
			t.Errorf("%s: unit %v, %v", name, tr.Unit, err)
		}
	}
}

func TestWrongFiles(t *testing.T) {
	for _, c := range []struct{ text, want, hint string }{
		{"printer: {}", `c:1:1: unknown key "printer" in the profiles`, `did you mean "printers"?`},
		{"printers:\n  shed:\n    lefft: 4 mm\n", `c:3:5: unknown key "lefft" in printers.shed`, `did you mean "left"?`},
		{"printers:\n  shed:\n    left: 4\n", `c:3:11: printers.shed.left: 4 stands without its unit`, `write it with its unit, such as 4 mm`},
		{"printers:\n  shed:\n    left: 010\n", `c:3:11: printers.shed.left: 010 stands without its unit`, `write it with its unit, such as 010 mm`},
		{"printers:\n  shed:\n    left: \"4\"\n", `c:3:11: printers.shed.left: 4 stands without its unit`, `write it with its unit, such as 4 mm`},
		{"papers:\n  leaf: {}\n", `c:2:3: papers.leaf has no width`, `write width and height`},
		{"printers:\n  shed:\n    left: a lot\n", `c:3:11: printers.shed.left: "a lot" is not a length`, `lengths are written 2400, 2400mm, 240cm, 2.4m, 94.5in, 7ft 10 1/2in or 7'-10 1/2"`},
		{"printers:\n  shed:\n    left: 900 mm\n", `c:3:11: printers.shed.left: "900 mm" is more than 500 mm, the most that is read`, ``},
		{"printers:\n  shed: 4 mm\n", `c:2:9: printers.shed is not keys with values but "4 mm"`, `write key: value, one a line; keys: left, top, right, bottom, overlap`},
		{"printers:\n", `c:1:10: printers is not keys with values but nothing`, `write key: value, one a line`},
		{"printers:\n  my.shed: {left: 4 mm}\n", `c:2:3: "my.shed" cannot be a name in printers`, `begin with a letter; go on with letters, digits and hyphens`},
		{"papers:\n  a9: {width: 37 mm, height: 52 mm}\n", `c:2:15: papers.a9.width: "37 mm" is less than 50 mm, the least that is read`, ``},
		{"papers:\n  roll: {width: 914 mm}\n", `c:2:3: papers.roll has no height`, `write width and height`},
		{"papers:\n  Roll: {width: 914 mm, height: 2 m}\n  roll: {width: 914 mm, height: 2 m}\n", `c:3:3: "Roll" and "roll" are the same name`, `capital and small letters count alike`},
		{"trades:\n  joiner: {show: arcs}\n", `c:2:18: trades.joiner.show is not a list`, `write show: [arcs, heights, angles, lengths, steps, settings], or fewer of them`},
		{"trades:\n  joiner: {show: [arc]}\n", `c:2:19: trades.joiner.show: "arc" is not known`, `did you mean "arcs"?`},
		{"trades:\n  joiner: {unit: yard}\n", `c:2:18: trades.joiner.unit: "yard" is not a unit of length`, `units are mm, cm, m, in or ft`},
		{"trades:\n  joiner: {fraction: 1/10}\n", `c:2:22: trades.joiner.fraction: "1/10" is not a fraction of an inch`, `write 1/8, 1/16, 1/32 or 1/64`},
		{"trades:\n  joiner: {angles: radians}\n", `c:2:20: trades.joiner.angles: "radians" is not known`, `known: decimal, minutes`},
		{"trades:\n  joiner: {voice: loud}\n", `c:2:19: trades.joiner.voice: "loud" is not a voice`, `write class, bench, floor or ground: the place where the words are read`},
		{"trades:\n  joiner: {tape: IV}\n", `c:2:18: trades.joiner.tape: "IV" is not known`, `known: I, II, III`},
		{"trades:\n  joiner: {saw: 90deg}\n", `c:2:17: trades.joiner.saw: "90deg" is not from 15° to 80°`, ``},
		{"trades:\n  joiner: {protractor: 90deg}\n", `c:2:24: trades.joiner.protractor: "90deg" is not from 0.001° to 45°`, ``},
		{"trades:\n  joiner: {lettering: 1 mm}\n", `c:2:23: trades.joiner.lettering: "1 mm" is less than 2.5 mm, the least that is read`, ``},
		{"trades:\n  joiner: {compass: 3 mm+-1}\n", `c:2:21: trades.joiner.compass: "3 mm+-1" has a tolerance`, `write the length alone: 3 mm`},
		{"defaults: {papper: A4}", `c:1:12: unknown key "papper" in defaults`, `did you mean "paper"?`},
		{"a: &x 1", `c:1:4: anchors (&x) are not read here`, `write the value out where it is needed`},
		{strings.Repeat("{", 500000), `c:1:41: lists within lists more than 40 deep`, ``},
	} {
		_, err := Load(File{"c", []byte(c.text)})
		f := &unit.Fault{}
		if !errors.As(err, &f) || f.Error() != c.want || f.Hint != c.hint {
			t.Errorf("%.50q:\n got %v\n     %v\nwant %s\n     %s", c.text, err, f.Hint, c.want, c.hint)
		}
	}
}

// What YAML would make a number, a truth, a date or nothing of is read as the letters
// that stand there, under every key, and whatever is wrong with them has its place.
func TestAsWritten(t *testing.T) {
	written := []string{"4", "04", "0x10", "0o17", "0b1", "1e3", "1.5", ".5", "-3", "+3", "1_000", "true", "False", "yes", "no", "on", "null", "Null", "~",
		"2031-04-30", "2031-04-30T10:00:00Z", "1:30", "190:20:30", ".inf", "-.INF", ".nan", "=", "1/16", "16"}
	var cases []struct{ text, at string }
	for _, w := range written {
		for _, k := range kinds {
			for _, key := range k.keys {
				text, at := fmt.Sprintf("%s:\n  x: {%s: %s}\n", k.name, key, w), fmt.Sprintf("c:2:%d", 9+len(key))
				if key == "show" {
					text, at = fmt.Sprintf("%s:\n  x: {show: [%s]}\n", k.name, w), "c:2:14"
				}
				cases = append(cases, struct{ text, at string }{text, at})
			}
		}
	}
	for _, c := range cases {
		s, err := Load(File{"c", []byte(c.text)})
		if err == nil {
			_, err = s.Entries()
		}
		var f *unit.Fault
		switch {
		case err == nil:
			if !strings.Contains(c.text, "hook") && !strings.Contains(c.text, "16") && !strings.Contains(c.text, "protractor") {
				t.Errorf("%q was taken", c.text)
			}
		case !errors.As(err, &f) || !strings.HasPrefix(err.Error(), c.at+": ") && !strings.HasPrefix(err.Error(), "c:2:3: papers.x has no "):
			t.Errorf("%q: %v, want the place %s", c.text, err, c.at)
		}
	}
	for _, w := range written {
		s := load(t, File{"c", []byte("defaults:\n  paper: " + w + "\n  trade:   " + w + "\n")})
		for kind, at := range map[string]string{"paper": "c:2:10", "trade": "c:3:12"} {
			if got, _ := s.Default(kind); got != w || s.DefaultAt(kind) != at+": defaults."+kind {
				t.Errorf("defaults.%s: %s was read as %q at %s", kind, w, got, s.DefaultAt(kind))
			}
		}
		if _, err := Load(File{"c", []byte("trades:\n  " + w + ": {tape: II}\n")}); err != nil && !strings.HasPrefix(err.Error(), "c:2:3: ") {
			t.Errorf("a trade of the name %s: %v", w, err)
		}
	}
	s := load(t, File{"c", []byte("trades: {True: {fraction: 16, hook: yes}, null: {}}")})
	if tr, err := s.Trade("true"); err != nil || tr.Name != "True" || tr.Figures.Denominator != 16 || !tr.Hook {
		t.Errorf("%+v, %v", tr, err)
	}
	if tr, err := s.Trade("null"); err != nil || tr.Lettering != 3.5 {
		t.Errorf("a trade that says nothing takes all from general: %+v, %v", tr, err)
	}
}

func TestShow(t *testing.T) {
	s := load(t, File{"own.yaml", []byte(own)})
	found, err := s.Show("Shed")
	if err != nil || len(found) != 1 {
		t.Fatal(found, err)
	}
	e := found[0]
	if e.Kind != "printer" || e.Name != "Shed" || len(e.Values) != 5 || e.Values[0] != (Item{"left", "4 mm", "own.yaml:5"}) || e.Values[1] != (Item{"top", "12 mm", "own.yaml:8, from office"}) {
		t.Errorf("%+v", e)
	}
	all, err := s.Entries()
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range all {
		for _, v := range e.Values {
			if v.Text == "" || v.From == "" {
				t.Errorf("%s %s: %s has text %q from %q", e.Kind, e.Name, v.Key, v.Text, v.From)
			}
		}
	}
	if len(all) < 30 {
		t.Errorf("%d entries", len(all))
	}
}

// Whatever the bytes, Load returns; what it takes can be listed.
func FuzzProfiles(f *testing.F) {
	f.Add([]byte(own))
	f.Add(defaults)
	f.Fuzz(func(t *testing.T, data []byte) {
		s, err := Load(File{"c", data})
		if err != nil {
			var fault *unit.Fault
			if !errors.As(err, &fault) || strings.Contains(err.Error(), "\n") {
				t.Fatalf("%T %v", err, err)
			}
			return
		}
		if _, err := s.Entries(); err != nil {
			t.Fatal(err)
		}
	})
}

func BenchmarkLoad(b *testing.B) {
	for b.Loop() {
		if _, err := Load(File{"own.yaml", []byte(own)}); err != nil {
			b.Fatal(err)
		}
	}
}
