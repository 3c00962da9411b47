package job

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"trammel/geom/unit"
	"trammel/profiles/strict"
)

// byteOrder is the mark that some programs put in front of UTF-8.
const byteOrder = "\ufeff"

// text is what is still to be read of a file, and where that stands: lines and
// characters from 1.
type text struct {
	file         string
	rest         string
	line, column int
	comma        rune // what parts the fields
	wide         int  // how many fields the head has
	settled      bool // no comma in the rows is a decimal one
}

// field of a row: its words without quotes and blanks around, and its place.
type field struct {
	words        string
	line, column int
	after        int // the column behind it
	quoted       bool
}

func (t *text) at(line, column int) string { return fmt.Sprintf("%s:%d:%d", t.file, line, column) }

func (t *text) fault(line, column int, what, hint string) *unit.Fault {
	return &unit.Fault{Where: t.at(line, column), What: what, Hint: hint}
}

// open looks at the bytes: size, and whether it is text.
func open(file string, data []byte) (*text, error) {
	if err := strict.CheckText(file, data); err != nil {
		return nil, err
	}
	return &text{file: file, rest: strings.TrimPrefix(string(data), byteOrder), line: 1, column: 1}, nil
}

func (t *text) done() bool { return t.rest == "" }

// peek is the next character, a line end as \n whatever stands for it; 0 at the end.
func (t *text) peek() rune {
	if t.done() {
		return 0
	}
	r, _ := utf8.DecodeRuneInString(t.rest)
	if r == '\r' {
		return '\n'
	}
	return r
}

// next passes over a character.
func (t *text) next() rune {
	r := t.peek()
	_, n := utf8.DecodeRuneInString(t.rest)
	if strings.HasPrefix(t.rest, "\r\n") {
		n = 2
	}
	t.rest = t.rest[n:]
	t.column++
	if r == '\n' {
		t.line, t.column = t.line+1, 1
	}
	return r
}

// restOfLine passes over the line's end too.
func (t *text) restOfLine() string {
	var b strings.Builder
	for !t.done() {
		r := t.next()
		if r == '\n' {
			break
		}
		b.WriteRune(r)
	}
	return b.String()
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

// blank is one that may stand around a field, and does not part fields.
func (t *text) blank(r rune) bool { return (r == ' ' || r == '\t' || r == '\u00a0') && r != t.comma }

// field reads to what parts it from the next, or to the line's end.
func (t *text) field() (field, error) {
	for t.blank(t.peek()) {
		t.next()
	}
	f := field{line: t.line, column: t.column}
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
			return f, t.fault(f.line, f.column, "a quote that begins here is never closed", `a field in quotes ends with a quote; an inch mark in it is written twice: "7'-10"""`)
		case t.peek() == '"':
			t.next()
			if t.peek() != '"' {
				for t.blank(t.peek()) {
					t.next()
				}
				if r := t.peek(); !t.done() && r != t.comma && r != '\n' {
					return f, t.fault(t.line, t.column, "something stands behind the quote that ends a field", `an inch mark within quotes is written twice: "7'-10"""`)
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
