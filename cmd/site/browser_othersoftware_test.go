//go:build othersoftware

package main

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
)

// The page is tried in Debian's chromium, from the folder as a web host sends it.

// folder is made once for all tests.
var folder = sync.OnceValues(func() (string, error) {
	dir, err := os.MkdirTemp("", "trammel-page-")
	if err != nil {
		return "", err
	}
	dir = filepath.Join(dir, "site")
	return dir, write(dir)
})

func TestMain(m *testing.M) {
	status := m.Run()
	if dir, err := folder(); err == nil {
		os.RemoveAll(filepath.Dir(dir))
	}
	os.Exit(status)
}

// host sends the folder and lets nobody keep it: what a page has without a network it has
// from its service worker.
func host(t *testing.T) *httptest.Server {
	t.Helper()
	dir, err := folder()
	if err != nil {
		t.Fatal(err)
	}
	files := http.FileServer(http.Dir(dir))
	s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Cache-Control", "no-store")
		files.ServeHTTP(w, r)
	}))
	t.Cleanup(s.Close)
	return s
}

// browser is a chromium with nothing kept, and a page of a size in it. What the page writes
// to its console as wrong fails the test.
func browser(t *testing.T, width, height int64) context.Context {
	t.Helper()
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath("chromium"), chromedp.NoSandbox, chromedp.UserDataDir(t.TempDir()))
	ctx, end := chromedp.NewExecAllocator(t.Context(), options...)
	t.Cleanup(end)
	ctx, leave := chromedp.NewContext(ctx)
	t.Cleanup(leave)
	ctx, late := context.WithTimeout(ctx, 4*time.Minute)
	t.Cleanup(late)
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, height)); err != nil { // and so it has begun
		t.Fatal(err)
	}
	console := chromedp.Console(ctx)
	go func() {
		for m, err := range console {
			if err != nil {
				return
			}
			if m.Type == chromedp.ConsoleError || m.Type == chromedp.ConsoleException {
				t.Errorf("the page's console: %s (%s:%d)", m.Text, m.URL, m.Line)
			}
		}
	}()
	return ctx
}

// do does steps on the page.
func do(t *testing.T, ctx context.Context, steps ...chromedp.Action[chromedp.Void]) {
	t.Helper()
	if err := chromedp.Do(ctx, steps...); err != nil {
		t.Fatal(err)
	}
}

// value is what a script of the page comes to.
func value[T any](t *testing.T, ctx context.Context, script string) T {
	t.Helper()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](script, chromedp.EvalAwaitPromise))
	if err != nil {
		t.Fatalf("%v in %.200s", err, script)
	}
	return v
}

// opened is the page, ready to be asked.
func opened(t *testing.T, ctx context.Context, address string) {
	t.Helper()
	do(t, ctx, chromedp.Navigate(address))
	ready(t, ctx)
}

func ready(t *testing.T, ctx context.Context) {
	t.Helper()
	until(t, ctx, `document.documentElement.dataset.ready === "yes"`)
}

// until waits for something to be true on the page.
func until(t *testing.T, ctx context.Context, what string) {
	t.Helper()
	for began := time.Now(); !value[bool](t, ctx, "Boolean("+what+")"); time.Sleep(20 * time.Millisecond) {
		if time.Since(began) > 30*time.Second {
			t.Fatalf("never so: %s; the page says %q", what, value[string](t, ctx, `document.body.innerText.slice(0, 600)`))
		}
	}
}

// asking is a script that asks the program as the page does: the sum of the file that comes
// back, or what is wrong.
func asking(ask string) string {
	return `(async () => {
		const { ask } = await import("./carrier.js");
		const r = await ask(` + ask + `);
		if (r.fault) return "fault: " + r.fault.what;
		const sum = await crypto.subtle.digest("SHA-256", r.bytes);
		return Array.from(new Uint8Array(sum), (b) => b.toString(16).padStart(2, "0")).join("");
	})()`
}

const gusset = `{"paper":"A4","pieces":[{"name":"Gusset","measure":["AB=600","BC=450","CA=450"]}]}`

func making(what, as, job string) string {
	return `{version: 1, do: "make", what: "` + what + `", as: "` + as + `", job: ` + job + `}`
}

// Without a network, and with the server closed so that nothing can cheat, the page opens
// again and makes the same PDF.
func TestOffline(t *testing.T) {
	s := host(t)
	ctx := browser(t, 360, 640)
	opened(t, ctx, s.URL)
	first := value[string](t, ctx, asking(making("template", "pdf", gusset)))
	if len(first) != 64 {
		t.Fatal(first)
	}
	if !value[bool](t, ctx, `import("./carrier.js").then((c) => c.offline)`) {
		t.Fatal("nothing is kept for later")
	}
	offline := true
	if _, err := chromedp.Call(ctx, network.OverrideNetworkState, network.OverrideNetworkStateParams{Offline: true}); err != nil {
		t.Fatal(err)
	}
	if _, err := chromedp.Call(ctx, network.EmulateNetworkConditionsByRule, network.EmulateNetworkConditionsByRuleParams{
		EmulateOfflineServiceWorker: &offline, MatchedNetworkConditions: []*network.Conditions{{Offline: true}},
	}); err != nil {
		t.Fatal(err)
	}
	s.Close()
	do(t, ctx, chromedp.Reload())
	ready(t, ctx)
	if value[bool](t, ctx, "navigator.onLine") {
		t.Error("the network is not cut")
	}
	if again := value[string](t, ctx, asking(making("template", "pdf", gusset))); again != first {
		t.Errorf("%s with a network, %s without", first, again)
	}
}

