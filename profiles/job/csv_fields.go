package job

import (
	"fmt"
	"slices"
	"strings"

	"trammel/geom/unit"
)

// position in a file: line and character from 1.
type position struct{ line, column int }

// text is what is still to be read of a file, and where that stands.
type text struct {
	position
	file    string
	rest    []rune
	comma   rune // what parts the fields
	wide    int  // how many fields the head has
	settled bool // no comma in the rows is a decimal one
}

// field of a row: its words without quotes and blanks around, and its place.
type field struct {
	position
	words  string
	after  int // the column behind it
	quoted bool
}

// textOf is a file without the mark that some programs put in front of UTF-8, each line
// ended by \n.
func textOf(file string, data []byte) *text {
	plain := strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(strings.TrimPrefix(string(data), "\ufeff"))
	return &text{file: file, rest: []rune(plain), position: position{1, 1}}
}

func (t *text) at(p position) string { return fmt.Sprintf("%s:%d:%d", t.file, p.line, p.column) }

func (t *text) fault(p position, what, hint string) *unit.Fault {
	return &unit.Fault{Where: t.at(p), What: what, Hint: hint}
}

func (t *text) done() bool { return len(t.rest) == 0 }

// peek is the next character; 0 at the end.
func (t *text) peek() rune {
	if t.done() {
		return 0
	}
	return t.rest[0]
}

// next passes over a character.
func (t *text) next() rune {
	r := t.rest[0]
	t.rest = t.rest[1:]
	t.column++
	if r == '\n' {
		t.position = position{t.line + 1, 1}
	}
	return r
}

// restOfLine passes over the line's end too.
func (t *text) restOfLine() string {
	n := slices.Index(t.rest, '\n')
	if n < 0 {
		n = len(t.rest)
	}
	line := string(t.rest[:n])
	t.rest, t.column = t.rest[n:], t.column+n
	if !t.done() {
		t.next()
	}
	return line
}

// firstLine is the first that says something, without reading it; what stands
// before it is passed over.
func (t *text) firstLine() (line string, ok bool) {
	for !t.done() {
		look := *t
		line := look.restOfLine()
		if s := strings.TrimSpace(line); s != "" && s[0] != '#' {
			return line, true
		}
		*t = look
	}
	return "", false
}

// row is the next one that says something; nil at the end.
func (t *text) row() ([]field, error) {
	for {
		if _, ok := t.firstLine(); !ok {
			return nil, nil
		}
		var row []field
		said := false
		for more := true; more; {
			f, err := t.field()
			if err != nil {
				return nil, err
			}
			row = append(row, f)
			said = said || f.words != ""
			more = !t.done() && t.next() == t.comma // else the line's end
		}
		if said {
			return row, nil
		}
	}
}

// blanks passes over what may stand around a field and does not part fields.
func (t *text) blanks() {
	for r := t.peek(); (r == ' ' || r == '\t' || r == '\u00a0') && r != t.comma; r = t.peek() {
		t.next()
	}
}

// field reads to what parts it from the next, or to the line's end.
func (t *text) field() (field, error) {
	t.blanks()
	f := field{position: t.position}
	if t.peek() == '"' {
		return t.quoted(f)
	}
	var b strings.Builder
	for !t.done() && t.peek() != t.comma && t.peek() != '\n' {
		b.WriteRune(t.next())
	}
	f.words, f.after = unit.Composed(strings.Trim(b.String(), " \t\u00a0")), t.column
	return f, nil
}

// quoted reads a field in quotes, in which two stand for one. A line's end in it
// is a blank.
func (t *text) quoted(f field) (field, error) {
	t.next()
	f.quoted = true
	var b strings.Builder
	for {
		switch {
		case t.done():
			return f, t.fault(f.position, "a quote that begins here is never closed", `a field in quotes ends with a quote; an inch mark in it is written twice: "7'-10"""`)
		case t.peek() == '"':
			t.next()
			if t.peek() != '"' {
				t.blanks()
				if r := t.peek(); !t.done() && r != t.comma && r != '\n' {
					return f, t.fault(t.position, "something stands behind the quote that ends a field", `an inch mark within quotes is written twice: "7'-10"""`)
				}
				f.words, f.after = unit.Composed(strings.TrimSpace(b.String())), t.column
				return f, nil
			}
			b.WriteRune(t.next())
		case t.peek() == '\n':
			t.next()
			b.WriteByte(' ')
		default:
			b.WriteRune(t.next())
		}
	}
}
