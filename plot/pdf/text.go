package pdf

import (
	"strconv"
	"unicode/utf16"
)

// text is a text string: plain where it is ASCII, else UTF-16 (ISO 32000-1, 7.9.2.2).
func text(s string) string {
	plain := append(make([]byte, 0, len(s)+8), '(')
	for _, r := range s {
		switch {
		case r == '(' || r == ')' || r == '\\':
			plain = append(plain, '\\', byte(r))
		case ' ' <= r && r <= '~':
			plain = append(plain, byte(r))
		default:
			return wide(s)
		}
	}
	return string(append(plain, ')'))
}

func wide(s string) string {
	b := []byte("<FEFF")
	for _, u := range utf16.Encode([]rune(s)) {
		b = hex16(b, u)
	}
	return string(append(b, '>'))
}

// narrow reads back what stands behind the FEFF of a wide string.
func narrow(hex string) string {
	var u []uint16
	for ; len(hex) >= 4; hex = hex[4:] {
		v, _ := strconv.ParseUint(hex[:4], 16, 16) // the form holds it to digits
		u = append(u, uint16(v))
	}
	return string(utf16.Decode(u))
}

func hex16(b []byte, u uint16) []byte {
	const digits = "0123456789ABCDEF"
	return append(b, digits[u>>12], digits[u>>8&15], digits[u>>4&15], digits[u&15])
}
