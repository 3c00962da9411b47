package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
)

// What a package may be, so that one sitting is enough to read it.
const (
	mostLines      = 3500 // of a package, without tests
	mostMethods    = 25   // of a type
	mostOfFunction = 60   // lines
	mostParameters = 5
	mostUpward     = 0.10 // of the calls between files
)

// goPackage is a package as go list has it.
type goPackage struct {
	ImportPath, Dir, Export string
	GoFiles, IgnoredGoFiles []string
	Standard                bool
	files                   []*ast.File
	set                     *token.FileSet
	info                    *types.Info
	lines                   int
}

// files says which file of a package something stands in.
func (p *goPackage) file(at token.Pos) string { return filepath.Base(p.set.Position(at).Filename) }

// height is how many lines a node has.
func (p *goPackage) height(n ast.Node) int {
	return p.set.Position(n.End()).Line - p.set.Position(n.Pos()).Line + 1
}

// ownPackages reads every package of the module and checks its types. What they
// import comes from the compiler's own export files.
var ownPackages = sync.OnceValues(func() ([]*goPackage, error) {
	out, err := exec.Command("go", "list", "-export", "-deps", "-json=ImportPath,Dir,Export,GoFiles,IgnoredGoFiles,Standard", "trammel/...").Output()
	if err != nil {
		return nil, err
	}
	var own []*goPackage
	exports := map[string]string{}
	for d := json.NewDecoder(strings.NewReader(string(out))); ; {
		p := &goPackage{}
		if err := d.Decode(p); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			return nil, err
		}
		exports[p.ImportPath] = p.Export
		if strings.HasPrefix(p.ImportPath, "trammel/") && len(p.GoFiles) > 0 {
			own = append(own, p)
		}
	}
	set := token.NewFileSet()
	from := importer.ForCompiler(set, "gc", func(path string) (io.ReadCloser, error) { return os.Open(exports[path]) })
	for _, p := range own {
		p.set = set
		p.info = &types.Info{Uses: map[*ast.Ident]types.Object{}, Defs: map[*ast.Ident]types.Object{}}
		for _, name := range p.GoFiles {
			f, err := parser.ParseFile(set, filepath.Join(p.Dir, name), nil, parser.ParseComments)
			if err != nil {
				return nil, err
			}
			p.files = append(p.files, f)
			p.lines += set.File(f.Pos()).LineCount()
		}
		c := types.Config{Importer: from}
		if _, err := c.Check(p.ImportPath, set, p.files, p.info); err != nil {
			return nil, err
		}
	}
	return own, nil
})

// packagesOf is what ownPackages reads, once for all tests.
func packagesOf(t *testing.T) []*goPackage {
	t.Helper()
	own, err := ownPackages()
	if err != nil {
		t.Fatal(err)
	}
	return own
}

var filesLine = regexp.MustCompile(`Files, from the top floor to the ground:((?: [a-z0-9_]+\.go(?: \([^)]*\))?[,.])+)`)

var inBrackets = regexp.MustCompile(` \([^)]*\)`)

// floors reads the order of the files that the doc comment of a package names.
func (p *goPackage) floors() []string {
	for _, f := range p.files {
		if f.Doc == nil {
			continue
		}
		if m := filesLine.FindStringSubmatch(strings.Join(strings.Fields(f.Doc.Text()), " ")); m != nil {
			return strings.Fields(strings.NewReplacer(",", " ", ".go.", ".go").Replace(inBrackets.ReplaceAllString(m[1], "")))
		}
	}
	return nil
}

// call is one function, or a table of the package, that names a function of another file.
type call struct{ from, fromFile, to, toFile string }

// calls lists who calls whom from file to file, each pair once. A method of an
// interface is decided while the program runs, so it is none.
func (p *goPackage) calls() []call {
	var all []call
	seen := map[call]bool{}
	for _, f := range p.files {
		for _, d := range f.Decls {
			name := declared(d)
			ast.Inspect(d, func(n ast.Node) bool {
				id, ok := n.(*ast.Ident)
				if !ok {
					return true
				}
				fn, ok := p.info.Uses[id].(*types.Func)
				if !ok || fn.Pkg() == nil || fn.Pkg().Path() != p.ImportPath {
					return true
				}
				fn = fn.Origin()
				if r := fn.Signature().Recv(); r != nil && types.IsInterface(r.Type()) {
					return true
				}
				c := call{name, p.file(d.Pos()), fn.Name(), p.file(fn.Pos())}
				if c.fromFile != c.toFile && !seen[c] {
					seen[c] = true
					all = append(all, c)
				}
				return true
			})
		}
	}
	return all
}

