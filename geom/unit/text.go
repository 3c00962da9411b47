package unit

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// MaxText is how many characters a measurement may have, the tolerance
// included. The longest honest one is half of it; a limit keeps exact
// arithmetic on somebody's binary file from taking for ever.
const MaxText = 64

// CheckText refuses what cannot be a measurement whatever it says: nothing,
// too much, or bytes that are not text. what is "length", "angle", "measurement".
func CheckText(text, what string) *Fault {
	switch {
	case len(text) > utf8.UTFMax*MaxText || utf8.RuneCountInString(text) > MaxText:
		return &Fault{What: Quote(text) + " is too long for " + article(what),
			Hint: "at most " + strconv.Itoa(MaxText) + " characters"}
	case !utf8.ValidString(text):
		return &Fault{What: Quote(text) + " is not text", Hint: "save the words as UTF-8"}
	case strings.TrimSpace(text) == "":
		return &Fault{What: "no " + what + " is written"}
	}
	return nil
}

func article(what string) string {
	if what == "angle" {
		return "an angle"
	}
	return "a " + what
}

// Quote shows somebody's words in a message: in double quotes, or in back
// quotes where they hold an inch mark, unprintable characters escaped, a long
// text cut. It is always one line.
func Quote(text string) string {
	const most = 40
	if len(text) > utf8.UTFMax*most {
		text = text[:utf8.UTFMax*most] // enough bytes for what is shown
	}
	n := 0
	for i := range text {
		if n++; n > most {
			text = text[:i] + "…"
			break
		}
	}
	if strings.Contains(text, `"`) && utf8.ValidString(text) && printable(text) && !strings.Contains(text, "`") {
		return "`" + text + "`"
	}
	return strconv.Quote(text)
}

func printable(text string) bool {
	for _, r := range text {
		if !strconv.IsPrint(r) {
			return false
		}
	}
	return true
}

// plusMinus are the ways to begin a tolerance.
var plusMinus = [...]string{"±", "+-", "+/-", "+\u2212"}

// cutTolerance parts a value from its tolerance.
func cutTolerance(text string) (value, tolerance string, stated bool) {
	at, length := len(text), 0
	for _, sign := range plusMinus {
		if i := strings.Index(text, sign); i >= 0 && i < at {
			at, length = i, len(sign)
		}
	}
	return strings.TrimSpace(text[:at]), strings.TrimSpace(text[at+length:]), length > 0
}

// vulgar are the fractions that are one character.
var vulgar = map[rune]string{
	'½': "1/2", '⅓': "1/3", '⅔': "2/3", '¼': "1/4", '¾': "3/4", '⅕': "1/5", '⅖': "2/5", '⅗': "3/5", '⅘': "4/5",
	'⅙': "1/6", '⅚': "5/6", '⅐': "1/7", '⅛': "1/8", '⅜': "3/8", '⅝': "5/8", '⅞': "7/8", '⅑': "1/9", '⅒': "1/10",
}

// plain writes the characters that type and word processors put in place of
// those of a keyboard as the latter: primes and curly quotes, minus signs,
// spaces, degree signs, vulgar fractions.
func plain(text string) string {
	var b strings.Builder
	last := rune(0) // the last character written
	write := func(s string) {
		b.WriteString(s)
		last, _ = utf8.DecodeLastRuneInString(s)
	}
	afterFraction := false
	for _, r := range text {
		if afterFraction && digit(r) {
			write(" ") // ½5 must not become 1/25
		}
		afterFraction = false
		if f, ok := vulgar[r]; ok {
			if digit(last) {
				write(" ")
			}
			write(f)
			afterFraction = true
			continue
		}
		switch r {
		case '′', '’', '‘', 'ʹ', '´':
			write("'")
		case '″', '”', '“', 'ʺ':
			write(`"`)
		case '\u2010', '\u2011', '\u2013', '\u2212':
			write("-")
		case '\u2044', '\u2215':
			write("/")
		case 'º', '˚':
			write("°")
		case '\t', '\u00a0', '\u2002', '\u2003', '\u2004', '\u2005', '\u2006', '\u2007', '\u2008', '\u2009', '\u200a', '\u202f':
			write(" ")
		default:
			write(string(r))
		}
	}
	return strings.ReplaceAll(b.String(), "''", `"`)
}

func digit(r rune) bool { return '0' <= r && r <= '9' }
