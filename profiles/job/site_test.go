package job

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"trammel/geom"
	"trammel/geom/pegging"
	"trammel/geom/tape"
	"trammel/geom/unit"
	"trammel/profiles"
)

// onSite opens a triangle with words about its site: "key: text" of a job, and
// "--key text" of flags.
func onSite(t *testing.T, said ...string) (Merged, error) {
	t.Helper()
	set, err := profiles.Load()
	if err != nil {
		t.Fatal(err)
	}
	j := Job{Pieces: []Piece{{Measure: []Setting{{Text: "AB=8m"}, {Text: "BC=6m"}, {Text: "CA=5m"}}, Quantity: 1}}}
	o := Overrides{Site: map[string]Setting{}}
	j.Site = map[string]Setting{}
	for i, s := range said {
		switch {
		case strings.HasPrefix(s, "--unit "):
			o.Unit = Setting{Text: s[len("--unit "):], Where: "--unit"}
		case strings.HasPrefix(s, "--trade "):
			o.Trade.Name = Setting{Text: s[len("--trade "):], Where: "--trade"}
		case strings.HasPrefix(s, "--"):
			flag, text, _ := strings.Cut(s, " ")
			o.Site[flag[2:]] = Setting{Text: text, Where: flag}
		default:
			key, text, _ := strings.Cut(s, ": ")
			j.Site[key] = Setting{Text: text, Where: fmt.Sprintf("job.yaml:%d:9", i+3)}
		}
	}
	return Merge(j, o, set, nil, nil)
}

// The tape corrections of handbooks of surveying, told as a job tells them: the
// same rows as in geom/tape, read there and computed again.
func TestTapeAsText(t *testing.T) {
	feet := func(l unit.Length, n int) string { return fmt.Sprintf("%.*f", n, float64(l/unit.Foot)) }
	for _, c := range []struct {
		said    []string
		length  string // in feet
		laidOut bool
		want    string
		of      func(l, other unit.Length, k tape.Corrections) string
	}{
		{[]string{"tape_temperature: 68F", "temperature: 22F", "expansion: 6.5e-6/F"}, "368.50ft", false, "-0.1102",
			func(_, _ unit.Length, k tape.Corrections) string { return feet(k.Sum(), 4) }},
		{[]string{"weight: 2.8lb/100ft", "pull: 12lb", "tape_pull: 12lb", "span: 100ft"}, "348.75ft", false, "-0.7068",
			func(_, _ unit.Length, k tape.Corrections) string { return feet(k.Sum(), 4) }},
		{[]string{"tape_says: 100ft", "tape_is: 100.02ft"}, "500.00ft", true, "-0.10",
			func(l, reading unit.Length, _ tape.Corrections) string { return feet(reading-l, 2) }},
		{[]string{"tape_says: 100ft", "tape_is: 100.010 ft", "tape_temperature: 68 °F", "tape_pull: 12 lb", "section: 0.0075in2", "modulus: 29e6psi",
			"temperature: 95F", "pull: 20lb", "expansion: 6.45e-6/F"}, "529.81ft", true, "529.6453",
			func(_, reading unit.Length, _ tape.Corrections) string { return feet(reading, 4) }},
	} {
		w, err := onSite(t, c.said...)
		if err != nil {
			t.Errorf("%q: %v", c.said, err)
			continue
		}
		l, err := unit.ParseSetting(c.length, unit.MM, 0, unit.Longest)
		if err != nil || w.Site.Conditions == nil {
			t.Fatal(err, w.Site.Conditions)
		}
		correct := w.Site.Standard.Measured
		if c.laidOut {
			correct = w.Site.Standard.Reading
		}
		other, k, err := correct(l, *w.Site.Conditions)
		if got := c.of(l, other, k); err != nil || got != c.want {
			t.Errorf("%q over %s: %s, %v, want %s ft", c.said, c.length, got, err, c.want)
		}
	}
}

