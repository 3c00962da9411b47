package main

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// wrong is one way to go wrong, and all that is said of it.
type wrong struct {
	args       []string
	job, stdin string // job.yaml and standard input
	status     int
	line, hint string
}

// place is a folder with what the cases need: a folder that holds a photo, a
// folder named like a file, a plain file, and two files that try the YAML reader.
func place(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	for _, d := range []string{"full", "there.pdf"} {
		if err := os.Mkdir(filepath.Join(dir, d), 0o777); err != nil {
			t.Fatal(err)
		}
	}
	for name, data := range map[string]string{
		"full/photo.jpg": "x", "plain": "x", "job.txt": "pieces:\n  - measure: [AB=6m, BC=5m, CA=4m]\n", "own.txt": "",
		"big.yaml": strings.Repeat("[", 3_000_000), "deep.yaml": strings.Repeat("[", 900_000),
	} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(data), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// trammel runs the program in a folder.
func trammel(t *testing.T, dir, stdin string, args ...string) (status int, stdout, stderr string) {
	t.Helper()
	cmd := exec.Command("trammel", args...)
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "HOME="+dir, "XDG_CONFIG_HOME=")
	cmd.Stdin = strings.NewReader(stdin)
	var out, errs bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &errs
	err := cmd.Run()
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		t.Fatal(err)
	}
	return cmd.ProcessState.ExitCode(), out.String(), errs.String()
}

// everything below a folder, hidden names as well.
func everything(t *testing.T, dir string) []string {
	t.Helper()
	var all []string
	err := filepath.WalkDir(dir, func(path string, _ os.DirEntry, err error) error {
		all = append(all, path)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// Bad input is one line that says where and what, a hint where there is one, the
// right status, nothing on standard output and nothing left on the disk.
func TestWrong(t *testing.T) {
	t.Parallel()
	if n := len(wrongMeasurements) + len(wrongSettings) + len(wrongJobs); n < 60 {
		t.Errorf("only %d cases", n)
	}
	for name, cases := range map[string][]wrong{"measurements": wrongMeasurements, "settings": wrongSettings, "jobs": wrongJobs, "shapes": wrongShapes, "floors": wrongFloors, "files": wrongFiles} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			dir := place(t)
			for _, c := range cases {
				c.check(t, dir)
			}
		})
	}
}

func (c wrong) check(t *testing.T, dir string) {
	job := filepath.Join(dir, "job.yaml")
	os.Remove(job)
	if slices.Contains(c.args, "job.yaml") {
		if err := os.WriteFile(job, []byte(c.job), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	before := everything(t, dir)
	status, stdout, stderr := trammel(t, dir, c.stdin, c.args...)
	want := "trammel: " + c.line + "\n"
	if c.hint != "" {
		want += "  " + c.hint + "\n"
	}
	if status != c.status || stderr != want || stdout != "" {
		t.Errorf("%.200q %.80q\n got %d %s\nwant %d %s\nstdout %q", c.args, c.job, status, stderr, c.status, want, stdout)
	}
	if after := everything(t, dir); !slices.Equal(before, after) {
		t.Errorf("%.200q: the folder held %q, then %q", c.args, before, after)
	}
}

// What the machine refuses is status 1, and the old file stays.
func TestMachineRefuses(t *testing.T) {
	t.Parallel()
	dir := place(t)
	old := filepath.Join(dir, "old.pdf")
	for _, c := range []struct{ name, shell, want string }{
		{"the disk is full", "ulimit -f 4; exec trammel template AB=8m BC=6m CA=5m -o old.pdf", "old.pdf: file too large"},
		{"the disk is full for a folder", "ulimit -f 4; exec trammel template AB=600 BC=450 CA=450 -o plates", "plates/"},
		{"write-protected", "chmod a-w old.pdf; trap 'chmod u+w old.pdf' EXIT; trammel template AB=60 BC=45 CA=45 -o old.pdf", "old.pdf: is write-protected"},
		{"too long a name", "exec trammel template AB=60 BC=45 CA=45 -o " + strings.Repeat("x", 300) + ".pdf", ".pdf: file name too long"},
	} {
		if err := os.WriteFile(old, []byte("old"), 0o666); err != nil {
			t.Fatal(err)
		}
		before := everything(t, dir)
		cmd := exec.Command("sh", "-c", c.shell)
		cmd.Dir = dir
		out, err := cmd.CombinedOutput()
		var exit *exec.ExitError
		if !errors.As(err, &exit) || exit.ExitCode() != statusMachine {
			t.Errorf("%s: %v, want status %d\n%s", c.name, err, statusMachine, out)
		}
		if s := string(out); !strings.HasPrefix(s, "trammel: ") || strings.Count(s, "\n") != 1 || !strings.Contains(s, c.want) && c.want != "plates/" {
			t.Errorf("%s: said %q", c.name, s)
		}
		if data, err := os.ReadFile(old); err != nil || string(data) != "old" {
			t.Errorf("%s: the old file is now %.20q, %v", c.name, data, err)
		}
		if after := everything(t, dir); !slices.Equal(before, after) {
			t.Errorf("%s: left %q", c.name, after)
		}
	}
}
