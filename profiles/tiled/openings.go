package tiled

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/unit"
	"trammel/profiles/strict"
)

var (
	openingAt = regexp.MustCompile(`^(?:(\S.*?)\s+)?at\s+([A-Z][0-9]*[A-Z][0-9]*)\s+(\S.*?)\s+from\s+([A-Z][0-9]*)\s+(\S.*?)\s+(size|round|Ø|⌀)\s*(\S.*?)(?:\s+gap\s+(\S.*))?$`)
	openingOf = regexp.MustCompile(`^(?:(\S.*?)\s+)?((?:[A-Z][0-9]*\s+){2,}[A-Z][0-9]*)(?:\s+gap\s+(\S.*))?$`)
)

const openingHint = "write such as post at AB 1200 from A 900 size 150x150 (its nearest corner 1200 off AB and 900 along it), pipe at AB 90 from A 300 round 110 (its middle), or shaft G H I J"

// opening reads one token of openings. A Fault has no place yet.
func opening(text string, bare unit.Unit) (o Opening, err error) {
	gap := ""
	if m := openingAt.FindStringSubmatch(text); m != nil {
		o.Name, o.From, gap = m[1], geom.Name(m[4]), m[8]
		if o.Wall, err = ends(m[2]); err != nil {
			return o, err
		}
		if o.Wall[0] != o.From && o.Wall[1] != o.From {
			return o, &unit.Fault{What: fmt.Sprintf("%s is no end of %s", o.From, m[2]), Hint: openingHint}
		}
		if o.Off, err = unit.ParseSetting(m[3], bare, 0, unit.Longest); err == nil {
			o.Along, err = unit.ParseSetting(m[5], bare, 0, unit.Longest)
		}
		if err == nil && m[6] == "size" {
			o.Width, o.Deep, err = sizes(m[7], bare, 1, unit.Longest)
		} else if err == nil {
			o.Diameter, err = unit.ParseSetting(m[7], bare, 1, unit.Longest)
		}
	} else if m := openingOf.FindStringSubmatch(text); m != nil {
		o.Name, gap = m[1], m[3]
		for _, n := range strings.Fields(m[2]) {
			if slices.Contains(o.Ring, geom.Name(n)) {
				return o, &unit.Fault{What: n + " stands twice in the opening", Hint: openingHint}
			}
			o.Ring = append(o.Ring, geom.Name(n))
		}
	} else {
		return o, &unit.Fault{What: fmt.Sprintf("%q does not say where an opening is", strict.Shorten(text)), Hint: openingHint}
	}
	if gap != "" && err == nil {
		var g unit.Length
		g, err = unit.ParseSetting(gap, bare, 0, mostGap)
		o.Gap = &g
	}
	return o, about("openings", err)
}
