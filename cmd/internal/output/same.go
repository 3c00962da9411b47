package output

import (
	"os"
	"path/filepath"
	"strings"
)

// Same says whether two names lead to one file, or would once it is written: through
// links, and whatever the way to its folder. Names that differ in capital letters
// alone count as one, as many disks and sticks do not tell them apart.
func Same(a, b string) bool {
	x, errX := os.Stat(a)
	y, errY := os.Stat(b)
	if errX == nil && errY == nil && os.SameFile(x, y) {
		return true
	}
	a, b = follow(a), follow(b)
	return strings.EqualFold(filepath.Base(a), filepath.Base(b)) && sameFolder(filepath.Dir(a), filepath.Dir(b))
}

func sameFolder(a, b string) bool {
	x, errX := os.Stat(a)
	y, errY := os.Stat(b)
	if errX == nil && errY == nil {
		return os.SameFile(x, y)
	}
	a, errX = filepath.Abs(a)
	b, errY = filepath.Abs(b)
	return errX == nil && errY == nil && strings.EqualFold(a, b)
}
