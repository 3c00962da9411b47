//go:build unix

package main

import (
	"bytes"
	"errors"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"
)

// thousand makes a template of some thousand pages.
var thousand = []string{"template", "AB=14m", "BC=11m", "CA=9m"}

func start(t *testing.T, dir string, args ...string) *exec.Cmd {
	t.Helper()
	cmd := exec.Command("trammel", args...)
	cmd.Dir = dir
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	return cmd
}

// A run that is killed at a random moment while it writes a thousand pages leaves
// the earlier file as it was, 50 times; the next run takes away what they left.
func TestKilled(t *testing.T) {
	dir := t.TempDir()
	goal := filepath.Join(dir, "out.pdf")
	begin := time.Now()
	if status, _, errs := trammel(t, dir, "", append(thousand, "-o", "out.pdf")...); status != 0 {
		t.Fatal(errs)
	}
	whole := time.Since(begin)
	complete, err := os.ReadFile(goal)
	if err != nil {
		t.Fatal(err)
	}
	earlier := []byte("the earlier file")
	random := rand.New(rand.NewPCG(2, 3))
	finished, caught := 0, 0
	for range 50 {
		if err := os.WriteFile(goal, earlier, 0o666); err != nil {
			t.Fatal(err)
		}
		cmd := start(t, dir, append(thousand, "-o", "out.pdf")...)
		time.Sleep(time.Duration(random.Float64() * float64(whole)))
		cmd.Process.Kill()
		killed := cmd.Wait() != nil
		if left := list(t, dir); len(left) > 1 {
			caught++ // it was writing
		}
		switch got, err := os.ReadFile(goal); {
		case err != nil:
			t.Fatal(err)
		case bytes.Equal(got, complete):
			finished++
		case !bytes.Equal(got, earlier) || !killed:
			t.Fatalf("a killed run left a file of %d bytes", len(got))
		}
	}
	t.Logf("%v a run; of 50, %d were done before the kill, %d were writing", whole, finished, caught)
	if finished == 50 || caught == 0 {
		t.Error("no run was killed while it wrote: the test proves nothing")
	}
	if status, _, errs := trammel(t, dir, "", append(thousand, "-o", "out.pdf")...); status != 0 {
		t.Fatal(errs)
	}
	if left := list(t, dir); !slices.Equal(left, []string{"out.pdf"}) {
		t.Errorf("the last run left %q", left)
	}
}

// The same of a folder: at every moment it is the old one or the new one, whole.
func TestKilledFolder(t *testing.T) {
	dir := t.TempDir()
	plates := filepath.Join(dir, "plates")
	small, large := []string{"template", "AB=300", "BC=250", "CA=250", "-o", "plates"}, []string{"template", "AB=2m", "BC=2m", "CA=2m", "-o", "plates"}
	write := func(args []string) []string {
		if status, _, errs := trammel(t, dir, "", args...); status != 0 {
			t.Fatal(errs)
		}
		return list(t, plates)
	}
	begin := time.Now()
	after := write(large)
	whole := time.Since(begin)
	random := rand.New(rand.NewPCG(4, 5))
	for range 15 {
		before := write(small)
		cmd := start(t, dir, large...)
		time.Sleep(time.Duration(random.Float64() * float64(whole)))
		cmd.Process.Kill()
		cmd.Wait()
		if got := list(t, plates); !slices.Equal(got, before) && !slices.Equal(got, after) {
			t.Fatalf("a killed run left %q", got)
		}
	}
	write(small)
	if left := list(t, dir); !slices.Equal(left, []string{"plates"}) {
		t.Errorf("the last run left %q", left)
	}
}

// A run that is stopped takes its unfinished work away itself.
func TestInterrupted(t *testing.T) {
	for _, signal := range []os.Signal{os.Interrupt, syscall.SIGTERM} {
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
