package web

import (
	"bytes"
	"compress/gzip"
	"io/fs"
	"os/exec"
	"path"
	"regexp"
	"strings"
	"testing"
)

func files(t *testing.T) map[string]string {
	t.Helper()
	all := map[string]string{}
	err := fs.WalkDir(Files, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := fs.ReadFile(Files, name)
		all[name] = string(text)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

const (
	most       = 80_000 // bytes of all files that are written by hand
	mostPacked = 27_000 // the same as a host sends them
)

// The page is small enough to be read, and to come over a thin line in a second.
func TestThePageIsSmall(t *testing.T) {
	t.Parallel()
	n := 0
	var packed bytes.Buffer
	z := gzip.NewWriter(&packed)
	for _, text := range files(t) {
		n += len(text)
		if _, err := z.Write([]byte(text)); err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	t.Logf("%d bytes, %d packed", n, packed.Len())
	if n > most || packed.Len() > mostPacked {
		t.Errorf("%d bytes, %d packed: more than %d and %d", n, packed.Len(), most, mostPacked)
	}
}

// Each label that is asked for stands in labels.js, and none that nobody asks for.
func TestEachLabelIsSaid(t *testing.T) {
	t.Parallel()
	all := files(t)
	head := regexp.MustCompile(`(?m)(?:^  |, |{ )(\w+): "`)
	known := map[string]bool{}
	for _, m := range head.FindAllStringSubmatch(all["labels.js"], -1) {
		known[m[1]] = true
	}
	used := map[string]bool{}
	asked := regexp.MustCompile(`\b(?:say|button|field|file)\(("(?:[^")(]|\\")*"[^)(]*)`)
	word := regexp.MustCompile(`"(\w+)"`)
	for name, text := range all {
		if path.Ext(name) != ".js" || name == "labels.js" {
			continue
		}
		for _, m := range word.FindAllStringSubmatch(text, -1) {
			used[m[1]] = true
		}
		for _, m := range asked.FindAllStringSubmatch(text, -1) {
			first := word.FindStringSubmatch(m[1])
			if strings.HasPrefix(m[0], "file(") {
				first = word.FindStringSubmatch(m[1][strings.LastIndex(m[1], ",")+1:])
			}
			if first != nil && !known[first[1]] && !strings.HasPrefix(first[1], "go") {
				t.Errorf("%s asks for the label %q that is not there: %s", name, first[1], m[0])
			}
		}
	}
	for name := range map[string]bool{"measures": true, "paper": true, "hand": true, "setout": true, "side": true, "diagonal": true, "class": true, "bench": true, "floor": true, "ground": true, "tasks": true, "boards": true, "txt": true, "csv": true, "json": true} {
		used[name] = true // asked for by their variables
	}
	for k := range known {
		if !used[k] {
			t.Errorf("nobody asks for the label %q", k)
		}
	}
}

// Text of a job can run nothing: nowhere is text made markup, and the page works under a
// policy that forbids all that is inline.
func TestNothingIsMadeMarkup(t *testing.T) {
	t.Parallel()
	for name, text := range files(t) {
		for _, not := range []string{"innerHTML", "outerHTML", "insertAdjacent", "document.write", "eval(", "new Function", "setAttribute(\"style\"", "javascript:"} {
			if path.Ext(name) == ".js" && strings.Contains(text, not) {
				t.Errorf("%s uses %s", name, not)
			}
		}
		if path.Ext(name) == ".html" && regexp.MustCompile(`<script>|<style|\sstyle=|\son\w+=`).MatchString(text) {
			t.Errorf("%s has something inline", name)
		}
		if regexp.MustCompile(`https?://[^"]*`).MatchString(strings.ReplaceAll(text, "http://www.w3.org/", "")) {
			t.Errorf("%s reaches out", name)
		}
	}
}

// Where node is there it reads each module; the gate has it.
func TestModulesAreRead(t *testing.T) {
	t.Parallel()
	node, err := exec.LookPath("node")
	if err != nil {
		t.Log("there is no node here: the gate reads the modules")
		return
	}
	for name, text := range files(t) {
		if path.Ext(name) != ".js" {
			continue
		}
		kind := "--input-type=module"
		if name == "worker.js" || name == "sw.js" {
			kind = "--input-type=commonjs"
		}
		cmd := exec.Command(node, kind, "--check", "-")
		cmd.Stdin = strings.NewReader(text)
		if out, err := cmd.CombinedOutput(); err != nil {
			t.Errorf("%s: %v\n%s", name, err, out)
		}
	}
}
