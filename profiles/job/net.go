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

// MaxOutline is the most corners that an outline may have.
const MaxOutline = 250

// netKeys of a piece: what a net of points has beyond a triangle.
//
//	outline: [A, B, C, D]                      the edge of the piece once round
//	side: [D left, E right of AB]              or one word for all points: left
//	found: [AB=4510, BC=3005]                  what was measured back after setting out
//	fixed: [A, B]                              pegs that are known to stand right
//	levels: [A 0, B 320]                       how high pegs stand, over whatever they count from
var netKeys = []string{"outline", "side", "found", "fixed", "levels"}

// net reads one of netKeys.
func (p *Piece) net(f strict.Field) (err error) {
	v := f.Value
	switch f.Key {
	case "outline":
		p.OutlineAt = v.Where()
		p.Outline, err = outline(v)
	case "side":
		p.SideAt = v.Where()
		p.Sides, err = sides(v)
	case "levels":
		p.LevelsAt = v.Where()
		p.Levels, err = levels(v)
	case "found":
		p.FoundAt = v.Where()
		p.Found, err = tokensOf(v, "found", "of what was found")
	case "fixed":
		p.FixedAt = v.Where()
		p.Fixed, err = fixed(v)
	}
	return err
}

func outline(v strict.Value) ([]geom.Name, error) {
	items, ok := v.Items()
	if !ok {
		text, err := v.Text("outline")
		if err != nil {
			return nil, v.Fault("outline is not a list of points", "outline: [A, B, C, D]")
		}
		names, err := ParseOutline(text)
		return names, inValue(v, "outline", err)
	}
	var names []geom.Name
	for _, item := range items {
		text, err := item.Text("a point of the outline")
		if err != nil {
			return nil, err
		}
		if !point.MatchString(text) {
			return nil, item.Fault(fmt.Sprintf("outline: %q is not a point", strict.Shorten(text)), pointHint(text))
		}
		if slices.Contains(names, geom.Name(text)) {
			return nil, item.Fault(fmt.Sprintf("outline: %s stands in it twice", text), "name each corner once, in the order of walking round")
		}
		names = append(names, geom.Name(text))
	}
	return names, inValue(v, "outline", outlined(names))
}

// fixed reads a list of pegs, or their letters in one text.
func fixed(v strict.Value) ([]geom.Name, error) {
	items, ok := v.Items()
	if !ok {
		text, err := v.Text("fixed")
		if err != nil {
			return nil, v.Fault("fixed is not a list of pegs", "fixed: [A, B]")
		}
		names, err := ParsePegs(text)
		return names, inValue(v, "fixed", err)
	}
	var all []string
	for _, item := range items {
		text, err := item.Text("a peg that is fixed")
		if err != nil {
			return nil, err
		}
		all = append(all, text)
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

// inValue gives a fault the place of a value.
func inValue(v strict.Value, key string, err error) error {
	if bad, ok := err.(*unit.Fault); ok {
		return v.Fault(key+": "+bad.What, bad.Hint)
	}
	return err
}

var (
	point  = regexp.MustCompile(`^[A-Z][0-9]*$`)
	points = regexp.MustCompile(`^(?:[A-Z][0-9]*)+$`)
	each   = regexp.MustCompile(`[A-Z][0-9]*`)
	aside  = regexp.MustCompile(`^([A-Z][0-9]*)\s+(left|right)(?:\s+of\s+([A-Z][0-9]*)([A-Z][0-9]*))?$`)
)

func pointHint(text string) string {
	if up := strings.ToUpper(text); up != text && point.MatchString(up) {
		return "points have capital letters: " + up
	}
	return "a point is a capital letter, perhaps with digits behind it, such as A or K2"
}

// ParseOutline reads the corners of an outline in the order of walking round,
// parted by commas or run together: A,B,C,D or ABCD. A Fault has no place yet.
func ParseOutline(text string) ([]geom.Name, error) {
	names, err := parseNames(text, nameWords{"the corners of an outline", "write them in the order of walking round, such as A,B,C,D", "points", "name each corner once, in the order of walking round"})
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

// String is a as ParseSide reads it.
func (a Aside) String() string {
	s := "left"
	if a.Right {
		s = "right"
	}
	if a.Point != "" {
		s = string(a.Point) + " " + s
	}
	if a.Of[0] != "" {
		s += " of " + string(a.Of[0]+a.Of[1])
	}
	return s
}

func sides(v strict.Value) ([]Aside, error) {
	items, ok := v.Items()
	if !ok {
		text, err := v.Text("side")
		if err != nil {
			return nil, err
		}
		list, err := ParseSides(text)
		for i := range list {
			list[i].Where = v.Where()
		}
		return list, inValue(v, "side", err)
	}
	var list []Aside
	for _, item := range items {
		text, err := item.Text("side")
		if err != nil {
			return nil, err
		}
		a, err := ParseSide(text)
		if err != nil {
			return nil, inValue(item, "side", err)
		}
		a.Where = item.Where()
		list = append(list, a)
	}
	return list, nil
}

// ParseSides reads what ParseSide does, several parted by commas.
func ParseSides(text string) ([]Aside, error) {
	var list []Aside
	for _, part := range strings.Split(text, ",") {
		a, err := ParseSide(part)
		if err != nil {
			return nil, err
		}
		list = append(list, a)
	}
	return list, nil
}

// ParseSide reads left, right, D left or E right of AB. A Fault has no place yet.
func ParseSide(text string) (Aside, error) {
	text = strings.TrimSpace(text)
	if text == "left" || text == "right" {
		return Aside{Right: text == "right"}, nil
	}
	m := aside.FindStringSubmatch(text)
	if m == nil {
		return Aside{}, &unit.Fault{What: fmt.Sprintf("%q does not say on which side a point lies", strict.Shorten(text)), Hint: "write left or right, or D left, or E right of AB (walking from A to B)"}
	}
	return Aside{Point: geom.Name(m[1]), Of: [2]geom.Name{geom.Name(m[3]), geom.Name(m[4])}, Right: m[2] == "right"}, nil
}
