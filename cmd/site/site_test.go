package main

import (
	"bytes"
	"compress/gzip"
	"io"
	"strings"
	"testing"
)

// All of the folder is kept by the service worker under the sum of it, and nothing else is.
func TestFolder(t *testing.T) {
	files, err := site([]byte("program"), []byte("starter"))
	if err != nil {
		t.Fatal(err)
	}
	worker := string(files["sw.js"])
	for name := range files {
		listed := strings.Contains(strings.SplitN(worker, "\n", 2)[0], `"`+name+`"`)
		if want := name != "sw.js" && name != "index.html"; listed != want {
			t.Errorf("%s kept: %v", name, listed)
		}
	}
	for _, want := range []string{"index.html", "page.js", "page.css", "carrier.js", "worker.js", "wasm_exec.js", "manifest.webmanifest", packed} {
		if files[want] == nil {
			t.Errorf("no %s", want)
		}
	}
	if !strings.Contains(string(files["how.js"]), `carrier: "worker"`) {
		t.Errorf("%s", files["how.js"])
	}
	z, err := gzip.NewReader(bytes.NewReader(files[packed]))
	if err != nil {
		t.Fatal(err)
	}
	if plain, err := io.ReadAll(z); err != nil || string(plain) != "program" {
		t.Errorf("%q, %v", plain, err)
	}
	again, err := site([]byte("program"), []byte("starter"))
	if err != nil {
		t.Fatal(err)
	}
	for name := range files {
		if !bytes.Equal(files[name], again[name]) {
			t.Errorf("%s is another the second time", name)
		}
	}
	other, err := site([]byte("another program"), []byte("starter"))
	if err != nil {
		t.Fatal(err)
	}
	if bytes.Equal(other["sw.js"], files["sw.js"]) {
		t.Error("another program has the same version")
	}
}

// A host that can set no header has the policy from the page itself.
func TestPolicyOfThePage(t *testing.T) {
	files, err := site(nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	page := string(files["index.html"])
	if !strings.Contains(page, `http-equiv="Content-Security-Policy"`) || !strings.Contains(page, "default-src 'none'") {
		t.Error("no policy")
	}
	for _, inline := range []string{"<style", " style=", " onclick=", "<script>", "http://", "https://"} {
		if strings.Contains(page, inline) {
			t.Errorf("%q stands in the page", inline)
		}
	}
}

// What is written by hand stays small: no library, no step of building.
func TestPageIsSmall(t *testing.T) {
	files, err := site(nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for name, data := range files {
		if name != packed && name != "wasm_exec.js" {
			n += len(data)
		}
	}
	const most = 90_000
	if n > most {
		t.Errorf("the page is %d bytes, more than %d", n, most)
	}
	t.Logf("%d bytes", n)
}
