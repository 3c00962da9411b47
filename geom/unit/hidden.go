package unit

import (
	"fmt"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Hidden finds the first character of a text that acts on what stands beside it and
// has no look of its own: a control character (but a tab or a line's end), a separator
// of lines or paragraphs, or a mark that turns the order in which letters are shown
// (Unicode Standard Annex 9; the property Bidi_Control), so that the eye reads something
// else than the program. at is its place in bytes.
func Hidden(text string) (at int, found bool) {
	for i, r := range text {
		control := unicode.IsControl(r) && r != '\t' && r != '\n' && r != '\r'
		if control || unicode.In(r, unicode.Zl, unicode.Zp, unicode.Bidi_Control) {
			return i, true
		}
	}
	return 0, false
}

// HiddenFault is the fault of a text in which Hidden finds something, nil where it
// finds nothing. It says what is in it, not where: "holds the character U+202E, …".
func HiddenFault(text string) *Fault {
	at, found := Hidden(text)
	if !found {
		return nil
	}
	r := []rune(text[at:])[0]
	does := "cannot be seen"
	if unicode.Is(unicode.Bidi_Control, r) {
		does = "cannot be seen and turns the order of letters"
	}
	return &Fault{What: fmt.Sprintf("holds the character %U, which %s", r, does), Hint: "take it out, or type the words anew"}
}

// Composed is a text with each letter and its accents as one character (NFC), as
// fonts have them and as names are compared.
func Composed(text string) string { return norm.NFC.String(text) }
