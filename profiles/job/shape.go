package job

import (
	"fmt"
	"strings"

	"trammel/geom"
	"trammel/geom/shape"
	"trammel/geom/unit"
	"trammel/profiles/strict"
)

// MaxTokens is the most edges, corners or holes that one piece may name.
const MaxTokens = 500

// Shape is what is done to a piece beyond its outline:
//
//	edges: [AB allow 3, BC allow -1.5mm]       allowances; below zero inside
//	corners: [A cut 20, B round 15]            also: A cut 20 allow 2, C blunt 10, D mitre
//	holes: [12 at AB 40 from A 60]             also: 12 at A 80 B 95
//	handed: pair                               one of each hand; quantity counts pairs
//	face: up                                   or down
//	grain: AB                                  runs along this edge
//
// The tokens of edges, corners and holes are those of shape.ParseAllowance,
// shape.ParseCorner and shape.ParseHole. A list may stand in braces as well. They
// are never keys with values: the names of points must not be folded.
type Shape struct {
	Edges, Corners, Holes []Setting // the tokens

	Pair    bool
	Face    Face
	Grain   [2]geom.Name // empty where the job does not say
	FaceAt  string       // where Face was written
	PairAt  string       // where Pair was
	GrainAt string       // where Grain was
}

// Face says which side of the material lies up when the template is on it.
type Face uint8

const (
	AnyFace Face = iota
	FaceUp
	FaceDown
)

func (f Face) String() string { return [...]string{"", "up", "down"}[f] }

// shapeKeys of a piece.
var shapeKeys = []string{"edges", "corners", "holes", "handed", "face", "grain"}

// read reads one of shapeKeys.
func (s *Shape) read(f strict.Field) (err error) {
	v := f.Value
	switch f.Key {
	case "edges":
		s.Edges, err = tokens(v, "edges", "AB allow 3", " allow ")
		return err
	case "corners":
		s.Corners, err = tokens(v, "corners", "A cut 20", " cut ", " round ", " blunt ", " mitre")
		return err
	case "holes":
		s.Holes, err = tokens(v, "holes", "12 at AB 40 from A 60", " at ")
		return err
	}
	text, err := v.Text(f.Key)
	if err != nil {
		return err
	}
	switch f.Key {
	case "handed":
		s.PairAt, s.Pair = v.Where(), text == "pair"
		if !s.Pair {
			return v.Fault(fmt.Sprintf("handed: %q is not a way to hand a piece", strict.Shorten(text)), "write pair for one of each hand, or take the line out")
		}
	case "face":
		s.FaceAt = v.Where()
		for _, face := range []Face{FaceUp, FaceDown} {
			if text == face.String() {
				s.Face = face
			}
		}
		if s.Face == AnyFace {
			return v.Fault(fmt.Sprintf("face: %q is not a way for a face to lie", strict.Shorten(text)), "write up or down, or take the line out")
		}
	case "grain":
		s.GrainAt = v.Where()
		var fault error
		if s.Grain, fault = ParseBase(text); fault != nil {
			bad := v.Fault(fmt.Sprintf("grain: %q does not name an edge", strict.Shorten(text)), "write the two ends of the edge that the grain runs along, such as AB")
			if f, ok := fault.(*unit.Fault); ok && f.Code == unit.SmallLetter {
				bad.Hint = f.Hint
			}
			return bad
		}
	}
	return nil
}

// tokens reads a list of tokens, in brackets, one a line, or in braces. What a
// token says is left to Work, which knows the unit of a bare number; example and
// the words that one of them holds are for the hints.
func tokens(v strict.Value, key, example string, words ...string) ([]Setting, error) {
	items, ok := v.Items()
	if _, braces := v.Keys(); braces {
		fields, err := v.Fields(key)
		if err != nil {
			return nil, err
		}
		for _, f := range fields {
			if !f.Value.Blank() {
				return nil, colon(f.At, f.Key, example)
			}
			items = append(items, f.At)
		}
		ok = true
	}
	form := key + ": [" + example + "]"
	switch {
	case !ok:
		return nil, v.Fault(key+" is not a list", form)
	case len(items) == 0:
		return nil, v.Fault("the list of "+key+" is empty", form)
	case len(items) > MaxTokens:
		return nil, items[MaxTokens].Fault(fmt.Sprintf("more than %d %s", MaxTokens, key), "")
	}
	list := make([]Setting, 0, len(items))
	for _, item := range items {
		if keys, ok := item.Keys(); ok {
			first := ""
			if len(keys) > 0 {
				first = keys[0]
			}
			return nil, colon(item, first, example)
		}
		text, err := item.Text("one of the " + key)
		if err != nil {
			return nil, err
		}
		if n := len(list); n > 0 && text[0] >= '0' && text[0] <= '9' && !holdsOne(text, words) {
			return nil, item.Fault(fmt.Sprintf("%q is none of the %s", strict.Shorten(text), key),
				fmt.Sprintf(`a comma parts the items of a list: for a decimal comma quote the whole, "%s,%s"`, strict.Shorten(list[n-1].Text), strict.Shorten(text)))
		}
		list = append(list, Setting{text, item.Where()})
	}
	return list, nil
}

func colon(v strict.Value, key, example string) error {
	hint := "write " + example
	if key != "" {
		hint = "write " + strict.Shorten(key) + " … as in " + example
	}
	return v.Fault("this is written without a colon", hint)
}

func holdsOne(text string, words []string) bool {
	for _, w := range words {
		if strings.Contains(text, w) {
			return true
		}
	}
	return false
}

// Work reads the tokens, each bare number in the given unit. Its errors are
// *unit.Fault with file:line:column.
func (s Shape) Work(bare unit.Unit) (shape.Work, error) {
	var w shape.Work
	for _, t := range s.Edges {
		a, err := shape.ParseAllowance(t.Text, bare)
		if err != nil {
			return w, unit.Placed(err, t.Where)
		}
		a.Where = t.Where
		w.Allowances = append(w.Allowances, a)
	}
	for _, t := range s.Corners {
		c, err := shape.ParseCorner(t.Text, bare)
		if err != nil {
			return w, unit.Placed(err, t.Where)
		}
		c.Where = t.Where
		w.Corners = append(w.Corners, c)
	}
	for _, t := range s.Holes {
		h, err := shape.ParseHole(t.Text, bare)
		if err != nil {
			return w, unit.Placed(err, t.Where)
		}
		h.Where = t.Where
		w.Holes = append(w.Holes, h)
	}
	return w, nil
}
