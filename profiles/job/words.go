package job

import (
	"fmt"
	"regexp"
	"strings"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/unit"
	"trammel/profiles/strict"
)

// Pick says which of two triangles that fit is meant.
type Pick uint8

const (
	Unpicked Pick = iota
	First
	Second
	Both
)

func (p Pick) String() string { return [...]string{"", "1", "2", "both"}[p] }

// ParsePick reads 1, 2 or both. A Fault has no place yet.
func ParsePick(text string) (Pick, error) {
	for i, word := range []string{"1", "2", "both"} {
		if text == word {
			return Pick(i + 1), nil
		}
	}
	return Unpicked, &unit.Fault{What: fmt.Sprintf("%q is not a pick", strict.Shorten(text)), Hint: "where two triangles fit, write 1, 2 or both"}
}

var methods = []struct {
	word   string
	method construct.Method
}{{"arcs", construct.ByArcs}, {"angle", construct.ByAngle}, {"square", construct.BySquare}}

// ParseMethod reads arcs, angle or square. A Fault has no place yet.
func ParseMethod(text string) (construct.Method, error) {
	words := make([]string, len(methods))
	for i, m := range methods {
		if m.word == text {
			return m.method, nil
		}
		words[i] = m.word
	}
	return construct.AsMeasured, &unit.Fault{What: fmt.Sprintf("%q is not a way to construct", strict.Shorten(text)), Hint: strict.Suggest(text, words)}
}

// MethodWord is a method as ParseMethod reads it, empty for AsMeasured.
func MethodWord(with construct.Method) string {
	for _, m := range methods {
		if m.method == with {
			return m.word
		}
	}
	return ""
}

var pair = regexp.MustCompile(`^([A-Z][0-9]*)([A-Z][0-9]*)$`)

// ParseBase reads the two ends of a baseline, such as AB. A Fault has no place yet.
func ParseBase(text string) ([2]geom.Name, error) {
	if m := pair.FindStringSubmatch(text); m != nil && m[1] != m[2] {
		return [2]geom.Name{geom.Name(m[1]), geom.Name(m[2])}, nil
	}
	fault := &unit.Fault{What: fmt.Sprintf("%q does not name two points", strict.Shorten(text)), Hint: "write the two ends of the baseline, such as AB"}
	if up := strings.ToUpper(text); up != text && pair.MatchString(up) {
		fault.Hint, fault.Code = "points have capital letters: "+up, unit.SmallLetter
	}
	return [2]geom.Name{}, fault
}

// measure reads the list of tokens of one piece. What a token says is left to
// those who know the unit of a bare number.
func measure(v strict.Value) ([]Setting, error) { return tokensOf(v, "measure", "") }

// tokensOf reads a list of measurements under a key.
func tokensOf(v strict.Value, key, what string) ([]Setting, error) {
	items, ok := v.Items()
	switch {
	case !ok:
		return nil, v.Fault(key+" is not a list of measurements", key+": [AB=600, BC=450, CA=450]")
	case len(items) == 0 && what != "":
		return nil, v.Fault("the list "+what+" is empty", key+": [AB=600, BC=450, CA=450]")
	case len(items) == 0:
		return nil, v.Fault("the piece has no measurements", key+": [AB=600, BC=450, CA=450]")
	case len(items) > MaxMeasurements:
		return nil, items[MaxMeasurements].Fault(fmt.Sprintf("more than %d measurements", MaxMeasurements), "")
	}
	tokens := make([]Setting, 0, len(items))
	for _, item := range items {
		if keys, ok := item.Keys(); ok {
			fault := item.Fault("a measurement is written with =, not with a colon", "")
			if len(keys) == 1 {
				fault.Hint = "write " + strict.Shorten(keys[0]) + "=…"
			}
			return nil, fault
		}
		text, err := item.Text("the measurement")
		if err != nil {
			return nil, err
		}
		if !strings.Contains(text, "=") {
			fault := item.Fault(fmt.Sprintf("%q is not a measurement: it has no =", strict.Shorten(text)), "write what was measured and its value, such as AB=600")
			if n := len(tokens); n > 0 && text[0] >= '0' && text[0] <= '9' {
				fault.Hint = fmt.Sprintf(`a comma parts the items of a list: for a decimal comma quote the whole, "%s,%s"`, strict.Shorten(tokens[n-1].Text), strict.Shorten(text))
			}
			return nil, fault
		}
		tokens = append(tokens, Setting{text, item.Where()})
	}
	return tokens, nil
}

// first setting that says something.
func first(settings ...Setting) Setting {
	for _, t := range settings {
		if t.Text != "" {
			return t
		}
	}
	return Setting{}
}
