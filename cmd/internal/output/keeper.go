// Package output writes files and folders entirely or not at all: what is there
// stays as it is until what takes its place is complete and on the disk, and a
// run that fails, is stopped or is killed leaves it untouched.
//
// Work in progress lies beside its goal, under a name that begins with
// ".trammel-". A killed run leaves that behind; the next run to the same goal
// takes it away, and after a day the next to any goal beside it.
//
// Files, from the top floor to the ground: folder.go, keeper.go, sweep.go,
// swap_linux.go, swap_other.go, hold_flock.go, hold_other.go.
package output

import (
	"bufio"
	"crypto/rand"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"unicode/utf8"

	"trammel/geom/unit"
)

// mark begins the name of work in progress.
const mark = ".trammel-"

// Keeper writes files and knows what is in progress.
type Keeper struct {
	mu      sync.Mutex
	doing   map[string]bool // paths of work in progress
	stopped bool
}

// Stop takes away what is in progress and lets nothing be finished any more. It
// is for the moment before the process ends; what it interrupts fails.
func (k *Keeper) Stop() {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.stopped = true
	for path := range k.doing {
		os.RemoveAll(path)
	}
}

var errStopped = errors.New("stopped")

// begin notes work in progress, made by the given function.
func (k *Keeper) begin(path string, make func() error) error {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.stopped {
		return errStopped
	}
	if err := make(); err != nil {
		return err
	}
	if k.doing == nil {
		k.doing = map[string]bool{}
	}
	k.doing[path] = true
	return nil
}

// finish puts work in its place by the given function; Stop waits for that or
// comes before it.
func (k *Keeper) finish(path string, place func() error) error {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.stopped {
		return errStopped
	}
	err := place()
	if err == nil {
		delete(k.doing, path)
	}
	return err
}

// drop takes work away that failed.
func (k *Keeper) drop(path string) {
	k.mu.Lock()
	defer k.mu.Unlock()
	os.RemoveAll(path)
	delete(k.doing, path)
}

// File writes a file. It is opened when the first byte is ready, under another
// name beside the goal; it takes the goal's place once it is complete, and its
// permissions. A *unit.Fault says that the goal cannot be a file; other errors are the
// machine's.
func (k *Keeper) File(goal string, write func(io.Writer) error) error {
	return named(goal, k.file(goal, write))
}

// named puts the goal's name in place of that of the work in progress, which
// means nothing to whoever reads the message.
func named(goal string, err error) error {
	var path *fs.PathError
	var link *os.LinkError
	switch {
	case errors.As(err, &path) && strings.Contains(path.Path, mark):
		return &fs.PathError{Op: path.Op, Path: goal, Err: path.Err}
	case errors.As(err, &link):
		return &fs.PathError{Op: link.Op, Path: goal, Err: link.Err}
	}
	return err
}

func (k *Keeper) file(goal string, write func(io.Writer) error) error {
	goal = follow(goal)
	if err := CheckFile(goal); err != nil {
		return err
	}
	f := &file{keeper: k, goal: goal}
	b := bufio.NewWriterSize(f, 1<<16)
	err := write(b)
	if err == nil {
		err = b.Flush()
	}
	if err == nil && f.os == nil {
		err = f.open()
	}
	if f.os == nil {
		return err
	}
	if err == nil {
		err = f.os.Sync()
	}
	if renamesOpen {
		defer f.os.Close() // all of it is on the disk since Sync
	} else if e := f.os.Close(); err == nil {
		err = e
	}
	if err == nil {
		err = k.finish(f.path, func() error { return os.Rename(f.path, goal) })
	}
	if err != nil {
		k.drop(f.path)
		return err
	}
	syncFolder(filepath.Dir(goal))
	return nil
}

// follow is what a goal stands for: a link stays a link, and what it points to is
// written, there or not yet.
func follow(goal string) string {
	if info, err := os.Lstat(goal); err != nil || info.Mode()&fs.ModeSymlink == 0 {
		return goal
	}
	if real, err := filepath.EvalSymlinks(goal); err == nil {
		return real
	}
	for range 40 { // as many as Linux follows
		to, err := os.Readlink(goal)
		if err != nil {
			break
		}
		if !filepath.IsAbs(to) {
			to = filepath.Join(filepath.Dir(goal), to)
		}
		goal = to
	}
	return goal
}

