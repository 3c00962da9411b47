//go:build unix

package main

import (
	"bufio"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"
)

// The page is served until it is stopped from outside, and that is no failure.
func TestBrowserCommand(t *testing.T) {
	t.Parallel()
	cmd := exec.Command("trammel", "browser", "--no-open")
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	defer cmd.Process.Kill()
	line, err := bufio.NewReader(out).ReadString('\n')
	address, found := strings.CutPrefix(line, "The page is at ")
	if err != nil || !found {
		t.Fatalf("%q, %v", line, err)
	}
	address, _, _ = strings.Cut(address, " ")
	r, err := http.Get(address)
	if err != nil {
		t.Fatal(err)
	}
	page, _ := io.ReadAll(r.Body)
	r.Body.Close()
	if r.StatusCode != 200 || !strings.Contains(string(page), "<title>trammel</title>") {
		t.Errorf("%d, %.100s", r.StatusCode, page)
	}
	if err := cmd.Process.Signal(os.Interrupt); err != nil {
		t.Fatal(err)
	}
	ended := make(chan error)
	go func() { ended <- cmd.Wait() }()
	select {
	case err := <-ended:
		if err != nil {
			t.Errorf("ended with %v", err)
		}
	case <-time.After(5 * time.Second):
		t.Error("it does not end")
	}
}

// Which port is taken is said, and what to do.
func TestPortTaken(t *testing.T) {
	t.Parallel()
	l, err := net.Listen("tcp4", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	_, port, _ := net.SplitHostPort(l.Addr().String())
	for flag, want := range map[string]string{
		port:    "trammel: --port " + port + ": is taken by another program\n  leave --port out: a free one is found\n",
		"99999": "trammel: --port: 99999 is not from 1 to 65535\n  leave --port out: a free one is found\n",
	} {
		var errs strings.Builder
		if status := run([]string{"browser", "--no-open", "--port", flag}, strings.NewReader(""), io.Discard, &errs); status != statusWords || errs.String() != want {
			t.Errorf("status %d, %q", status, errs.String())
		}
	}
}
