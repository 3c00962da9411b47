package lettering

import (
	"fmt"
	"unicode/utf8"

	"github.com/tdewolff/font"

	"trammel/geom/unit"
)

// face is one weight of the font. It is not changed once made: the font library
// changes a font while it takes a subset of it, so that is done on another copy.
type face struct {
	name        string
	file        []byte
	sfnt        *font.SFNT
	em, capital unit.Length    // in font units
	low         [0x180]glyph   // Latin, at hand
	standIns    map[rune]glyph // read only
}

// glyph is how one character is drawn; id 0 is the font's box for what it lacks.
type glyph struct {
	id, advance uint16
}

// newFace reads an embedded font; one that cannot be read was damaged when the
// program was built, and no input can bring that about.
func newFace(name string, file []byte) *face {
	s, err := font.ParseSFNT(file, 0)
	if err != nil {
		panic(fmt.Sprintf("embedded font %s: %v", name, err))
	}
	c := &face{name: name, file: file, sfnt: s, em: unit.Length(s.Head.UnitsPerEm), capital: unit.Length(s.OS2.SCapHeight)}
	// Characters that the Go fonts lack and that look like another one; the
	// spaces get their own width.
	em := s.Head.UnitsPerEm
	space, figure := c.find(' '), c.find('0')
	c.standIns = map[rune]glyph{
		'\u2007': {space.id, figure.advance}, // figure space
		'\u2009': {space.id, em / 5},         // thin space, between thousands
		'\u200a': {space.id, em / 8},         // hair space
		'\u202f': {space.id, em / 5},         // narrow no-break space
		'\u2011': c.find('-'),                // no-break hyphen
	}
	for r := range c.low {
		c.low[r] = c.find(rune(r))
	}
	return c
}

func (c *face) glyph(r rune) glyph {
	if 0 <= r && int(r) < len(c.low) {
		return c.low[r]
	}
	return c.find(r)
}

func (c *face) find(r rune) glyph {
	// A control character has no shape, whatever the font maps it to, and its shape
	// for U+FFFD would hide that the words are broken.
	if r < ' ' || 0x7f <= r && r < 0xa0 || r == utf8.RuneError {
		return glyph{}
	}
	if g, ok := c.standIns[r]; ok {
		return g
	}
	id := c.sfnt.GlyphIndex(r)
	return glyph{id, c.sfnt.GlyphAdvance(id)}
}
