package strict

import (
	"bytes"
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v3"

	"trammel/geom/unit"
)

// Addition is a key with its value that is to stand in a file beside what somebody
// wrote there: as lines of YAML, or within braces as JSON has it.
type Addition struct {
	Key    string
	Remark []string // lines above it, each with its #; in braces there is no room for them
	Lines  []string // the key and what is below it
	JSON   string   // "key": value
}

// Add is the file with one more key at its end. Not a letter of what stands there is
// changed or moved. The file is one that Parse takes, without that key.
func Add(data []byte, a Addition) ([]byte, error) {
	v, err := Parse("", data)
	if err != nil {
		return nil, err
	}
	for _, t := range v.added(data, a) {
		if same(v, t, "", a.Key) {
			return t, nil
		}
	}
	return nil, cannotEdit(v, a.Key)
}

// added are the texts that may be the file with the addition; all but one may be no
// YAML, or say something else.
func (v Value) added(data []byte, a Addition) (all [][]byte) {
	if v.node.Style&yaml.FlowStyle != 0 {
		for _, brace := range backwards(data, '}') {
			end := len(bytes.TrimRight(data[:brace], " \t\r\n"))
			all = append(all,
				slip(data, end, brace, ",\n  "+a.JSON+"\n"),
				slip(data, end, brace, "\n  "+a.JSON+"\n"),                                                  // a comma stands there, or nothing
				slip(data, brace, brace, ",\n  "+a.JSON+"\n"), slip(data, brace, brace, "\n  "+a.JSON+"\n")) // behind a remark
		}
		return all
	}
	indent := strings.Repeat(" ", max(0, v.node.Column-1))
	text := ""
	for _, l := range append(a.Remark[:len(a.Remark):len(a.Remark)], a.Lines...) {
		text += indent + l + "\n"
	}
	for _, end := range append([]int{len(data)}, backwards(data, '.')...) { // before "...", where the document ends
		line := text
		if end > 0 && data[end-1] != '\n' {
			line = "\n" + text
		}
		all = append(all, slip(data, end, end, line))
	}
	return all
}

// Without is the file without a key at its top and without the remark above it.
func Without(data []byte, a Addition) ([]byte, error) {
	v, err := Parse("", data)
	if err != nil {
		return nil, err
	}
	at := entry(v.node.Content, a.Key)
	if at < 0 {
		return data, nil
	}
	key := v.node.Content[at]
	for _, t := range v.without(data, a, key) {
		if same(v, t, a.Key, "") {
			return t, nil
		}
	}
	return nil, cannotEdit(Value{v.file, key}, a.Key)
}

func (v Value) without(data []byte, a Addition, key *yaml.Node) (all [][]byte) {
	line := offset(data, key.Line)
	if v.node.Style&yaml.FlowStyle != 0 {
		from := bytes.LastIndexAny(data[:line+columns(data[line:], key.Column)], ",{")
		for _, to := range backwards(data[from+1:], '}', ',') {
			to += from + 1
			rest := len(data) - len(bytes.TrimLeft(data[to+1:], " \t\r\n"))
			all = append(all, slip(data, from, rest, ""), slip(data, from, to+1, ""), slip(data, from+1, to+1, ""))
		}
		return all
	}
	for i := len(a.Remark) - 1; i >= 0 && line > 0; i-- {
		above := bytes.LastIndexByte(data[:line-1], '\n') + 1
		if strings.TrimSpace(string(data[above:line])) != a.Remark[i] {
			break
		}
		line = above
	}
	// To the first line that lies no deeper than the key.
	end := offset(data, key.Line+1)
	for end < len(data) {
		l, _, _ := bytes.Cut(data[end:], []byte("\n"))
		if words := bytes.TrimLeft(l, " "); len(bytes.TrimSpace(words)) > 0 && len(l)-len(words) < key.Column {
			break
		}
		end = min(end+len(l)+1, len(data))
	}
	return [][]byte{slip(data, line, end, "")}
}

func cannotEdit(v Value, key string) *unit.Fault {
	return v.Fault(key+" cannot be written into this file", "write the file anew, one key a line")
}

// slip is the text with other words from one place to another.
func slip(data []byte, from, to int, words string) []byte {
	return bytes.Join([][]byte{data[:from], []byte(words), data[to:]}, nil)
}

// mostTried is how many places are tried, from the end of the file: behind the brace
// that closes it stand remarks at most.
const mostTried = 200

// backwards are the places of some letters, the last one first.
func backwards(data []byte, letters ...byte) (all []int) {
	for i := len(data) - 1; i >= 0 && len(all) < mostTried; i-- {
		if bytes.IndexByte(letters, data[i]) >= 0 {
			all = append(all, i)
		}
	}
	return all
}

// lineBreak is what YAML 1.1 (5.4, as the reader counts lines) ends a line with.
var lineBreak = regexp.MustCompile("\r\n|[\r\n\u0085\u2028\u2029]")

func offset(data []byte, line int) int {
	breaks := lineBreak.FindAllIndex(data, line-1)
	switch {
	case line == 1:
		return 0
	case len(breaks) < line-1:
		return len(data)
	}
	return breaks[line-2][1]
}

// columns is how many bytes stand before a column, which counts letters from 1.
func columns(line []byte, column int) int {
	at := 0
	for ; column > 1 && at < len(line); column-- {
		_, n := utf8.DecodeRune(line[at:])
		at += n
	}
	return at
}

// same says whether a text has the same keys with the same values as v, but for one
// that is gone and one that is new.
func same(v Value, text []byte, gone, new string) bool {
	w, err := Parse("", text)
	if err != nil || w.node.Kind != yaml.MappingNode {
		return false
	}
	a, _ := dropped(v.node.Content, gone)
	b, found := dropped(w.node.Content, new)
	return (found || new == "") && slices.EqualFunc(a, b, equal)
}

func equal(a, b *yaml.Node) bool {
	return a.Kind == b.Kind && a.Value == b.Value && a.Tag == b.Tag && slices.EqualFunc(a.Content, b.Content, equal)
}

// Remarks says whether a file has remarks: words behind #, which are for people.
func Remarks(data []byte) bool {
	var doc yaml.Node
	return yaml.Unmarshal(data, &doc) == nil && remarked(&doc)
}

func remarked(n *yaml.Node) bool {
	return n.HeadComment+n.LineComment+n.FootComment != "" || slices.ContainsFunc(n.Content, remarked)
}