// A flag wins over the job, the job over the trade; what nobody says is the trade's.
func TestSite(t *testing.T) {
	three := []pegging.Method{pegging.TwoArcs, pegging.OffsetSquare, pegging.AngleDistance}
	for _, c := range []struct {
		said []string
		want Site
	}{
		{nil, Site{Tools: tape.Tools{Reading: 1, Instrument: tape.Protractor}, Methods: three[:2], Bearing: unit.Turn / 4, Standard: steel}},
		{[]string{"--trade teacher"}, Site{Tools: tape.Tools{Tape: tape.Tape{Class: tape.ClassIII}, Reading: 1, Instrument: tape.Protractor}, Methods: three[:2], Bearing: unit.Turn / 4, Standard: steel}},
		{[]string{"--trade teacher", "tape: II", "--tape I", "hook: yes", "reading: 0,5 mm", "instrument: theodolite", "angle: 7\""},
			Site{Tools: tape.Tools{Tape: tape.Tape{Class: tape.ClassI, Hook: true}, Reading: 0.5, Instrument: tape.Instrument{Name: "theodolite", Angle: 7 * unit.Degree / 3600, Centring: 2}}, Methods: three, Bearing: unit.Turn / 4, Standard: steel}},
		{[]string{"--instrument none", "angle: 20'"}, Site{Tools: tape.Tools{Reading: 1, Instrument: tape.Instrument{Name: "protractor", Angle: 20 * unit.Degree / 60, Centring: 1}}, Methods: three[:1], Bearing: unit.Turn / 4, Standard: steel}},
		{[]string{"--instrument protractor", "permitted: 1.5 mm", "every: 1 m", "boards: 800", "origin: 1000,2000", "bearing: 35deg", "north: up"},
			Site{Tools: tape.Tools{Reading: 1, Instrument: tape.Protractor}, Methods: three, Permitted: 1.5, Every: 1000, Boards: 800, Origin: geom.Point{X: 1000, Y: 2000}, Bearing: 35 * unit.Degree, Placed: true, NorthUp: true, Standard: steel}},
		{[]string{"--unit m", "every: 2", "permitted: 2", "origin: -1000,5; 2410000 m"},
			Site{Tools: tape.Tools{Reading: 1, Instrument: tape.Protractor}, Methods: three[:2], Permitted: 2, Every: 2000, Origin: geom.Point{X: -1000500, Y: 2.41e9}, Bearing: unit.Turn / 4, Placed: true, Standard: steel}},
		{[]string{"--unit ft"}, Site{Tools: tape.Tools{Reading: 1, Instrument: tape.Protractor, Feet: true}, Methods: three[:2], Bearing: unit.Turn / 4, Standard: steel}},
	} {
		w, err := onSite(t, c.said...)
		got := w.Site
		got.From = nil
		if d := got.Tools.Instrument.Angle - c.want.Tools.Instrument.Angle; math.Abs(float64(d)) < 1e-15 {
			got.Tools.Instrument.Angle = c.want.Tools.Instrument.Angle
		}
		if d := got.Bearing - c.want.Bearing; math.Abs(float64(d)) < 1e-15 {
			got.Bearing = c.want.Bearing
		}
		if err != nil || fmt.Sprintf("%+v", got) != fmt.Sprintf("%+v", c.want) {
			t.Errorf("%q: %v\n got %+v\nwant %+v", c.said, err, got, c.want)
		}
	}
	w, err := onSite(t, "tape: II", "--pull 60N", "section: 2.6mm2")
	if err != nil {
		t.Fatal(err)
	}
	if c := w.Site.Conditions; c == nil || c.Pull != 60 || c.Temperature != 20 || w.Site.Standard.Modulus != tape.SteelModulus {
		t.Errorf("%+v, %+v", c, w.Site.Standard)
	}
	if w.Site.From["tape"] != "job.yaml:3:9" || w.Site.From["pull"] != "--pull" || w.Site.From["hook"] != profiles.BuiltIn {
		t.Errorf("from %q", w.Site.From)
	}
}

