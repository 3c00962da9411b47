// Package serve brings the page to the browser on the same computer, and answers what it
// asks. It opens no file: the page is within the program, and a job comes with each ask.
//
// What is let in: requests to its own address alone (a name that was made to point here is
// turned away, RFC 9110 section 15.5.20), from its own page alone (Origin and Sec-Fetch-Site,
// as http.CrossOriginProtection holds them), as bytes that no form can send, two at once.
//
// Files, from the top floor to the ground: serve.go, guard.go.
package serve

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"io/fs"
	"mime"
	"net"
	"net/http"
	"path"
	"slices"
	"strings"
	"time"

	"trammel/cmd/internal/page"
	"trammel/cmd/internal/page/web"
)

// Limits of the server.
const (
	atOnce      = 2                                 // asks that are answered at once
	most        = page.MostLine + page.MostFile + 1 // bytes of an ask
	readIn      = 30 * time.Second                  // an ask must have come
	headerIn    = 5 * time.Second                   //
	writtenIn   = 10 * time.Minute                  // a reply must have gone: the longest search takes less
	idleFor     = 2 * time.Minute                   //
	waitAtMost  = time.Minute                       // for a place among those answered at once
	headerBytes = 1 << 14                           //
)

// Server is the page and what answers it, ready to be run.
type Server struct {
	listener net.Listener
	http     *http.Server
}

// Listen takes a port of the loopback, 0 for a free one. The error is that of net.Listen.
func Listen(port int) (*Server, error) {
	l, err := net.Listen("tcp4", fmt.Sprintf("127.0.0.1:%d", port))
	if err != nil {
		return nil, err
	}
	return &Server{l, &http.Server{
		Handler: Handler(l.Addr().(*net.TCPAddr).Port), ReadTimeout: readIn, ReadHeaderTimeout: headerIn, WriteTimeout: writtenIn, IdleTimeout: idleFor, MaxHeaderBytes: headerBytes,
	}}, nil
}

// Address of the page, for a browser.
func (s *Server) Address() string { return "http://" + s.listener.Addr().String() + "/" }

// Run serves until the context ends; what is being answered then is given up. It returns
// nil where it was ended so.
func (s *Server) Run(ctx context.Context) error {
	s.http.BaseContext = func(net.Listener) context.Context { return ctx }
	ended := make(chan error, 1)
	go func() { ended <- s.http.Serve(s.listener) }()
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
	}
	soon, stop := context.WithTimeout(context.WithoutCancel(ctx), 2*time.Second)
	defer stop()
	if s.http.Shutdown(soon) != nil {
		return s.http.Close()
	}
	return nil
}

// Handler is the page on a port of the loopback.
func Handler(port int) http.Handler {
	mux := http.NewServeMux()
	places := make(chan struct{}, atOnce)
	mux.HandleFunc("POST /answer", func(w http.ResponseWriter, r *http.Request) { answer(w, r, places) })
	mux.HandleFunc("GET /", file)
	return guarded(mux, port)
}

// answer reads an ask and writes the reply. Who goes away is worked for no longer.
func answer(w http.ResponseWriter, r *http.Request, places chan struct{}) {
	if kind, _, err := mime.ParseMediaType(r.Header.Get("Content-Type")); err != nil || kind != "application/octet-stream" {
		refuse(w, http.StatusUnsupportedMediaType, "an ask is application/octet-stream")
		return
	}
	ask, err := io.ReadAll(http.MaxBytesReader(w, r.Body, most))
	if err != nil {
		refuse(w, http.StatusRequestEntityTooLarge, "The file is larger than 64 megabytes.")
		return
	}
	wait := time.NewTimer(waitAtMost)
	defer wait.Stop()
	select {
	case places <- struct{}{}:
		defer func() { <-places }()
	case <-r.Context().Done():
		return
	case <-wait.C:
		w.Header().Set("Retry-After", "5")
		refuse(w, http.StatusServiceUnavailable, "Two others are being answered: try again in a moment.")
		return
	}
	reply := page.AnswerUntil(r.Context(), ask)
	w.Header().Set("Content-Type", "application/octet-stream")
	w.Header().Set("Content-Length", fmt.Sprint(len(reply)))
	_, _ = w.Write(reply) // who went away needs no reply
}

// file gives one of the files of the page, and no other.
func file(w http.ResponseWriter, r *http.Request) {
	name := strings.TrimPrefix(r.URL.Path, "/")
	if name == "" {
		name = "index.html"
	}
	data, err := fs.ReadFile(web.Files, name)
	kind := types[path.Ext(name)]
	if err != nil || kind == "" || slices.Contains(notHere, name) {
		refuse(w, http.StatusNotFound, "There is no such file.")
		return
	}
	w.Header().Set("Content-Type", kind)
	http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(data))
}

// notHere are files for a web host alone: where the program itself answers, nothing is kept.
var notHere = []string{"sw.js", "worker.js"}

// types of the files that a page is made of; any other is not given.
var types = map[string]string{
	".html": "text/html; charset=utf-8", ".css": "text/css; charset=utf-8", ".js": "text/javascript; charset=utf-8", ".svg": "image/svg+xml", ".webmanifest": "application/manifest+json", ".png": "image/png",
}
