// Site makes the page as a folder for any web host:
//
//	go run ./cmd/site -o FOLDER
//
// In it are the files of the page, the program as WebAssembly, packed (trammel.bin), and a
// service worker that keeps all of them for later without a network. The script that starts
// Go is the compiler's own, so that the two fit. The same source and compiler give the same
// folder, to the byte.
//
// Files, from the top floor to the ground: main.go, build.go.
package main

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"

	"trammel/cmd/internal/page/web"
)

func main() {
	folder := flag.String("o", "", "`folder` to write")
	flag.Parse()
	if *folder == "" || flag.NArg() > 0 {
		flag.Usage()
		os.Exit(2)
	}
	if err := write(*folder); err != nil {
		fmt.Fprintln(os.Stderr, "site:", err)
		os.Exit(1)
	}
}

// write writes the folder, whole or not at all.
func write(folder string) error {
	program, err := built()
	if err != nil {
		return err
	}
	starter, err := wasmExec()
	if err != nil {
		return err
	}
	files, err := site(program, starter)
	if err != nil {
		return err
	}
	if err := place(filepath.Clean(folder), files); err != nil {
		return err
	}
	fmt.Printf("%s: %d files; the program is %.2f MB, packed %.2f MB\n", folder+string(filepath.Separator), len(files), float64(len(program))/1e6, float64(len(files[packed]))/1e6)
	return nil
}

// place puts the files where the folder is, all at once. What stands there is replaced only
// where it was made here.
func place(folder string, files map[string][]byte) error {
	old, err := os.ReadDir(folder)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	if how, err := os.ReadFile(filepath.Join(folder, "how.js")); len(old) > 0 && (err != nil || !bytes.HasPrefix(how, []byte(madeHere))) {
		return fmt.Errorf("%s: the folder is not empty, and was not made here: name another", folder)
	}
	made, err := os.MkdirTemp(filepath.Dir(folder), ".site-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(made)
	for name, data := range files {
		if err := os.WriteFile(filepath.Join(made, name), data, 0o644); err != nil {
			return err
		}
	}
	if err := os.Chmod(made, 0o755); err != nil {
		return err
	}
	if err := os.RemoveAll(folder); err != nil {
		return err
	}
	return os.Rename(made, folder)
}

// madeHere begins a file that every folder has, and no other.
const madeHere = "// Written with the folder:"

// packed is the program as a host sends it: its name says nothing of how it is packed, so
// that no host unpacks it under way.
const packed = "trammel.bin"

// site are the files of the folder.
func site(program, starter []byte) (map[string][]byte, error) {
	files := map[string][]byte{"wasm_exec.js": starter}
	err := fs.WalkDir(web.Files, ".", func(path string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			files[path], err = fs.ReadFile(web.Files, path)
		}
		return err
	})
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	z, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	if _, err := z.Write(program); err != nil {
		return nil, err
	}
	if err := z.Close(); err != nil {
		return nil, err
	}
	files[packed] = b.Bytes()
	worker := files["sw.js"]
	delete(files, "sw.js")
	files["how.js"] = nil // the sum is of all but what it stands in
	version := sum(files)
	files["how.js"] = fmt.Appendf(nil, madeHere+" there is no server, a worker answers.\nexport const how = { carrier: \"worker\", build: %q, bytes: %d };\n", version, b.Len())
	names := []string{"./"}
	for _, n := range slices.Sorted(maps.Keys(files)) {
		if n != "index.html" {
			names = append(names, n)
		}
	}
	list, err := json.Marshal(names)
	if err != nil {
		return nil, err
	}
	files["sw.js"] = append(fmt.Appendf(nil, "const version = %q, files = %s;\n", version, list), worker...)
	return files, nil
}

// sum tells one folder from another.
func sum(files map[string][]byte) string {
	h := sha256.New()
	for _, name := range slices.Sorted(maps.Keys(files)) {
		fmt.Fprintf(h, "%s %x\n", name, sha256.Sum256(files[name]))
	}
	return fmt.Sprintf("%x", h.Sum(nil))[:16]
}
