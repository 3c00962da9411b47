package serve

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"
)

const (
	small = `{"version":1,"do":"solve","job":{"pieces":[{"measure":["AB=600","BC=450","CA=450"]}]}}` + "\n"
	large = `{"version":1,"do":"make","what":"template","as":"pdf","job":{"pieces":[{"measure":["AB=40m","BC=30m","CA=25m"]}]}}` + "\n"
)

const port = 4711

// request as the page sends it, and how it is changed.
func request(change func(*http.Request)) *http.Request {
	r := httptest.NewRequest("POST", fmt.Sprintf("http://127.0.0.1:%d/answer", port), strings.NewReader(small))
	r.Header.Set("Content-Type", "application/octet-stream")
	r.Header.Set("Origin", fmt.Sprintf("http://127.0.0.1:%d", port))
	r.Header.Set("Sec-Fetch-Site", "same-origin")
	if change != nil {
		change(r)
	}
	return r
}

func TestWhoIsLetIn(t *testing.T) {
	h := Handler(port)
	get := func(path string) func(*http.Request) {
		return func(r *http.Request) { r.Method, r.URL.Path, r.Body = "GET", path, http.NoBody }
	}
	for name, c := range map[string]struct {
		change func(*http.Request)
		status int
	}{
		"the page itself":         {nil, 200},
		"by the other name":       {func(r *http.Request) { r.Host = "localhost:4711"; r.Header.Set("Origin", "http://localhost:4711") }, 200},
		"a name that points here": {func(r *http.Request) { r.Host = "evil.example:4711" }, 421},
		"another port":            {func(r *http.Request) { r.Host = "127.0.0.1:4712" }, 421},
		"no port":                 {func(r *http.Request) { r.Host = "127.0.0.1" }, 421},
		"no host":                 {func(r *http.Request) { r.Host = "" }, 421},
		"the LAN's address":       {func(r *http.Request) { r.Host = "192.168.1.7:4711" }, 421},
		"IPv6":                    {func(r *http.Request) { r.Host = "[::1]:4711" }, 421},
		"a foreign page": {func(r *http.Request) {
			r.Header.Set("Origin", "https://evil.example")
			r.Header.Set("Sec-Fetch-Site", "cross-site")
		}, 403},
		"a foreign page, old browser": {func(r *http.Request) { r.Header.Set("Origin", "https://evil.example"); r.Header.Del("Sec-Fetch-Site") }, 403},
		"another program's page": {func(r *http.Request) {
			r.Header.Set("Origin", "http://127.0.0.1:9999")
			r.Header.Set("Sec-Fetch-Site", "same-site")
		}, 403},
		"a page without an origin": {func(r *http.Request) { r.Header.Set("Origin", "null"); r.Header.Del("Sec-Fetch-Site") }, 403},
		"a form":                   {func(r *http.Request) { r.Header.Set("Content-Type", "text/plain") }, 415},
		"another form":             {func(r *http.Request) { r.Header.Set("Content-Type", "application/x-www-form-urlencoded") }, 415},
		"no type":                  {func(r *http.Request) { r.Header.Del("Content-Type") }, 415},
		"a preflight":              {func(r *http.Request) { r.Method = "OPTIONS" }, 405},
		"to put":                   {func(r *http.Request) { r.Method = "PUT" }, 405},
		"to ask by GET":            {get("/answer"), 404},
		"the page":                 {get("/"), 200},
		"its script":               {get("/carrier.js"), 200},
		"the program's source":     {get("/web.go"), 404},
		"files for hosts":          {get("/sw.js"), 404},
		"a folder":                 {get("/icons/"), 404},
		"up and away":              {get("/../../etc/passwd"), 307},
		"up, written otherwise":    {get("/..%2f..%2fetc/passwd"), 404},
		"a disk":                   {get("/C:/Windows/win.ini"), 404},
	} {
		w := httptest.NewRecorder()
		h.ServeHTTP(w, request(c.change))
		if w.Code != c.status && !(c.status == 307 && w.Code == 301) {
			t.Errorf("%s: %d, want %d: %s", name, w.Code, c.status, w.Body)
		}
		if w.Header().Get("Access-Control-Allow-Origin") != "" {
			t.Errorf("%s: others are let in", name)
		}
		for header := range headers {
			if w.Header().Get(header) == "" {
				t.Errorf("%s: without %s", name, header)
			}
		}
		if strings.Contains(w.Body.String(), "root:") {
			t.Errorf("%s: %s", name, w.Body)
		}
	}
}

