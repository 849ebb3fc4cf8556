package web

import (
	"net"
	"net/http"
	"slices"
	"strings"
)

// Guard says who may come in and by which name.
type Guard struct {
	Hosts   []string // names that this server goes by, without ports; the addresses that it is reached at go without saying
	Shared  bool     // others than this computer may come in, by a key
	Address string   // where they find it, "http://192.0.2.7:7465"; empty where that is not known
	Sealed  bool     // by TLS: nobody on the network can read along
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

// door is what a request passes before a page answers: who asks, from where, how
// much.
type door struct{ *desk }

// round puts the guards round what answers, the first to be asked outermost.
func (s *door) round(h http.Handler) http.Handler {
	h = s.knowing(h)
	h = s.sameOrigin(h)
	h = bounded(h)
	h = s.recovered(h)
	h = compressed(h)
	return headed(s.guard.named(h))
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
		if host := hostOf(r); isLoopback(host) || isReachedAt(r, host) || slices.Contains(g.Hosts, host) {
			next.ServeHTTP(w, r)
			return
		}
		http.Error(w, "This server does not go by that name: use the address that `oddleg serve` printed.", http.StatusMisdirectedRequest)
	})
}

// hostOf is the name or address that a request asks for, without a port.
func hostOf(r *http.Request) string {
	host, _, err := net.SplitHostPort(r.Host)
	if err != nil {
		host = strings.Trim(r.Host, "[]")
	}
	return strings.ToLower(host)
}

// isLoopback reports whether a name or address is that of the same computer.
func isLoopback(host string) bool {
	ip := net.ParseIP(host)
	return host == "localhost" || ip != nil && ip.IsLoopback()
}

// isReachedAt reports whether a request asks for the very address that its
// connection was made to.
func isReachedAt(r *http.Request, host string) bool {
	at, ok := r.Context().Value(http.LocalAddrContextKey).(*net.TCPAddr)
	ip := net.ParseIP(host)
	return ok && ip != nil && at.IP.Equal(ip)
}

// sameOrigin refuses what another site's page sends.
func (s *door) sameOrigin(next http.Handler) http.Handler {
	guard := http.NewCrossOriginProtection()
	guard.SetDenyHandler(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		s.refuse(w, r, "This was sent by a page of another site, and nothing was done. If it was you, open the page here and do it again.")
	}))
	return guard.Handler(next)
}

// refuse says why somebody may not do this.
func (s *door) refuse(w http.ResponseWriter, r *http.Request, why string) {
	if err := s.show(w, r, http.StatusForbidden, wrongPage(s.look(r, "That is not allowed"), []string{why})); err != nil {
		s.Log.Error("a page cannot be shown", "path", r.URL.Path, "why", err)
	}
}

// bounded lets no body be larger than it may be.
func bounded(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		most := int64(mostForm)
		if isUpload(r) {
			most = mostUpload
		}
		r.Body = http.MaxBytesReader(w, r.Body, most)
		next.ServeHTTP(w, r)
	})
}
