// Release has what .ci/release needs beside the compiler:
//
//	go run .ci/release.go licences ./cmd/trammel    of all that is inside a program
//	go run .ci/release.go pack FOLDER OUT           a folder as an archive
package main

import (
	"archive/tar"
	"archive/zip"
	"bytes"
	"compress/gzip"
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
	"strconv"
	"strings"
	"time"
)

func main() {
	err := errors.New("licences PROGRAM, or pack FOLDER OUT")
	switch args := os.Args[1:]; {
	case len(args) == 2 && args[0] == "licences":
		err = licences(args[1])
	case len(args) == 3 && args[0] == "pack":
		err = pack(args[1], args[2])
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "release:", err)
		os.Exit(1)
	}
}

var names = regexp.MustCompile(`(?i)^(licen[cs]e|copying|notice|patents|authors)([.-].*)?$`)

// licences prints those of all that is inside a program, module by module, from the module
// cache. GOOS and GOARCH of the environment are those of the program. A module without any
// is an error: it could not be passed on.
func licences(program string) error {
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
				if more, _ := filepath.Glob(filepath.Join(dir, "licenses")); len(more) > 0 {
					folders[name] = append(folders[name], more...)
				}
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
				if e.IsDir() || !names.MatchString(e.Name()) && filepath.Base(dir) != "licenses" || strings.HasSuffix(e.Name(), ".go") {
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
		for _, dir := range folders[name] {
			if found > 0 {
				break
			}
			n, err := headers(name, dir) // no file of its own: the licence is named in the source
			if err != nil {
				return err
			}
			found += n
		}
		if found == 0 {
			return fmt.Errorf("%s has no licence in %s", name, strings.Join(folders[name], ", "))
		}
	}
	return nil
}

// headers prints what stands above the code of files that name a licence.
func headers(name, dir string) (found int, err error) {
	files, err := filepath.Glob(filepath.Join(dir, "*.go"))
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			return found, err
		}
		head, _, _ := strings.Cut(string(text), "\npackage ")
		if strings.HasSuffix(file, "_test.go") || !strings.Contains(head, "icense") {
			continue
		}
		rule := strings.Repeat("-", 78)
		fmt.Printf("\n%s\n%s: above %s\n%s\n\n%s\n", rule, name, filepath.Base(file), rule, strings.TrimSpace(strings.ReplaceAll(head, "\r", "")))
		found++
	}
	return found, err
}

// pack puts a folder into one archive, the same bytes each time: OUT/FOLDER.zip, for Linux
// and macOS OUT/FOLDER.tar.gz. Times are SOURCE_DATE_EPOCH.
func pack(folder, out string) error {
	seconds, err := strconv.ParseInt(os.Getenv("SOURCE_DATE_EPOCH"), 10, 64)
	if err != nil {
		return err
	}
	made := time.Unix(seconds, 0).UTC()
	entries, err := os.ReadDir(folder) // sorted
	if err != nil {
		return err
	}
	name := filepath.Base(folder)
	unix := strings.Contains(name, "-linux-") || strings.Contains(name, "-macos-")
	var b bytes.Buffer
	gz, _ := gzip.NewWriterLevel(&b, gzip.BestCompression)
	t := tar.NewWriter(gz)
	z := zip.NewWriter(&b)
	for _, e := range entries {
		data, err := os.ReadFile(filepath.Join(folder, e.Name()))
		if err != nil {
			return err
		}
		mode := int64(0o644)
		if e.Name() == "trammel" {
			mode = 0o755
		}
		if unix {
			if err := t.WriteHeader(&tar.Header{Name: name + "/" + e.Name(), Size: int64(len(data)), Mode: mode, ModTime: made, Format: tar.FormatUSTAR}); err != nil {
				return err
			}
			if _, err := t.Write(data); err != nil {
				return err
			}
			continue
		}
		w, err := z.CreateHeader(&zip.FileHeader{Name: name + "/" + e.Name(), Method: zip.Deflate, Modified: made})
		if err != nil {
			return err
		}
		if _, err := w.Write(data); err != nil {
			return err
		}
	}
	end := ".zip"
	if unix {
		end = ".tar.gz"
		if err := t.Close(); err != nil {
			return err
		}
		err = gz.Close()
	} else {
		err = z.Close()
	}
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(out, name+end), b.Bytes(), 0o644)
}
