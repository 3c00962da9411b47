package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/pdfcpu/pdfcpu/pkg/api"

	"trammel/plot/draw"
	"trammel/plot/pdf"
)

// pdfWith is a PDF of ours that carries a file.
func pdfWith(t *testing.T, name, data string) []byte {
	t.Helper()
	page := func(yield func(draw.Page) bool) { yield(draw.Page{Width: 210, Height: 297}) }
	var b bytes.Buffer
	if err := pdf.Write(&b, draw.Document{Pages: page, Attachment: &draw.Attachment{Name: name, Data: []byte(data)}}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// A PDF as a job is checked as strictly as a job file: one line and the
// right status. (That it needs no more than 10 MB is tested where it is read.)
func TestWrongPDFs(t *testing.T) {
	t.Parallel()
	dir := place(t)
	good := pdfWith(t, "job.yaml", "pieces:\n  - measure: [AB=600, BC=450, CA=450]\n")
	var anew bytes.Buffer
	if err := api.Optimize(bytes.NewReader(good), &anew, nil); err != nil {
		t.Fatal(err)
	}
	const rewritten = "trammel's PDF, but another program has written it anew\n  name the PDF as trammel wrote it, or save the attached job from a PDF viewer and name that\n"
	const foreign = "is a PDF, but not one that trammel wrote\n  a job is a job file, or a PDF as trammel wrote it\n"
	for _, c := range []struct {
		name   string
		data   []byte
		size   int64 // of the file, where it is more than the data
		status int
		want   string
	}{
		{name: "token.pdf", data: pdfWith(t, "job.yaml", "job: Slip gate brace\npieces:\n  - name: Plate\n    measure:\n      - AB=600\n      - BC=450\n      - CA=12OO\n"),
			status: statusWords, want: "token.pdf (job.yaml:7:9): CA=12OO: \"12OO\" is not a length\n  write digits, not letters that look like them: 1200\n"},
		{name: "key.pdf", data: pdfWith(t, "job.yaml", "piece: 3\n"), status: statusWords, want: "key.pdf (job.yaml:1:1): unknown key \"piece\" in the job\n  did you mean \"pieces\"?\n"},
		{name: "short.pdf", data: pdfWith(t, "job.yaml", "pieces:\n  - name: Plate\n    measure: [AB=100, BC=200, CA=400]\n"),
			status: statusNoTriangle, want: "short.pdf (job.yaml:2:5): Plate: AB 100 and BC 200 together are 100 short of reaching across CA 400\n  one of the three is wrong: measure them again\n"},
		{name: "empty.pdf", data: pdfWith(t, "job.yaml", ""), status: statusWords, want: "empty.pdf (job.yaml:1:1): the file is empty\n"},
		{name: "bytes.pdf", data: pdfWith(t, "job.yaml", "\x00\x01"), status: statusWords, want: "bytes.pdf (job.yaml:1:1): holds the byte 0x00, so it is not text\n  save it as plain UTF-8 text\n"},
		{name: "name.pdf", data: pdfWith(t, "a\x1b[31m\n.yaml", "{"), status: statusWords, want: "name.pdf: the name of the job that it carries holds the character U+001B, which cannot be seen\n  make the PDF anew, of a job whose name holds none\n"},
		{name: "nested.pdf", data: pdfWith(t, "job.yaml", strings.Repeat("[", 900_000)), status: statusWords, want: "nested.pdf (job.yaml:1:41): lists within lists more than 40 deep\n"},
		{name: "large.pdf", data: pdfWith(t, "job.yaml", strings.Repeat("#", 1_000_001)), status: statusWords,
			want: "large.pdf: the job in it is larger than 1 MB\n  the largest job that trammel reads is 1 000 000 bytes\n"},
		{name: "bomb.pdf", data: pdfWith(t, "job.yaml", strings.Repeat("#", 10_000_000)), status: statusWords,
			want: "bomb.pdf: the job in it is larger than 1 MB\n  the largest job that trammel reads is 1 000 000 bytes\n"},
		{name: "lying.pdf", data: lying(t, 10_000_000), status: statusWords,
			want: "lying.pdf: the job in it is larger than 1 MB\n  the largest job that trammel reads is 1 000 000 bytes\n"},
		{name: "anew.pdf", data: anew.Bytes(), status: statusWords, want: "anew.pdf: " + rewritten},
		{name: "half.pdf", data: good[:len(good)-9], status: statusWords, want: "half.pdf: " + rewritten},
		{name: "none.pdf", data: []byte("%PDF-1.4\n"), status: statusWords, want: "none.pdf: " + foreign},
		{name: "huge.pdf", data: []byte("%PDF-1.7\n"), size: 600 << 20, status: statusWords,
			want: "huge.pdf: is larger than 512 MB\n  no PDF that trammel makes is: name the job file itself\n"},
		{name: "zeros.pdf", data: []byte("%PDF-1.7\n"), size: 500 << 20, status: statusWords, want: "zeros.pdf: " + foreign},
	} {
		path := filepath.Join(dir, c.name)
		if err := os.WriteFile(path, c.data, 0o666); err != nil {
			t.Fatal(err)
		}
		if c.size > 0 { // a hole, not bytes on the disk
			if err := os.Truncate(path, c.size); err != nil {
				t.Fatal(err)
			}
		}
		cmd := exec.Command("trammel", "template", c.name, "-o", "out.pdf")
		cmd.Dir = dir
		var out bytes.Buffer
		cmd.Stdout, cmd.Stderr = &out, &out
		cmd.Run()
		if got := cmd.ProcessState.ExitCode(); got != c.status || out.String() != "trammel: "+c.want {
			t.Errorf("%s: status %d, %q\nwant %d, %q", c.name, got, out.String(), c.status, "trammel: "+c.want)
		}
		if _, err := os.Stat(filepath.Join(dir, "out.pdf")); err == nil {
			t.Errorf("%s: a file was written", c.name)
		}
		os.Remove(path)
	}
}

// lying is a PDF of ours whose attachment inflates to more than it says: the
// place where its size stands is made to say less.
func lying(t *testing.T, n int) []byte {
	t.Helper()
	data := pdfWith(t, "job.yaml", strings.Repeat("#", n))
	says, less := []byte("/Size 10000000"), []byte("/Size 00000009")
	if !bytes.Contains(data, says) {
		t.Fatal("the file does not say its size")
	}
	return bytes.Replace(data, says, less, 1)
}
