package lettering

import (
	"crypto/sha256"
	"encoding/binary"
	"fmt"

	"github.com/tdewolff/font"
)

// Subset is a part of one weight, to be embedded in a file.
type Subset struct {
	Name string // "KQXWFB+GoRegular": a tag drawn from the characters, then the font
	File []byte // a TrueType font whose glyph i+1 draws character i
	// Advances of glyph 0 and the characters, and the measures of the whole
	// font, in thousandths of the em.
	Advances                 []float64
	Box                      [4]float64 // left, bottom, right, top over all glyphs
	Ascent, Descent, Capital float64
	Stem                     float64 // width of an upright stroke
}

// Subset takes the characters out of one weight, each as a glyph of its own in
// the order given (a stand-in too, with its own advance). The same characters
// give the same bytes.
func (f Font) Subset(chars []rune, bold bool) (Subset, error) {
	c := f.face(bold)
	whole, err := font.ParseSFNT(c.file, 0) // see face: a copy of its own
	if err != nil {
		return Subset{}, fmt.Errorf("font %s: %w", c.name, err)
	}
	per := 1000 / float64(c.em)
	head, hhea := whole.Head, whole.Hhea
	s := Subset{
		Name:   tag(chars) + "+" + c.name,
		Box:    [4]float64{per * float64(head.XMin), per * float64(head.YMin), per * float64(head.XMax), per * float64(head.YMax)},
		Ascent: per * float64(hhea.Ascender), Descent: per * float64(hhea.Descender), Capital: per * float64(c.capital),
	}
	left, _, right, _ := whole.GlyphBounds(whole.GlyphIndex('ı')) // a stroke and nothing else
	s.Stem = per * float64(right-left)

	glyphs := make([]glyph, 1, len(chars)+1)
	glyphs[0].advance = whole.GlyphAdvance(0)
	for _, r := range chars {
		glyphs = append(glyphs, c.glyph(r))
	}
	ids := make([]uint16, len(glyphs))
	for i, g := range glyphs {
		ids[i] = g.id
		s.Advances = append(s.Advances, per*float64(g.advance))
	}
	part, err := whole.Subset(ids, font.SubsetOptions{Tables: font.KeepPDFTables})
	if err != nil {
		return Subset{}, fmt.Errorf("font %s: %w", c.name, err)
	}
	part.Tables["hmtx"] = metrics(part, glyphs)
	part.Tables["hhea"] = append([]byte{}, part.Tables["hhea"]...)
	copy(part.Tables["hhea"][34:], part.Tables["maxp"][4:6]) // numberOfHMetrics: that of the glyphs

	s.File = part.Write()
	return s, restoreDate(s.File, c.sfnt.Tables["head"][28:36])
}

// metrics is the hmtx table in full: the glyphs' own advances, and the font's for
// the parts of composed letters that follow them.
func metrics(part *font.SFNT, glyphs []glyph) []byte {
	n := int(binary.BigEndian.Uint16(part.Tables["maxp"][4:]))
	b := make([]byte, 0, 4*n)
	for i := range n {
		advance := part.Hmtx.Advance(uint16(i))
		if i < len(glyphs) {
			advance = glyphs[i].advance
		}
		b = binary.BigEndian.AppendUint16(b, advance)
		b = binary.BigEndian.AppendUint16(b, uint16(part.Hmtx.LeftSideBearing(uint16(i))))
	}
	return b
}

// restoreDate puts the source's date back into head.modified, where the font
// library writes the time of day, and redoes the two checksums over it (OpenType
// 1.9, "Calculating checksums"; the file's lies in the head table itself, which
// is summed with it at zero).
func restoreDate(file, date []byte) error {
	for i := range int(binary.BigEndian.Uint16(file[4:])) {
		record := file[12+16*i:]
		if string(record[:4]) != "head" {
			continue
		}
		at := binary.BigEndian.Uint32(record[8:])
		head := file[at : at+56] // 54 bytes and their padding
		copy(head[28:], date)
		binary.BigEndian.PutUint32(head[8:], 0)
		binary.BigEndian.PutUint32(record[4:], checksum(head))
		binary.BigEndian.PutUint32(head[8:], 0xB1B0AFBA-checksum(file))
		return nil
	}
	return fmt.Errorf("font subset: no head table")
}

// checksum adds up b in words; the font library pads every table to words.
func checksum(b []byte) (sum uint32) {
	for ; len(b) >= 4; b = b[4:] {
		sum += binary.BigEndian.Uint32(b)
	}
	return sum
}

// tag is the six capital letters that name a subset (ISO 32000-1, 9.6.4).
func tag(chars []rune) string {
	sum := sha256.Sum256([]byte(string(chars)))
	b := sum[:6]
	for i := range b {
		b[i] = 'A' + b[i]%26
	}
	return string(b)
}
