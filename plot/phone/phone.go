// Package phone writes plain text for a phone held upright: UTF-8, lines of at most
// Width characters ended by a line feed.
package phone

import (
	"io"
	"strings"
	"unicode/utf8"

	"trammel/plot/draw"
)

// Width is the widest line, in characters: what shows in letters that can be read in
// the sun.
const Width = 40

// Text is a text while it is written; the zero value is empty.
type Text struct{ b strings.Builder }

// WriteTo hands the text out. Errors are those of the writer.
func (t *Text) WriteTo(out io.Writer) (int64, error) {
	n, err := io.WriteString(out, t.b.String())
	return int64(n), err
}

// Line writes words as they are.
func (t *Text) Line(words string) { t.b.WriteString(words + "\n") }

// Head begins a part of the text.
func (t *Text) Head(words string) {
	t.Line("")
	t.Line(strings.ToUpper(words))
}

// Para writes words in as many lines as it takes, behind a lead that hangs out.
func (t *Text) Para(lead, words string) {
	hang := strings.Repeat(" ", utf8.RuneCountInString(lead))
	parts := strings.FieldsFunc(words, func(c rune) bool { return strings.ContainsRune(" \n\t\r", c) })
	for i, l := range draw.Wrap(parts, func(s string) bool { return utf8.RuneCountInString(s) <= Width-len(hang) }) {
		if i > 0 {
			lead = hang
		}
		t.Line(strings.TrimRight(lead+l, " "))
	}
}

// List writes an item a paragraph.
func (t *Text) List(items []string) {
	for _, x := range items {
		t.Para("- ", x)
	}
}

// Table writes columns parted by two spaces, figures right-aligned on their
// point, words left-aligned. There must be a row.
func (t *Text) Table(rows [][]string) {
	n := len(rows[0])
	left, right := make([]int, n), make([]int, n)
	for _, r := range rows {
		for i, c := range r {
			w, f := onPoint(c)
			left[i], right[i] = max(left[i], utf8.RuneCountInString(w)), max(right[i], utf8.RuneCountInString(f))
		}
	}
	for _, r := range rows {
		var b strings.Builder
		for i, c := range r {
			w, f := onPoint(c)
			pad := strings.Repeat(" ", left[i]-utf8.RuneCountInString(w))
			tail := strings.Repeat(" ", right[i]-utf8.RuneCountInString(f))
			if i > 0 {
				b.WriteString("  ")
			}
			if c != "" && c[0] >= '0' && c[0] <= '9' {
				b.WriteString(pad + w + f + tail)
			} else {
				b.WriteString(c + pad + tail)
			}
		}
		t.Line(strings.TrimRight(b.String(), " "))
	}
}

// onPoint parts a figure at its decimal point, or before its fraction.
func onPoint(c string) (whole, rest string) {
	if c == "" || c[0] < '0' || c[0] > '9' {
		return c, ""
	}
	if i := strings.IndexAny(c, ". "); i >= 0 {
		return c[:i], c[i:]
	}
	return strings.TrimSuffix(c, `"`), c[len(strings.TrimSuffix(c, `"`)):]
}
