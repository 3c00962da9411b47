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

// goal reads the name given with -o for the document of the command; nothing where none
// is given and none is needed, because the report, or what is said of what was found, is
// all that is asked for.
func (r *request) goal() (goal, error) {
	k, out := app.KindOf(r.command), r.text("output")
	if !r.flags.Changed("output") && (r.on("json") || k.Says()) {
		return goal{}, nil
	}
	if err := swallowed(r.flags); err != nil {
		return goal{}, err
	}
	folder := slices.Contains(k.Endings, "") // a name without an ending is a folder of drawings
	known := slices.DeleteFunc(slices.Clone(k.Endings), func(s string) bool { return s == "" })
	list := "endings: ." + strings.Join(known, ", .")
	if folder {
		list += ", or a folder: plates/"
	}
	fault := func(what, hint string) (goal, error) {
		return goal{}, &unit.Fault{Where: "-o " + strict.Shorten(out), What: what, Hint: hint}
	}
	base := filepath.Base(out)
	slash := strings.HasSuffix(out, "/") || strings.HasSuffix(out, string(filepath.Separator))
	ending := strings.ToLower(strings.TrimPrefix(filepath.Ext(base), "."))
	switch {
	case strings.TrimSpace(out) == "":
		return goal{}, &unit.Fault{Where: "-o", What: "no output is named", Hint: "such as -o " + k.Example}
	case strings.ContainsRune(out, 0):
		return fault("holds a character that no name can", "")
	case out == "-":
		return fault("standard output is not written to", "name a file, such as -o "+k.Example)
	case folder && (slash || filepath.Ext(base) == "" || base == "." || base == ".."):
		return goal{path: out}, nil
	case slash:
		return fault("names a folder, and a file is to be written", list)
	case strings.TrimSuffix(base, filepath.Ext(base)) == "" && slices.Contains(known, ending):
		return fault("is an ending without a name", "such as -o "+k.Example)
	case slices.Contains(known, ending):
		return goal{out, ending}, nil
	case ending == "":
		return fault("has no ending, so it does not say what to write", list)
	}
	return fault(fmt.Sprintf("%q is not an ending that is known here", "."+ending), list)
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

func writeJSON(out io.Writer, report any) error {
	e := json.NewEncoder(out)
	e.SetEscapeHTML(false)
	e.SetIndent("", " ")
	return e.Encode(report)
}
