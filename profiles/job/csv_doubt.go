package job

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
)

var (
	digitsAlone = regexp.MustCompile(`^[0-9][0-9 ]*$`)
	decimals    = regexp.MustCompile(`^[0-9]+\s*([a-z]{2,}|m|["'′″])?$`)
	pointed     = regexp.MustCompile(`^[0-9]*\.[0-9]`)
	grouped     = regexp.MustCompile(`(^|[^0-9])[1-9][0-9]{0,2},[0-9]{3}($|[^0-9])`)
)

// settled says whether the rows of a table with commas show that no comma in them is
// a decimal one: a value or a tolerance has a decimal point, or is a decimal comma in
// quotes; a tolerance has its sign; or a row ends with a field that is empty, so that
// fields are counted out.
func settled(rows [][]field, place []int, wide int) bool {
	return slices.ContainsFunc(rows, func(row []field) bool {
		for _, k := range []int{2, 3} {
			if at := place[k]; at >= 0 && at < len(row) {
				f := row[at]
				if pointed.MatchString(f.words) || f.quoted && strings.Contains(f.words, ",") || k == 3 && sign.MatchString(f.words) {
					return true
				}
			}
		}
		return len(row) == wide && row[wide-1].words == ""
	})
}

// fallen refuses a row in which the decimals of a value or of a tolerance may have
// fallen into the next field: A,B,5,40 is 5 with the note 40, or 5.40; A,B,5,2 is
// 5 ± 2, or 5.2. Where the head has more columns behind, the number of fields tells.
func (t *text) fallen(row []field, place []int) error {
	if t.comma != ',' {
		return nil
	}
	for _, k := range []int{2, 3} {
		at := place[k]
		if at < 0 || at+1 >= len(row) {
			continue
		}
		f, next := row[at], row[at+1]
		if f.quoted || next.quoted || !digitsAlone.MatchString(f.words) || !decimals.MatchString(next.words) {
			continue
		}
		as := slices.Index(place, at+1)
		tooWide := len(row) > t.wide
		switch {
		case as == 4, tooWide, as == 3 && at+2 == t.wide && !t.settled:
		default:
			continue
		}
		both := f.words + "," + next.words
		what := fmt.Sprintf("%s may be the %s %s.%s, or %s with ", both, columns[k], f.words, next.words, f.words)
		hint := fmt.Sprintf(`write %s.%s or "%s" in quotes for the one, `, f.words, next.words, both)
		switch as {
		case 3:
			what += "a tolerance of " + next.words
			hint += "±" + next.words + " for the other"
		case 4:
			what += "the note " + next.words
			hint += "the note in quotes for the other"
		default:
			what += "something that has no column"
			hint += "take the field out for the other"
		}
		if tooWide {
			what = fmt.Sprintf("the row has %d fields, the head %d: ", len(row), t.wide) + what
		}
		return t.fault(f.position, what, hint)
	}
	return nil
}

// decimalComma is a value with a point in place of its decimal comma, where commas do
// not part the fields. Between tabs a comma before three digits may part thousands and
// is left, to be refused as everywhere; who parts fields with semicolons does so
// because the comma is a decimal one.
func (t *text) decimalComma(words string) string {
	if t.comma == ',' || strings.Count(words, ",") != 1 || strings.Contains(words, ".") || t.comma == '\t' && grouped.MatchString(words) {
		return words
	}
	return strings.ReplaceAll(words, ",", ".")
}

// sepLine says what parts the fields, as spreadsheets write and read it above a table.
var sepLine = regexp.MustCompile(`(?i)^\s*"?sep=(\\t|.)"?[,;\t]*\s*$`)

// separator reads such a line, where the table begins with one.
func (t *text) separator() error {
	look := *t
	first, ok := look.firstLine()
	m := sepLine.FindStringSubmatch(first)
	if !ok || m == nil {
		return nil
	}
	if look.comma = map[string]rune{`\t`: '\t', "\t": '\t', ",": ',', ";": ';'}[m[1]]; look.comma == 0 {
		return t.fault(look.position, fmt.Sprintf("%q parts no fields here", m[1]), "save the table with commas, semicolons or tabs")
	}
	look.restOfLine()
	*t = look
	return nil
}
