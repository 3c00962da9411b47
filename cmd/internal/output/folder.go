package output

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"trammel/geom/unit"
)

// Folder writes a folder of XML files: fill names each file and writes it. The
// folder takes the goal's place at once. One that is there already is replaced
// only where it is empty or holds nothing but files as this function wrote
// them: each ends with a comment that seals what is above it. A *unit.Fault says
// that the goal cannot be such a folder.
func (k *Keeper) Folder(goal string, fill func(add func(name string, write func(io.Writer) error) error) error) error {
	goal = filepath.Clean(goal)
	return named(goal, k.folder(goal, fill))
}

func (k *Keeper) folder(goal string, fill func(add func(name string, write func(io.Writer) error) error) error) error {
	if err := CheckFolder(goal); err != nil {
		return err
	}
	sweep(goal)
	var temp string
	var held *os.File
	err := fill(func(name string, write func(io.Writer) error) (err error) {
		if held == nil {
			if temp, held, err = k.folderBeside(goal); err != nil {
				return err
			}
		}
		return writeSealed(filepath.Join(temp, name), write)
	})
	if held == nil {
		return err
	}
	defer held.Close()
	if err == nil {
		err = syncAll(held, temp)
	}
	if err == nil {
		err = k.finish(temp, func() error { return place(temp, goal) })
	}
	if err != nil {
		k.drop(temp)
		return err
	}
	syncFolder(filepath.Dir(goal))
	return nil
}

// folderBeside is a new folder beside the goal, held.
func (k *Keeper) folderBeside(goal string) (temp string, held *os.File, err error) {
	err = k.temporary(goal, func(path string) error {
		if err := os.Mkdir(path, 0o777); err != nil {
			return err
		}
		d, err := os.Open(path)
		switch {
		case errors.Is(err, fs.ErrNotExist):
			return fs.ErrExist // swept away in the same moment: another name
		case err != nil:
			return err
		case !hold(d) || !same(d, path):
			d.Close()
			return fs.ErrExist
		}
		temp, held = path, d
		return nil
	})
	return temp, held, err
}

// place puts the new folder where the goal is, and takes the old one away.
func place(temp, goal string) error {
	// What was checked at the start may have changed while the pages were made.
	if err := CheckFolder(goal); err != nil {
		return err
	}
	if _, err := os.Lstat(goal); errors.Is(err, fs.ErrNotExist) {
		err := os.Rename(temp, goal)
		if !errors.Is(err, fs.ErrExist) {
			return err
		}
		// Another run has just put its folder there.
	}
	if old, err := os.Stat(goal); err == nil {
		// As with a file: what was kept from other eyes, or open to a group, stays so.
		_ = os.Chmod(temp, old.Mode()&(fs.ModePerm|fs.ModeSetuid|fs.ModeSetgid|fs.ModeSticky))
	}
	if err := exchange(temp, goal); err == nil {
		os.RemoveAll(temp)
		return nil
	}
	old := temp + aside
	if err := os.Rename(goal, old); err != nil {
		return err
	}
	if err := os.Rename(temp, goal); err != nil {
		return errors.Join(err, os.Rename(old, goal))
	}
	os.RemoveAll(old)
	return nil
}

// aside ends the name of a folder that makes room where two cannot be exchanged.
const aside = "-old"

// CheckFolder says early whether a goal can be a folder of pages.
func CheckFolder(goal string) error {
	goal = filepath.Clean(goal)
	info, err := os.Stat(goal)
	switch base := filepath.Base(goal); {
	case base == "." || base == ".." || base == string(filepath.Separator):
		return &unit.Fault{Where: goal, What: "is no name of a folder that can be replaced", Hint: "name one in it: " + filepath.Join(goal, "plates") + "/"}
	case errors.Is(err, fs.ErrNotExist):
		return checkParent(goal)
	case err != nil:
		return notFolder(goal, err)
	case !info.IsDir():
		return &unit.Fault{Where: goal, What: "is a file, and a folder of pages is to be written", Hint: "name a folder"}
	case info.Mode().Perm()&0o222 == 0:
		return &fs.PathError{Op: "write", Path: goal, Err: errors.New("is write-protected")}
	}
	if link, err := os.Lstat(goal); err == nil && link.Mode()&fs.ModeSymlink != 0 {
		return &unit.Fault{Where: goal, What: "is a link, and a folder of pages is to be written", Hint: "name the folder itself"}
	}
	entries, err := os.ReadDir(goal)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return CheckFolder(goal) // another run has put its own there meanwhile
	case err != nil:
		return err
	}
	for _, e := range entries {
		if !e.Type().IsRegular() || !sealed(filepath.Join(goal, e.Name())) {
			return &unit.Fault{
				Where: goal, What: fmt.Sprintf("the folder holds %q, which is not as trammel wrote it", e.Name()),
				Hint: "name a new folder, or empty that one",
			}
		}
	}
	return nil
}

const sealBegin = "<!-- whole as trammel wrote it: sha256 "

func writeSealed(path string, write func(io.Writer) error) error {
	var b bytes.Buffer
	if err := write(&b); err != nil {
		return err
	}
	if !bytes.HasSuffix(b.Bytes(), []byte("\n")) {
		b.WriteByte('\n')
	}
	b.WriteString(seal(b.Bytes()))
	f, err := os.OpenFile(path, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o666)
	if err != nil {
		return err
	}
	_, err = f.Write(b.Bytes())
	return cmp.Or(err, f.Close())
}

func seal(data []byte) string {
	sum := sha256.Sum256(data)
	return sealBegin + hex.EncodeToString(sum[:]) + " -->\n"
}

// sealed says whether a file is as writeSealed left it.
func sealed(path string) bool {
	data, err := os.ReadFile(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return true // gone since: another run has put its folder there
	case err != nil:
		return false
	}
	at := bytes.LastIndex(data, []byte(sealBegin))
	if at < 0 {
		return false
	}
	return string(data[at:]) == seal(data[:at])
}
