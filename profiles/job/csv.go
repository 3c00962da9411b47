package job

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"trammel/geom/unit"
	"trammel/profiles/strict"
)

// columns of a table of measurements. The first three must be there.
var columns = []string{"from", "to", "value", "tolerance", "note"}

const needed = 3

const (
	header         = "begin with a line that names the columns: from,to,value,tolerance,note"
	headerOrTokens = header + "; or write one token a line: AB=600"
)

// ReadAny reads a job file, or what was measured as a table or a list (see
// ReadMeasurements): a job of one piece without a name. What it is shows in the
// text; a name that ends in .yaml, .yml or .json is a job file in any case, and
// one in .csv is none.
func ReadAny(file string, data []byte) (Job, error) {
	if !listed(file, data) {
		return Read(file, data)
	}
	list, notes, err := measurements(file, data)
	return Job{File: file, Pieces: []Piece{{Measure: list, Notes: notes, Quantity: 1}}}, err
}

// ReadMeasurements reads measurements one a line: tokens such as AB=4510+-3, or
// a table whose first line names its columns from, to, value and perhaps
// tolerance and note, in any order.
//
//	from,to,value,tolerance,note
//	A,B,4510,3,along the quay      AB=4510+-3
//	C,AB,2105,,                    C-AB=2105: a height over a line
//	BAC,,35°30',,                  BAC=35°30': an angle
//
// Commas, semicolons or tabs part the fields, as the first line does it, or as a line
// sep=; above it says. Where semicolons do, a comma in a value is a decimal comma; where
// tabs do, unless it may part thousands (2,400 is refused). A row with commas whose
// decimals may have fallen into the next field is refused. Fields may be quoted as
// RFC 4180 says. Lines that are empty or begin with # say nothing; behind a token
// # begins a remark. A row may end after its last word that says something.
//
// Each measurement has the place of its value. The errors are *unit.Fault with
// file:line:column.
func ReadMeasurements(file string, data []byte) ([]Setting, error) {
	list, _, err := measurements(file, data)
	return list, err
}

// measurements and the notes beside them, nil where there are none.
func measurements(file string, data []byte) (list []Setting, notes []string, err error) {
	if err := strict.CheckText(file, data); err != nil {
		return nil, nil, err
	}
	t := textOf(file, data)
	if err := t.separator(); err != nil {
		return nil, nil, err
	}
	first, ok := t.firstLine()
	switch {
	case !ok:
		return nil, nil, t.fault(position{1, 1}, "holds no measurements", headerOrTokens)
	case t.comma == 0 && token.MatchString(first):
		return t.tokens()
	}
	return t.table(first)
}

var (
	// token is a line that begins as a measurement does, perhaps in small letters.
	token = regexp.MustCompile(`^\s*[A-Za-z0-9]+\s*([-‐‑–−]\s*[A-Za-z0-9]+\s*)?=`)
	// jobLine is how a job file may begin: a key, a list, JSON, a marker or a comment of YAML.
	jobLine = regexp.MustCompile(`^\s*([A-Za-z_"']+\s*:(\s|$)|[-\[{%])`)
)

// listed says whether the text is measurements and not a job file.
func listed(file string, data []byte) bool {
	switch {
	case namesJob(file):
		return false
	case strings.HasSuffix(strings.ToLower(file), ".csv"):
		return true
	}
	t := textOf("", data)
	first, ok := t.firstLine()
	return ok && (sepLine.MatchString(first) || token.MatchString(first) || !jobLine.MatchString(first) && parted(first) != 0)
}

// parted finds what parts the fields of a header line: what parts it into the
// most words that are columns; 0 where nothing parts it.
func parted(line string) rune {
	best, most := rune(0), -1
	for _, sep := range []rune{',', ';', '\t'} {
		if !strings.ContainsRune(line, sep) {
			continue
		}
		n := 0
		for _, word := range strings.Split(line, string(sep)) {
			if slices.Contains(columns, columnName(word)) {
				n++
			}
		}
		if n > most {
			best, most = sep, n
		}
	}
	return best
}

// columnName is the word of a header as columns has it.
func columnName(word string) string { return strings.ToLower(strings.Trim(word, "\" \u00a0")) }

