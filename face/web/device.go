package web

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"net"
	"net/http"
	"strings"

	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
)

// keyCookie is where a device keeps its key.
const keyCookie = "key"

// deviceKey marks the device of a request in its context.
type deviceKey struct{}

// deviceOf returns the device that a request came from, false for this computer
// itself.
func deviceOf(ctx context.Context) (record.Device, bool) {
	d, ok := ctx.Value(deviceKey{}).(record.Device)
	return d, ok
}

// hashed is what is kept of a key.
func hashed(key string) string {
	sum := sha256.Sum256([]byte(key))
	return hex.EncodeToString(sum[:])
}

// isHere reports whether a request was made on this computer itself, by one of
// its loopback names: then nobody asks for a key. A proxy speaks for others.
func isHere(r *http.Request) bool {
	from, _, err := net.SplitHostPort(r.RemoteAddr)
	return err == nil && isLoopback(from) && isLoopback(hostOf(r)) && r.Header.Get("X-Forwarded-For")+r.Header.Get("Forwarded") == ""
}

// isOpen reports whether anybody may ask for this: how to join, and what the
// page that says so looks like.
func isOpen(r *http.Request) bool {
	return r.URL.Path == "/join" || strings.HasPrefix(r.URL.Path, "/a/")
}

// forGuests are the forms that keep something in a person's own browser only.
var forGuests = map[string]bool{"/join": true, "/you/units": true, "/you/name": true}

// knowing lets in this computer, and devices by their keys: guests to look.
func (s *door) knowing(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if isHere(r) || s.guard.Shared && isOpen(r) {
			next.ServeHTTP(w, r)
			return
		}
		d, err := s.device(r)
		if err != nil {
			s.keepOut(w, r, err)
			return
		}
		r = r.WithContext(context.WithValue(r.Context(), deviceKey{}, d))
		if d.Guest && r.Method != http.MethodGet && r.Method != http.MethodHead && !forGuests[r.URL.Path] {
			s.refuse(w, r, "This device is here as a guest: it may look at everything and change nothing. Ask in the shop for an invitation to write.")
			return
		}
		next.ServeHTTP(w, r)
	})
}

// errNoKey is for devices that show no key.
var errNoKey = trade.Faults{{Text: "this device has not joined yet"}}

// device finds out which device a request comes from.
func (s *door) device(r *http.Request) (record.Device, error) {
	key := cookie(r, keyCookie)
	if !s.guard.Shared || key == "" {
		return record.Device{}, errNoKey
	}
	return s.Record.DeviceByKey(r.Context(), hashed(key), s.Now())
}

// keepOut says how to join.
func (s *door) keepOut(w http.ResponseWriter, r *http.Request, err error) {
	var faults trade.Faults
	if !errors.As(err, &faults) {
		s.complain(w, r, err)
		return
	}
	if err := s.show(w, r, http.StatusForbidden, outsidePage(s.look(r, "Join first"), s.guard.Shared)); err != nil {
		s.Log.Error("a page cannot be shown", "path", r.URL.Path, "why", err)
	}
}
