//go:build ignore

// Licences prints those of all that is inside a program, module by module, from the module
// cache: go run .ci/licences.go ./cmd/trammel. GOOS and GOARCH of the environment are those
// of the program. A module without any is an error: it could not be passed on.
package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
)

var names = regexp.MustCompile(`(?i)^(licen[cs]e|copying|notice|patents|authors)([.-].*)?$`)

func main() {
	if err := run(os.Args[1]); err != nil {
		fmt.Fprintln(os.Stderr, "licences:", err)
		os.Exit(1)
	}
}

func run(program string) error {
	out, err := exec.Command("go", "list", "-deps", "-json=Module,Dir,Standard", program).Output()
	if err != nil {
		return err
	}
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return err
	}
	// Folders that hold licences: that of the module, and of each package within it, since
	// some carry the work of others.
	folders := map[string][]string{"Go and its standard library": {strings.TrimSpace(string(root))}}
	for d := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p struct {
			Dir      string
			Standard bool
			Module   *struct {
				Path, Version, Dir string
				Main               bool
			}
		}
		if err := d.Decode(&p); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			return err
		}
		if p.Standard || p.Module == nil || p.Module.Main {
			continue
		}
		name := p.Module.Path + " " + p.Module.Version
		for dir := p.Dir; strings.HasPrefix(dir, p.Module.Dir); dir = filepath.Dir(dir) {
			if !slices.Contains(folders[name], dir) {
				folders[name] = append(folders[name], dir)
			}
		}
	}
	fmt.Println("This program holds the work of others, each under its own licence.")
	for _, name := range slices.Sorted(maps.Keys(folders)) {
		found := 0
		slices.Sort(folders[name])
		for _, dir := range folders[name] {
			entries, err := os.ReadDir(dir)
			if err != nil {
				return err
			}
			for _, e := range entries {
				if e.IsDir() || !names.MatchString(e.Name()) || strings.HasSuffix(e.Name(), ".go") {
					continue
				}
				text, err := os.ReadFile(filepath.Join(dir, e.Name()))
				if err != nil {
					return err
				}
				rule := strings.Repeat("-", 78)
				fmt.Printf("\n%s\n%s: %s\n%s\n\n%s\n", rule, name, e.Name(), rule, strings.TrimSpace(strings.ReplaceAll(string(text), "\r", "")))
				found++
			}
		}
		if found == 0 {
			return fmt.Errorf("%s has no licence in %s", name, strings.Join(folders[name], ", "))
		}
	}
	return nil
}
