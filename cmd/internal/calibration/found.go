package calibration

import (
	"fmt"
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
	var f Found
	var edges []unit.Length
	seen := map[string]bool{}
	last := ""
	lengths := map[string]*unit.Length{"AB": &f.AB, "AD": &f.AD, "AC": &f.AC, "BD": &f.BD}
	if strings.TrimSpace(text) == "" {
		return f, &unit.Fault{What: "no readings are written", Hint: foundHint}
	}
	const most = 400
	if len(text) > most {
		return f, &unit.Fault{What: fmt.Sprintf("is longer than %d characters", most), Hint: foundHint}
	}
	for _, word := range strings.Split(text, ",") {
		word = strings.TrimSpace(word)
		name, value, named := strings.Cut(word, "=")
		name, value = strings.TrimSpace(name), strings.TrimSpace(value)
		if !named && last == "edges" {
			name, value = last, word
		} else if !named {
			what := fmt.Sprintf("%q has no name", strict.Shorten(word))
			if word == "" {
				what = "a comma stands where a reading is missing"
			} else if last != "" && strings.Trim(word, "0123456789") == "" {
				what += ": a comma parts the readings, so write decimals after a point"
			}
			return f, &unit.Fault{What: what, Hint: foundHint}
		} else if name == "edges" && seen[name] {
			return f, &unit.Fault{What: "edges is given twice", Hint: foundHint}
		}
		last = name
		if name == "edges" {
			seen[name] = true
			e, err := unit.ParseSetting(value, unit.MM, 0, calibrate.MostEdge)
			if err != nil {
				return f, unit.Placed(err, "edges")
			}
			edges = append(edges, e)
			continue
		}
		key := map[string]string{"width": "AB", "height": "AD", "diagonal": "AC"}[name]
		if name == "diagonal" && seen["AC"] {
			key = "BD"
		}
		if key == "" {
			key = strings.ToUpper(name)
		}
		to, ok := lengths[key]
		if !ok {
			return f, &unit.Fault{What: fmt.Sprintf("%q is not on the sheet", strict.Shorten(name)), Hint: strict.Suggest(name, []string{"width", "height", "diagonal", "edges", "AB", "AD", "AC", "BD"})}
		}
		if seen[key] {
			return f, &unit.Fault{What: name + " is given once more than the sheet has it", Hint: foundHint}
		}
		seen[key] = true
		var err error
		if *to, err = unit.ParseSetting(value, unit.MM, unit.Shortest, 2*pdf.MaxSide); err != nil {
			return f, unit.Placed(err, name)
		}
	}
	for _, k := range []struct{ key, name string }{{"AB", "width (A to B)"}, {"AD", "height (A to D)"}, {"AC", "the first diagonal (A to C)"}, {"BD", "the second diagonal (B to D)"}} {
		if !seen[k.key] {
			return f, &unit.Fault{What: k.name + " is missing", Hint: foundHint}
		}
	}
	switch len(edges) {
	case 0:
	case 4:
		f.Edges = &profiles.Edges{Left: edges[0], Top: edges[1], Right: edges[2], Bottom: edges[3]}
	default:
		return f, &unit.Fault{What: fmt.Sprintf("edges has %s instead of 4", lines.Plural(len(edges), "number")), Hint: "left, top, right, bottom: edges=4,4,4,12"}
	}
	return f, nil
}
