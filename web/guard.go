package web

import (
	"net"
	"net/http"
	"slices"
	"strings"
)

// Guard says who may come in and by which name.
type Guard struct {
	Hosts  []string // names and addresses that this server goes by, without ports; loopback ones go without saying
	Shared bool     // others than this computer may come in, by a key
}

// The most bytes of a request's body: a form, and a photograph or a parcel.
const (
	mostForm   = 4 << 20
	mostUpload = 64 << 20
)

// policy is the content security policy: nothing but from here, and no scripts
// in a page.
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; connect-src 'self'; " +
	"font-src 'self'; manifest-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'"

// round puts the guards round a server, the first to be asked outermost.
func (g Guard) round(s *server) http.Handler {
	var h http.Handler = s
	h = http.NewCrossOriginProtection().Handler(h)
	h = bounded(h)
	h = squeezed(h)
	return headed(g.named(h))
}

// headed sends what keeps a page to itself.
func headed(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "same-origin")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Permissions-Policy", "camera=(self), geolocation=(), microphone=()")
		h.Set("Cache-Control", "no-store")
		next.ServeHTTP(w, r)
	})
}

// named refuses requests by a name that is not ours: another site's name may
// be made to lead to this computer.
func (g Guard) named(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		host, _, err := net.SplitHostPort(r.Host)
		if err != nil {
			host = r.Host
		}
		host = strings.ToLower(strings.Trim(host, "[]"))
		if ip := net.ParseIP(host); host == "localhost" || ip != nil && ip.IsLoopback() || slices.Contains(g.Hosts, host) {
			next.ServeHTTP(w, r)
			return
		}
		http.Error(w, "This server does not go by that name: use the address that `oddleg serve` printed.", http.StatusMisdirectedRequest)
	})
}

// bounded lets no body be larger than it may be.
func bounded(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		most := int64(mostForm)
		if strings.HasPrefix(r.Header.Get("Content-Type"), "multipart/") {
			most = mostUpload
		}
		r.Body = http.MaxBytesReader(w, r.Body, most)
		next.ServeHTTP(w, r)
	})
}
