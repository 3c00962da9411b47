package unit

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// MaxText is how many characters a measurement may have, the tolerance
// included. The longest honest one is half of it; a limit keeps exact
// arithmetic on somebody's binary file from taking for ever.
const MaxText = 64

// CheckText refuses what cannot be a measurement whatever it says: nothing,
// too much, bytes that are not text, or a hidden character. what is "length", "angle", "measurement".
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
	if f := HiddenFault(text); f != nil {
		return &Fault{What: Quote(text) + " " + f.What, Hint: f.Hint}
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
	text = Cut(text, 40)
	escaped := strings.ContainsFunc(text, func(r rune) bool { return !strconv.IsPrint(r) })
	if strings.Contains(text, `"`) && utf8.ValidString(text) && !escaped && !strings.Contains(text, "`") {
		return "`" + text + "`"
	}
	return strconv.Quote(text)
}

// Cut is a text of at most so many letters, and dots where there were more.
func Cut(text string, most int) string {
	for i := range text {
		if most--; most < 0 {
			return text[:i] + "…"
		}
	}
	return text
}

var plusMinus = regexp.MustCompile(`±|\+/?-|\+\x{2212}`)

func cutTolerance(text string) (value, tolerance string, stated bool) {
	at := plusMinus.FindStringIndex(text)
	if at == nil {
		return strings.TrimSpace(text), "", false
	}
	return strings.TrimSpace(text[:at[0]]), strings.TrimSpace(text[at[1]:]), true
}

// HiddenFault is the fault of a text with a character that acts on what stands beside it
// and has no look of its own, nil where it has none: a control character (but a tab or a
// line's end), a separator of lines or paragraphs, or a mark that turns the order in which
// letters are shown (Unicode Standard Annex 9; the property Bidi_Control), so that the eye
// reads something else than the program. It says what is in it, not where.
func HiddenFault(text string) *Fault {
	for _, r := range text {
		does := "cannot be seen"
		switch {
		case unicode.Is(unicode.Bidi_Control, r):
			does = "cannot be seen and turns the order of letters"
		case unicode.IsControl(r) && r != '\t' && r != '\n' && r != '\r', unicode.In(r, unicode.Zl, unicode.Zp):
		default:
			continue
		}
		return &Fault{What: fmt.Sprintf("holds the character %U, which %s", r, does), Hint: "take it out, or type the words anew"}
	}
	return nil
}

// Composed is a text with each letter and its accents as one character (NFC), as
// fonts have them and as names are compared.
func Composed(text string) string { return norm.NFC.String(text) }
