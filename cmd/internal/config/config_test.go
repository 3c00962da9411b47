package config

import (
	"os"
	"path/filepath"
	"testing"

	"trammel/profiles"
)

// clean takes away what the environment of the tester says, and gives a folder for
// settings of one's own.
func clean(t *testing.T) (own string) {
	t.Helper()
	home := t.TempDir()
	t.Setenv("XDG_CONFIG_HOME", home)
	for _, k := range keys {
		t.Setenv(variable(k), "")
	}
	return filepath.Join(home, "trammel", "config.yaml")
}

func write(t *testing.T, path, text string) string {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	return path
}

// Each lies over those before, and says where it was written.
func TestLayers(t *testing.T) {
	own := clean(t)
	is := func(file, name, from, at string) {
		t.Helper()
		set, err := Profiles(file, os.ReadFile)
		if err != nil {
			t.Fatal(err)
		}
		n, f := set.Default("paper")
		if n != name || f != from || set.DefaultAt("paper") != at {
			t.Errorf("the paper is %q from %s at %s, not %q from %s at %s", n, f, set.DefaultAt("paper"), name, from, at)
		}
	}
	is("", "A4", profiles.BuiltIn, profiles.BuiltIn+": defaults.paper")
	write(t, own, "defaults: {paper: A5}\n")
	is("", "A5", own+":1", own+":1:19: defaults.paper")
	named := write(t, filepath.Join(t.TempDir(), "named.yaml"), "defaults:\n  paper: A2\n")
	t.Setenv("TRAMMEL_CONFIG", named)
	is("", "A2", named+":2", named+":2:10: defaults.paper")
	flag := write(t, filepath.Join(t.TempDir(), "flag.yaml"), "defaults:\n  paper: A1\n")
	is(flag, "A1", flag+":2", flag+":2:10: defaults.paper")
	t.Setenv("TRAMMEL_PAPER", "10 mm") // no number is made of it, and no paper is tried here
	is(flag, "10 mm", "TRAMMEL_PAPER", "TRAMMEL_PAPER")
	t.Setenv("TRAMMEL_PAPER", "")
	is(flag, "A1", flag+":2", flag+":2:10: defaults.paper")
}

// A file that is not there is passed over where nobody named it, and named otherwise.
func TestFilesThatAreNotThere(t *testing.T) {
	clean(t)
	if _, err := Profiles("", os.ReadFile); err != nil {
		t.Error(err)
	}
	gone := filepath.Join(t.TempDir(), "gone.yaml")
	if _, err := Profiles(gone, os.ReadFile); err == nil {
		t.Error("a file that is not there was passed over")
	}
	t.Setenv("TRAMMEL_CONFIG", gone)
	if _, err := Profiles("", os.ReadFile); err == nil {
		t.Error("a file that TRAMMEL_CONFIG names was passed over")
	}
}

// A relative path is none (XDG base directory specification, "all paths set in these
// environment variables must be absolute").
func TestFile(t *testing.T) {
	t.Setenv("HOME", "/home/pupil")
	t.Setenv("XDG_CONFIG_HOME", "settings")
	if got := File(); got != "/home/pupil/.config/trammel/config.yaml" {
		t.Error(got)
	}
	t.Setenv("XDG_CONFIG_HOME", "/settings")
	if got := File(); got != "/settings/trammel/config.yaml" {
		t.Error(got)
	}
}
