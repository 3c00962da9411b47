package serve

import (
	"net/http"
	"slices"
	"strconv"
)

// policy lets the page load its own files alone, and nothing of it anywhere else.
const policy = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' blob: data:; connect-src 'self'; worker-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

// headers of every reply.
var headers = map[string]string{
	"Content-Security-Policy":      policy,
	"X-Content-Type-Options":       "nosniff",
	"Referrer-Policy":              "no-referrer",
	"Cross-Origin-Opener-Policy":   "same-origin",
	"Cross-Origin-Resource-Policy": "same-origin",
	"Permissions-Policy":           "camera=(), microphone=(), geolocation=(), screen-wake-lock=(self)",
	"Cache-Control":                "no-store",
}

// guarded turns away what does not come from the page itself.
func guarded(within http.Handler, port int) http.Handler {
	hosts := []string{"127.0.0.1:" + strconv.Itoa(port), "localhost:" + strconv.Itoa(port)}
	foreign := http.NewCrossOriginProtection()
	own := foreign.Handler(within)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		for name, value := range headers {
			w.Header().Set(name, value)
		}
		if !slices.Contains(hosts, r.Host) {
			refuse(w, http.StatusMisdirectedRequest, "Open the page by the address that trammel browser names.")
			return
		}
		own.ServeHTTP(w, r)
	})
}

// refuse says why in a line of plain text.
func refuse(w http.ResponseWriter, status int, why string) {
	w.Header().Set("Content-Type", "text/plain; charset=utf-8")
	w.WriteHeader(status)
	_, _ = w.Write([]byte(why + "\n")) // who went away needs no reason
}
