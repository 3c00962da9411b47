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

// flags of the compiler. What reads words and says them is not inlined: it runs once, and
// 80 kB of what is loaded count. The tag is canvas's own, which leaves fifty fonts out.
var flags = []string{
	"-trimpath", "-buildvcs=false", "-tags", "latex", "-ldflags", "-s -w",
	"-gcflags=trammel/profiles/...=-l", "-gcflags=trammel/plot/words=-l", "-gcflags=go.yaml.in/...=-l",
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

// brotli reads a packed form of fonts that is never read here, and in one of its files
// offers itself to servers: that file alone brings in a server and all of its cryptography,
// a tenth of what a browser loads.
const brotli, brotliServes = "github.com/andybalholm/brotli", "http.go"

// leaner writes a module file beside the source's own in which brotli is without that file.
func leaner(root, work string) (string, error) {
	text, err := said("list", "-m", "-json", brotli)
	if err != nil {
		return "", err
	}
	var m struct{ Dir string }
	if err := json.Unmarshal([]byte(text), &m); err != nil {
		return "", err
	}
	without := filepath.Join(work, "brotli")
	if err := os.CopyFS(without, only{os.DirFS(m.Dir)}); err != nil {
		return "", err
	}
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
	_, err = said("mod", "edit", "-replace", brotli+"="+without, modules)
	return modules, err
}

// only is a module without what is not built of it.
type only struct{ fs.FS }

func (o only) ReadDir(name string) ([]fs.DirEntry, error) {
	all, err := fs.ReadDir(o.FS, name)
	var kept []fs.DirEntry
	for _, e := range all {
		if e.Name() == "go.mod" || strings.HasSuffix(e.Name(), ".go") && !strings.HasSuffix(e.Name(), "_test.go") && e.Name() != brotliServes || e.IsDir() && e.Name() == "matchfinder" {
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
