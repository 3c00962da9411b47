package profiles

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
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

var profileName = regexp.MustCompile(`^[A-Za-z][A-Za-z0-9-]{0,39}$`)

// check tries every key and value of a file, notes where each was written, and
// returns them as texts: by kind, by id, by key.
func (s *Set) check(file string, root strict.Value) (texts map[string]any, err error) {
	top := []string{"defaults"}
	for _, k := range kinds {
		top = append(top, k.name)
	}
	fields, err := root.Fields("the profiles", top...)
	if err != nil {
		return nil, err
	}
	texts = map[string]any{}
	for _, f := range fields {
		if f.Key == "defaults" {
			texts[f.Key], err = s.checkDefaults(file, f.Value)
		} else {
			texts[f.Key], err = s.checkKind(file, f.Key, f.Value)
		}
		if err != nil {
			return nil, err
		}
	}
	return texts, nil
}

func (s *Set) checkDefaults(file string, v strict.Value) (texts map[string]any, err error) {
	fields, err := v.Fields("defaults", defaultKeys...)
	texts = map[string]any{}
	for _, f := range fields {
		if texts[f.Key], err = f.Value.Written("defaults." + f.Key); err != nil {
			return nil, err
		}
		s.note(file, f.Value, path("defaults", f.Key))
	}
	return texts, err
}

func (s *Set) checkKind(file, kind string, v strict.Value) (texts map[string]any, err error) {
	profiles, err := v.Fields(kind)
	if err != nil {
		return nil, err
	}
	texts = map[string]any{}
	here := map[string]string{}
	for _, p := range profiles {
		id := id(p.Key)
		switch {
		case !profileName.MatchString(p.Key):
			return nil, p.At.Fault(fmt.Sprintf("%q cannot be a name in %s", strict.Shorten(p.Key), kind), "begin with a letter; go on with letters, digits and hyphens")
		case here[id] != "":
			return nil, p.At.Fault(fmt.Sprintf("%q and %q are the same name", here[id], p.Key), "capital and small letters count alike")
		}
		here[id] = p.Key
		if s.names[path(kind, id)] == "" {
			s.names[path(kind, id)] = p.Key
			s.order = append(s.order, path(kind, id))
		}
		if texts[id], err = s.checkProfile(file, kind, p); err != nil {
			return nil, err
		}
	}
	return texts, nil
}

func (s *Set) checkProfile(file, kind string, p strict.Field) (texts map[string]any, err error) {
	keys := keysOf(kind)
	fields, err := p.Value.Fields(kind+"."+p.Key, names(keys)...)
	if err != nil {
		return nil, err
	}
	texts = map[string]any{}
	for _, f := range fields {
		if texts[f.Key], err = valueOf(strings.Join([]string{kind, p.Key, f.Key}, "."), f); err != nil {
			return nil, err
		}
		s.note(file, f.Value, path(kind, id(p.Key), f.Key))
	}
	if kind == "papers" {
		for _, k := range keys {
			if s.from[path(kind, id(p.Key), k.name)] == "" {
				return nil, p.At.Fault("papers."+p.Key+" has no "+k.name, "write width and height")
			}
		}
	}
	return texts, nil
}

// valueOf is the value of a key as text, tried; what names it in messages.
func valueOf(what string, f strict.Field) (string, error) {
	values := []strict.Value{f.Value}
	if f.Key == "show" {
		items, ok := f.Value.Items()
		if !ok {
			return "", f.Value.Fault(what+" is not a list", "write show: ["+strings.Join(Shown(), ", ")+"], or fewer of them")
		}
		values = items
	}
	words := make([]string, len(values))
	for i, v := range values {
		text, err := v.Written(what)
		if err != nil {
			return "", err
		}
		if err := try(f.Key, text); err != nil {
			// The reader names its token in Where; here the key is the better name.
			return "", v.Fault(what+": "+err.What, err.Hint)
		}
		words[i] = text
	}
	return strings.Join(words, " "), nil
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

func (s *Set) note(file string, v strict.Value, path string) {
	s.from[path], s.at[path] = file, file
	if file != BuiltIn {
		s.from[path], s.at[path] = fmt.Sprintf("%s:%d", file, v.Line()), v.Where()
	}
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

// exact is a length that is the same when it is read again.
func exact(l unit.Length) string { return strconv.FormatFloat(l.MM(), 'f', -1, 64) + " mm" }

func oneOf(text string, known []string) error {
	if slices.Contains(known, text) {
		return nil
	}
	return &unit.Fault{What: fmt.Sprintf("%q is not known", strict.Shorten(text)), Hint: strict.Suggest(text, known)}
}