func (t *text) tokens() (list []Setting, _ []string, err error) {
	for !t.done() {
		at := t.position
		words, _, _ := strings.Cut(t.restOfLine(), "#")
		at.column += len(words) - len(strings.TrimLeft(words, " \t"))
		words = strings.TrimSpace(words)
		switch {
		case words == "":
			continue
		case !strings.Contains(words, "="):
			return nil, nil, t.fault(at, fmt.Sprintf("%q is not a measurement: it has no =", strict.Shorten(words)), "write what was measured and its value, one a line, such as AB=600")
		case strings.Count(words, "=") > 1:
			return nil, nil, t.fault(at, fmt.Sprintf("%q holds more than one measurement", strict.Shorten(words)), "write one a line")
		case len(list) == MaxMeasurements:
			return nil, nil, t.tooMany(at)
		}
		list = append(list, Setting{unit.Composed(words), t.at(at)})
	}
	return list, nil, nil
}

func (t *text) tooMany(at position) error {
	return t.fault(at, fmt.Sprintf("more than %d measurements", MaxMeasurements), fmt.Sprintf("a piece may have %d: divide it into several jobs", MaxMeasurements))
}

func (t *text) table(first string) (list []Setting, notes []string, err error) {
	if t.comma == 0 {
		t.comma = parted(first)
	}
	if t.comma == 0 {
		return nil, nil, t.fault(t.position, fmt.Sprintf("%q is neither a measurement nor the head of a table", strict.Shorten(strings.TrimSpace(first))), headerOrTokens)
	}
	row, err := t.row()
	switch {
	case err != nil:
		return nil, nil, err
	case row == nil:
		return nil, nil, t.fault(position{1, 1}, "holds no measurements", headerOrTokens)
	}
	place, err := t.header(row)
	if err != nil {
		return nil, nil, err
	}
	t.wide = len(row)
	rows, err := t.rows()
	if err != nil {
		return nil, nil, err
	}
	t.settled = settled(rows, place, t.wide)
	for _, row := range rows {
		m, note, err := t.measurement(row, place)
		if err != nil {
			return nil, nil, err
		}
		list, notes = append(list, m), append(notes, note)
	}
	switch {
	case len(list) == 0:
		return nil, nil, t.fault(t.position, "the table ends behind its head: it holds no measurements", "below it write one a line: A,B,4510")
	case strings.Join(notes, "") == "":
		notes = nil
	}
	return list, notes, nil
}

func (t *text) rows() (rows [][]field, err error) {
	for {
		row, err := t.row()
		switch {
		case err != nil || row == nil:
			return rows, err
		case len(rows) == MaxMeasurements:
			return nil, t.tooMany(row[0].position)
		}
		rows = append(rows, row)
	}
}

// header finds the column of each word of columns; −1: it has none.
func (t *text) header(row []field) (place []int, err error) {
	place = slices.Repeat([]int{-1}, len(columns))
	for i, f := range row {
		k := slices.Index(columns, columnName(f.words))
		switch {
		case f.words == "" && i > 0: // what a spreadsheet leaves behind
		case k < 0 && !t.names(row):
			return nil, t.fault(row[0].position, "the first line does not name the columns", header)
		case k < 0:
			hint := strict.Suggest(columnName(f.words), columns)
			if strict.Nearest(columnName(f.words), columns) == "" {
				hint = "take the column out; " + hint
			}
			return nil, t.fault(f.position, fmt.Sprintf("unknown column %q", strict.Shorten(f.words)), hint)
		case place[k] >= 0:
			return nil, t.fault(f.position, fmt.Sprintf("the column %q stands there twice", columns[k]), "keep one of both")
		default:
			place[k] = i
		}
	}
	for k, at := range place[:needed] {
		if at < 0 {
			return nil, t.fault(row[0].position, fmt.Sprintf("the table has no column %q", columns[k]), header)
		}
	}
	return place, nil
}

func (t *text) names(row []field) bool {
	return slices.ContainsFunc(row, func(f field) bool { return strict.Nearest(columnName(f.words), columns) != "" })
}

// measurement is a row as a token, with the place of its value, and its note.
func (t *text) measurement(row []field, place []int) (m Setting, note string, err error) {
	var of [5]field
	for k := range of {
		of[k] = field{position: end(row)}
		if at := place[k]; at >= 0 && at < len(row) {
			of[k] = row[at]
		}
	}
	from, to, value, tolerance := of[0], of[1], of[2], of[3]
	if err := t.width(row, place); err != nil {
		return m, "", err
	}
	subject, err := t.subject(from, to)
	if err != nil {
		return m, "", err
	}
	m.Where = t.at(value.position)
	if err := t.fallen(row, place); err != nil {
		return m, "", err
	}
	value.words, tolerance.words = t.decimalComma(value.words), t.decimalComma(tolerance.words)
	if value.words == "" {
		return m, "", t.fault(value.position, subject+" has no value", "write what was read, or take the line out")
	}
	m.Text = subject + "=" + value.words
	if tolerance.words != "" {
		within, err := t.tolerance(value, tolerance)
		if err != nil {
			return m, "", err
		}
		m.Text += "+-" + within
	}
	return m, of[4].words, nil
}

