package unit

import "strings"

// bareDoubt is the fault of a number without a unit that can be read in two ways
// where it counts the given one; nil where there is one reading. text is the
// number as it stands there.
func bareDoubt(n number, text string, bare Unit) *Fault {
	text = strings.TrimSpace(text)
	switch {
	case n.thousands() && bare <= CM:
		mark := map[string]string{".": "point", ",": "comma"}[n.mark]
		return &Fault{What: Quote(text) + " can be read in two ways: the " + mark + " may part thousands",
			Hint: "write " + n.head + n.tail + ", or " + shortest(n, bare)}
	case n.parts && n.why == "" && bare == MM:
		hint := "write " + text + "in for inches"
		if decimals, exact := n.value.FloatPrec(); exact {
			hint += ", or " + n.value.FloatString(decimals) + "mm"
		}
		return &Fault{What: Quote(text) + " is a fraction without a unit, where a bare number counts mm: inches are written so", Hint: hint}
	case n.parts && n.hyphen && bare == FT:
		whole, part, _ := strings.Cut(text, "-")
		return &Fault{What: Quote(text) + " can be read in two ways: the fraction may be of a foot or of an inch",
			Hint: "write " + whole + " " + part + ", or " + whole + "'-0 " + part + `"`}
	}
	return nil
}

// shortest is a decimal number as it is read in one way: without the zeros at its
// end, or with its unit.
func shortest(n number, bare Unit) string {
	if tail := strings.TrimRight(n.tail, "0"); len(tail) == 0 {
		return n.head
	} else if len(tail) < len(n.tail) {
		return n.head + "." + tail
	}
	return n.head + "." + n.tail + bare.String()
}
