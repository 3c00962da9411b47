package strict

import (
	"bytes"
	"encoding/json"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"go.yaml.in/yaml/v3"

	"trammel/geom/unit"
)

// Field is one key of a map and its value.
type Field struct {
	Key   string
	At    Value // the key itself, for its place
	Value Value
}

// Where is file:line:column of the value itself, also of one within a list.
func (v Value) Where() string {
	return v.file.at(v.node.Line, v.node.Column)
}

// Line of the value in its file, from 1.
func (v Value) Line() int { return v.node.Line }

// Fault is an error at the value's place.
func (v Value) Fault(what, hint string) *unit.Fault {
	return &unit.Fault{Where: v.Where(), What: what, Hint: hint}
}

// kind names what the value is, for messages.
func (v Value) kind() string {
	switch v.node.Kind {
	case yaml.MappingNode:
		return "a map"
	case yaml.SequenceNode:
		return "a list"
	}
	if v.isNull() {
		return "nothing"
	}
	return strconv.Quote(Shorten(v.node.Value))
}

// Fields are the keys of a map in the order written, all of them known (where
// known names any) and none twice. What names the map in messages: "the job".
func (v Value) Fields(what string, known ...string) ([]Field, error) {
	n := v.node
	if n.Kind != yaml.MappingNode {
		hint := "write key: value, one a line"
		if len(known) > 0 {
			hint += "; keys: " + strings.Join(known, ", ")
		}
		return nil, v.Fault(what+" is not keys with values but "+v.kind(), hint)
	}
	seen := map[string]int{}
	fields := make([]Field, 0, len(n.Content)/2)
	for i := 0; i < len(n.Content); i += 2 {
		key := Value{v.file, n.Content[i]}
		name := unit.Composed(key.node.Value)
		if key.node.Kind != yaml.ScalarNode || name == "" {
			return nil, key.Fault("a key of "+what+" is "+key.kind()+", not a word", "")
		}
		if first := seen[name]; first > 0 {
			return nil, key.Fault(fmt.Sprintf("key %q is repeated; it stands in line %d already", Shorten(name), first), "")
		}
		seen[name] = key.node.Line
		if len(known) > 0 && !slices.Contains(known, name) {
			return nil, key.Fault(fmt.Sprintf("unknown key %q in %s", Shorten(name), what), Suggest(name, known))
		}
		fields = append(fields, Field{name, key, Value{v.file, n.Content[i+1]}})
	}
	return fields, nil
}

// Take is the value of a key that a program writes, and the map without it, so that
// no person who mistypes a key is told of it.
func (v Value) Take(key string) (taken, rest Value, ok bool) {
	if v.node.Kind != yaml.MappingNode {
		return Value{}, v, false
	}
	n := *v.node
	if n.Content, ok = dropped(n.Content, key); ok {
		taken = Value{v.file, v.node.Content[entry(v.node.Content, key)+1]}
	}
	return taken, Value{v.file, &n}, ok
}

// entry is where a key stands among the keys and values of a map, −1 where it does not.
func entry(content []*yaml.Node, key string) int {
	for i := 0; i+1 < len(content); i += 2 {
		if content[i].Value == key {
			return i
		}
	}
	return -1
}

// dropped is the same without the key and its value.
func dropped(content []*yaml.Node, key string) (rest []*yaml.Node, found bool) {
	i := entry(content, key)
	if i < 0 || key == "" {
		return content, false
	}
	return slices.Delete(slices.Clone(content), i, i+2), true
}

// Items are the values of a list.
func (v Value) Items() ([]Value, bool) {
	if v.node.Kind != yaml.SequenceNode {
		return nil, false
	}
	items := make([]Value, len(v.node.Content))
	for i, c := range v.node.Content {
		items[i] = Value{v.file, c}
	}
	return items, true
}

// Keys are the keys of a map as written, false where the value is no map.
func (v Value) Keys() ([]string, bool) {
	if v.node.Kind != yaml.MappingNode {
		return nil, false
	}
	var keys []string
	for i := 0; i < len(v.node.Content); i += 2 {
		keys = append(keys, v.node.Content[i].Value)
	}
	return keys, true
}

