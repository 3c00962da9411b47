package pdf

import (
	"fmt"

	"trammel/plot/internal/decimal"
	"trammel/plot/lettering"
)

// embedded is what the pages have used of one weight. The code of a character in
// the pages is the number of its glyph in the subset, which is written last.
type embedded struct {
	codes map[rune]uint16
	chars []rune
}

func (e *embedded) code(r rune) uint16 {
	n, ok := e.codes[r]
	if !ok {
		if e.codes == nil {
			e.codes = map[rune]uint16{}
		}
		e.chars = append(e.chars, r)
		n = uint16(len(e.chars)) // glyph 0 is the empty one
		e.codes[r] = n
	}
	return n
}

// fonts writes those that are used, and names them for the pages' resources.
func (f *file) fonts(l lettering.Font, all [2]embedded) (names []byte, err error) {
	for i, e := range all {
		if len(e.chars) == 0 {
			continue
		}
		r, err := f.font(l, e, i == 1)
		if err != nil {
			return nil, err
		}
		names = fmt.Appendf(names, " %s %d 0 R", [...]string{"/Regular", "/Bold"}[i], r)
	}
	return names, nil
}

// font writes one weight as a composite font whose characters can be read back
// (ISO 32000-1, 9.7 and 9.10.3).
func (f *file) font(l lettering.Font, e embedded, bold bool) (ref, error) {
	s, err := l.Subset(e.chars, bold)
	if err != nil {
		return 0, err
	}
	data := f.reserve()
	f.stream(data, fmt.Sprintf("/Length1 %d", len(s.File)), s.File)

	var box, widths []byte
	for _, v := range s.Box {
		box = append(decimal.Append(box, v, 0), ' ')
	}
	for _, v := range s.Advances {
		widths = append(decimal.Append(widths, v, 4), ' ')
	}
	descriptor := f.add("<< /Type /FontDescriptor /FontName /%s /Flags 4 /FontBBox [%s] /ItalicAngle 0 /Ascent %.0f /Descent %.0f /CapHeight %.0f /StemV %.0f /FontFile2 %d 0 R >>",
		s.Name, box, s.Ascent, s.Descent, s.Capital, s.Stem, data)
	descendant := f.add("<< /Type /Font /Subtype /CIDFontType2 /BaseFont /%s /CIDSystemInfo << /Registry (Adobe) /Ordering (Identity) /Supplement 0 >> /FontDescriptor %d 0 R /CIDToGIDMap /Identity /W [0 [%s]] >>",
		s.Name, descriptor, widths)
	unicode := f.reserve()
	f.stream(unicode, "", toUnicode(e.chars))
	return f.add("<< /Type /Font /Subtype /Type0 /BaseFont /%s /Encoding /Identity-H /DescendantFonts [%d 0 R] /ToUnicode %d 0 R >>", s.Name, descendant, unicode), nil
}

// toUnicode is the map from codes back to characters.
func toUnicode(chars []rune) []byte {
	b := []byte("/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n" +
		"/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n" +
		"/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n" +
		"1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n")
	const block = 100 // the most that one block may hold
	for i := 0; i < len(chars); i += block {
		part := chars[i:min(i+block, len(chars))]
		b = fmt.Appendf(b, "%d beginbfchar\n", len(part))
		for j, r := range part {
			w := wide(string(r))
			b = fmt.Appendf(b, "<%04X> <%s\n", i+j+1, w[len("<FEFF"):])
		}
		b = append(b, "endbfchar\n"...)
	}
	return append(b, "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n"...)
}
