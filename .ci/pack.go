//go:build ignore

// Pack puts a folder into one archive, the same bytes each time: go run .ci/pack.go FOLDER OUT
// makes OUT/FOLDER.zip, for Linux and macOS OUT/FOLDER.tar.gz. Times are SOURCE_DATE_EPOCH.
package main

import (
	"archive/tar"
	"archive/zip"
	"bytes"
	"compress/gzip"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"
)

func main() {
	if err := run(os.Args[1], os.Args[2]); err != nil {
		fmt.Fprintln(os.Stderr, "pack:", err)
		os.Exit(1)
	}
}

func run(folder, out string) error {
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
