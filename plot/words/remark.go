package words

import "strings"

// Remark is a whole sentence as it stands behind a lead, such as "take care:": without
// its stop, and with a small first letter where a word is small.
type Remark string

// Sentence is the same, standing alone.
func (r Remark) Sentence() string {
	if r == "" {
		return ""
	}
	return capital(string(r)) + "."
}

// capital is words with a great first letter.
func capital(words string) string {
	first := []rune(words)
	return strings.ToUpper(string(first[:1])) + string(first[1:])
}
