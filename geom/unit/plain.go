package unit

import (
	"strings"
	"unicode/utf8"
)

var vulgar = map[rune]string{
	'½': "1/2", '⅓': "1/3", '⅔': "2/3", '¼': "1/4", '¾': "3/4", '⅕': "1/5", '⅖': "2/5", '⅗': "3/5", '⅘': "4/5",
	'⅙': "1/6", '⅚': "5/6", '⅐': "1/7", '⅛': "1/8", '⅜': "3/8", '⅝': "5/8", '⅞': "7/8", '⅑': "1/9", '⅒': "1/10",
}

// keyboard is what a keyboard has for the characters that type and word processors
// put in place of it: primes and curly quotes, dashes and minus signs, spaces, degree
// signs, strokes of fractions, the ratio sign, and units that are one character.
var keyboard = func() map[rune]string {
	all := map[rune]string{}
	for plain, typed := range map[string]string{
		"'":  "′’‘ʹ´",
		`"`:  "″”“ʺ",
		"-":  "\u2010\u2011\u2012\u2013\u2014\u2212",
		"/":  "\u2044\u2215",
		":":  "\u2236",
		"°":  "º˚",
		" ":  "\t\u00a0\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f",
		"mm": "㎜", "cm": "㎝", "km": "㎞", "in": "㏌",
	} {
		for _, r := range typed {
			all[r] = plain
		}
	}
	return all
}()

const (
	raised  = "⁰¹²³⁴⁵⁶⁷⁸⁹"
	lowered = "₀₁₂₃₄₅₆₇₈₉"
)

// among gives the digit that a raised or lowered one stands for.
func among(digits string, r rune) (string, bool) {
	i := strings.IndexRune(digits, r)
	if i < 0 || r < 0x80 {
		return "", false
	}
	return string(rune('0' + utf8.RuneCountInString(digits[:i]))), true
}

// plain writes what a keyboard has, with composed letters (NFC).
func plain(text string) string {
	var b strings.Builder
	last := rune(0) // the last character written
	write := func(s string) {
		b.WriteString(s)
		last, _ = utf8.DecodeLastRuneInString(s)
	}
	// ½5 must not become 1/25, nor 9½ become 91/2.
	apart := func(is bool) {
		if is && digit(last) {
			write(" ")
		}
	}
	ended := false // a fraction of one character, or with a lowered bottom, ends here
	below := false // lowered digits stand below a stroke
	for _, r := range stacked(Composed(text)) {
		apart(ended && digit(r))
		ended = false
		low, isLow := among(lowered, r)
		switch {
		case vulgar[r] != "":
			apart(true)
			write(vulgar[r])
			ended = true
		case isLow && (last == '/' || below):
			write(low)
			ended, below = true, true
			continue
		case keyboard[r] != "":
			write(keyboard[r])
		default:
			write(string(r))
		}
		below = false
	}
	return strings.ReplaceAll(b.String(), "''", `"`)
}

// legible is a text as it was written, but for characters that few fonts have.
func legible(text string) string {
	if text = Composed(text); strings.ContainsAny(text, raised+lowered+"⅟∶㎜㎝㎞㏌") {
		return plain(text)
	}
	return text
}

// stacked writes the top of a fraction in raised digits, ³⁄₄, in plain ones, apart
// from what stands before it. Raised digits that no stroke follows stay: 10² is no
// length.
func stacked(text string) []rune {
	var all, top []rune
	for _, r := range text {
		switch d, ok := among(raised, r); {
		case ok:
			top = append(top, []rune(d)...)
			continue
		case r == '⅟':
			top, r = append(top, '1'), '/'
		}
		if len(top) > 0 {
			if stroke := r == '/' || keyboard[r] == "/"; !stroke {
				return []rune(text)
			}
			if n := len(all); n > 0 && digit(all[n-1]) {
				all = append(all, ' ')
			}
			all, top = append(all, top...), nil
		}
		all = append(all, r)
	}
	if len(top) > 0 {
		return []rune(text)
	}
	return all
}

func digit(r rune) bool { return '0' <= r && r <= '9' }
