package main

import (
	"encoding/json"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"trammel/cmd/internal/app"
	"trammel/cmd/internal/output"
	"trammel/geom/unit"
	"trammel/profiles/strict"
)

// goal is where the output goes: a file with a known ending, or a folder.
type goal struct {
	path   string
	ending string // "pdf"; empty for a folder
}

// goal reads the name given with -o for a document of that kind; nothing where none is
// given and none is needed, because the report, or what is said of what was found, is
// all that is asked for.
func (r *request) goal(k app.Kind) (goal, error) {
	known, example := k.Endings, k.Example
	folder := slices.Contains(known, "") // a name without an ending is a folder of drawings
	known = slices.DeleteFunc(slices.Clone(known), func(s string) bool { return s == "" })
	if !r.flags.Changed("output") && (r.json || k.Needs&app.Readings != 0) {
		return goal{}, nil
	}
	fault := func(what, hint string) error {
		return &unit.Fault{Where: "-o " + strict.Shorten(r.out), What: what, Hint: hint}
	}
	list := "." + strings.Join(known, ", .")
	if folder {
		list += ", or a folder: plates/"
	}
	if err := swallowed(r.flags); err != nil {
		return goal{}, err
	}
	switch {
	case strings.TrimSpace(r.out) == "":
		return goal{}, &unit.Fault{Where: "-o", What: "no output is named", Hint: "such as -o " + example}
	case strings.ContainsRune(r.out, 0):
		return goal{}, fault("holds a character that no name can", "")
	case r.out == "-":
		return goal{}, fault("standard output is not written to", "name a file, such as -o "+example)
	}
	base := filepath.Base(r.out)
	slash := strings.HasSuffix(r.out, "/") || strings.HasSuffix(r.out, string(filepath.Separator))
	ending := strings.ToLower(strings.TrimPrefix(filepath.Ext(base), "."))
	switch {
	case folder && (slash || filepath.Ext(base) == "" || base == "." || base == ".."):
		return goal{path: r.out}, nil
	case slash:
		return goal{}, fault("names a folder, and a file is to be written", "endings: "+list)
	case strings.TrimSuffix(base, filepath.Ext(base)) == "" && slices.Contains(known, ending):
		return goal{}, fault("is an ending without a name", "such as -o "+example)
	case slices.Contains(known, ending):
		return goal{r.out, ending}, nil
	case ending == "":
		return goal{}, fault("has no ending, so it does not say what to write", "endings: "+list)
	}
	return goal{}, fault(fmt.Sprintf("%q is not an ending that is known here", "."+ending), "endings: "+list)
}

// free tries whether the place can be written to. One drawing may become a folder: that
// is seen when it is made.
func (g goal) free() error {
	switch {
	case g.path == "" || g.ending == "svg":
		return nil
	case g.ending == "":
		return output.CheckFolder(g.path)
	}
	return output.CheckFile(g.path)
}

// asFolder is the folder that takes the place of a file with too many pages for
// one: the name without its ending.
func (g goal) asFolder() string {
	if g.ending == "" {
		return g.path
	}
	return strings.TrimSuffix(g.path, filepath.Ext(g.path))
}

// writeJSON writes a report: indented, so that a person can read it too.
func writeJSON(out io.Writer, report any) error {
	e := json.NewEncoder(out)
	e.SetEscapeHTML(false)
	e.SetIndent("", " ")
	return e.Encode(report)
}
