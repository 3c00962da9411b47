//go:build !linux

package output

import (
	"errors"
	"os"
	"path/filepath"
)

func exchange(_, _ string) error { return errors.ErrUnsupported }

// syncAll brings the folder's files to the disk.
func syncAll(_ *os.File, path string) error {
	entries, err := os.ReadDir(path)
	if err != nil {
		return err
	}
	for _, e := range entries {
		f, err := os.OpenFile(filepath.Join(path, e.Name()), os.O_RDWR, 0)
		if err != nil {
			return err
		}
		err = errors.Join(f.Sync(), f.Close())
		if err != nil {
			return err
		}
	}
	return nil
}
