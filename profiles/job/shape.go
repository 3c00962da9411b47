package job

import (
	"fmt"
	"slices"

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
//	handed: pair                               one of each hand, from one template; quantity counts pieces
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
	GrainAt string       // where Grain was written
}

// Face says which side of the material lies up when the template is on it.
type Face uint8

const (
	AnyFace Face = iota
	FaceUp
	FaceDown
)

var faces = []string{"", "up", "down"}

func (f Face) String() string { return faces[f] }

var shapeKeys = []key[Piece]{
	shapeTokens("edges", "AB allow 3", func(s *Shape) *[]Setting { return &s.Edges }, " allow "),
	shapeTokens("corners", "A cut 20", func(s *Shape) *[]Setting { return &s.Corners }, " cut ", " round ", " blunt ", " mitre"),
	shapeTokens("holes", "12 at AB 40 from A 60", func(s *Shape) *[]Setting { return &s.Holes }, " at "),
	{"handed", func(p *Piece, v strict.Value) error { return parse(v, "handed", &p.Shape.Pair, parsePair) }, nil},
	{"face", func(p *Piece, v strict.Value) error { return parse(v, "face", &p.Shape.Face, parseFace) }, nil},
	{"grain", func(p *Piece, v strict.Value) error {
		p.Shape.GrainAt = v.Where()
		return parse(v, "grain", &p.Shape.Grain, parseGrain)
	}, nil},
}

// shapeTokens is a list of tokens, in brackets, one a line, or in braces. Each holds one
// of the words.
func shapeTokens(name, example string, of func(*Shape) *[]Setting, words ...string) key[Piece] {
	list := tokens{
		key: name, example: example, kind: name, item: "one of the " + name, notList: " is not a list", empty: "the list of " + name + " is empty",
		most: MaxTokens, marks: words, unmarked: "is none of the " + name, braces: true,
		colon: func(keys []string) (what, hint string) {
			hint = "write " + example
			if len(keys) > 0 && keys[0] != "" {
				hint = "write " + strict.Shorten(keys[0]) + " … as in " + example
			}
			return "this is written without a colon", hint
		},
	}
	return key[Piece]{name, func(p *Piece, v strict.Value) (err error) { *of(&p.Shape), err = list.read(v); return err }, nil}
}

func parsePair(text string) (bool, error) {
	if text != "pair" {
		return false, &unit.Fault{What: fmt.Sprintf("%q is not a way to hand a piece", strict.Shorten(text)), Hint: "write pair for one of each hand, or take the line out"}
	}
	return true, nil
}

func parseFace(text string) (Face, error) {
	i := slices.Index(faces, text)
	if i <= 0 {
		return AnyFace, &unit.Fault{What: fmt.Sprintf("%q is not a way for a face to lie", strict.Shorten(text)), Hint: "write up or down, or take the line out"}
	}
	return Face(i), nil
}

func parseGrain(text string) ([2]geom.Name, error) {
	edge, err := ParseBase(text)
	if f, ok := err.(*unit.Fault); ok {
		f.What = fmt.Sprintf("%q does not name an edge", strict.Shorten(text))
		if f.Code != unit.SmallLetter {
			f.Hint = "write the two ends of the edge that the grain runs along, such as AB"
		}
	}
	return edge, err
}

// Work reads the tokens, each bare number in the given unit. Its errors are
// *unit.Fault with file:line:column.
func (s Shape) Work(bare unit.Unit) (w shape.Work, err error) {
	if w.Allowances, err = work(s.Edges, bare, shape.ParseAllowance, func(a *shape.Allowance) *string { return &a.Where }); err != nil {
		return w, err
	}
	if w.Corners, err = work(s.Corners, bare, shape.ParseCorner, func(c *shape.Corner) *string { return &c.Where }); err != nil {
		return w, err
	}
	w.Holes, err = work(s.Holes, bare, shape.ParseHole, func(h *shape.Hole) *string { return &h.Where })
	return w, err
}

func work[T any](tokens []Setting, bare unit.Unit, parse func(string, unit.Unit) (T, error), place func(*T) *string) (all []T, err error) {
	for _, t := range tokens {
		one, err := parse(t.Text, bare)
		if err != nil {
			return all, unit.Placed(err, t.Where)
		}
		*place(&one) = t.Where
		all = append(all, one)
	}
	return all, nil
}
