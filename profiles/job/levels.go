package job

import (
	"fmt"
	"regexp"
	"strings"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/profiles/strict"
)

// Level is a peg and how high it stands, read further by those who know the unit of a
// bare number.
type Level struct {
	Name geom.Name
	Setting
}

// String is l as ParseLevels reads it.
func (l Level) String() string { return string(l.Name) + " " + l.Text }

// Slope refuses the word slope, which is a matter of each line. It has no place yet.
func Slope() *unit.Fault {
	return &unit.Fault{Subject: unit.Site, Of: "slope", What: "one fall for every line would be wrong for all but one direction", Advice: unit.Advice{Code: unit.OneFall}}
}

var (
	oneLevel  = regexp.MustCompile(`^([A-Z][0-9]*)\s+([^\s].*)$`)
	manyLevel = regexp.MustCompile(`[A-Z][0-9]*\s+[^A-Z]+`)
)

const levelHint = "write each peg and its height, such as A 0, B 320, C -0.15m"

var levels = list[Level]{
	key: "levels", item: "a level", kind: "pegs and heights", form: "levels: [A 0, B 320]",
	notText: "a level is written with a blank, not with a colon", whole: ParseLevels, one: parseLevel,
}

// ParseLevels reads how high pegs stand: A 0, B 320, where that was written. A Fault has
// no place yet.
func ParseLevels(text, where string) ([]Level, error) {
	var all []Level
	parts := manyLevel.FindAllString(text, -1)
	if len(parts) == 0 || strings.Join(parts, "") != strings.TrimLeft(text, " ") {
		return nil, &unit.Fault{What: fmt.Sprintf("%q does not say how high pegs stand", strict.Shorten(text)), Hint: levelHint}
	}
	for _, part := range parts {
		l, err := parseLevel(strings.TrimRight(part, " ,;"), where)
		if err != nil {
			return nil, err
		}
		all = append(all, l)
	}
	return all, nil
}

func parseLevel(text, where string) (Level, error) {
	m := oneLevel.FindStringSubmatch(strings.TrimSpace(text))
	if m == nil {
		f := &unit.Fault{What: fmt.Sprintf("%q does not say how high a peg stands", strict.Shorten(text)), Hint: levelHint}
		if up := strings.ToUpper(text[:min(1, len(text))]) + text[min(1, len(text)):]; up != text && oneLevel.MatchString(up) {
			f.Hint = "points have capital letters: " + strict.Shorten(up)
		}
		return Level{}, f
	}
	return Level{geom.Name(m[1]), Setting{m[2], where}}, nil
}
