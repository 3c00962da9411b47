//go:build unix

package output

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// What killed runs left a day ago, whatever their goals, goes with the next file or
// folder written beside it; what is younger, held by a living run or none of ours stays.
func TestSweepAfterADay(t *testing.T) {
	old, young := time.Now().Add(-25*time.Hour), time.Now().Add(-23*time.Hour)
	const id = mark + "0123456789ab"
	for _, c := range []struct {
		name  string // a folder where it ends with a slash
		age   time.Time
		taken bool
	}{
		{id + "-other.pdf", old, true}, {id + "-other.pdf", young, false},
		{id + "-plates/A1.svg", old, true}, {id + "-plates/", old, true}, {id + "-plates/", young, false},
		{id + "-plates/mine/photo.jpg", old, false}, // no page lies deeper
		{id + "-plates-old/A1.svg", old, false},     // perhaps the only copy
		{mark + "notes-other.pdf", old, false}, {mark + "0123456789AB-other.pdf", old, false}, {mark + "0123456789ab", old, false}, {mark + "0123456789ab-", old, false},
		{mark + "0123456789abc-other.pdf", old, false}, {"other.pdf", old, false}, {".trammel", old, false}, {"x" + id + "-other.pdf", old, false},
	} {
		for _, goal := range []string{"out.pdf", "pages"} {
			dir := t.TempDir()
			path := filepath.Join(dir, c.name)
			top, _, _ := strings.Cut(c.name, "/")
			if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
				t.Fatal(err)
			}
			if strings.HasSuffix(c.name, "/") {
				os.MkdirAll(path, 0o777)
			} else if err := os.WriteFile(path, []byte("x"), 0o666); err != nil {
				t.Fatal(err)
			}
			for p := path; p != filepath.Clean(dir); p = filepath.Dir(p) {
				if err := os.Chtimes(p, c.age, c.age); err != nil {
					t.Fatal(err)
				}
			}
			var k Keeper
			var err error
			if goal == "pages" {
				err = k.Folder(filepath.Join(dir, goal), pages("A1.svg"))
			} else {
				err = k.File(filepath.Join(dir, goal), text("x"))
			}
			if err != nil {
				t.Fatal(err)
			}
			if _, err := os.Lstat(filepath.Join(dir, top)); (err != nil) != c.taken {
				t.Errorf("%s beside %s, of %v: taken %v, want %v", c.name, goal, time.Since(c.age).Round(time.Hour), err != nil, c.taken)
			}
		}
	}
}

// A link, a pipe, a page written a moment ago, a run that lives.
func TestSweepLeaves(t *testing.T) {
	dir := t.TempDir()
	old := time.Now().Add(-48 * time.Hour)
	at := func(name string) string { return filepath.Join(dir, mark+name) }
	photo := filepath.Join(dir, "photo.jpg")
	os.WriteFile(photo, []byte("x"), 0o666)
	os.Symlink(photo, at("0123456789ab-other.pdf"))
	if err := syscall.Mkfifo(at("0123456789ac-other.pdf"), 0o666); err != nil {
		t.Fatal(err)
	}
	os.MkdirAll(at("0123456789ad-plates"), 0o777)
	os.WriteFile(filepath.Join(at("0123456789ad-plates"), "A1.svg"), []byte("x"), 0o666)
	held, err := os.Create(at("0123456789ae-other.pdf"))
	if err != nil || !hold(held) {
		t.Fatal(err)
	}
	defer held.Close()
	for _, n := range []string{"0123456789ac-other.pdf", "0123456789ad-plates", "0123456789ae-other.pdf"} {
		if err := os.Chtimes(at(n), old, old); err != nil {
			t.Fatal(err)
		}
	}
	before := list(t, dir)
	var k Keeper
	if err := k.File(filepath.Join(dir, "out.pdf"), text("x")); err != nil {
		t.Fatal(err)
	}
	if got := strings.Replace(list(t, dir), " out.pdf", "", 1); got != before {
		t.Errorf("there were %s, then %s", before, got)
	}
}

// A folder that is made anew is as open as the old one was, and no page is lost
// where the old one is write-protected.
func TestFolderKeepsItsMode(t *testing.T) {
	goal := filepath.Join(t.TempDir(), "plates")
	var k Keeper
	for _, mode := range []fs.FileMode{0o700, 0o750, 0o755, 0o770 | fs.ModeSetgid, 0o777 | fs.ModeSticky} {
		if err := os.Mkdir(goal, 0o777); err != nil && !os.IsExist(err) {
			t.Fatal(err)
		}
		if err := os.Chmod(goal, mode); err != nil {
			t.Fatal(err)
		}
		for range 2 {
			if err := k.Folder(goal, pages("A1.svg", "A2.svg")); err != nil {
				t.Fatal(err)
			}
			if info, err := os.Stat(goal); err != nil || info.Mode() != mode|fs.ModeDir {
				t.Errorf("%v has become %v, %v", mode, info.Mode(), err)
			}
		}
	}
	if err := os.Chmod(goal, 0o555); err != nil {
		t.Fatal(err)
	}
	if err := k.Folder(goal, pages("B1.svg")); err == nil || !strings.Contains(err.Error(), "is write-protected") || list(t, goal) != "A1.svg A2.svg" {
		t.Errorf("a write-protected folder: %v, it holds %s", err, list(t, goal))
	}
}
