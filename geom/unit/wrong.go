package unit

import (
	"fmt"
	"regexp"
	"strings"
	"unicode"
)

// notA is the fault of text that is no length or no angle, with the hint that
// helps most. reads says whether other text would be one.
func notA(what, text string, reads func(string) bool) *Fault {
	f := &Fault{What: Quote(text) + " is not " + article(what), Hint: lengthHint}
	if what == "angle" {
		f.Hint = angleHint
	}
	lower := strings.ToLower(text)
	bare := strings.TrimLeft(plain(lower), "+- ")
	switch digits := asDigits(text); {
	case text == "":
		f.What = "no " + what + " is written"
	case what == "angle" && strings.HasSuffix(text, "o") && reads(strings.TrimSuffix(text, "o")):
		f.Hint = "write the degree sign, or deg: " + plain(strings.TrimSpace(strings.TrimSuffix(text, "o"))) + "°"
	case digits != text && reads(digits):
		f.Hint = "write digits, not letters that look like them: " + plain(digits)
	case bare != lower && reads(bare):
		f.Hint = "write " + article(what) + " without a sign"
		if strings.HasPrefix(plain(lower), "-") {
			f.What = Quote(text) + " is negative"
		}
	case strings.HasPrefix(bare, "nan"), strings.HasPrefix(bare, "inf"):
		f.Hint = "write a number that can be measured; " + f.Hint
	case strings.HasPrefix(bare, "0x"):
		f.Hint = "write it in decimal digits"
	case exponent.MatchString(bare):
		f.Hint = "write the number out, without a power of ten"
	case strings.Contains(bare, "_"):
		f.Hint = "write nothing between the digits"
	case strings.ContainsFunc(text, func(c rune) bool { return c > unicode.MaxASCII && unicode.IsDigit(c) }): // of another script, or wide
		f.Hint = "write it with the digits 0 to 9"
	default:
		if i := strings.IndexFunc(text, unseen); i >= 0 {
			f.Hint = fmt.Sprintf("it holds the character %U, which cannot be seen: type it anew", []rune(text[i:])[0])
		}
	}
	return f
}

// unseen is a character that changes how others look and has no look of its own:
// marks of direction, joiners, accents that stand above the letter before.
func unseen(c rune) bool { return unicode.In(c, unicode.Cf, unicode.Mn) }

// likeDigits are the letters that are taken for digits: Latin, Cyrillic, Greek.
var likeDigits = map[rune]rune{'o': '0', 'O': '0', 'О': '0', 'о': '0', 'Ο': '0', 'ο': '0', 'l': '1', 'I': '1', '|': '1'}

// asDigits puts digits in place of the letters that are taken for them, where
// they touch a digit or one another.
func asDigits(text string) string {
	r := []rune(text)
	for again := true; again; {
		again = false
		for i, c := range r {
			d, ok := likeDigits[c]
			if ok && (i > 0 && digit(r[i-1]) || i+1 < len(r) && digit(r[i+1])) {
				r[i], again = d, true
			}
		}
	}
	return string(r)
}

// exponent is a power of ten: 2e3, 2.4E+3 in small letters.
var exponent = regexp.MustCompile(`^[^e]*[0-9.]e[+-]*[0-9]`)

// wrongUnit is the fault of a length in a unit that is not read.
func wrongUnit(text, word string) *Fault {
	if lower := strings.ToLower(text); exponent.MatchString(lower) || strings.HasPrefix(lower, "0x") || asDigits(text) != text {
		return nil // something else is wrong than the unit
	}
	return &Fault{What: Quote(text) + " is not a length: " + Quote(word) + " is not a unit of length", Hint: "units are mm, cm, m, in or ft"}
}
