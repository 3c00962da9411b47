package output

import (
	"errors"
	"os"
	"path/filepath"
	"testing"
)

func TestSame(t *testing.T) {
	dir, err := filepath.EvalSymlinks(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(dir)
	err = errors.Join(os.MkdirAll("site/plans", 0o777), os.Symlink("site", "link"), os.Symlink("site/new.csv", "dangling.csv"),
		os.Symlink(filepath.Join(dir, "dangling.csv"), "twice.csv"), os.WriteFile("there.csv", nil, 0o666), os.Symlink("there.csv", "alias.csv"))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		a, b string
		same bool
	}{
		{"x.csv", "x.csv", true}, {"x.csv", "./x.csv", true}, {"x.csv", dir + "/x.csv", true}, {"x.csv", "site/../x.csv", true},
		{"site/x.csv", "link/x.csv", true}, {"site/x.csv", "link/plans/../x.csv", true}, {dir + "/link/x.csv", "site/x.csv", true},
		{"site/new.csv", "dangling.csv", true}, {"link/new.csv", "twice.csv", true}, {"dangling.csv", "twice.csv", true},
		{"there.csv", "alias.csv", true}, {"x.csv", "X.CSV", true}, {"site/x.csv", "link/X.csv", true}, {"there.csv", "There.csv", true},
		{"none/x.csv", dir + "/none/X.csv", true},
		{"x.csv", "y.csv", false}, {"x.csv", "site/x.csv", false}, {"there.csv", "site/there.csv", false}, {"none/x.csv", "nil/x.csv", false}, {"alias.csv", "dangling.csv", false},
	} {
		if Same(c.a, c.b) != c.same || Same(c.b, c.a) != c.same {
			t.Errorf("%s and %s: %v, want %v", c.a, c.b, !c.same, c.same)
		}
	}
}
