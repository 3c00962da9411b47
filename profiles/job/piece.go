package job

import (
	"fmt"
	"slices"
	"strings"

	"trammel/geom"
	"trammel/geom/construct"
	"trammel/geom/unit"
	"trammel/profiles/strict"
)

// Piece is one triangle, or one net of triangles, to be made.
type Piece struct {
	Name     string // empty where the job gives none
	NameAt   string // where Name was written
	Where    string
	Measure  []Setting // the tokens, such as AB=600
	Notes    []string  // beside each of them, empty where nothing is noted; nil where nothing is
	Quantity int       // pieces, of a pair both hands together; where the job does not say 1, of a pair 2
	Pick     Pick
	PickAt   string           // where Pick was written
	Base     [2]geom.Name     // empty: choose
	BaseAt   string           // where Base was written
	With     construct.Method // to construct it
	Way      construct.Method // to place its pegs, where they are set out; of a merged job

	Outline   []geom.Name // the edge once round; empty: the triangle
	OutlineAt string
	Sides     []Aside   // on which side points lie
	Found     []Setting // the tokens of what was measured back
	FoundAt   string
	Fixed     []geom.Name // pegs that are known to stand right
	FixedAt   string
	Levels    []Level // how high pegs stand; none: all is level
	LevelsAt  string
	Walls     Lines // that no tape goes through
	WallsAt   string
	Blocked   Lines // lines that something stands on
	BlockedAt string

	quantity strict.Value // as it was written, until all of the piece is read

	Shape Shape // allowances, corners, holes, hand, face, grain

	Tiles    Tiles     // that it is laid with
	Openings []Setting // in a floor: the tokens
}

// pieceKeys of a triangle, and what a net of points has beyond it:
//
//	outline: [A, B, C, D]                      the edge of the piece once round
//	side: [D left, E right of AB]              or one word for all points: left
//	found: [AB=4510, BC=3005]                  what was measured back after setting out
//	fixed: [A, B]                              pegs that are known to stand right
//	levels: [A 0, B 320]                       how high pegs stand, over whatever they count from
//	walls: [AB, BC]                            where no tape goes through, or all of them: outline
//	blocked: [AC]                              lines that something stands on
//
// Those that say something may count over the lines of a job as well.
var pieceKeys = slices.Concat([]key[Piece]{
	{"name", func(p *Piece, v strict.Value) error { return readName(&p.Name, &p.NameAt, v, "the piece's name") }, nil},
	{"measure", func(p *Piece, v strict.Value) (err error) {
		p.Measure, err = measured("measure", "the piece has no measurements").read(v)
		return err
	}, nil},
	{"quantity", func(p *Piece, v strict.Value) (err error) {
		p.Quantity, err = v.Integer("quantity", 1, MaxQuantity)
		p.quantity = v
		return err
	}, nil},
	{"pick", func(p *Piece, v strict.Value) error {
		p.PickAt = v.Where()
		return parse(v, "pick", &p.Pick, ParsePick)
	},
		func(p Piece) any { return p.Pick.String() }},
	{"base", func(p *Piece, v strict.Value) error {
		p.BaseAt = v.Where()
		return parse(v, "base", &p.Base, ParseBase)
	},
		func(p Piece) any { return string(p.Base[0] + p.Base[1]) }},
	{"with", func(p *Piece, v strict.Value) error { return parse(v, "with", &p.With, ParseMethod) },
		func(p Piece) any { return MethodWord(p.With) }},
	{"outline", func(p *Piece, v strict.Value) (err error) {
		p.OutlineAt = v.Where()
		p.Outline, err = outline(v)
		return err
	},
		func(p Piece) any { return joined(p.Outline, ",") }},
	{"side", func(p *Piece, v strict.Value) (err error) { p.Sides, err = sides.read(v); return err },
		func(p Piece) any { return joined(p.Sides, ", ") }},
	{"found", func(p *Piece, v strict.Value) (err error) {
		p.FoundAt = v.Where()
		p.Found, err = measured("found", "the list of what was found is empty").read(v)
		return err
	}, func(p Piece) any { return texts(p.Found) }},
	{"fixed", func(p *Piece, v strict.Value) (err error) { p.FixedAt = v.Where(); p.Fixed, err = fixed(v); return err },
		func(p Piece) any { return joined(p.Fixed, ",") }},
	{"levels", func(p *Piece, v strict.Value) (err error) {
		p.LevelsAt = v.Where()
		p.Levels, err = levels.read(v)
		return err
	},
		func(p Piece) any { return joined(p.Levels, "; ") }},
	{"walls", func(p *Piece, v strict.Value) (err error) {
		p.WallsAt = v.Where()
		p.Walls, err = readLines("walls", v, ParseWalls)
		return err
	},
		func(p Piece) any { return p.Walls.String() }},
	{"blocked", func(p *Piece, v strict.Value) (err error) {
		p.BlockedAt = v.Where()
		p.Blocked, err = readLines("blocked", v, ParseBlocked)
		return err
	},
		func(p Piece) any { return p.Blocked.String() }},
}, shapeKeys, floorKeys)