// CheckFile says early whether a goal can be a file: its folder is there, and
// nothing else than a file stands in its place.
func CheckFile(goal string) error {
	info, err := os.Stat(goal)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return checkParent(goal)
	case err != nil:
		return notFolder(goal, err)
	case info.IsDir():
		return &unit.Fault{Where: goal, What: "is a folder", Hint: "name a file in it: " + filepath.Join(goal, "template.pdf")}
	case !info.Mode().IsRegular():
		return &unit.Fault{Where: goal, What: "is not an ordinary file", Hint: "name another file"}
	case info.Mode().Perm()&0o222 == 0:
		return &fs.PathError{Op: "write", Path: goal, Err: errors.New("is write-protected")}
	}
	return nil
}

func checkParent(goal string) error {
	parent := filepath.Dir(goal)
	info, err := os.Stat(parent)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return &unit.Fault{Where: goal, What: fmt.Sprintf("there is no folder %q", parent), Hint: "make the folder first, or name another"}
	case err != nil:
		return notFolder(goal, err)
	case !info.IsDir():
		return &unit.Fault{Where: goal, What: fmt.Sprintf("%q is not a folder", parent), Hint: "name a folder that is there"}
	}
	return nil
}

// notFolder tells a file that is used as a folder, which is a wrong word, from
// what the machine refuses.
func notFolder(goal string, err error) error {
	if strings.Contains(err.Error(), "not a directory") {
		return &unit.Fault{Where: goal, What: "a file stands where a folder is meant", Hint: "name a folder that is there"}
	}
	return err
}

// file opens itself when the first byte comes. It is a Writer and nothing more:
// whatever else an os.File can do would pass the opening by.
type file struct {
	keeper     *Keeper
	os         *os.File
	goal, path string
}

func (f *file) Write(p []byte) (int, error) {
	if f.os == nil {
		if err := f.open(); err != nil {
			return 0, err
		}
	}
	return f.os.Write(p)
}

func (f *file) open() error {
	sweep(f.goal)
	return f.keeper.temporary(f.goal, func(path string) error {
		g, err := os.OpenFile(path, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o666)
		if err != nil {
			return err
		}
		if !hold(g) || !same(g, path) {
			g.Close()
			return fs.ErrExist // swept away in the same moment: another name
		}
		if old, err := os.Stat(f.goal); err == nil {
			// What was kept from other eyes stays so. A file system without permissions
			// refuses, and has none to keep.
			_ = g.Chmod(old.Mode().Perm())
		}
		f.os, f.path = g, path
		return nil
	})
}

// temporary makes something under a name of its own beside the goal.
func (k *Keeper) temporary(goal string, make func(path string) error) error {
	for try := 0; ; try++ {
		var r [6]byte
		rand.Read(r[:])
		path := filepath.Join(filepath.Dir(goal), mark+hex.EncodeToString(r[:])+tail(goal))
		err := k.begin(path, func() error { return make(path) })
		if try < 10 && errors.Is(err, fs.ErrExist) {
			continue
		}
		return err
	}
}

// tail is what the name of work in progress ends with: its goal's name, or as
// much of it as leaves the whole within the 255 bytes of a name, no letter cut in
// two: some file systems take none but whole ones.
func tail(goal string) string {
	base := filepath.Base(goal)
	n := min(len(base), 200)
	for n < len(base) && n > 0 && !utf8.RuneStart(base[n]) {
		n--
	}
	return "-" + base[:n]
}

// same says whether the open file is still the one under that name.
func same(f *os.File, path string) bool {
	a, errA := f.Stat()
	b, errB := os.Stat(path)
	return errA == nil && errB == nil && os.SameFile(a, b)
}

// syncFolder brings a folder's entries to the disk. A failure is passed over: the
// file itself is there, whole.
func syncFolder(path string) {
	if d, err := os.Open(path); err == nil {
		d.Sync()
		d.Close()
	}
}

// Same says whether two names lead to one file, or would once it is written: through
// links, and whatever the way to its folder. Names that differ in capital letters
// alone count as one, as many disks and sticks do not tell them apart.
func Same(a, b string) bool {
	if SameFile(a, b) {
		return true
	}
	a, b = follow(a), follow(b)
	if !strings.EqualFold(filepath.Base(a), filepath.Base(b)) {
		return false
	}
	a, b = filepath.Dir(a), filepath.Dir(b)
	x, errX := os.Stat(a)
	y, errY := os.Stat(b)
	if errX == nil && errY == nil {
		return os.SameFile(x, y)
	}
	a, errX = filepath.Abs(a)
	b, errY = filepath.Abs(b)
	return errX == nil && errY == nil && strings.EqualFold(a, b)
}

// SameFile says whether two names are of one file that is there, through links as well.
func SameFile(a, b string) bool {
	x, errX := os.Stat(a)
	y, errY := os.Stat(b)
	return errX == nil && errY == nil && os.SameFile(x, y)
}
