package main

import (
	"bytes"
	"errors"
	"strings"
	"testing"
)

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no space left on device") }

// What cannot be said on standard output is a failure of the machine, help included.
func TestFullOutput(t *testing.T) {
	t.Setenv("XDG_CONFIG_HOME", t.TempDir()) // nobody's own profiles
	for _, args := range []string{"--help", "help template", "template --help", "version", "profiles", "profiles --json", "solve AB=60 BC=50 CA=40", "completion bash"} {
		var errs bytes.Buffer
		if status := run(strings.Fields(args), strings.NewReader(""), full{}, &errs); status != statusMachine || errs.String() != "trammel: no space left on device\n" {
			t.Errorf("%s: status %d, %q", args, status, errs.String())
		}
	}
}
