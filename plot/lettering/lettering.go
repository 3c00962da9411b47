// Package lettering is the one place that knows a font: it measures words, gives
// the outlines of letters and subsets the font for embedding. The fonts are the
// Go fonts, embedded; heights are of a capital letter (ISO 3098), not of the em.
//
// The Go fonts have neither kerning nor ligatures, so that a line of words is as
// wide as the sum of its letters.
//
// Files, from the top floor to the ground: outline.go, subset.go, lettering.go.
package lettering

import (
	"fmt"
	"sync"
	"unicode/utf8"

	"github.com/tdewolff/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"

	"trammel/geom/unit"
)

// Font is a lettering in two weights. It is small, may be copied, and is safe for
// use by several goroutines.
type Font struct {
	faces *[2]*face // regular, bold
}

// Go is the lettering of all drawings: Go Regular and Go Bold.
func Go() Font { return Font{goFaces()} }

var goFaces = sync.OnceValue(func() *[2]*face {
	return &[2]*face{newFace("GoRegular", goregular.TTF), newFace("GoBold", gobold.TTF)}
})

func (f Font) face(bold bool) *face {
	if bold {
		return f.faces[1]
	}
	return f.faces[0]
}

// Width is the advance of a line of words at a capital height. A character that
// the lettering does not have counts as the font's empty box.
func (f Font) Width(words string, height unit.Length, bold bool) unit.Length {
	c, sum := f.face(bold), 0
	for _, r := range words {
		sum += int(c.glyph(r).advance)
	}
	return height * unit.Length(sum) / c.capital
}

// Missing returns the first character that one of the weights does not have, or
// 0. Control characters are missing; a NUL and a broken UTF-8 sequence are
// reported as U+FFFD.
func (f Font) Missing(words string) rune {
	for _, r := range words {
		for _, c := range f.faces {
			if c.glyph(r).id == 0 {
				if r == 0 {
					return utf8.RuneError
				}
				return r
			}
		}
	}
	return 0
}

// Check is nil where the lettering has every character of the words, else a
// *unit.Fault that names the first one missing.
func (f Font) Check(words string) error {
	r := f.Missing(words)
	if r == 0 {
		return nil
	}
	return &unit.Fault{
		Subject: unit.Written, Of: fmt.Sprintf("%q", words),
		What: fmt.Sprintf("the lettering has no character %q (%U)", r, r),
		Hint: "write it in other characters",
	}
}

// Em is the size of the font whose capitals have the height.
func (f Font) Em(height unit.Length, bold bool) unit.Length {
	c := f.face(bold)
	return height * c.em / c.capital
}

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
