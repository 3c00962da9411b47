package unit

import (
	"errors"
	"slices"
	"strings"
)

// Fault is something wrong in what a person wrote: where, what it is about, what is
// wrong with it, and what to do. Every package below the command line reports bad
// words as a *Fault. Who asked says it in its own way: the command line prints
// "trammel: WHERE: WHAT" and the hint below it, and finds by Subject and Code the flag
// or the key of a job that helps. Who wants to know which fault it is compares these
// two and never a sentence.
type Fault struct {
	Where   string  // the place, "job.yaml:7:12" or "--margin", and words that cannot be read: "CA=12OO"; empty when nothing more is known
	Subject Subject // 0 where the place says it, as a measurement does
	Of      string  // which one of its kind: AB of a Base, tape of a Site, AB=600; empty where there is but one
	What    string  // lower case, no full stop: `"12OO" is not a length`
	Hint    string  // what to do, one line; empty when there is nothing to add, or the code says it
	Advice
}

// Advice is what would help, as data: the sentence names a flag, a key of a job or a
// field of a page, and so belongs to the one who asked. The zero value adds nothing to
// the hint.
type Advice struct {
	Code   Code
	Names  []string // that the hint lists: points, sides of a line, pieces
	Figure string   // that the hint says, in the unit and the digits of the document
	InFile bool     // the words stand in a file, where a key helps rather than a flag
}

// Error is the one line without the hint.
func (f *Fault) Error() string { return InLine(f.Where, f.About(), f.What) }

// About is the subject in words: "base AB", or where it tells enough by itself, which
// one it is: "AB=600".
func (f *Fault) About() string {
	if named[f.Subject] {
		return f.Of
	}
	return strings.TrimSpace(string(f.Subject) + " " + f.Of)
}

// InLine is one line of the parts that are not empty: "job.yaml:7:12: base AB: there
// is no point".
func InLine(parts ...string) string {
	parts = slices.DeleteFunc(slices.Clone(parts), func(p string) bool { return p == "" })
	return strings.Join(parts, ": ")
}

// In returns the same fault seen from further out: where is put in front.
func (f *Fault) In(where string) *Fault {
	g := *f
	g.Where = InLine(where, g.Where)
	return &g
}

// Placed puts a place in front of the fault in an error. What holds none stays as it is.
func Placed(err error, where string) error {
	var f *Fault
	if where != "" && errors.As(err, &f) {
		return f.In(where)
	}
	return err
}

// Says is how the one who asks would say something in words, in a sentence that tells
// what to write: the unit m is "--unit m" on a command line, "unit: m" in a job file,
// and may be a button of a page. Nil says it as a job file does.
type Says func(of Subject, value string, inFile bool) string

// Of says it.
func (s Says) Of(of Subject, value string, inFile bool) string {
	switch {
	case s != nil:
		return s(of, value, inFile)
	case value == "":
		return string(of)
	}
	return string(of) + ": " + value
}
