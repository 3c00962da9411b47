//go:build !(linux || darwin || freebsd || netbsd || openbsd || dragonfly)

package output

import (
	"os"
	"time"
)

// renamesOpen: an open file keeps its name where there are no such locks.
const renamesOpen = false

func hold(*os.File) bool { return true }

// left says whether the work is so old that no run can be at it any more.
func left(f *os.File) bool {
	info, err := f.Stat()
	return err == nil && time.Since(info.ModTime()) > time.Hour
}
