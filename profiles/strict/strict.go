// Package strict reads YAML (and JSON, its subset) that a person wrote, and
// refuses what that person cannot have meant: unknown and repeated keys, a
// second document, anchors, tags. Every value knows its line and column.
//
// Files, from the top floor to the ground: edit.go, strict.go, guard.go, value.go,
// nearest.go.
package strict

import (
	"bytes"
	"errors"
	"io"
	"strings"

	"go.yaml.in/yaml/v3"

	"regexp"
	"sort"
	"strconv"

	"trammel/geom/unit"
)

// MaxBytes is the largest file that is read: a job of a thousand pieces has
// about a tenth of it.
const MaxBytes = 1_000_000

// Parse reads one document. The errors are *unit.Fault with file:line:column.
func Parse(file string, data []byte) (Value, error) { return parse(source{name: file}, data) }

// ParseWithin is Parse of a file that another one carries; the places say both.
func ParseWithin(within, file string, data []byte) (Value, error) {
	return parse(source{file, within}, data)
}

func parse(file source, data []byte) (Value, error) {
	for _, refuse := range []func(source, []byte) error{notText, tooDeep} {
		if err := refuse(file, data); err != nil {
			return Value{}, err
		}
	}
	dec := yaml.NewDecoder(bytes.NewReader(data))
	var doc, next yaml.Node
	switch err := dec.Decode(&doc); {
	case errors.Is(err, io.EOF):
		return Value{}, at(file, 1, 1, "the file is empty", "")
	case err != nil:
		return Value{}, syntax(file, data, err)
	}
	switch err := dec.Decode(&next); {
	case err == nil:
		return Value{}, at(file, next.Line, next.Column, "a second document begins here", "one file holds one document: take the line --- out, or make two files")
	case !errors.Is(err, io.EOF):
		return Value{}, syntax(file, data, err)
	}
	v := Value{file, doc.Content[0]}
	if v.isNull() {
		return Value{}, at(file, 1, 1, "the file is empty", "")
	}
	return v, v.plain()
}

// hints answer what the YAML reader says in its own words.
var hints = []struct{ part, hint string }{
	{"unknown anchor", "anchors and aliases are not read here: write the value out"},
	{"cannot start any token", "indent with spaces, never with tabs; quote a value that begins with @, ` or %"},
	{"tab character", "indent with spaces, never with tabs"},
	{"mapping values are not allowed", "a value that holds a colon needs quotes; otherwise look at the indentation"},
	{"incompatible YAML", "take the line with %YAML out"},
	{"unknown escape", "write the name without a backslash, or in single quotes"},
	{"did not find expected", "look at the brackets, the quotes and the indentation, there and just above"},
	{"could not find expected ':'", "a key ends with a colon and a space"},
	{"found unexpected end of stream", "a quote or a bracket is never closed"},
}

func syntax(file source, data []byte, err error) error {
	named, said, ok := reading(err)
	if !ok {
		return at(file, 1, 1, "is not YAML", "")
	}
	hint := ""
	for _, h := range hints {
		if strings.Contains(said, h.part) {
			hint = h.hint
			break
		}
	}
	line, column := place(data, named, said)
	return at(file, line, column, "is not YAML: "+Shorten(said), hint)
}

// plain refuses anchors, aliases, tags, merge keys and what nobody sees anywhere below v.
func (v Value) plain() error {
	n := v.node
	switch {
	case n.Kind == yaml.AliasNode:
		return v.Fault("aliases (*"+Shorten(n.Value)+") are not read here", "write the value out")
	case n.Anchor != "":
		return v.Fault("anchors (&"+Shorten(n.Anchor)+") are not read here", "write the value out where it is needed")
	case n.Style&yaml.TaggedStyle != 0:
		return v.Fault("tags ("+Shorten(n.Tag)+") are not read here", "write the plain value")
	case n.Tag == "!!merge":
		return v.Fault("merge keys (<<) are not read here", "write the values out")
	}
	if f := unit.HiddenFault(n.Value); f != nil { // written as \u202e
		return v.Fault(f.What, f.Hint)
	}
	for _, c := range n.Content {
		if err := (Value{v.file, c}).plain(); err != nil {
			return err
		}
	}
	return nil
}

// The YAML reader counts lines from 0 where its parser and not its scanner finds
// the fault, and then names the line where the list or map begins that the fault
// is in. These are the parser's words.
var (
	parsed = regexp.MustCompile(`^did not find expected (key|'-' indicator|<document start>|node content|',' or)`)
	within = regexp.MustCompile(`^did not find expected (key|'-' indicator|<document start>)`)
	alias  = regexp.MustCompile(`^unknown anchor '(.*)' referenced`)
)

// place is the line and column of what the YAML reader says in its own words of
// the line that it names, 0 for none. It knows no column: the line's first letter
// is as near as one can say.
func place(data []byte, named int, said string) (line, column int) {
	lines := bytes.Split(data, []byte("\n"))
	line = named
	if m := alias.FindStringSubmatch(said); m != nil {
		if i := bytes.Index(data, []byte("*"+m[1])); i >= 0 {
			begin := bytes.LastIndexByte(data[:i], '\n') + 1
			return 1 + bytes.Count(data[:i], []byte("\n")), 1 + i - begin
		}
	}
	switch {
	case within.MatchString(said):
		line = shortest(data, lines, named, said)
	case parsed.MatchString(said):
		line = named + 1
	}
	line = min(max(line, 1), len(lines))
	for line > 1 && len(bytes.TrimSpace(lines[line-1])) == 0 {
		line-- // the end of the file, or of a part of it: what lacks an end stands above
	}
	return line, 1 + len(lines[line-1]) - len(bytes.TrimLeft(lines[line-1], " \t"))
}

// shortest is how many lines of the file it takes until the YAML reader finds
// what it finds in the whole: it reads from the top and stops there.
func shortest(data []byte, lines [][]byte, named int, said string) int {
	ends := make([]int, len(lines)+1)
	for i, l := range lines {
		ends[i+1] = min(ends[i]+len(l)+1, len(data))
	}
	return sort.Search(len(lines), func(n int) bool {
		var doc yaml.Node
		dec := yaml.NewDecoder(bytes.NewReader(data[:ends[n]]))
		err := dec.Decode(&doc)
		if err == nil {
			err = dec.Decode(&doc)
		}
		line, words, _ := reading(err)
		return line == named && words == said
	})
}

var errorLine = regexp.MustCompile(`^yaml: (?:line (\d+): )?(.*)$`)

// reading is what an error of the YAML reader says, and of which line.
func reading(err error) (line int, said string, ok bool) {
	if err == nil {
		err = errors.New("")
	}
	m := errorLine.FindStringSubmatch(strings.ReplaceAll(err.Error(), "\n", " "))
	if m == nil {
		return 0, "", false
	}
	line, _ = strconv.Atoi(m[1])
	return line, m[2], true
}
