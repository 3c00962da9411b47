package strict

import (
	"bytes"
	"fmt"
	"unicode/utf8"

	"trammel/geom/unit"
)

// CheckText refuses a file of too many bytes, and one that is no text or holds
// characters that nobody sees (unit.HiddenFault). The errors are *unit.Fault with
// file:line:column.
func CheckText(file string, data []byte) error { return notText(source{name: file}, data) }

// notText is CheckText of a file that another one may carry.
func notText(file source, data []byte) error {
	if len(data) > MaxBytes {
		return &unit.Fault{Where: file.String(), What: "is larger than 1 MB", Hint: "the largest file that trammel reads is 1 000 000 bytes"}
	}
	line, column := 1, 1
	const text = "save it as plain UTF-8 text"
	data = bytes.TrimPrefix(data, []byte(byteOrder))
	for i := 0; i < len(data); {
		r, n := utf8.DecodeRune(data[i:])
		switch {
		case r == utf8.RuneError && n == 1:
			return at(file, line, column, "is not UTF-8 text", text)
		case r < ' ' && r != '\t' && r != '\n' && r != '\r', r == 0x7f:
			return at(file, line, column, fmt.Sprintf("holds the byte %#02x, so it is not text", data[i]), text)
		}
		if f := unit.HiddenFault(string(r)); f != nil {
			return at(file, line, column, f.What, f.Hint)
		}
		i += n
		column++
		if r == '\n' || r == '\r' && (i == len(data) || data[i] != '\n') {
			line, column = line+1, 1
		}
	}
	return nil
}

// byteOrder is the mark that some programs put in front of UTF-8.
const byteOrder = "\ufeff"

// maxDepth is how deep lists and maps may lie within each other. A job needs
// four; who opens more has lost count of the brackets.
const maxDepth = 40

// tooDeep refuses lists within lists beyond maxDepth, by their marks alone, so that
// the place is that of the first one too many, closed or not. Marks in quotes and
// remarks are words. It may take a quote within words for the beginning of one and
// count too few: the YAML reader has a limit of its own, far higher.
func tooDeep(file source, data []byte) error {
	line, column, depth := 1, 1, 0
	run := 0 // list or map indicators in a row on one line: "- - - -"
	var quote rune
	remark := false
	last, escaped := '\n', false // what stands before
	for i, r := range string(data) {
		switch {
		case r == '\n':
			remark, run = false, 0
		case remark:
		case quote != 0:
			if r == quote && !escaped {
				quote = 0
			}
		case (r == '"' || r == '\'') && (blank(last) || mark(last)):
			quote, run = r, 0
		case r == '#' && blank(last):
			remark = true
		case r == '[' || r == '{':
			depth++
		case r == ']' || r == '}':
			depth = max(depth-1, 0)
		case r == '-' || r == '?' || r == ':':
			run++
		case !blank(r):
			run = 0
		}
		if depth > maxDepth || run > maxDepth && separate(data, i) {
			return at(file, line, column, fmt.Sprintf("lists within lists more than %d deep", maxDepth), "")
		}
		escaped = r == '\\' && quote == '"' && !escaped
		last = r
		column++
		if r == '\n' {
			line, column = line+1, 1
		}
	}
	return nil
}

func blank(r rune) bool { return r == ' ' || r == '\t' || r == '\n' || r == '\r' }

// mark says whether quotes may follow a letter at once: a bracket, what parts the
// values within, or a quote that is doubled.
func mark(r rune) bool { return r == '[' || r == '{' || r == ',' || r == ':' || r == '\'' || r == '"' }

// separate says whether the indicator at i stands by itself, as a list's does.
func separate(data []byte, i int) bool {
	return i+1 < len(data) && (data[i+1] == ' ' || data[i+1] == '\t') && i > 0 && (data[i-1] == ' ' || data[i-1] == '\t')
}