// count settles how many pieces there are. A pair is two.
func (p *Piece) count() error {
	said := p.quantity
	p.quantity = strict.Value{}
	switch {
	case p.Quantity == 0 && p.Shape.Pair:
		p.Quantity = 2
	case p.Quantity == 0:
		p.Quantity = 1
	case p.Shape.Pair && p.Quantity%2 != 0:
		return said.Fault(fmt.Sprintf("quantity: %d pieces are no pairs, and the piece is handed: pair", p.Quantity),
			fmt.Sprintf("quantity counts pieces of both hands: write %d, or leave handed out", min(p.Quantity+1, MaxQuantity)))
	}
	return nil
}

// take is the piece with what counts over it.
func (p *Piece) take(over Piece) {
	if over.Pick != Unpicked {
		p.Pick, p.PickAt = over.Pick, over.PickAt
	}
	if over.Base != ([2]geom.Name{}) {
		p.Base, p.BaseAt = over.Base, over.BaseAt
	}
	if over.With != construct.AsMeasured {
		p.With = over.With
	}
	if len(over.Outline) > 0 {
		p.Outline, p.OutlineAt = over.Outline, over.OutlineAt
	}
	if len(over.Sides) > 0 {
		p.Sides = over.Sides
	}
	if len(over.Levels) > 0 {
		p.Levels, p.LevelsAt = over.Levels, over.LevelsAt
	}
	if over.Walls.Said() {
		p.Walls, p.WallsAt = over.Walls, over.WallsAt
	}
	if over.Blocked.Said() {
		p.Blocked, p.BlockedAt = over.Blocked, over.BlockedAt
	}
}

func measured(key, empty string) tokens {
	return tokens{
		key: key, example: "AB=600, BC=450, CA=450", kind: "measurements", item: "the measurement",
		notList: " is not a list of measurements", empty: empty, most: MaxMeasurements,
		marks: []string{"="}, unmarked: "is not a measurement: it has no =", write: "write what was measured and its value, such as AB=600",
		colon: func(keys []string) (what, hint string) {
			if len(keys) == 1 {
				hint = "write " + strict.Shorten(keys[0]) + "=…"
			}
			return "a measurement is written with =, not with a colon", hint
		},
	}
}

// Pick says which of two triangles that fit is meant.
type Pick uint8

const (
	Unpicked Pick = iota
	First
	Second
	Both
)

var picks = []string{"", "1", "2", "both"}

func (p Pick) String() string { return picks[p] }

// ParsePick reads 1, 2 or both. A Fault has no place yet.
func ParsePick(text string) (Pick, error) {
	if i := slices.Index(picks, text); i > 0 {
		return Pick(i), nil
	}
	return Unpicked, &unit.Fault{What: fmt.Sprintf("%q is not a pick", strict.Shorten(text)), Hint: "where two triangles fit, write 1, 2 or both"}
}

var (
	methods     = []construct.Method{construct.ByArcs, construct.ByAngle, construct.BySquare}
	methodWords = []string{"arcs", "angle", "square"}
)

// ParseMethod reads arcs, angle or square. A Fault has no place yet.
func ParseMethod(text string) (construct.Method, error) {
	if i := slices.Index(methodWords, text); i >= 0 {
		return methods[i], nil
	}
	return construct.AsMeasured, &unit.Fault{What: fmt.Sprintf("%q is not a way to construct", strict.Shorten(text)), Hint: strict.Suggest(text, methodWords)}
}

// MethodWord is a method as ParseMethod reads it, empty for AsMeasured.
func MethodWord(with construct.Method) string {
	if i := slices.Index(methods, with); i >= 0 {
		return methodWords[i]
	}
	return ""
}

func texts(list []Setting) (all []string) {
	for _, s := range list {
		all = append(all, s.Text)
	}
	return all
}

// joined are the words of values, with what parts them.
func joined[V any](list []V, between string) string {
	words := make([]string, len(list))
	for i, v := range list {
		words[i] = fmt.Sprint(v)
	}
	return strings.Join(words, between)
}
