package job

import (
	"fmt"
	"regexp"
	"strings"
	"unicode/utf8"

	"trammel/geom/unit"
)

// position in a file: line and character from 1.
type position struct{ line, column int }

// text is what is still to be read of a file, and where that stands.
type text struct {
	position
	file    string
	rest    string
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
	return &text{file: file, rest: plain, position: position{1, 1}}
}

func (t *text) at(p position) string { return fmt.Sprintf("%s:%d:%d", t.file, p.line, p.column) }

func (t *text) fault(p position, what, hint string) *unit.Fault {
	return &unit.Fault{Where: t.at(p), What: what, Hint: hint}
}

func (t *text) done() bool { return t.rest == "" }

// pass passes over so many bytes, and gives them.
func (t *text) pass(n int) string {
	words := t.rest[:n]
	t.rest = t.rest[n:]
	if lines := strings.Count(words, "\n"); lines > 0 {
		t.position = position{t.line + lines, 1}
	}
	t.column += utf8.RuneCountInString(words[strings.LastIndexByte(words, '\n')+1:])
	return words
}

// before is how many bytes stand before the first of some characters, or the end.
func (t *text) before(chars string) int {
	if n := strings.IndexAny(t.rest, chars); n >= 0 {
		return n
	}
	return len(t.rest)
}

// restOfLine passes over the line's end too.
func (t *text) restOfLine() string {
	line := t.pass(t.before("\n"))
	t.pass(min(1, len(t.rest)))
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
			more = !t.done() && t.pass(1) == string(t.comma) // else the line's end
		}
		if said {
			return row, nil
		}
	}
}

// blanks passes over what may stand around a field and does not part fields.
func (t *text) blanks() {
	blank := func(r rune) bool { return strings.ContainsRune(" \t\u00a0", r) && r != t.comma }
	t.pass(len(t.rest) - len(strings.TrimLeftFunc(t.rest, blank)))
}

// inQuotes is a field in quotes, in which two stand for one.
var inQuotes = regexp.MustCompile(`^"(?:[^"]|"")*"`)

// field reads to what parts it from the next, or to the line's end. A line's end in
// quotes is a blank.
func (t *text) field() (field, error) {
	t.blanks()
	f := field{position: t.position, quoted: strings.HasPrefix(t.rest, `"`)}
	if !f.quoted {
		f.words = unit.Composed(strings.Trim(t.pass(t.before(string(t.comma)+"\n")), " \t\u00a0"))
		f.after = t.column
		return f, nil
	}
	words := t.pass(len(inQuotes.FindString(t.rest)))
	if words == "" {
		return f, t.fault(f.position, "a quote that begins here is never closed", `a field in quotes ends with a quote; an inch mark in it is written twice: "7'-10"""`)
	}
	t.blanks()
	if t.before(string(t.comma)+"\n") > 0 {
		return f, t.fault(t.position, "something stands behind the quote that ends a field", `an inch mark within quotes is written twice: "7'-10"""`)
	}
	f.words, f.after = unit.Composed(strings.TrimSpace(strings.NewReplacer(`""`, `"`, "\n", " ").Replace(words[1:len(words)-1]))), t.column
	return f, nil
}
