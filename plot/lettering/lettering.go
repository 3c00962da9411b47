// Package lettering is the one place that knows a font: it measures words, gives
// the outlines of letters and subsets the font for embedding. The fonts are the
// Go fonts, embedded; heights are of a capital letter (ISO 3098), not of the em.
//
// The Go fonts have neither kerning nor ligatures, so that a line of words is as
// wide as the sum of its letters.
//
// Files, from the top floor to the ground: outline.go, subset.go, lettering.go,
// face.go.
package lettering

import (
	"fmt"
	"sync"
	"unicode/utf8"

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
