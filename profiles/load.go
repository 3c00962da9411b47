package profiles

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"trammel/profiles/strict"
)

// Load reads the embedded profiles and then the files, each over those before.
// The errors are *unit.Fault with file, line and column.
//
// What YAML makes of a value (a number, a date, a truth) never reaches it: each
// value is the text that was written, as the tree with places has it.
func Load(files ...File) (Set, error) {
	s := Set{values: map[string]value{}, names: map[string]string{}}
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
		if i := slices.Index(top, f.Key); i == 0 {
			err = s.readDefaults(file, f.Value)
		} else {
			err = s.readKind(file, kinds[i-1], f.Value)
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
		kept := written(file, f.Value, text)
		kept.at += ": defaults." + f.Key
		s.values[path("defaults", f.Key)] = kept
	}
	return err
}

func (s *Set) readKind(file string, k kind, v strict.Value) error {
	profiles, err := v.Fields(k.name)
	if err != nil {
		return err
	}
	here := map[string]string{}
	for _, p := range profiles {
		id := id(p.Key)
		switch {
		case !profileName.MatchString(p.Key):
			return p.At.Fault(fmt.Sprintf("%q cannot be a name in %s", strict.Shorten(p.Key), k.name), "begin with a letter; go on with letters, digits and hyphens")
		case here[id] != "":
			return p.At.Fault(fmt.Sprintf("%q and %q are the same name", here[id], p.Key), "capital and small letters count alike")
		}
		here[id] = p.Key
		if at := path(k.name, id); s.names[at] == "" {
			s.names[at] = p.Key
			s.order = append(s.order, at)
		}
		if err := s.readProfile(file, k, p); err != nil {
			return err
		}
	}
	return nil
}

func (s *Set) readProfile(file string, k kind, p strict.Field) error {
	name := k.name + "." + p.Key
	fields, err := p.Value.Fields(name, k.keys...)
	if err != nil {
		return err
	}
	for _, f := range fields {
		text, err := valueOf(k, name+"."+f.Key, f)
		if err != nil {
			return err
		}
		s.values[path(k.name, id(p.Key), f.Key)] = written(file, f.Value, text)
	}
	if k.name == papers.name {
		for _, key := range k.keys {
			if _, ok := s.values[path(k.name, id(p.Key), key)]; !ok {
				return p.At.Fault(name+" has no "+key, "write width and height")
			}
		}
	}
	return nil
}

// valueOf is the value of a key as text, tried; what names it in messages.
func valueOf(k kind, what string, f strict.Field) (string, error) {
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
		if err := k.try(f.Key, text); err != nil {
			// The reader names its token in Where; here the key is the better name.
			bad := faultOf(err)
			return "", v.Fault(what+": "+bad.What, bad.Hint)
		}
		words[i] = text
	}
	return strings.Join(words, " "), nil
}

// written is the text of a value and where it was written.
func written(file string, v strict.Value, text string) value {
	if file == BuiltIn {
		return value{text, file, file}
	}
	return value{text, fmt.Sprintf("%s:%d", file, v.Line()), v.Where()}
}
