package strict

import (
	"bytes"
	"errors"
	"regexp"
	"sort"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"
)

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
