//go:build unix && !race

package main

import (
	"bytes"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"
)

// The race detector makes a run fifty times as long and has nothing to find here.

// A run that is killed at a random moment while it writes hundreds of pages leaves
// the earlier file as it was, each time; the next run takes away what they left.
func TestKilled(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	goal := filepath.Join(dir, "out.pdf")
	begin := time.Now()
	if status, _, errs := trammel(t, dir, "", append(killed, "-o", "out.pdf")...); status != 0 {
		t.Fatal(errs)
	}
	whole := time.Since(begin)
	complete, err := os.ReadFile(goal)
	if err != nil {
		t.Fatal(err)
	}
	earlier := []byte("the earlier file")
	random := rand.New(rand.NewPCG(2, 3))
	tried, finished, caught := 0, 0, 0
	for ; tried < kills || caught == 0 && tried < 5*kills; tried++ { // on a busy machine the first run is a poor clock
		if err := os.WriteFile(goal, earlier, 0o666); err != nil {
			t.Fatal(err)
		}
		cmd := start(t, dir, append(killed, "-o", "out.pdf")...)
		time.Sleep(time.Duration(random.Float64() * float64(whole)))
		cmd.Process.Kill()
		stopped := cmd.Wait() != nil
		if left := list(t, dir); len(left) > 1 {
			caught++ // it was writing
		}
		switch got, err := os.ReadFile(goal); {
		case err != nil:
			t.Fatal(err)
		case bytes.Equal(got, complete):
			finished++
		case !bytes.Equal(got, earlier) || !stopped:
			t.Fatalf("a killed run left a file of %d bytes", len(got))
		}
	}
	t.Logf("%v a run; of %d, %d were done before the kill, %d were writing", whole, tried, finished, caught)
	if caught == 0 {
		t.Error("no run was killed while it wrote: the test proves nothing")
	}
	if status, _, errs := trammel(t, dir, "", append(killed, "-o", "out.pdf")...); status != 0 {
		t.Fatal(errs)
	}
	if left := list(t, dir); !slices.Equal(left, []string{"out.pdf"}) {
		t.Errorf("the last run left %q", left)
	}
}

// The same of a folder: at every moment it is the old one or the new one, whole.
func TestKilledFolder(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	plates := filepath.Join(dir, "plates")
	small, large := []string{"template", "AB=300", "BC=250", "CA=250", "-o", "plates"}, []string{"template", "AB=" + folderSide, "BC=" + folderSide, "CA=" + folderSide, "-o", "plates"}
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
	for range folderKills {
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