// The page makes what the command line makes of the job that it saves, to the byte.
func TestSameAsTheCommandLine(t *testing.T) {
	trammel := filepath.Join(t.TempDir(), "trammel")
	if out, err := exec.Command("go", "build", "-o", trammel, "trammel/cmd/trammel").CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	ctx := browser(t, 360, 640)
	opened(t, ctx, host(t).URL)
	n := 0
	for name, job := range jobs(t, ctx) {
		for _, c := range [][2]string{{"template", "pdf"}, {"setout", "pdf"}, {"setout", "csv"}, {"whole", "svg"}} {
			want, err := commandLine(t, trammel, c[0], c[1], job)
			if errors.Is(err, fs.ErrNotExist) { // a folder of several: on the page it is packed into one
				continue
			}
			got := value[string](t, ctx, asking(making(c[0], c[1], job)))
			if err != nil {
				if !strings.HasPrefix(got, "fault: ") {
					t.Errorf("%s as %s: the command line says %v, the page makes it", name, c[0], err)
				}
				continue
			}
			if n++; got != want {
				t.Errorf("%s as %s %s: %s on the page, %s at the command line", name, c[0], c[1], got, want)
			}
		}
	}
	if got, want := calibrated(t, ctx, trammel); got != want {
		t.Errorf("for a calibrated printer: %s on the page, %s at the command line", got, want)
	}
	if n < 20 {
		t.Errorf("only %d documents were compared", n)
	}
	t.Logf("%d documents", n)
}

// calibrated is a template for a printer whose sheet was read on the page, and the same at
// the command line, which is given the file that the page keeps.
func calibrated(t *testing.T, ctx context.Context, trammel string) (got, want string) {
	job := `{"printer":"shed","paper":"A4","pieces":[{"measure":["AB=600","BC=450","CA=450"]}]}`
	kept := value[string](t, ctx, `import("./carrier.js").then((c) => c.ask({version: 1, do: "learn", calibrate: {printer: "shed", paper: "A4", date: "2031-04-30", rule: "II",
		found: "width=189.25,height=276.75,diagonal=335,diagonal=335.5"}})).then((r) => r.fault ? r.fault.what : r.printer.text)`)
	text, _ := json.Marshal(kept)
	got = value[string](t, ctx, asking(`{version: 1, do: "make", what: "template", as: "pdf", printers: {shed: `+string(text)+`}, job: `+job+`}`))
	want, err := commandLine(t, trammel, "template", "pdf", job, kept)
	if err != nil {
		t.Fatal(err)
	}
	return got, want
}

// jobs are the examples as the page opens them, and a few that it makes itself.
func jobs(t *testing.T, ctx context.Context) map[string]string {
	all := map[string]string{"gusset": gusset, "feet": `{"unit":"in","paper":"Letter","pieces":[{"measure":["AB=2ft 3 1/2in","BC=18in","CA=450mm"]}]}`,
		"edges": `{"paper":"A3","pieces":[{"measure":["AB=2m","BC=1500","CA=1200"]}],"made_with":{"pages":"outline","landscape":"yes"}}`}
	files, err := filepath.Glob("../../examples/*.yaml")
	if err != nil || len(files) < 8 {
		t.Fatalf("%d examples, %v", len(files), err)
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		literal, _ := json.Marshal(string(text))
		name, _ := json.Marshal(filepath.Base(file))
		all[filepath.Base(file)] = value[string](t, ctx, fmt.Sprintf(`import("./carrier.js").then((c) => c.ask({version: 1, do: "open", name: %s}, new TextEncoder().encode(%s))).then((r) => r.fault ? r.fault.what : JSON.stringify(r.job))`, name, literal))
	}
	return all
}

// commandLine is the sum of a document of a job as the page saves it.
func commandLine(t *testing.T, trammel, what, as, job string, printer ...string) (string, error) {
	t.Helper()
	dir := t.TempDir()
	for _, kept := range printer { // as trammel calibrate keeps it
		at := filepath.Join(dir, "trammel", "printers")
		if err := os.MkdirAll(at, 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(at, "shed.yaml"), []byte(kept), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	var saved bytes.Buffer // as JSON.stringify(job, null, 1) and a line feed
	if err := json.Indent(&saved, []byte(job), "", " "); err != nil {
		t.Fatalf("%v in %.200s", err, job)
	}
	saved.WriteByte('\n')
	if err := os.WriteFile(filepath.Join(dir, "job.json"), saved.Bytes(), 0o666); err != nil {
		t.Fatal(err)
	}
	args := []string{what, "job.json", "-o", "out." + as}
	if what == "whole" {
		args = []string{"template", "job.json", "--whole", "-o", "out." + as}
	}
	cmd := exec.Command(trammel, args...)
	cmd.Dir, cmd.Env = dir, append(os.Environ(), "XDG_CONFIG_HOME="+dir)
	if out, err := cmd.CombinedOutput(); err != nil {
		return "", fmt.Errorf("%w: %s", err, out)
	}
	data, err := os.ReadFile(filepath.Join(dir, "out."+as))
	if err != nil {
		return "", err
	}
	return fmt.Sprintf("%x", sha256.Sum256(data)), nil
}
