package output

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"time"
)

// stale is when work in progress is nobody's any more, whatever its goal: no run
// takes a day.
const stale = 24 * time.Hour

// sweep takes away what killed runs have left beside a goal and no living run holds:
// of runs to the same goal at once, of others after a day. Nothing counts as left
// but what bears such a name as temporary gives.
func sweep(goal string) {
	entries, err := os.ReadDir(filepath.Dir(goal))
	if err != nil {
		return
	}
	for _, e := range entries {
		of, ok := inProgress(e)
		path := filepath.Join(filepath.Dir(goal), e.Name())
		if !ok || of != tail(goal) && !forgotten(path, of, e) {
			continue
		}
		f, err := os.Open(path)
		if err != nil {
			continue
		}
		if left(f) {
			os.RemoveAll(path)
		}
		f.Close()
	}
}

// inProgress says whether an entry is work in progress by its name and kind, and
// what its name ends with: the tail of its goal.
func inProgress(e fs.DirEntry) (tail string, ok bool) {
	m := working.FindStringSubmatch(e.Name())
	if m == nil || !e.Type().IsRegular() && !e.IsDir() {
		return "", false
	}
	return m[1], true
}

var working = regexp.MustCompile(`(?s)^` + regexp.QuoteMeta(mark) + `[0-9a-f]{12}(-.+)$`)

// forgotten says whether work of another goal has lain for a day, and of a folder
// every page in it. What place has moved aside may be the only copy of its pages.
func forgotten(path, tail string, e fs.DirEntry) bool {
	old := func(e fs.DirEntry) bool {
		info, err := e.Info()
		return err == nil && time.Since(info.ModTime()) > stale
	}
	if !old(e) || e.IsDir() && strings.HasSuffix(tail, aside) {
		return false
	}
	if !e.IsDir() {
		return true
	}
	pages, err := os.ReadDir(path)
	for _, p := range pages {
		if !p.Type().IsRegular() || !old(p) {
			return false
		}
	}
	return err == nil
}
