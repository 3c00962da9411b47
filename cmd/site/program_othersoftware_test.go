//go:build othersoftware

package main

import (
	"bytes"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"trammel/cmd/internal/page"
)

// What a browser loads first stays small.
func TestProgramIsSmall(t *testing.T) {
	const most = 4_900_000
	dir, err := folder()
	if err != nil {
		t.Fatal(err)
	}
	info, err := os.Stat(filepath.Join(dir, packed))
	if err != nil {
		t.Fatal(err)
	}
	if info.Size() > most {
		t.Errorf("the program is %d bytes packed, more than %d", info.Size(), most)
	}
	t.Logf("%.2f MB", float64(info.Size())/1e6)
}

// The program for browsers answers as the one for this system does: the same words and the
// same files, and figures to nine digits, since sums of many terms run in another order there.
func TestSameAnswers(t *testing.T) {
	dir, err := folder()
	if err != nil {
		t.Fatal(err)
	}
	const asks = "../internal/page/testdata/asks"
	answers := filepath.Join(t.TempDir(), "answers")
	if said, err := exec.Command("node", "testdata/answers.cjs", dir, asks, answers).CombinedOutput(); err != nil {
		t.Fatalf("%v: %.1000s", err, said)
	}
	out, err := os.ReadFile(answers)
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(string(out)), "\n")
	if len(lines) < 20 || lines[len(lines)-1] != "words true" {
		t.Fatalf("%d lines, the last %.60q", len(lines), lines[len(lines)-1])
	}
	for _, line := range lines[:len(lines)-1] {
		name, text, _ := strings.Cut(line, " ")
		got, err := base64.StdEncoding.DecodeString(text)
		if err != nil {
			t.Fatal(err)
		}
		ask, err := os.ReadFile(filepath.Join(asks, name))
		if err != nil {
			t.Fatal(err)
		}
		first, file, _ := bytes.Cut(got, []byte("\n"))
		line, same, _ := bytes.Cut(page.Answer(ask), []byte("\n"))
		var a, b any
		if json.Unmarshal(first, &a) != nil || json.Unmarshal(line, &b) != nil {
			t.Fatalf("%s: %.200s and %.200s", name, first, line)
		}
		if where := apart(a, b); where != "" {
			t.Errorf("%s: %s", name, where)
		}
		if !bytes.Equal(file, same) {
			t.Errorf("%s: another file, %d and %d bytes", name, len(file), len(same))
		}
	}
}

// apart says where two replies differ; empty where they do not.
func apart(a, b any) string {
	switch x := a.(type) {
	case map[string]any:
		y, _ := b.(map[string]any)
		if len(x) != len(y) {
			return fmt.Sprintf("%d keys and %d", len(x), len(y))
		}
		for k := range x {
			if where := apart(x[k], y[k]); where != "" {
				return "/" + k + where
			}
		}
		return ""
	case []any:
		y, _ := b.([]any)
		if len(x) != len(y) {
			return fmt.Sprintf(": %d values and %d", len(x), len(y))
		}
		for i := range x {
			if where := apart(x[i], y[i]); where != "" {
				return fmt.Sprintf("/%d%s", i, where)
			}
		}
		return ""
	case float64:
		y, ok := b.(float64)
		if ok && math.Abs(x-y) <= 1e-9*max(1, math.Abs(x)) {
			return ""
		}
	default:
		if a == b {
			return ""
		}
	}
	return fmt.Sprintf(": %.200v and %.200v", a, b)
}
