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
	"flag"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"

	"trammel/cmd/internal/output"
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
	k := &output.Keeper{}
	if err := k.Folder(folder, func(file func(string, func(io.Writer) error) error) error {
		for _, name := range slices.Sorted(maps.Keys(files)) {
			if err := file(name, func(w io.Writer) error { _, err := w.Write(files[name]); return err }); err != nil {
				return err
			}
		}
		return nil
	}); err != nil {
		return err
	}
	fmt.Printf("%s: %d files; the program is %.2f MB, packed %.2f MB\n", folder+string(filepath.Separator), len(files), float64(len(program))/1e6, float64(len(files[packed]))/1e6)
	return nil
}

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
	files["how.js"] = fmt.Appendf(nil, "// Written with the folder: there is no server, a worker answers.\nexport const how = { carrier: \"worker\", build: %q, bytes: %d };\n", version, b.Len())
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
