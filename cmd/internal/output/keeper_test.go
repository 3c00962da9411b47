package output

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
	"unicode/utf8"

	"trammel/geom/unit"
)

func text(s string) func(io.Writer) error {
	return func(w io.Writer) error { _, err := io.WriteString(w, s); return err }
}

func read(t *testing.T, path string) string {
	t.Helper()
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// list is the names in a folder, hidden ones as well.
func list(t *testing.T, path string) string {
	t.Helper()
	entries, err := os.ReadDir(path)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return strings.Join(names, " ")
}

func TestFileReplaces(t *testing.T) {
	goal := filepath.Join(t.TempDir(), "out.pdf")
	var k Keeper
	for _, s := range []string{"first", strings.Repeat("second ", 100000), ""} {
		if err := k.File(goal, text(s)); err != nil {
			t.Fatal(err)
		}
		if read(t, goal) != s {
			t.Errorf("%d bytes are not what was written", len(s))
		}
	}
	if l := list(t, filepath.Dir(goal)); l != "out.pdf" {
		t.Errorf("left: %s", l)
	}
}

// A file that others may not read is not readable to them once it is written anew.
func TestFileKeepsPermissions(t *testing.T) {
	goal := filepath.Join(t.TempDir(), "out.pdf")
	var k Keeper
	for _, mode := range []fs.FileMode{0o600, 0o640, 0o644} {
		if err := errors.Join(os.WriteFile(goal, nil, 0o600), os.Chmod(goal, mode), k.File(goal, text("new"))); err != nil {
			t.Fatal(err)
		}
		old := mode
		if runtime.GOOS == "windows" { // knows only whether a file may be written
			old = 0o666
		}
		if info, err := os.Stat(goal); err != nil || info.Mode().Perm() != old {
			t.Errorf("%v has become %v, %v", old, info.Mode(), err)
		}
	}
}

// A name as long as names may be, its letters of two bytes and more.
func TestFileLongName(t *testing.T) {
	dir := t.TempDir()
	var k Keeper
	for _, name := range []string{strings.Repeat("n", 251) + ".pdf", "n" + strings.Repeat("ä", 125) + ".pdf", strings.Repeat("板", 83) + ".pdf"} {
		goal := filepath.Join(dir, name)
		err := k.File(goal, func(w io.Writer) error {
			w.Write(make([]byte, 1<<17)) // more than is kept back
			for _, n := range strings.Fields(list(t, dir)) {
				if len(n) > 255 || !utf8.ValidString(n) {
					t.Errorf("work in progress is named %q", n)
				}
			}
			return nil
		})
		if err != nil {
			t.Error(err)
		}
	}
}

// A writer that fails, before the first byte or after many, changes nothing.
func TestFileFails(t *testing.T) {
	goal := filepath.Join(t.TempDir(), "out.pdf")
	var k Keeper
	broken := errors.New("broken")
	for _, old := range []string{"", "old"} {
		if old != "" {
			os.WriteFile(goal, []byte(old), 0o666)
		}
		for _, n := range []int{0, 10, 1 << 20} {
			err := k.File(goal, func(w io.Writer) error {
				w.Write(bytes.Repeat([]byte("x"), n))
				return broken
			})
			if !errors.Is(err, broken) {
				t.Errorf("error %v", err)
			}
			if old != "" && read(t, goal) != old {
				t.Error("the old file is gone")
			}
			if l := list(t, filepath.Dir(goal)); l != "" && l != "out.pdf" || old == "" && l != "" {
				t.Errorf("left: %s", l)
			}
		}
	}
}

func TestFileGoals(t *testing.T) {
	dir := t.TempDir()
	os.WriteFile(filepath.Join(dir, "plain"), nil, 0o666)
	os.WriteFile(filepath.Join(dir, "locked.pdf"), []byte("old"), 0o444)
	os.Mkdir(filepath.Join(dir, "folder.pdf"), 0o777)
	var k Keeper
	for _, c := range []struct {
		goal, want string
		fault      bool
	}{
		{"none/out.pdf", `there is no folder`, true},
		{"plain/out.pdf", `a file stands where a folder is meant`, true},
		{"folder.pdf", `is a folder`, true},
		{"locked.pdf", `is write-protected`, false},
	} {
		err := k.File(filepath.Join(dir, c.goal), text("x"))
		var f *unit.Fault
		if err == nil || !strings.Contains(err.Error(), c.want) || errors.As(err, &f) != c.fault {
			t.Errorf("%s: %v (%T)", c.goal, err, err)
		}
	}
	if l := list(t, dir); l != "folder.pdf locked.pdf plain" {
		t.Errorf("left: %s", l)
	}
}

func TestFileThroughLink(t *testing.T) {
	dir := t.TempDir()
	os.WriteFile(filepath.Join(dir, "real.pdf"), []byte("old"), 0o666)
	if err := os.Symlink("real.pdf", filepath.Join(dir, "link.pdf")); err != nil {
		t.Fatal(err)
	}
	var k Keeper
	if err := k.File(filepath.Join(dir, "link.pdf"), text("new")); err != nil {
		t.Fatal(err)
	}
	if info, _ := os.Lstat(filepath.Join(dir, "link.pdf")); info.Mode()&fs.ModeSymlink == 0 || read(t, filepath.Join(dir, "real.pdf")) != "new" {
		t.Error("the link was not written through")
	}
	if err := os.Remove(filepath.Join(dir, "real.pdf")); err != nil {
		t.Fatal(err)
	}
	if err := k.File(filepath.Join(dir, "link.pdf"), text("first")); err != nil || read(t, filepath.Join(dir, "real.pdf")) != "first" {
		t.Errorf("a link to what is not there yet was not written through: %v", err)
	}
}

// What a killed run left is taken away by the next to the same goal; what a
// living run is at, and what belongs to other goals, stays.
func TestSweep(t *testing.T) {
	dir := t.TempDir()
	goal := filepath.Join(dir, "out.pdf")
	other := mark + "0123456789ab-other.pdf"
	for _, n := range []string{mark + "0123456789ab-out.pdf", other, mark + "notes-out.pdf"} {
		os.WriteFile(filepath.Join(dir, n), []byte("x"), 0o666)
	}
	os.MkdirAll(filepath.Join(dir, mark+"aaaaaaaaaaaa-out.pdf", "page"), 0o777)
	var k, l Keeper
	err := k.File(goal, func(w io.Writer) error {
		w.Write(make([]byte, 1<<17)) // this run's work is open now
		return l.File(goal, text("inner"))
	})
	if err != nil {
		t.Fatal(err)
	}
	if got := list(t, dir); got != other+" "+mark+"notes-out.pdf out.pdf" {
		t.Errorf("left: %s", got)
	}
	if len(read(t, goal)) != 1<<17 {
		t.Error("the run that ended last did not win")
	}
}

func TestStop(t *testing.T) {
	dir := t.TempDir()
	var k Keeper
	err := k.File(filepath.Join(dir, "out.pdf"), func(w io.Writer) error {
		w.Write(make([]byte, 1<<17))
		k.Stop()
		return nil
	})
	if err == nil || list(t, dir) != "" {
		t.Errorf("error %v, left %s", err, list(t, dir))
	}
	if err := k.File(filepath.Join(dir, "out.pdf"), text("x")); err == nil || list(t, dir) != "" {
		t.Errorf("after the stop: error %v, left %s", err, list(t, dir))
	}
}

func pages(names ...string) func(func(string, func(io.Writer) error) error) error {
	return func(add func(string, func(io.Writer) error) error) error {
		for _, n := range names {
			if err := add(n, text("<svg>"+n+"</svg>")); err != nil {
				return err
			}
		}
		return nil
	}
}

func TestFolderReplaces(t *testing.T) {
	dir := t.TempDir()
	goal := filepath.Join(dir, "plates")
	var k Keeper
	for _, names := range [][]string{{"A1.svg", "A2.svg"}, {"A1.svg"}, {"B1.svg"}} {
		if err := k.Folder(goal+"/", pages(names...)); err != nil {
			t.Fatal(err)
		}
		if got := list(t, goal); got != strings.Join(names, " ") {
			t.Errorf("holds %s", got)
		}
		if list(t, dir) != "plates" {
			t.Errorf("left: %s", list(t, dir))
		}
	}
	if s := read(t, filepath.Join(goal, "B1.svg")); !strings.HasPrefix(s, "<svg>B1.svg</svg>\n<!-- ") {
		t.Errorf("page: %q", s)
	}
}

func TestFolderRefuses(t *testing.T) {
	for _, c := range []struct {
		name string
		make func(goal string)
		want string
	}{
		{"a photo", func(g string) { os.Mkdir(g, 0o777); os.WriteFile(g+"/photo.jpg", []byte("x"), 0o666) }, `holds "photo.jpg"`},
		{"a changed page", func(g string) {
			var k Keeper
			k.Folder(g, pages("A1.svg", "A2.svg"))
			b, _ := os.ReadFile(g + "/A2.svg")
			os.WriteFile(g+"/A2.svg", bytes.Replace(b, []byte("A2"), []byte("ZZ"), 1), 0o666)
		}, `holds "A2.svg"`},
		{"a page with more below", func(g string) {
			var k Keeper
			k.Folder(g, pages("A1.svg"))
			b, _ := os.ReadFile(g + "/A1.svg")
			os.WriteFile(g+"/A1.svg", append(b, "<!-- mine -->"...), 0o666)
		}, `holds "A1.svg"`},
		{"a folder within", func(g string) { os.MkdirAll(g+"/more", 0o777) }, `holds "more"`},
		{"a file", func(g string) { os.WriteFile(g, nil, 0o666) }, `is a file`},
	} {
		goal := filepath.Join(t.TempDir(), "plates")
		c.make(goal)
		before := fmt.Sprint(os.ReadDir(goal))
		var k Keeper
		err := k.Folder(goal, pages("A1.svg"))
		var f *unit.Fault
		if !errors.As(err, &f) || !strings.Contains(f.Error(), c.want) {
			t.Errorf("%s: %v", c.name, err)
		}
		if after := fmt.Sprint(os.ReadDir(goal)); after != before {
			t.Errorf("%s: %s became %s", c.name, before, after)
		}
		if l := list(t, filepath.Dir(goal)); l != "plates" {
			t.Errorf("%s: left %s", c.name, l)
		}
	}
}

func TestFolderFails(t *testing.T) {
	dir := t.TempDir()
	goal := filepath.Join(dir, "plates")
	var k Keeper
	if err := k.Folder(goal, pages("A1.svg")); err != nil {
		t.Fatal(err)
	}
	broken := errors.New("broken")
	err := k.Folder(goal, func(add func(string, func(io.Writer) error) error) error {
		if err := add("B1.svg", text("<svg/>")); err != nil {
			return err
		}
		return add("B2.svg", func(io.Writer) error { return broken })
	})
	if !errors.Is(err, broken) || list(t, goal) != "A1.svg" || list(t, dir) != "plates" {
		t.Errorf("error %v; holds %s; left %s", err, list(t, goal), list(t, dir))
	}
}

// Runs to the same goal at the same time: each ends well, and what one of them
// wrote stands there whole.
func TestAtOnce(t *testing.T) {
	dir := t.TempDir()
	file, folder := filepath.Join(dir, "out.pdf"), filepath.Join(dir, "plates")
	var wait sync.WaitGroup
	for i := range 8 {
		wait.Go(func() {
			var k Keeper
			for range 25 {
				if err := k.File(file, text(strings.Repeat(fmt.Sprint(i), 1000))); err != nil {
					t.Error(err)
				}
				if err := k.Folder(folder, pages(fmt.Sprintf("A%d.svg", i), "index.svg")); err != nil {
					t.Error(err)
				}
			}
		})
	}
	wait.Wait()
	if s := read(t, file); len(s) != 1000 || strings.Trim(s, s[:1]) != "" {
		t.Errorf("the file is a mixture: %.60q", s)
	}
	if names := strings.Fields(list(t, folder)); len(names) != 2 {
		t.Errorf("the folder is a mixture: %q", names)
	}
	if got := list(t, dir); got != "out.pdf plates" {
		t.Errorf("left: %s", got)
	}
}