// What a page may load is its own, its workers' too: nothing inline, no frame round it.
func TestPolicy(t *testing.T) {
	w := httptest.NewRecorder()
	Handler(port).ServeHTTP(w, request(func(r *http.Request) { r.Method, r.URL.Path = "GET", "/" }))
	csp := w.Header().Get("Content-Security-Policy")
	for _, want := range []string{"default-src 'none'", "script-src 'self'", "frame-ancestors 'none'", "form-action 'none'", "base-uri 'none'", "connect-src 'self'"} {
		if !strings.Contains(csp, want) {
			t.Errorf("%s is missing in %s", want, csp)
		}
	}
	for _, not := range []string{"unsafe-inline", "'unsafe-eval'", "http:", "https:", "*"} {
		if strings.Contains(csp, not) {
			t.Errorf("%s stands in %s", not, csp)
		}
	}
	if kind := w.Header().Get("Content-Type"); kind != "text/html; charset=utf-8" || !strings.Contains(w.Body.String(), "<!doctype html>") {
		t.Errorf("%s, %.60s", kind, w.Body)
	}
}

func TestTooLarge(t *testing.T) {
	w := httptest.NewRecorder()
	Handler(port).ServeHTTP(w, request(func(r *http.Request) { r.Body = io.NopCloser(io.LimitReader(zeros{}, most+1)) }))
	if w.Code != http.StatusRequestEntityTooLarge {
		t.Errorf("%d, %s", w.Code, w.Body)
	}
	w = httptest.NewRecorder()
	Handler(port).ServeHTTP(w, request(func(r *http.Request) { r.Body = io.NopCloser(bytes.NewReader(make([]byte, 2<<20))) }))
	if w.Code != 200 || !strings.Contains(w.Body.String(), `"fault"`) {
		t.Errorf("%d, %.200s", w.Code, w.Body)
	}
}

type zeros struct{}

func (zeros) Read(p []byte) (int, error) { clear(p); return len(p), nil }

// Two are answered at once. Who waits and goes away leaves no trace; one that runs stops
// when nobody waits for it, and its place is free again.
func TestTwoAtOnce(t *testing.T) {
	places := make(chan struct{}, atOnce)
	for range atOnce {
		places <- struct{}{}
	}
	ctx, gone := context.WithCancel(t.Context())
	waiting := make(chan int)
	go func() {
		w := httptest.NewRecorder()
		answer(w, request(nil).WithContext(ctx), places)
		waiting <- w.Body.Len()
	}()
	select {
	case <-waiting:
		t.Fatal("a third one was answered")
	case <-time.After(50 * time.Millisecond):
	}
	gone()
	if n := <-waiting; n != 0 {
		t.Errorf("%d bytes for nobody", n)
	}
	<-places
	w := httptest.NewRecorder()
	answer(w, request(nil), places)
	if w.Code != 200 || len(places) != atOnce-1 {
		t.Errorf("%d, %d places taken", w.Code, len(places))
	}

	ctx, gone = context.WithCancel(t.Context())
	stopped := make(chan string)
	go func() {
		w := httptest.NewRecorder()
		answer(w, request(func(r *http.Request) { r.Body = io.NopCloser(strings.NewReader(large)) }).WithContext(ctx), places)
		stopped <- w.Body.String()
	}()
	time.Sleep(50 * time.Millisecond)
	gone()
	if got := <-stopped; !strings.Contains(got, `"stopped"`) {
		t.Errorf("%.200s", got)
	}
	if len(places) != atOnce-1 {
		t.Errorf("%d places taken", len(places))
	}
}

// The loopback alone is listened on, and the end of the context ends it with nothing wrong.
func TestRun(t *testing.T) {
	s, err := Listen(0)
	if err != nil {
		t.Fatal(err)
	}
	if host, _, _ := net.SplitHostPort(s.listener.Addr().String()); host != "127.0.0.1" {
		t.Errorf("listens on %s", host)
	}
	if _, err := Listen(s.listener.Addr().(*net.TCPAddr).Port); err == nil {
		t.Error("a port was taken twice")
	}
	if s.http.ReadTimeout == 0 || s.http.ReadHeaderTimeout == 0 || s.http.WriteTimeout == 0 || s.http.IdleTimeout == 0 || s.http.MaxHeaderBytes == 0 {
		t.Errorf("%+v", s.http)
	}
	ctx, stop := context.WithCancel(t.Context())
	ended := make(chan error)
	go func() { ended <- s.Run(ctx) }()
	r, err := http.Get(s.Address())
	if err != nil {
		t.Fatal(err)
	}
	body, _ := io.ReadAll(r.Body)
	r.Body.Close()
	if r.StatusCode != 200 || len(body) == 0 {
		t.Errorf("%d, %d bytes", r.StatusCode, len(body))
	}
	stop()
	select {
	case err := <-ended:
		if err != nil {
			t.Error(err)
		}
	case <-time.After(5 * time.Second):
		t.Error("it does not end")
	}
}
