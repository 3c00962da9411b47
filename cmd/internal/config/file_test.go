package config

import (
	"path/filepath"
	"testing"
)

// One's own profiles lie where the system keeps such things.
func TestFileOnEachSystem(t *testing.T) {
	for _, c := range []struct {
		system string
		said   map[string]string
		want   string
	}{
		{"linux", map[string]string{"HOME": "/home/a"}, "/home/a/.config/trammel/config.yaml"},
		{"linux", map[string]string{"HOME": "/home/a", "XDG_CONFIG_HOME": "/x"}, "/x/trammel/config.yaml"},
		{"linux", map[string]string{"HOME": "/home/a", "XDG_CONFIG_HOME": "x"}, "/home/a/.config/trammel/config.yaml"},
		{"darwin", map[string]string{"HOME": "/Users/a"}, "/Users/a/.config/trammel/config.yaml"},
		{"linux", nil, ""},
		{"windows", map[string]string{"AppData": "/C/Users/a/AppData/Roaming", "USERPROFILE": "/C/Users/a"}, "/C/Users/a/AppData/Roaming/trammel/config.yaml"},
		{"windows", map[string]string{"USERPROFILE": "/C/Users/a", "HOME": "/cygdrive/a"}, "/C/Users/a/.config/trammel/config.yaml"},
		{"windows", nil, ""},
	} {
		if got := fileOn(c.system, func(name string) string { return c.said[name] }); filepath.ToSlash(got) != c.want {
			t.Errorf("%s with %v: %q, want %q", c.system, c.said, got, c.want)
		}
	}
}
