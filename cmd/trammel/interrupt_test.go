//go:build unix

package main

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"
)

func start(t *testing.T, dir string, args ...string) *exec.Cmd {
	t.Helper()
	cmd := exec.Command("trammel", args...)
	cmd.Dir = dir
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	return cmd
}

// A run that is stopped takes its unfinished work away itself.
func TestInterrupted(t *testing.T) {
	t.Parallel()
	for _, signal := range []os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP, syscall.SIGQUIT} {
		dir := t.TempDir()
		if err := os.WriteFile(filepath.Join(dir, "out.pdf"), []byte("old"), 0o666); err != nil {
			t.Fatal(err)
		}
		cmd := start(t, dir, append(thousand, "-o", "out.pdf")...)
		// As soon as it writes.
		for wait := time.Now(); len(list(t, dir)) < 2; time.Sleep(time.Millisecond) {
			if time.Since(wait) > 20*time.Second {
				t.Fatal("it never began to write")
			}
		}
		cmd.Process.Signal(signal)
		var exit *exec.ExitError
		if err := cmd.Wait(); !errors.As(err, &exit) || exit.ExitCode() != interrupted {
			t.Errorf("%v: ended with %v, want status %d", signal, err, interrupted)
		}
		if data, err := os.ReadFile(filepath.Join(dir, "out.pdf")); err != nil || string(data) != "old" {
			t.Errorf("%v: the old file is now %.20q, %v", signal, data, err)
		}
		if left := list(t, dir); !slices.Equal(left, []string{"out.pdf"}) {
			t.Errorf("%v: left %q", signal, left)
		}
	}
}

// list is the names in a folder, hidden ones as well.
func list(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range entries {
		names = append(names, strings.TrimSpace(e.Name()))
	}
	return names
}
