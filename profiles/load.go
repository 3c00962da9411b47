package profiles

import (
	"bytes"
	"fmt"
	"regexp"
	"strings"

	"trammel/profiles/strict"
)

// Load reads the embedded profiles and then the files, each over those before.
// The errors are *unit.Fault with file, line and column.
//
// What YAML makes of a value (a number, a date, a truth) never reaches it: each
// value is the text that was written, as the tree with places has it.
func Load(files ...File) (Set, error) {
	s := Set{values: map[string]string{}, from: map[string]string{}, at: map[string]string{}, names: map[string]string{}}
	for i, f := range append([]File{{BuiltIn, defaults}}, files...) {
		if i > 0 && len(bytes.TrimSpace(f.Data)) == 0 {
			continue // an empty file of one's own says nothing
		}
		root, err := strict.Parse(f.Name, f.Data)
		if err != nil {
			return s, err
		}
		if err := s.read(f.Name, root); err != nil {
			return s, err
		}
	}
	return s, nil
}

var profileName = regexp.MustCompile(`^[A-Za-z][A-Za-z0-9-]{0,39}$`)

// read tries every key and value of a file, and keeps each with where it was written.
func (s *Set) read(file string, root strict.Value) error {
	top := []string{"defaults"}
	for _, k := range kinds {
		top = append(top, k.name)
	}
	fields, err := root.Fields("the profiles", top...)
	if err != nil {
		return err
	}
	for _, f := range fields {
		if f.Key == "defaults" {
			err = s.readDefaults(file, f.Value)
		} else {
			err = s.readKind(file, f.Key, f.Value)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

func (s *Set) readDefaults(file string, v strict.Value) error {
	fields, err := v.Fields("defaults", defaultKeys...)
	for _, f := range fields {
		text, err := f.Value.Written("defaults." + f.Key)
		if err != nil {
			return err
		}
		s.keep(file, f.Value, text, "defaults", f.Key)
		s.at[path("defaults", f.Key)] += ": defaults." + f.Key
	}
	return err
}

func (s *Set) readKind(file, kind string, v strict.Value) error {
	profiles, err := v.Fields(kind)
	if err != nil {
		return err
	}
	here := map[string]string{}
	for _, p := range profiles {
		id := id(p.Key)
		switch {
		case !profileName.MatchString(p.Key):
			return p.At.Fault(fmt.Sprintf("%q cannot be a name in %s", strict.Shorten(p.Key), kind), "begin with a letter; go on with letters, digits and hyphens")
		case here[id] != "":
			return p.At.Fault(fmt.Sprintf("%q and %q are the same name", here[id], p.Key), "capital and small letters count alike")
		}
		here[id] = p.Key
		if s.names[path(kind, id)] == "" {
			s.names[path(kind, id)] = p.Key
			s.order = append(s.order, path(kind, id))
		}
		if err := s.readProfile(file, kind, p); err != nil {
			return err
		}
	}
	return nil
}

func (s *Set) readProfile(file, kind string, p strict.Field) error {
	keys := keysOf(kind)
	fields, err := p.Value.Fields(kind+"."+p.Key, names(keys)...)
	if err != nil {
		return err
	}
	for _, f := range fields {
		text, err := valueOf(strings.Join([]string{kind, p.Key, f.Key}, "."), f)
		if err != nil {
			return err
		}
		s.keep(file, f.Value, text, kind, id(p.Key), f.Key)
	}
	if kind == "papers" {
		for _, k := range keys {
			if s.from[path(kind, id(p.Key), k.name)] == "" {
				return p.At.Fault("papers."+p.Key+" has no "+k.name, "write width and height")
			}
		}
	}
	return nil
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

// keep is the text of a value over the one before it, and where it was written.
func (s *Set) keep(file string, v strict.Value, text string, words ...string) {
	p := path(words...)
	s.values[p], s.from[p], s.at[p] = text, file, file
	if file != BuiltIn {
		s.from[p], s.at[p] = fmt.Sprintf("%s:%d", file, v.Line()), v.Where()
	}
}
