package job

import (
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/profiles/strict"
)

// Lines are lines between points: of walls, or such as something stands on.
type Lines struct {
	Names  [][2]geom.Name
	Around bool // all edges of the outline
}

// Said says whether there are any.
func (l Lines) Said() bool { return l.Around || len(l.Names) > 0 }

// around is what stands for all edges of the outline.
const around = "outline"

// String is l as ParseWalls reads it.
func (l Lines) String() string {
	if l.Around {
		return around
	}
	var words []string
	for _, n := range l.Names {
		words = append(words, string(n[0]+n[1]))
	}
	return strings.Join(words, ",")
}

// ParseWalls reads AB,BC or outline. A Fault has no place yet.
func ParseWalls(text string) (Lines, error) {
	if strings.TrimSpace(text) == around {
		return Lines{Around: true}, nil
	}
	return parseLines(text, "write each wall by its two ends, such as AB,BC, or outline for all edges of the piece")
}

// ParseBlocked reads AC,BD. A Fault has no place yet.
func ParseBlocked(text string) (Lines, error) {
	return parseLines(text, "write each line by its two ends, such as AC,BD")
}

func parseLines(text, hint string) (l Lines, err error) {
	for _, part := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ' ' }) {
		m := pair.FindStringSubmatch(part)
		if m == nil || m[1] == m[2] {
			return Lines{}, pointFault(part, "does not name two points", hint, pair)
		}
		if n := [2]geom.Name{geom.Name(m[1]), geom.Name(m[2])}; !slices.Contains(l.Names, n) {
			l.Names = append(l.Names, n)
		}
	}
	if len(l.Names) == 0 {
		return l, &unit.Fault{What: "no line is named", Hint: hint}
	}
	return l, nil
}

// readLines reads a list of lines, or one text for all.
func readLines(key string, v strict.Value, parse func(string) (Lines, error)) (all Lines, err error) {
	_, err = list[Lines]{
		key: key, item: "a line", kind: "lines", form: key + ": [AB, BC]",
		whole: func(text, _ string) (_ []Lines, err error) { all, err = parse(text); return nil, err },
		one: func(text, _ string) (l Lines, err error) {
			l, err = parseLines(text, "write each by its two ends: "+key+": [AB, BC]")
			all.Names = append(all.Names, l.Names...)
			return l, err
		},
	}.read(v)
	if err == nil && !all.Said() {
		err = v.Fault(key+": no line is named", key+": [AB, BC]")
	}
	return all, err
}
