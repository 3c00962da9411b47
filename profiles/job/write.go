package job

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"trammel/geom/unit"
	"trammel/profiles/strict"
)

// Write is the text of a job file that says the job and what counts over it: the
// very bytes that were read where that is nothing, and those bytes with one more key,
// made_with, where it is something. A job without a file, or from a list of
// measurements, is written with the names, measurements, notes and quantities of its
// pieces alone. The errors are *unit.Fault.
func Write(j Job, o Overrides) ([]byte, error) {
	text := j.Raw
	if text == nil {
		text = written(j)
	}
	a := strict.Addition{Key: madeWith, Remark: remarks}
	text, err := strict.Without(text, a)
	said := keyed{}
	for _, k := range overrideKeys {
		said.add(k.name, k.says(o))
	}
	if err != nil || len(said) == 0 {
		return text, err
	}
	a.Lines, a.JSON = said.lines(), quotedJSON(madeWith)+": "+said.json()
	if len(text)+2*len(a.JSON)+len(a.Remark[0])*len(a.Remark) > strict.MaxBytes { // lines and indents are shorter than twice the JSON
		return nil, &unit.Fault{Where: j.File, What: "is too large to go into a PDF with the settings it was made with", Hint: "take remarks out, or make several jobs of it"}
	}
	return strict.Add(text, a)
}

// Remarks says whether the file that the job was read from has remarks, beside what
// Write puts above what it was made with.
func (j Job) Remarks() bool {
	text, err := strict.Without(j.Raw, strict.Addition{Key: madeWith, Remark: remarks})
	return err == nil && strict.Remarks(text)
}

var remarks = []string{
	"# What the PDF was made with. It counts over the lines above and over anybody's own",
	"# settings, so that the job is the same everywhere. Take it out to go by your own.",
}

// keyed are keys with what they say: a string, a []string or a keyed.
type keyed []saying

type saying struct {
	key  string
	says any
}

func (k *keyed) add(key string, says any) {
	if !slices.Contains([]string{`""`, "[]", "{}"}, flow(says, quotedJSON)) {
		*k = append(*k, saying{key, says})
	}
}

// printable is a flag's text as a file may have it: a tab or a line's end is a blank.
func printable(s string) string {
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		if unicode.IsControl(r) {
			return ' '
		}
		return r
	}, s))
}

// lines are those of YAML, a key each. Words are in double quotes: whatever they look
// like, they are text.
func (k keyed) lines() []string {
	all := []string{madeWith + ":"}
	for _, e := range k {
		all = append(all, "  "+e.key+": "+flow(e.says, func(key string) string { return key }))
	}
	return all
}

// json is the same as JSON, a key on each line.
func (k keyed) json() string {
	var all []string
	for _, e := range k {
		all = append(all, "    "+quotedJSON(e.key)+": "+flow(e.says, quotedJSON))
	}
	return "{\n" + strings.Join(all, ",\n") + "\n  }"
}

// flow is a value on one line, its keys as the given function writes them.
func flow(says any, key func(string) string) string {
	var all []string
	switch v := says.(type) {
	case []string:
		for _, s := range v {
			all = append(all, quotedJSON(printable(s)))
		}
		return "[" + strings.Join(all, ", ") + "]"
	case keyed:
		for _, e := range v {
			all = append(all, key(e.key)+": "+flow(e.says, key))
		}
		return "{" + strings.Join(all, ", ") + "}"
	}
	return quotedJSON(printable(fmt.Sprint(says)))
}

// quotedJSON is text in double quotes, which YAML and JSON read alike.
func quotedJSON(s string) string {
	var b strings.Builder
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	_ = e.Encode(s) // text can always be written
	return strings.TrimSuffix(b.String(), "\n")
}

func written(j Job) []byte {
	var b strings.Builder
	b.WriteString("pieces:\n")
	for _, p := range j.Pieces {
		mark := "- "
		if p.Name != "" {
			fmt.Fprintf(&b, "  %sname: %s\n", mark, quoted(p.Name))
			mark = "  "
		}
		fmt.Fprintf(&b, "  %smeasure:\n", mark)
		for i, t := range p.Measure {
			fmt.Fprintf(&b, "      - %s", quoted(t.Text))
			if i < len(p.Notes) && p.Notes[i] != "" {
				b.WriteString(" # " + strings.Map(remark, p.Notes[i]))
			}
			b.WriteByte('\n')
		}
		if p.Quantity > 1 {
			fmt.Fprintf(&b, "    quantity: %d\n", p.Quantity)
		}
	}
	return []byte(b.String())
}

// remark is a letter as it may stand in a remark of YAML.
func remark(r rune) rune {
	if unicode.IsPrint(r) {
		return r
	}
	return ' '
}

// quoted is text that YAML reads as it stands, on one line.
func quoted(s string) string {
	return "'" + strings.NewReplacer("'", "''", "\n", " ", "\r", " ", "\t", " ").Replace(s) + "'"
}
