package job

import (
	"fmt"
	"regexp"
	"slices"
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

// MaxOutline is the most corners that an outline may have.
const MaxOutline = 250

var (
	point  = regexp.MustCompile(`^[A-Z][0-9]*$`)
	pair   = regexp.MustCompile(`^([A-Z][0-9]*)([A-Z][0-9]*)$`)
	points = regexp.MustCompile(`^(?:[A-Z][0-9]*)+$`)
	each   = regexp.MustCompile(`[A-Z][0-9]*`)
	aside  = regexp.MustCompile(`^([A-Z][0-9]*)\s+(left|right)(?:\s+of\s+([A-Z][0-9]*)([A-Z][0-9]*))?$`)
)

// ParseBase reads the two ends of a baseline, such as AB. A Fault has no place yet.
func ParseBase(text string) ([2]geom.Name, error) {
	if m := pair.FindStringSubmatch(text); m != nil && m[1] != m[2] {
		return [2]geom.Name{geom.Name(m[1]), geom.Name(m[2])}, nil
	}
	return [2]geom.Name{}, pointFault(text, "does not name two points", "write the two ends of the baseline, such as AB", pair)
}

// pointFault is that of a text that is not of the form of points. wanted is what to
// write, where it is not capital letters that are missing.
func pointFault(text, what, wanted string, form *regexp.Regexp) *unit.Fault {
	f := &unit.Fault{What: fmt.Sprintf("%q %s", strict.Shorten(text), what), Hint: wanted}
	if up := strings.ToUpper(text); up != text && form.MatchString(up) {
		f.Hint, f.Code = "points have capital letters: "+up, unit.SmallLetter
	}
	return f
}

const aPoint = "a point is a capital letter, perhaps with digits behind it, such as A or K2"

func outline(v strict.Value) ([]geom.Name, error) {
	var names []geom.Name
	_, err := list[geom.Name]{
		key: "outline", item: "a point of the outline", kind: "points", form: "outline: [A, B, C, D]",
		whole: func(text, _ string) (_ []geom.Name, err error) { names, err = ParseOutline(text); return nil, err },
		one: func(text, _ string) (geom.Name, error) {
			n := geom.Name(text)
			switch {
			case !point.MatchString(text):
				return n, pointFault(text, "is not a point", aPoint, point)
			case slices.Contains(names, n):
				return n, &unit.Fault{What: text + " stands in it twice", Hint: inOrder}
			}
			names = append(names, n)
			return n, nil
		},
	}.read(v)
	if err != nil {
		return nil, err
	}
	return names, inValue(v, "outline", outlined(names))
}

func fixed(v strict.Value) ([]geom.Name, error) {
	all, err := list[string]{
		key: "fixed", item: "a peg that is fixed", kind: "pegs", form: "fixed: [A, B]",
		whole: func(text, _ string) ([]string, error) { return []string{text}, nil },
		one:   func(text, _ string) (string, error) { return text, nil },
	}.read(v)
	if err != nil {
		return nil, err
	}
	names, err := ParsePegs(strings.Join(all, ","))
	return names, inValue(v, "fixed", err)
}

// ParsePegs reads pegs parted by commas or run together: A,B or AB. A Fault has no
// place yet.
func ParsePegs(text string) ([]geom.Name, error) {
	names, err := parseNames(text, nameWords{"pegs", "write their letters, such as A,B", "pegs", "name each peg once"})
	if err == nil && len(names) > MaxOutline {
		return nil, &unit.Fault{What: fmt.Sprintf("more than %d pegs", MaxOutline), Hint: "divide the piece"}
	}
	return names, err
}

// nameWords are what is said of names that are wrong.
type nameWords struct{ what, write, kind, once string }

// parseNames reads names parted by commas or run together, each once.
func parseNames(text string, w nameWords) (names []geom.Name, err error) {
	plain := strings.NewReplacer(",", "", " ", "").Replace(text)
	if !points.MatchString(plain) {
		fault := &unit.Fault{What: fmt.Sprintf("%q does not name %s", strict.Shorten(text), w.what), Hint: w.write}
		if up := strings.ToUpper(plain); up != plain && points.MatchString(up) {
			fault.Hint = w.kind + " have capital letters: " + strict.Shorten(strings.ToUpper(text))
		}
		return nil, fault
	}
	for _, n := range each.FindAllString(plain, -1) {
		if slices.Contains(names, geom.Name(n)) {
			return nil, &unit.Fault{What: n + " stands in it twice", Hint: w.once}
		}
		names = append(names, geom.Name(n))
	}
	return names, nil
}

const inOrder = "name each corner once, in the order of walking round"

// ParseOutline reads the corners of an outline in the order of walking round,
// parted by commas or run together: A,B,C,D or ABCD. A Fault has no place yet.
func ParseOutline(text string) ([]geom.Name, error) {
	names, err := parseNames(text, nameWords{"the corners of an outline", "write them in the order of walking round, such as A,B,C,D", "points", inOrder})
	if err != nil {
		return nil, err
	}
	return names, outlined(names)
}

func outlined(names []geom.Name) error {
	switch {
	case len(names) < 3:
		return &unit.Fault{What: "an outline has three corners or more", Hint: "name them in the order of walking round, such as A,B,C,D"}
	case len(names) > MaxOutline:
		return &unit.Fault{What: fmt.Sprintf("more than %d corners", MaxOutline), Hint: "divide the piece"}
	}
	return nil
}

// Aside says on which side of a line a point lies: of the line from Of[0] to Of[1],
// or where Of is empty of the line that the point is found from. Where Point is
// empty it is meant for every point that nothing else is said of.
type Aside struct {
	Point geom.Name
	Of    [2]geom.Name
	Right bool
	Where string
}

// String is a as ParseSides reads it.
func (a Aside) String() string {
	s := map[bool]string{true: "right", false: "left"}[a.Right]
	if a.Point != "" {
		s = string(a.Point) + " " + s
	}
	if a.Of[0] != "" {
		s += " of " + string(a.Of[0]+a.Of[1])
	}
	return s
}

var sides = list[Aside]{key: "side", item: "side", whole: ParseSides, one: parseSide}

// ParseSides reads left, right, D left or E right of AB, several parted by commas, that
// stand at a place. A Fault has no place yet.
func ParseSides(text, where string) ([]Aside, error) {
	var list []Aside
	for part := range strings.SplitSeq(text, ",") {
		a, err := parseSide(part, where)
		if err != nil {
			return nil, err
		}
		list = append(list, a)
	}
	return list, nil
}

func parseSide(text, where string) (Aside, error) {
	text = strings.TrimSpace(text)
	if text == "left" || text == "right" {
		return Aside{Right: text == "right", Where: where}, nil
	}
	m := aside.FindStringSubmatch(text)
	if m == nil {
		return Aside{}, &unit.Fault{What: fmt.Sprintf("%q does not say on which side a point lies", strict.Shorten(text)), Hint: "write left or right, or D left, or E right of AB (walking from A to B)"}
	}
	return Aside{geom.Name(m[1]), [2]geom.Name{geom.Name(m[3]), geom.Name(m[4])}, m[2] == "right", where}, nil
}
