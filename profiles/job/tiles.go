package job

import (
	"trammel/geom/unit"
	"trammel/profiles/strict"
	"trammel/profiles/tiled"
)

// Tiles is what a piece says of the tiles that it is laid with:
//
//	openings: [post at AB 1200 from A 900 size 150x150]
//	tiles:
//	  size: 600x300            as measured; 600 alone is square
//	  joint: 3
//	  gap: 8                   to every wall; or [AB 5, FA 12], the others 0
//	  pattern: straight        brick 1/2, brick 1/3, herringbone
//	  along: AB                a wall, an angle such as 45deg, or best
//	  layout: widest           balanced, widest, fewest
//	  centre: AB               the wall that must look even
//	  kerf: 3
//	  box: 11                  tiles in a box
//
// Lengths stay words until Floor reads them: a bare one counts the unit of the job.
type Tiles struct {
	Where                                                  string // empty: the piece has no tiles
	Size, Joint, Pattern, Along, Layout, Centre, Kerf, Box Setting
	Gaps                                                   []Setting
}

var tileKeys = []key[Tiles]{
	word("size", func(t *Tiles) *Setting { return &t.Size }),
	word("joint", func(t *Tiles) *Setting { return &t.Joint }),
	{"gap", func(t *Tiles, v strict.Value) (err error) {
		t.Gaps, err = list[Setting]{key: "gap", item: "a gap", kind: "walls and gaps", form: "gap: 8, or gap: [AB 5, FA 12]",
			notText: "a gap is written with a blank, not with a colon", whole: func(text, where string) ([]Setting, error) { return []Setting{{text, where}}, nil },
			one: func(text, where string) (Setting, error) { return Setting{text, where}, nil }}.read(v)
		return err
	}, nil},
	word("pattern", func(t *Tiles) *Setting { return &t.Pattern }),
	word("along", func(t *Tiles) *Setting { return &t.Along }),
	word("layout", func(t *Tiles) *Setting { return &t.Layout }),
	word("centre", func(t *Tiles) *Setting { return &t.Centre }),
	word("kerf", func(t *Tiles) *Setting { return &t.Kerf }),
	word("box", func(t *Tiles) *Setting { return &t.Box }),
}

// floorKeys of a piece.
var floorKeys = []key[Piece]{
	shapeTokensOf("openings", "post at AB 1200 from A 900 size 150x150", func(p *Piece) *[]Setting { return &p.Openings }),
	{"tiles", func(p *Piece, v strict.Value) error {
		p.Tiles.Where = v.Where()
		if err := readKeys(&p.Tiles, v, "tiles", tileKeys); err != nil {
			return err
		}
		if p.Tiles.Size.Text == "" {
			return v.Fault("the tiles have no size", "size: 600x300, as measured; 600 alone is square")
		}
		return nil
	}, nil},
}

// shapeTokensOf is a list of tokens in brackets, one a line, or in braces, whose words
// are parted when their unit is known.
func shapeTokensOf(name, example string, of func(*Piece) *[]Setting) key[Piece] {
	list := tokens{
		key: name, example: example, kind: name, item: "one of the " + name, notList: " is not a list", empty: "the list of " + name + " is empty",
		most: MaxTokens, marks: []string{" "}, unmarked: "is none of the " + name, write: "write " + example, braces: true,
		colon: func([]string) (what, hint string) { return "this is written without a colon", "write " + example },
	}
	return key[Piece]{name, func(p *Piece, v strict.Value) (err error) { *of(p), err = list.read(v); return err }, nil}
}

// Floor reads what the piece says of its tiles, each bare number in the given unit. Its errors
// are *unit.Fault with file:line:column.
func (p Piece) Floor(bare unit.Unit) (tiled.Floor, error) {
	t := p.Tiles
	w := tiled.Words{
		Where: t.Where, Size: tiled.Word(t.Size), Joint: tiled.Word(t.Joint), Pattern: tiled.Word(t.Pattern), Along: tiled.Word(t.Along),
		Layout: tiled.Word(t.Layout), Centre: tiled.Word(t.Centre), Kerf: tiled.Word(t.Kerf), Box: tiled.Word(t.Box),
	}
	for _, g := range t.Gaps {
		w.Gaps = append(w.Gaps, tiled.Word(g))
	}
	for _, o := range p.Openings {
		w.Openings = append(w.Openings, tiled.Word(o))
	}
	return w.Floor(bare)
}
