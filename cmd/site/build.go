package main

import (
	"encoding/json"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// flags of the compiler. Nothing is inlined but in the standard library: that costs little
// time, and 420 kB of what is loaded count.
var flags = []string{
	"-trimpath", "-buildvcs=false", "-ldflags", "-s -w", "-gcflags=trammel/...=-l", "-gcflags=gonum.org/...=-l",
	"-gcflags=github.com/...=-l", "-gcflags=golang.org/...=-l", "-gcflags=go.yaml.in/...=-l",
}

// built is the program for browsers.
func built() ([]byte, error) {
	work, err := os.MkdirTemp("", "trammel-site-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(work)
	root, err := said("env", "GOMOD")
	if err != nil {
		return nil, err
	}
	root = filepath.Dir(root)
	modules, err := leaner(root, work)
	if err != nil {
		return nil, err
	}
	file := filepath.Join(work, "trammel.wasm")
	cmd := exec.Command("go", append(append([]string{"build", "-modfile", modules, "-o", file}, flags...), "./cmd/wasm")...)
	cmd.Dir, cmd.Env, cmd.Stderr = root, append(os.Environ(), "GOOS=js", "GOARCH=wasm", "GOFLAGS=-mod=mod"), os.Stderr
	if err := cmd.Run(); err != nil {
		return nil, fmt.Errorf("the program for browsers does not build: %w", err)
	}
	return os.ReadFile(file)
}

// spare are files of modules that are left out of the program for browsers: nothing of
// them is called there, and yet they bring in what a browser would have to load: a server
// and its cryptography, the tables of a window system, and those for setting text.
var spare = map[string]func(file string) bool{
	"github.com/andybalholm/brotli": is("http.go"),      // offers a packed form of fonts, never read here, to servers
	"github.com/tdewolff/minify/v2": isNot("common.go"), // of which two functions that write numbers are called
	"github.com/srwiley/scanx":      is("span.go"),      // paints into windows
	"github.com/tdewolff/canvas": func(file string) bool { // of which paths are called, and no text, drawing or picture
		return !(strings.HasPrefix(file, "path") || is("util.go")(file) || is("shapes.go")(file)) || is("path_tiling.go")(file)
	},
}

// standsIn is put into a copy for what its other files have and nobody calls.
var standsIn = map[string]string{
	"github.com/tdewolff/canvas":    "package canvas\n\ntype Resolution float64\n\nfunc (r Resolution) DPMM() float64 { return float64(r) }\n",
	"github.com/tdewolff/minify/v2": "package minify\n\ntype M struct{}\n\nfunc (*M) Bytes(_ string, b []byte) ([]byte, error) { return b, nil }\n",
}

func is(name string) func(string) bool    { return func(file string) bool { return file == name } }
func isNot(name string) func(string) bool { return func(file string) bool { return file != name } }

// leaner writes a module file beside the source's own in which those modules are without
// those files.
func leaner(root, work string) (string, error) {
	modules := filepath.Join(work, "go.mod")
	for from, to := range map[string]string{"go.mod": modules, "go.sum": filepath.Join(work, "go.sum")} {
		data, err := os.ReadFile(filepath.Join(root, from))
		if err != nil {
			return "", err
		}
		if err := os.WriteFile(to, data, 0o666); err != nil {
			return "", err
		}
	}
	for module, left := range spare {
		text, err := said("list", "-m", "-json", module)
		if err != nil {
			return "", err
		}
		var m struct{ Dir string }
		if err := json.Unmarshal([]byte(text), &m); err != nil {
			return "", err
		}
		without := filepath.Join(work, filepath.Base(filepath.Dir(module))+"-"+filepath.Base(module))
		if err := os.CopyFS(without, lean{os.DirFS(m.Dir), left}); err != nil {
			return "", err
		}
		if _, err := os.Stat(filepath.Join(without, "go.mod")); err != nil { // an old one has none
			if err := os.WriteFile(filepath.Join(without, "go.mod"), []byte("module "+module+"\n"), 0o666); err != nil {
				return "", err
			}
		}
		if text := standsIn[module]; text != "" {
			if err := os.WriteFile(filepath.Join(without, "stands_in.go"), []byte(text), 0o666); err != nil {
				return "", err
			}
		}
		if _, err := said("mod", "edit", "-replace", module+"="+without, modules); err != nil {
			return "", err
		}
	}
	return modules, nil
}

// lean is a module without what is not built of it, and without files that are left out.
type lean struct {
	fs.FS
	left func(file string) bool
}

func (l lean) ReadDir(name string) ([]fs.DirEntry, error) {
	all, err := fs.ReadDir(l.FS, name)
	var kept []fs.DirEntry
	for _, e := range all {
		source := strings.HasSuffix(e.Name(), ".go") && !strings.HasSuffix(e.Name(), "_test.go")
		if e.Name() == "go.mod" || source && !(name == "." && l.left(e.Name())) || e.IsDir() && e.Name() == "matchfinder" {
			kept = append(kept, e)
		}
	}
	return kept, err
}

// wasmExec is the script that starts a program of this very compiler.
func wasmExec() ([]byte, error) {
	root, err := said("env", "GOROOT")
	if err != nil {
		return nil, err
	}
	return os.ReadFile(filepath.Join(root, "lib", "wasm", "wasm_exec.js"))
}

// said is what the go command prints, in a line.
func said(args ...string) (string, error) {
	out, err := exec.Command("go", args...).Output()
	if err != nil {
		return "", fmt.Errorf("go %s: %w", strings.Join(args, " "), err)
	}
	return strings.TrimSpace(string(out)), nil
}