func end(row []field) position { return position{row[0].line, row[len(row)-1].after} }

// width refuses a row with fields that have no column, and one that ends early
// though something in it needs none: there a comma may be a decimal one.
func (t *text) width(row []field, place []int) error {
	wide := 1 + slices.Max(place)
	sign := map[rune]string{',': "comma", ';': "semicolon", '\t': "tab"}[t.comma]
	hint := "the head names " + fmt.Sprint(wide) + " columns"
	if t.comma == ',' {
		hint += `; a value with a decimal comma wants quotes, "2,5", and so does a note with a comma`
	} else {
		hint += "; a field that holds a " + sign + " wants quotes"
	}
	for i, f := range row {
		if f.words != "" && !slices.Contains(place, i) {
			return t.fault(f.position, fmt.Sprintf("%q stands in a field that has no column", strict.Shorten(f.words)), hint)
		}
	}
	if len(row) >= wide {
		return nil
	}
	for k, at := range place {
		if at >= len(row) && k < needed && k != 1 {
			return t.fault(end(row), fmt.Sprintf("the row ends before its %s", columns[k]), hint)
		}
		if k >= needed && at >= 0 && at < len(row) && row[at].words != "" && t.comma == ',' {
			return t.fault(row[at].position, fmt.Sprintf("the row has %d fields of %d: %q may be a %s or the decimals of a value", len(row), wide, strict.Shorten(row[at].words), columns[k]),
				`write every field of the row, were it empty; a value with a decimal comma wants quotes, "2,5"`)
		}
	}
	return nil
}

// subject is what was measured: AB, C-AB or BAC.
func (t *text) subject(from, to field) (string, error) {
	for _, f := range []field{from, to} {
		if f.words == "" || points.MatchString(f.words) || to.words == "" && strings.ContainsAny(f.words, "-‐‑–−") {
			continue
		}
		bad := pointFault(f.words, "names no points", aPoint, points)
		return "", t.fault(f.position, bad.What, bad.Hint)
	}
	n, m := len(each.FindAllString(from.words, -1)), len(each.FindAllString(to.words, -1))
	switch {
	case n == 0:
		return "", t.fault(from.position, "nothing says from where it was measured", "from=A, to=B is a distance; from=C, to=AB a height; from=BAC and nothing in to an angle")
	case m == 0, n == 1 && m == 1:
		return from.words + to.words, nil
	case n == 1 && m == 2:
		return from.words + "-" + to.words, nil
	}
	hint := "from=A, to=B is a distance; from=C, to=AB a height; from=BAC and nothing in to an angle"
	if n == 2 && m == 1 {
		hint = fmt.Sprintf("a height goes from its point to a line: from=%s, to=%s", to.words, from.words)
	}
	return "", t.fault(from.position, fmt.Sprintf("from %s to %s is neither a distance nor a height", from.words, to.words), hint)
}

var sign = regexp.MustCompile(`^(?:±|\+/?[-−])\s*`)

// tolerance is what stands in its column, without a sign before it.
func (t *text) tolerance(value, f field) (string, error) {
	words := sign.ReplaceAllString(f.words, "")
	for _, s := range []string{"±", "+-", "+/-", "+−"} {
		if strings.Contains(value.words, s) {
			return "", t.fault(f.position, fmt.Sprintf("the value %s has a tolerance already", value.words), "leave one of both out")
		}
	}
	switch {
	case !unit.IsLength(words) && !unit.IsAngle(words):
		return "", t.fault(f.position, fmt.Sprintf("%s is not a tolerance", unit.Quote(f.words)), "write how far off the value may be, such as 2 or 2mm, or leave it out")
	case !strings.ContainsFunc(words, func(r rune) bool { return r != '0' && unicode.IsNumber(r) }):
		return "", t.fault(f.position, fmt.Sprintf("a tolerance of %s allows nothing", unit.Quote(words)), "leave it out: then it is half of the last digit written")
	}
	return words, nil
}