// declared is the name of a function, as Type.Method for one of a type, or of
// the first thing that a declaration of values or types makes.
func declared(d ast.Decl) string {
	switch d := d.(type) {
	case *ast.FuncDecl:
		if d.Recv != nil {
			return receiver(d) + "." + d.Name.Name
		}
		return d.Name.Name
	case *ast.GenDecl:
		for _, s := range d.Specs {
			switch s := s.(type) {
			case *ast.ValueSpec:
				return s.Names[0].Name
			case *ast.TypeSpec:
				return s.Name.Name
			}
		}
	}
	return ""
}

// receiver is the name of the type that a method belongs to.
func receiver(d *ast.FuncDecl) string {
	e := d.Recv.List[0].Type
	for {
		switch t := e.(type) {
		case *ast.StarExpr:
			e = t.X
		case *ast.IndexExpr:
			e = t.X
		case *ast.IndexListExpr:
			e = t.X
		case *ast.Ident:
			return t.Name
		default:
			return ""
		}
	}
}

// Inside a package calls run downward: its doc comment names its files from the
// top floor to the ground, each once, and of the calls between files at most
// one in ten runs up.
func TestFloors(t *testing.T) {
	t.Parallel()
	for _, p := range packagesOf(t) {
		all := append(slices.Clone(p.GoFiles), p.IgnoredGoFiles...)
		all = slices.DeleteFunc(all, func(n string) bool { return strings.HasSuffix(n, "_test.go") })
		if len(all) == 1 {
			continue
		}
		order := p.floors()
		var upward []call
		calls := p.calls()
		for _, c := range calls {
			if slices.Index(order, c.toFile) < slices.Index(order, c.fromFile) {
				upward = append(upward, c)
			}
		}
		var wrong []string
		named := slices.Clone(order)
		slices.Sort(named)
		slices.Sort(all)
		switch {
		case order == nil:
			wrong = append(wrong, "its doc comment does not name its files as: Files, from the top floor to the ground: a.go, b.go.")
		case !slices.Equal(named, all):
			wrong = append(wrong, fmt.Sprintf("its doc comment names %q, its files are %q", named, all))
		case float64(len(upward)) > mostUpward*float64(len(calls)):
			wrong = append(wrong, fmt.Sprintf("%d of %d calls between files run upward", len(upward), len(calls)))
			for _, c := range upward {
				wrong = append(wrong, fmt.Sprintf("  %s in %s calls %s in %s", c.from, c.fromFile, c.to, c.toFile))
			}
		}
		if order != nil {
			t.Logf("%s: %d of %d calls between files run upward", p.ImportPath, len(upward), len(calls))
		}
		for _, w := range wrong {
			t.Errorf("%s: %s", p.ImportPath, w)
		}
	}
}

// A package, a type, a function is small enough to be read, or large names the reason why not.
func TestSizes(t *testing.T) {
	t.Parallel()
	found := map[string]bool{}
	check := func(name string, n, most int, of string) {
		if n <= most {
			return
		}
		key := strings.TrimPrefix(name, "trammel/")
		found[key] = true
		if large[key] == "" && !slices.Contains(tooLarge, key) {
			t.Errorf("%s has %d %s, %d at most", key, n, of, most)
		}
	}
	for _, p := range packagesOf(t) {
		check(p.ImportPath, p.lines, mostLines, "lines")
		methods := map[string]int{}
		for _, f := range p.files {
			for _, d := range f.Decls {
				fn, ok := d.(*ast.FuncDecl)
				if !ok {
					continue
				}
				name := p.ImportPath + "." + declared(d)
				check(name, p.height(fn), mostOfFunction, "lines")
				check(name, fn.Type.Params.NumFields(), mostParameters, "parameters")
				if fn.Recv != nil {
					methods[receiver(fn)]++
				}
			}
		}
		for name, n := range methods {
			check(p.ImportPath+"."+name, n, mostMethods, "methods")
		}
	}
	for _, name := range slices.Concat(slices.Sorted(maps.Keys(large)), tooLarge) {
		if !found[name] {
			t.Errorf("%s is not too large: take it out", name)
		}
	}
}

// large holds what is larger than the limits, each with its reason.
var large = map[string]string{
	"plot/lettering.pen.CubeTo": "an interface of the font module",
}

// tooLarge is what is larger than the limits without a reason, and is to be made smaller.
var tooLarge = []string{
	"plot/paging.boundTriangle",
}
