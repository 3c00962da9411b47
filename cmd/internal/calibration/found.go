package calibration

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"trammel/cmd/internal/lines"
	"trammel/geom/unit"
	"trammel/plot/calibrate"
	"trammel/plot/pdf"
	"trammel/profiles"
	"trammel/profiles/strict"
)

// Found is what somebody read on a sheet.
type Found struct {
	AB, AD, AC, BD unit.Length
	Edges          *profiles.Edges
}

const foundHint = "write width=190.25,height=277.5,diagonal=336,diagonal=336.25 in the order of the sheet's boxes, and edges=4,4,4,12 (left, top, right, bottom) if you read them"

// ParseFound reads what was found: the four lengths, mm where no unit stands, by the
// names width, height, diagonal (first AC, then BD) or by the corners, and edges.
// A *unit.Fault has no place yet.
func ParseFound(text string) (Found, error) {
	const most = 400
	switch {
	case strings.TrimSpace(text) == "":
		return Found{}, &unit.Fault{What: "no readings are written", Hint: foundHint}
	case len(text) > most:
		return Found{}, &unit.Fault{What: fmt.Sprintf("is longer than %d characters", most), Hint: foundHint}
	}
	r := reader{lengths: map[string]unit.Length{}}
	for _, word := range strings.Split(text, ",") {
		if err := r.word(strings.TrimSpace(word)); err != nil {
			return Found{}, err
		}
	}
	for _, k := range [][2]string{{"AB", "width (A to B)"}, {"AD", "height (A to D)"}, {"AC", "the first diagonal (A to C)"}, {"BD", "the second diagonal (B to D)"}} {
		if r.lengths[k[0]] == 0 {
			return Found{}, &unit.Fault{What: k[1] + " is missing", Hint: foundHint}
		}
	}
	f := Found{AB: r.lengths["AB"], AD: r.lengths["AD"], AC: r.lengths["AC"], BD: r.lengths["BD"]}
	switch e := r.edges; len(e) {
	case 0:
	case 4:
		f.Edges = &profiles.Edges{Left: e[0], Top: e[1], Right: e[2], Bottom: e[3]}
	default:
		return f, &unit.Fault{What: fmt.Sprintf("edges has %s instead of 4", lines.Plural(len(e), "number")), Hint: "left, top, right, bottom: edges=4,4,4,12"}
	}
	return f, nil
}

// reader is what was read so far: lengths by their corners, none of them 0.
type reader struct {
	lengths map[string]unit.Length
	edges   []unit.Length
	last    string // name
}

// word reads what stands between two commas.
func (r *reader) word(word string) (err error) {
	name, value, named := strings.Cut(word, "=")
	name, value = strings.TrimSpace(name), strings.TrimSpace(value)
	switch {
	case !named && r.last == "edges":
		name, value = r.last, word
	case !named:
		what := fmt.Sprintf("%q has no name", strict.Shorten(word))
		if word == "" {
			what = "a comma stands where a reading is missing"
		} else if r.last != "" && strings.Trim(word, "0123456789") == "" {
			what += ": a comma parts the readings, so write decimals after a point"
		}
		return &unit.Fault{What: what, Hint: foundHint}
	case name == "edges" && r.edges != nil:
		return &unit.Fault{What: "edges is given twice", Hint: foundHint}
	}
	if r.last = name; name == "edges" {
		e, err := unit.ParseSetting(value, unit.MM, 0, calibrate.MostEdge)
		r.edges = append(r.edges, e)
		return unit.Placed(err, name)
	}
	key := cmp.Or(map[string]string{"width": "AB", "height": "AD", "diagonal": "AC"}[name], strings.ToUpper(name))
	if name == "diagonal" && r.lengths["AC"] > 0 {
		key = "BD"
	}
	switch {
	case !slices.Contains([]string{"AB", "AD", "AC", "BD"}, key):
		return &unit.Fault{What: fmt.Sprintf("%q is not on the sheet", strict.Shorten(name)), Hint: strict.Suggest(name, []string{"width", "height", "diagonal", "edges", "AB", "AD", "AC", "BD"})}
	case r.lengths[key] > 0:
		return &unit.Fault{What: name + " is given once more than the sheet has it", Hint: foundHint}
	}
	r.lengths[key], err = unit.ParseSetting(value, unit.MM, unit.Shortest, 2*pdf.MaxSide)
	return unit.Placed(err, name)
}
