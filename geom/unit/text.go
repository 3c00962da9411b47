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
// too much, bytes that are not text, or a character that Hidden finds. what is "length", "angle", "measurement".
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