func TestWrongSites(t *testing.T) {
	const heat = "write 31C or 88F: a number alone could be either"
	const place = "write easting,northing, such as 1000,2000; with decimal commas 1000,5; 2000,5"
	for _, c := range []struct {
		said       []string
		line, hint string
	}{
		{[]string{"tape: IV"}, `job.yaml:3:9: tape: "IV" is not a class of tapes`, "write I, II or III, as the tape itself says near its zero; II is the usual one"},
		{[]string{"--tape IV"}, `--tape: tape: "IV" is not a class of tapes`, "write I, II or III, as the tape itself says near its zero; II is the usual one"},
		{[]string{"hook: maybe"}, `job.yaml:3:9: hook: "maybe" is not known here`, "known: yes, no"},
		{[]string{"instrument: theodolit"}, `job.yaml:3:9: instrument: "theodolit" is not known here`, `did you mean "theodolite"?`},
		{[]string{"angle: 30mm"}, `job.yaml:3:9: angle: "30mm" is not an angle`, `what 95 of 100 angles keep: write 30', 20" or 0.1deg`},
		{[]string{"angle: 30deg"}, `job.yaml:3:9: angle: "30deg" is not between 1" and 5°, what instruments keep`, `write 30', 20" or 0.1deg`},
		{[]string{"reading: 0"}, `job.yaml:3:9: reading: "0" is no length at all`, "the least is 0.1 mm"},
		{[]string{"--unit m", "reading: 1"}, `job.yaml:4:9: reading: "1" is more than 50 mm, the most that is read`, "a bare number counts m here; another unit is written behind it, such as 2.4m"},
		{[]string{"--permitted much"}, `--permitted: permitted: "much" is not a length`, "lengths are written 2400, 2400mm, 240cm, 2.4m, 94.5in, 7ft 10 1/2in or 7'-10 1/2\""},
		{[]string{"every: 1"}, `job.yaml:3:9: every: "1" is less than 10 mm, the least that is read`, "a bare number counts mm here; another unit is written behind it, such as 2.4m"},
		{[]string{"--boards -1m"}, `--boards: boards: "-1m" is negative`, "write a length without a sign"},
		{[]string{"origin: 1000"}, `job.yaml:3:9: origin: "1000" is not a place`, place},
		{[]string{"origin: 1000,5,2000,5"}, `job.yaml:3:9: origin: "1000,5,2000,5" is not a place`, place},
		{[]string{"origin: 1000,x"}, `job.yaml:3:9: origin: "x" is not a length`, "lengths are written 2400, 2400mm, 240cm, 2.4m, 94.5in, 7ft 10 1/2in or 7'-10 1/2\""},
		{[]string{"bearing: 360"}, `job.yaml:3:9: bearing: "360" is not between 0° and 360°`, "a bearing counts clockwise from north: 0 north, 90 east, 180 south, 270 west"},
		{[]string{"north: up"}, `job.yaml:3:9: north: nothing says where north is`, "say how the baseline lies as well: bearing: 35deg"},
		{[]string{"bearing: 35deg", "north: left"}, `job.yaml:4:9: north: "left" is not known here`, "known: up"},
		{[]string{"--bearing -5"}, `--bearing: bearing: "-5" is not between 0° and 360°`, "a bearing counts clockwise from north: 0 north, 90 east, 180 south, 270 west"},
		{[]string{"temperature: 31"}, `job.yaml:3:9: temperature: "31" is not a temperature`, heat},
		{[]string{"--temperature 131F", "tape: I"}, "", ""},
		{[]string{"--temperature 95C"}, `--temperature: temperature: "95C" is not between -60 °C and 80 °C, where every temperature lies`, heat},
		{[]string{"pull: 80N"}, "job.yaml:3:9: pull: the tape is true at 50 N and stretches otherwise, and nothing says how thick it is",
			"add under site: section: 4.2mm2 or 0.0075in2 (width times thickness); or tape_pull, where it is true at another pull"},
		{[]string{"span: 10m"}, "job.yaml:3:9: span: a tape that hangs sags, and nothing says what it weighs", "add under site: weight: 0.18N/m, 18g/m or 2.8lb/100ft"},
		{[]string{"weight: 0.18N/m"}, "job.yaml:3:9: weight: weight makes a tape sag that hangs, and nothing says how far apart its supports are", "add span, such as 10 m, or leave weight out"},
		{[]string{"tape_says: 30m"}, "job.yaml:3:9: tape_says: nothing says how long the tape truly is", "add tape_is, from its certificate, or leave tape_says out"},
		{[]string{"tape_is: 30.004m"}, "job.yaml:3:9: tape_is: nothing says what the tape reads over that length", "add tape_says, such as 30 m, or leave tape_is out"},
		{[]string{"tape_says: 30m", "tape_is: 100ft"}, "job.yaml:4:9: tape_is: it is off by more than one in a hundred", "do not use it; or the two lengths are not in one unit"},
		{[]string{"weight: 5N/m", "--span 50m"}, "--span: span: the tape hangs too deep: it weighs more between two supports than it is pulled with", "pull harder, or support it more often"},
	} {
		_, err := onSite(t, c.said...)
		if c.line == "" {
			if err != nil {
				t.Errorf("%q: %v", c.said, err)
			}
			continue
		}
		var f *unit.Fault
		if !errors.As(err, &f) || f.Error() != c.line || f.Hint != c.hint {
			t.Errorf("%q\n got %v\nwant %s\n     %s", c.said, err, c.line, c.hint)
			if f != nil {
				t.Log(f.Hint)
			}
		}
	}
}
