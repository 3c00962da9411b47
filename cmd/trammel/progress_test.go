package main

import (
	"bytes"
	"strings"
	"testing"
)

// The line says what is being done, has no colours, is never at its end before the
// work is, and goes before other words are written; after that it stays away.
func TestBar(t *testing.T) {
	t.Parallel()
	var screen bytes.Buffer
	b := &bar{to: &screen}
	b.tell("drawing", 3, 3)
	b.draw()
	line := screen.String()
	if !strings.Contains(line, "drawing") || strings.Contains(line, "100%") || strings.ContainsRune(line, '\x1b') || strings.Contains(line, "\n") {
		t.Errorf("the line is %q", line)
	}
	words := clearing{&screen, b}
	if _, err := words.Write([]byte("done\n")); err != nil {
		t.Fatal(err)
	}
	if after := screen.String()[len(line):]; strings.Trim(after, "\r ") != "done\n" || !strings.HasSuffix(after, "\rdone\n") {
		t.Errorf("after the line comes %q", after)
	}
	all := screen.Len()
	b.tell("writing pages", 1, 2)
	b.draw()
	b.clear()
	if screen.Len() != all {
		t.Errorf("the line comes again: %q", screen.String()[all:])
	}
}

// Where nobody looks there is no line: a file, a pipe, a buffer, a terminal that can
// draw none.
func TestNoBarWhereNobodyLooks(t *testing.T) {
	t.Parallel()
	if terminal(&bytes.Buffer{}) {
		t.Error("a buffer is taken for a terminal")
	}
	var none *bar
	if none.progress() != nil {
		t.Error("work is told to nobody")
	}
	none.clear()
}
