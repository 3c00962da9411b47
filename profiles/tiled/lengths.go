package tiled

import (
	"fmt"
	"regexp"
	"strings"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/profiles/strict"
)

var pair = regexp.MustCompile(`^([A-Z][0-9]*)([A-Z][0-9]*)$`)

// ends are the two ends of a wall, such as AB. A Fault has no place yet.
func ends(text string) ([2]geom.Name, error) {
	if m := pair.FindStringSubmatch(text); m != nil && m[1] != m[2] {
		return [2]geom.Name{geom.Name(m[1]), geom.Name(m[2])}, nil
	}
	f := &unit.Fault{What: fmt.Sprintf("%q does not name a wall", strict.Shorten(text)), Hint: "write the two ends of the wall, such as AB"}
	if up := strings.ToUpper(text); up != text && pair.MatchString(up) {
		f.Hint, f.Code = "points have capital letters: "+up, unit.SmallLetter
	}
	return [2]geom.Name{}, f
}

// about puts the key in front of what is wrong with its value.
func about(key string, err error) error {
	if f, ok := err.(*unit.Fault); ok && f != nil {
		g := *f
		g.What = key + ": " + g.What
		return &g
	}
	return err
}

func lengthOf(to *unit.Length, bare unit.Unit, most unit.Length) func(string) error {
	return func(text string) (err error) {
		*to, err = unit.ParseSetting(text, bare, 0, most)
		return err
	}
}

var sizeParts = regexp.MustCompile(`^(.*?[0-9\p{No}a-z"″'])\s*[x×]\s*([0-9.,\p{No}].*)$`)

// sizes reads 600x300, 12x12in or 600. A unit behind the second counts for the first too.
func sizes(text string, bare unit.Unit, least, most unit.Length) (along, across unit.Length, err error) {
	m := sizeParts.FindStringSubmatch(strings.TrimSpace(text))
	if m == nil {
		along, err = unit.ParseSetting(text, bare, least, most)
		return along, along, err
	}
	first, second := m[1], m[2]
	if unit.IsBare(first) && !unit.IsBare(second) {
		first += second[strings.LastIndexAny(second, "0123456789")+1:]
	}
	if along, err = unit.ParseSetting(first, bare, least, most); err != nil {
		return 0, 0, err
	}
	across, err = unit.ParseSetting(second, bare, least, most)
	return along, across, err
}
