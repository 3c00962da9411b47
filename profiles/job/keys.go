package job

import (
	"fmt"
	"slices"
	"strings"

	"trammel/geom/unit"
	"trammel/profiles/strict"
)

// Setting is a word of the job with its place, read further by those who know
// what it means. Text is empty where the job does not say.
type Setting struct {
	Text  string
	Where string // file:line:column, or the flag that said it
}

func first(settings ...Setting) Setting {
	i := slices.IndexFunc(settings, func(s Setting) bool { return s.Text != "" })
	if i < 0 {
		return Setting{}
	}
	return settings[i]
}

// key is a word of a file with how it is read into a T and, where it is written back,
// what it says then: see keyed.
type key[T any] struct {
	name string
	read func(to *T, v strict.Value) error
	says func(from T) any
}

// word is a key whose text is kept as it stands.
func word[T any](name string, of func(*T) *Setting) key[T] {
	return key[T]{name, func(to *T, v strict.Value) (err error) { *of(to), err = setting(v, name); return err },
		func(from T) any { return of(&from).Text }}
}

func setting(v strict.Value, what string) (Setting, error) {
	text, err := v.Text(what)
	return Setting{text, v.Where()}, err
}

// readKeys reads the keys of a map, which messages call what.
func readKeys[T any](to *T, v strict.Value, what string, keys []key[T]) error {
	var names []string
	for _, k := range keys {
		names = append(names, k.name)
	}
	fields, err := v.Fields(what, names...)
	if err != nil {
		return err
	}
	for _, f := range fields {
		if err := keys[slices.Index(names, f.Key)].read(to, f.Value); err != nil {
			return err
		}
	}
	return nil
}

func parse[V any](v strict.Value, key string, to *V, read func(string) (V, error)) error {
	text, err := v.Text(key)
	if err != nil {
		return err
	}
	*to, err = read(text)
	return inValue(v, key, err)
}

// inValue gives a fault the place of a value.
func inValue(v strict.Value, key string, err error) error {
	if bad, ok := err.(*unit.Fault); ok {
		return v.Fault(key+": "+bad.What, bad.Hint)
	}
	return err
}

// list is a key with several values, or with one text for all of them.
type list[V any] struct {
	key, item  string // what messages call it and one of its values
	kind, form string // of values, and how they are written; empty: the fault of the text says enough
	notText    string // what is wrong with an item that is no text; empty: the fault of the text says it
	whole      func(text, where string) ([]V, error)
	one        func(text, where string) (V, error)
}

func (l list[V]) read(v strict.Value) (all []V, err error) {
	items, ok := v.Items()
	if !ok {
		text, err := v.Text(l.key)
		if err != nil && l.kind != "" {
			err = v.Fault(l.key+" is not a list of "+l.kind, l.form)
		}
		if err != nil {
			return nil, err
		}
		all, err := l.whole(text, v.Where())
		return all, inValue(v, l.key, err)
	}
	for _, item := range items {
		text, err := item.Text(l.item)
		if err != nil && l.notText != "" {
			err = item.Fault(l.notText, l.form)
		}
		if err != nil {
			return nil, err
		}
		one, err := l.one(text, item.Where())
		if err != nil {
			return nil, inValue(item, l.key, err)
		}
		all = append(all, one)
	}
	return all, nil
}

// tokens are a list of words with a grammar of their own, which is left to those who
// know the unit of a bare number.
type tokens struct {
	key, example string // of one of them
	kind, item   string // what messages call all of them and one
	notList      string
	empty        string // what is wrong with a list of nothing
	most         int
	marks        []string // one of which each token holds
	unmarked     string   // what is wrong without one
	write        string   // what to do then; empty: it is refused only where it may be a decimal comma's end
	braces       bool     // they may stand in braces as well; they are never keys with values: names must not be folded
	colon        func(keys []string) (what, hint string)
}

func (t tokens) read(v strict.Value) (all []Setting, err error) {
	items, ok := v.Items()
	if _, braces := v.Keys(); braces && t.braces {
		fields, err := v.Fields(t.key)
		if err != nil {
			return nil, err
		}
		for _, f := range fields {
			if !f.Value.Blank() {
				return nil, f.At.Fault(t.colon([]string{f.Key}))
			}
			items = append(items, f.At)
		}
		ok = true
	}
	switch {
	case !ok:
		return nil, v.Fault(t.key+t.notList, t.key+": ["+t.example+"]")
	case len(items) == 0:
		return nil, v.Fault(t.empty, t.key+": ["+t.example+"]")
	case len(items) > t.most:
		return nil, items[t.most].Fault(fmt.Sprintf("more than %d %s", t.most, t.kind), "")
	}
	for _, item := range items {
		if keys, ok := item.Keys(); ok {
			return nil, item.Fault(t.colon(keys))
		}
		one, err := setting(item, t.item)
		if err != nil {
			return nil, err
		}
		hint, short := t.write, strict.Shorten(one.Text)
		if n := len(all); n > 0 && one.Text[0] >= '0' && one.Text[0] <= '9' {
			hint = fmt.Sprintf(`a comma parts the items of a list: for a decimal comma quote the whole, "%s,%s"`, strict.Shorten(all[n-1].Text), short)
		}
		if hint != "" && !slices.ContainsFunc(t.marks, func(m string) bool { return strings.Contains(one.Text, m) }) {
			return nil, item.Fault(fmt.Sprintf("%q %s", short, t.unmarked), hint)
		}
		all = append(all, one)
	}
	return all, nil
}
