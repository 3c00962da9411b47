package job

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"trammel/geom"
	"trammel/profiles/strict"
)

// Over is what was said over a job by other means than its file. What is empty
// or zero leaves the job as it is.
type Over struct {
	Unit, Fraction, Angles, Trade, Paper string

	Base     [2]geom.Name
	With     geom.Method
	Pick     Pick
	PickedOf []int // the pieces that Pick is for, by their index

	Outline []geom.Name
	Sides   []Aside
	Found   []string          // the tokens of what was measured back
	FoundOf []int             // the pieces that Found is for, by their index; nil: all
	Levels  []Level           // how high pegs stand, of the one piece that there is
	Site    map[string]string // by the words of SiteKeys
}

func (o Over) nothing() bool {
	return o.Unit+o.Fraction+o.Angles+o.Trade+o.Paper == "" && o.Base == [2]geom.Name{} && o.With == geom.AsMeasured &&
		(o.Pick == Unpicked || len(o.PickedOf) == 0) && len(o.Outline)+len(o.Sides)+len(o.Found)+len(o.Levels)+len(o.Site) == 0
}

// Write is the text of a job file that says the job and what was said over it:
// the very bytes that were read where nothing was. A job without a file, or from a
// list of measurements, is written with the names, measurements, notes and
// quantities of its pieces alone.
func Write(j Job, o Over) ([]byte, error) {
	text := j.Raw
	if text == nil {
		text = written(j)
	}
	if o.nothing() {
		return text, nil
	}
	root, err := strict.Parse(j.File, text)
	if err != nil {
		return nil, err
	}
	fields, err := root.Fields("the job")
	if err != nil {
		return nil, err
	}
	for _, s := range [...][2]string{{"unit", o.Unit}, {"fraction", o.Fraction}, {"angles", o.Angles}, {"trade", o.Trade}, {"paper", o.Paper}} {
		if s[1] != "" {
			root.Put(s[0], s[1])
		}
	}
	for _, key := range siteKeys {
		if text := o.Site[key]; text != "" {
			root.Under("site").Put(key, text)
		}
	}
	for _, f := range fields {
		if f.Key != "pieces" {
			continue
		}
		items, _ := f.Value.Items()
		for i, piece := range items {
			if o.Pick != Unpicked && slices.Contains(o.PickedOf, i) {
				piece.Put("pick", o.Pick.String())
			}
			if o.Base != [2]geom.Name{} {
				piece.Put("base", string(o.Base[0]+o.Base[1]))
			}
			if len(o.Outline) > 0 {
				piece.Put("outline", joined(o.Outline))
			}
			if len(o.Sides) > 0 {
				piece.Put("side", sideWords(o.Sides))
			}
			if len(o.Levels) > 0 {
				piece.Put("levels", levelWords(o.Levels))
			}
			if len(o.Found) > 0 && (o.FoundOf == nil || slices.Contains(o.FoundOf, i)) {
				piece.PutList("found", o.Found)
			}
			for _, m := range methods {
				if m.method == o.With {
					piece.Put("with", m.word)
				}
			}
		}
	}
	return root.Bytes()
}

func joined(names []geom.Name) string {
	words := make([]string, len(names))
	for i, n := range names {
		words[i] = string(n)
	}
	return strings.Join(words, ",")
}

// sideWords is a list of sides as ParseSides reads it.
func sideWords(list []Aside) string {
	words := make([]string, len(list))
	for i, a := range list {
		words[i] = a.String()
	}
	return strings.Join(words, ", ")
}

// written is the pieces as a job file.
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
