package lettering

import (
	"bytes"
	"encoding/binary"
	"testing"

	"golang.org/x/image/font/gofont/goregular"
)

// tables reads the directory of a font by the OpenType specification alone.
func tables(t *testing.T, file []byte) map[string][]byte {
	t.Helper()
	m := map[string][]byte{}
	for i := range int(binary.BigEndian.Uint16(file[4:])) {
		r := file[12+16*i:]
		at, n := binary.BigEndian.Uint32(r[8:]), binary.BigEndian.Uint32(r[12:])
		table := file[at : at+n]
		m[string(r[:4])] = table

		// OpenType 1.9, "Calculating checksums": head is summed with its own at 0.
		padded := append(bytes.Clone(table), 0, 0, 0)
		if string(r[:4]) == "head" {
			clear(padded[8:12])
		}
		var sum uint32
		for j := 0; j+4 <= len(padded); j += 4 {
			sum += binary.BigEndian.Uint32(padded[j:])
		}
		if want := binary.BigEndian.Uint32(r[4:]); sum != want {
			t.Errorf("%s: checksum %08x, the directory has %08x", r[:4], sum, want)
		}
	}
	return m
}

func TestSubset(t *testing.T) {
	chars := []rune("A\u2009 Äg1½")
	s, err := Go().Subset(chars, false)
	if err != nil {
		t.Fatal(err)
	}
	part, whole := tables(t, s.File), tables(t, goregular.TTF)

	var sum uint32
	for i := 0; i+4 <= len(s.File); i += 4 {
		sum += binary.BigEndian.Uint32(s.File[i:])
	}
	if sum != 0xB1B0AFBA { // OpenType 1.9: the whole file with checkSumAdjustment in place
		t.Errorf("the file sums to %08x", sum)
	}
	if !bytes.Equal(part["head"][20:36], whole["head"][20:36]) {
		t.Errorf("dates % x, the source has % x", part["head"][20:36], whole["head"][20:36])
	}
	glyphs := int(binary.BigEndian.Uint16(part["maxp"][4:]))
	if glyphs < 1+len(chars) || binary.BigEndian.Uint16(part["hhea"][34:]) != uint16(glyphs) || len(part["hmtx"]) != 4*glyphs {
		t.Fatalf("%d glyphs, %d bytes of metrics for %d characters", glyphs, len(part["hmtx"]), len(chars))
	}
	for i, r := range chars {
		advance := binary.BigEndian.Uint16(part["hmtx"][4*(i+1):])
		if want := float64(Go().Width(string(r), Go().face(false).capital, false)); float64(advance) != want {
			t.Errorf("%q advances by %d, want %v", r, advance, want)
		}
		if want := float64(advance) * 1000 / 2048; s.Advances[i+1] != want {
			t.Errorf("%q advances by %v thousandths, want %v", r, s.Advances[i+1], want)
		}
	}
	if len(s.File) > len(goregular.TTF)/10 {
		t.Errorf("%d of %d bytes for %d characters", len(s.File), len(goregular.TTF), len(chars))
	}

	again, err := Go().Subset(chars, false)
	if err != nil || !bytes.Equal(again.File, s.File) || again.Name != s.Name {
		t.Errorf("a second time it is another: %v", err)
	}
	if more, err := Go().Subset(append(chars, 'x'), false); err != nil || more.Name == s.Name {
		t.Errorf("other characters, the same name %s: %v", s.Name, err)
	}
}
