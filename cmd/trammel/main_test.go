package main

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/rogpeppe/go-internal/testscript"
)

// near is the promise: every mark within 0.005 mm of where geometry has it.
const near = 0.005

// The test binary is trammel as well: run under that name it is the program.
func TestMain(m *testing.M) {
	api.DisableConfigDir()
	testscript.Main(m, map[string]func(){"trammel": main})
}

func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script",
		Setup: func(e *testscript.Env) error {
			e.Setenv("XDG_CONFIG_HOME", e.WorkDir+"/config")
			examples, err := filepath.Glob("../../examples/*.yaml")
			if err != nil {
				return err
			}
			if err := os.Mkdir(filepath.Join(e.WorkDir, "examples"), 0o777); err != nil {
				return err
			}
			for _, path := range examples {
				data, err := os.ReadFile(path)
				if err != nil {
					return err
				}
				if err := os.WriteFile(filepath.Join(e.WorkDir, "examples", filepath.Base(path)), data, 0o666); err != nil {
					return err
				}
			}
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"fails": fails,
			"pages": pages,
		},
	})
}

// fails STATUS COMMAND... runs a command that has to end with that status.
func fails(ts *testscript.TestScript, neg bool, args []string) {
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	err = ts.Exec(args[1], args[2:]...)
	var exit *exec.ExitError
	if !errors.As(err, &exit) || exit.ExitCode() != want {
		ts.Fatalf("ended with %v, want status %d", err, want)
	}
}

// pages FILE COUNT asks pdfcpu how many pages a PDF has, and whether it is valid.
func pages(ts *testscript.TestScript, neg bool, args []string) {
	path := ts.MkAbs(args[0])
	ts.Check(api.ValidateFile(path, nil))
	n, err := api.PageCountFile(path)
	ts.Check(err)
	if fmt.Sprint(n) != args[1] {
		ts.Fatalf("%s has %d pages, want %s", args[0], n, args[1])
	}
}
