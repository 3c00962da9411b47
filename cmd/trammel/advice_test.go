package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"trammel/geom/unit"
)

// sources hands over each file of trammel that is no test, by its path from the root.
func sources(t *testing.T, see func(path string, set *token.FileSet, f *ast.File)) {
	t.Helper()
	const root = "../.."
	err := filepath.WalkDir(root, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		set := token.NewFileSet()
		f, err := parser.ParseFile(set, path, nil, parser.SkipObjectResolution)
		if err == nil {
			rel, _ := filepath.Rel(root, path)
			see(filepath.ToSlash(rel), set, f)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

// Only the command line knows its flags: no package that a page in the browser stands
// on too writes a word that begins with two hyphens. (cmd/internal/config reads what
// a computer has set down for trammel and is the command line's.)
func TestFlagsAreNamedByTheCommandAlone(t *testing.T) {
	t.Parallel()
	flag := regexp.MustCompile(`(^|[^-\w])--[a-z]`)
	seen := 0
	sources(t, func(path string, set *token.FileSet, f *ast.File) {
		if !strings.HasPrefix(path, "geom/") && !strings.HasPrefix(path, "plot/") && !strings.HasPrefix(path, "profiles/") && !strings.HasPrefix(path, "cmd/internal/app/") {
			return
		}
		ast.Inspect(f, func(n ast.Node) bool {
			if l, ok := n.(*ast.BasicLit); ok && l.Kind == token.STRING {
				seen++
				if text, err := strconv.Unquote(l.Value); err != nil || flag.MatchString(text) {
					t.Errorf("%s:%d: %s names a flag", path, set.Position(l.Pos()).Line, l.Value)
				}
			}
			return true
		})
	})
	if seen < 1000 {
		t.Errorf("%d strings seen", seen)
	}
}

// Nobody tells one fault from another by its prose. Errors of the system and of the
// readers of YAML and JSON have no other form.
func TestNobodyComparesProse(t *testing.T) {
	t.Parallel()
	foreign := []string{"cmd/internal/output/keeper.go", "cmd/internal/page/answer.go", "profiles/strict/place.go", "profiles/strict/strict.go"}
	prose := func(e ast.Expr) (found bool) {
		ast.Inspect(e, func(n ast.Node) bool {
			if s, ok := n.(*ast.SelectorExpr); ok && slices.Contains([]string{"What", "Hint", "Error"}, s.Sel.Name) {
				found = true
			}
			return true
		})
		return found
	}
	empty := func(e ast.Expr) bool { l, ok := e.(*ast.BasicLit); return ok && l.Value == `""` }
	steering := []string{"HasPrefix", "HasSuffix", "Contains", "ContainsAny", "EqualFold", "Cut", "CutPrefix", "CutSuffix", "TrimPrefix", "TrimSuffix", "Replace", "ReplaceAll", "Index", "MatchString"}
	sources(t, func(path string, set *token.FileSet, f *ast.File) {
		if slices.Contains(foreign, path) {
			return
		}
		ast.Inspect(f, func(n ast.Node) bool {
			wrong := false
			switch n := n.(type) {
			case *ast.BinaryExpr:
				wrong = (n.Op == token.EQL || n.Op == token.NEQ) && !empty(n.X) && !empty(n.Y) && (prose(n.X) || prose(n.Y))
			case *ast.CallExpr:
				s, ok := n.Fun.(*ast.SelectorExpr)
				wrong = ok && slices.Contains(steering, s.Sel.Name) && slices.ContainsFunc(n.Args, prose)
			}
			if wrong {
				t.Errorf("%s: prose is compared or cut", set.Position(n.Pos()))
			}
			return true
		})
	})
}

// A flag in whose value a fault lies says what the fault is about; a file does not.
func TestLocated(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		f    unit.Fault
		want string
	}{
		{unit.Fault{Where: "--base", Subject: unit.Base, Of: "AB", What: "w"}, "--base AB: w"},
		{unit.Fault{Subject: unit.Base, Of: "AB", What: "w"}, "--base AB: w"},
		{unit.Fault{Where: "job.yaml:3:9", Subject: unit.Base, Of: "AB", What: "w"}, "job.yaml:3:9: base AB: w"},
		{unit.Fault{Where: "--tape", Subject: unit.Site, Of: "tape", What: "w"}, "--tape: w"},
		{unit.Fault{Where: "job.yaml:3:9", Subject: unit.Site, Of: "tape", What: "w"}, "job.yaml:3:9: tape: w"},
		{unit.Fault{Subject: unit.Measured, Of: "AB=6", What: "w"}, "AB=6: w"},
		{unit.Fault{What: "w"}, "w"},
	} {
		if got := located(&c.f); got != c.want {
			t.Errorf("%#v: %q, want %q", c.f, got, c.want)
		}
	}
}

// What remedies is a flag, or where the words stand in a file, a key.
func TestHinted(t *testing.T) {
	t.Parallel()
	corners := unit.Advice{Code: unit.NoEdge, Names: []string{"A", "B", "C", "D"}}
	inFile := corners
	inFile.InFile = true
	for _, c := range []struct {
		of   unit.Subject
		a    unit.Advice
		hint string
		want string
	}{
		{unit.Unsaid, corners, "", "add --outline A,B,C,D, in the order of walking round counter-clockwise"},
		{unit.Unsaid, inFile, "", "add outline: [A, B, C, D], in the order of walking round counter-clockwise"},
		{unit.Way, unit.Advice{Code: unit.TooFlatBase}, "base AB would do", "base AB would do; or set it off square: --with square"},
		{unit.Found, unit.Advice{Code: unit.ManyPieces, Names: []string{"Left gable", "Right"}}, "", `--piece "Left gable", or give each its own found: in the job`},
		{unit.Base, unit.Advice{}, "name two of A, B and C", "name two of A, B and C"},
	} {
		if got := hinted(c.of, c.a, c.hint); got != c.want {
			t.Errorf("%v, %v: %q, want %q", c.of, c.a.Code, got, c.want)
		}
	}
	for k, h := range remedies {
		for _, text := range []string{h.flag, h.key} {
			if left := hinted(k.Subject, unit.Advice{Code: k.Code, InFile: text == h.key, Names: []string{"A", "B"}, Figure: "3"}, "hint"); strings.ContainsAny(left, "{}") || left == "" {
				t.Errorf("%v, %v: %q", k.Subject, k.Code, left)
			}
		}
	}
}