// Text is the value as written, a single line that is not empty, its letters
// composed. YAML's own reading of it (number, date, truth) is passed over, but for
// nothing: null and ~.
func (v Value) Text(what string) (string, error) {
	if v.isNull() {
		return "", v.empty(what)
	}
	return v.Written(what)
}

// Written is Text that takes null and ~ too for the letters that they are.
func (v Value) Written(what string) (string, error) {
	switch {
	case v.node.Kind != yaml.ScalarNode:
		return "", v.Fault(what+" is "+v.kind()+", not text", "")
	case strings.TrimSpace(v.node.Value) == "":
		return "", v.empty(what)
	case strings.ContainsAny(v.node.Value, "\n\r"):
		return "", v.Fault(what+" is longer than one line", "")
	case strings.ContainsFunc(v.node.Value, unicode.IsControl):
		return "", v.Fault(what+" holds a character that cannot be printed", "")
	}
	return unit.Composed(strings.TrimSpace(v.node.Value)), nil
}

func (v Value) empty(what string) *unit.Fault {
	return v.Fault(what+" is empty", "take the line out, or say what it is")
}

// Blank says whether nothing is written in the value's place.
func (v Value) Blank() bool {
	return v.isNull() || v.node.Kind == yaml.ScalarNode && strings.TrimSpace(v.node.Value) == ""
}

var digits = regexp.MustCompile(`^(0|[1-9][0-9]{0,8})$`)

// Integer is a whole number from lo to hi, in plain digits.
func (v Value) Integer(what string, lo, hi int) (int, error) {
	if v.node.Kind == yaml.ScalarNode && digits.MatchString(v.node.Value) {
		if n, err := strconv.Atoi(v.node.Value); err == nil && n >= lo && n <= hi {
			return n, nil
		}
	}
	return 0, v.Fault(fmt.Sprintf("%s is %s", what, v.kind()), fmt.Sprintf("write a whole number from %d to %d", lo, hi))
}

// Shorten cuts words that would not fit a line of a message, and takes out of
// them what a terminal would obey instead of show.
func Shorten(s string) string {
	return unit.Cut(strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || !unicode.IsPrint(r) && !unicode.IsSpace(r) {
			return '\uFFFD'
		}
		return r
	}, s), 60)
}

// Value is one value of a file, with its place.
type Value struct {
	file source
	node *yaml.Node
}

// source is a file, perhaps one that another file carries.
type source struct{ name, within string }

// String is job.yaml, or gusset.pdf (job.yaml).
func (s source) String() string {
	if s.within == "" {
		return s.name
	}
	return s.within + " (" + s.name + ")"
}

// at is job.yaml:7:12, or gusset.pdf (job.yaml:7:12).
func (s source) at(line, column int) string {
	s.name = fmt.Sprintf("%s:%d:%d", s.name, line, column)
	return s.String()
}

func at(file source, line, column int, what, hint string) *unit.Fault {
	return &unit.Fault{Where: file.at(line, column), What: what, Hint: hint}
}

func (v Value) isNull() bool { return v.node.Kind == yaml.ScalarNode && v.node.Tag == "!!null" }

// JSON is the value as JSON, every scalar as the text that was written.
func (v Value) JSON() []byte { return appendJSON(nil, v.node) }

func appendJSON(b []byte, n *yaml.Node) []byte {
	switch n.Kind {
	case yaml.MappingNode:
		b = append(b, '{')
		for i := 0; i+1 < len(n.Content); i += 2 {
			if i > 0 {
				b = append(b, ',')
			}
			b = append(appendJSON(b, n.Content[i]), ':')
			b = appendJSON(b, n.Content[i+1])
		}
		return append(b, '}')
	case yaml.SequenceNode:
		b = append(b, '[')
		for i, item := range n.Content {
			if i > 0 {
				b = append(b, ',')
			}
			b = appendJSON(b, item)
		}
		return append(b, ']')
	}
	if n.Tag == "!!null" {
		return append(b, "null"...)
	}
	var text bytes.Buffer
	e := json.NewEncoder(&text)
	e.SetEscapeHTML(false)
	_ = e.Encode(n.Value) // text can always be written
	return append(b, bytes.TrimSuffix(text.Bytes(), []byte("\n"))...)
}
