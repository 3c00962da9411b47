package profiles

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"trammel/geom/unit"
	"trammel/profiles/strict"
)

// key is one key of a profile and how its value is tried.
type key struct {
	name string
	try  func(text string) error
}

// Limits of what a profile may say, in mm.
const (
	leastPaper unit.Length = 50
	mostPaper  unit.Length = 5080 // 14 400 units of PDF, the largest side that ISO 32000-1 annex C allows
	mostMargin unit.Length = 500
)

// kinds are the maps of a file and the keys of each profile in them.
var kinds = []struct {
	name string
	keys []key
}{
	{"papers", []key{{"width", between(leastPaper, mostPaper)}, {"height", between(leastPaper, mostPaper)}}},
	{"printers", []key{{"left", margin}, {"top", margin}, {"right", margin}, {"bottom", margin}, {"overlap", margin}}},
	{"trades", []key{
		{"unit", func(t string) error { _, err := unit.ParseUnit(t); return err }},
		{"fraction", func(t string) error { _, err := ParseFraction(t); return err }},
		{"angles", func(t string) error { _, err := ParseAngles(t); return err }},
		{"lettering", between(leastLettering, mostLettering)},
		{"show", func(t string) error { return oneOf(t, Shown()) }},
		{"compass", between(10, 100*unit.Metre)},
		{"protractor", func(t string) error { _, err := parseStep(t); return err }},
		{"saw", func(t string) error { _, err := parseSaw(t); return err }},
		{"tape", func(t string) error { return oneOf(t, Classes()) }},
		{"hook", func(t string) error { return oneOf(t, []string{"yes", "no"}) }},
		{"instrument", func(t string) error { return oneOf(t, Instruments()) }},
		{"reading", between(leastReading, mostReading)},
	}},
}

// Lettering heights: ISO 3098 begins at 1.8; figures under 2.5 are not read at a
// bench, and over 20 they leave no room.
const leastLettering, mostLettering unit.Length = 2.5, 20

// Nobody reads a tape to less than a tenth of a millimetre, and who keeps no better
// than 50 mm does not measure.
const leastReading, mostReading unit.Length = 0.1, 50

var defaultKeys = []string{"paper", "printer", "trade"}

func keysOf(kind string) []key {
	for _, k := range kinds {
		if k.name == kind {
			return k.keys
		}
	}
	return nil
}

func names(keys []key) []string {
	var list []string
	for _, k := range keys {
		list = append(list, k.name)
	}
	return list
}

// try tries one text for a key, of whatever kind: no two kinds have a key in common.
func try(name, text string) *unit.Fault {
	for _, kind := range kinds {
		for _, k := range kind.keys {
			if k.name != name {
				continue
			}
			if err := k.try(text); err != nil {
				bad := &unit.Fault{What: err.Error()}
				errors.As(err, &bad)
				return bad
			}
		}
	}
	return nil
}

func margin(text string) error { return between(0, mostMargin)(text) }

// between tries a length with both limits allowed. It has its unit: a bare number is
// one thing to who counts millimetres and another to who counts inches.
func between(least, most unit.Length) func(string) error {
	return func(text string) error {
		const any = 1e9 * unit.Metre
		mm, errMM := unit.ParseSetting(text, unit.MM, 0, any)
		in, errIN := unit.ParseSetting(text, unit.IN, 0, any)
		if errMM == nil && errIN == nil && mm != in {
			return &unit.Fault{What: strict.Shorten(text) + " stands without its unit", Hint: fmt.Sprintf("write it with its unit, such as %s mm", strict.Shorten(text))}
		}
		_, err := lengthBetween(text, least, most)
		return err
	}
}

func lengthBetween(text string, least, most unit.Length) (unit.Length, error) {
	return unit.ParseSetting(text, unit.MM, least, most)
}

func oneOf(text string, known []string) error {
	if slices.Contains(known, text) {
		return nil
	}
	return &unit.Fault{What: fmt.Sprintf("%q is not known", strict.Shorten(text)), Hint: strict.Suggest(text, known)}
}

// Shown are the words that show may hold.
func Shown() []string { return []string{"arcs", "heights", "angles", "lengths", "steps", "settings"} }

// Classes are the accuracy classes of tapes (OIML R 35).
func Classes() []string { return []string{"I", "II", "III"} }

// Instruments are what angles are set out with; square is a 3-4-5 triangle of
// tape and string.
func Instruments() []string { return []string{"none", "square", "protractor", "theodolite"} }

// ParseFraction reads the finest fraction of an inch that is written: 1/16 or 16.
// A *unit.Fault has no place yet.
func ParseFraction(text string) (denominator int, err error) {
	for _, d := range []int{8, 16, 32, 64} {
		if t := strings.TrimPrefix(strings.ReplaceAll(text, " ", ""), "1/"); t == fmt.Sprint(d) {
			return d, nil
		}
	}
	return 0, &unit.Fault{What: fmt.Sprintf("%q is not a fraction of an inch", strict.Shorten(text)), Hint: "write 1/8, 1/16, 1/32 or 1/64"}
}

// ParseAngles reads how angles are written: decimal or minutes.
func ParseAngles(text string) (minutes bool, err error) {
	if err := oneOf(text, []string{"decimal", "minutes"}); err != nil {
		return false, err
	}
	return text == "minutes", nil
}

// parseStep reads the step of a protractor, up to 45°.
func parseStep(text string) (unit.Angle, error) { return angleBetween(text, 0.001, 45) }

// parseSaw reads how far a mitre saw turns. The stops of those that are sold lie from
// 45° to 60°; a gauge of a table saw reaches farther.
func parseSaw(text string) (unit.Angle, error) { return angleBetween(text, 15, 80) }

func angleBetween(text string, least, most float64) (unit.Angle, error) {
	r, err := unit.ParseAngle(text)
	if err != nil {
		return 0, err
	}
	degrees, _ := r.Value.Float64()
	if degrees < least || degrees > most {
		return 0, &unit.Fault{What: fmt.Sprintf("%q is not from %g° to %g°", strict.Shorten(text), least, most)}
	}
	return unit.Angle(degrees) * unit.Degree, nil
}

// ParseMargin reads a margin or an overlap, mm where no unit stands; 0 is allowed.
func ParseMargin(text string) (unit.Length, error) {
	return lengthBetween(text, 0, mostMargin)
}
