package web

import (
	"context"
	"crypto/rand"
	"errors"
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"time"

	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
)

// invited is how long an invitation may be used.
const invited = 10 * time.Minute

// newKey draws a key of more than 128 bits.
func newKey() string { return rand.Text() }

// aKey is what newKey writes.
var aKey = regexp.MustCompile(`^[A-Z2-7]{26}$`)

// Invite lets one device join to write, once, within ten minutes. It returns the
// path that leads it in.
func Invite(ctx context.Context, c Config) (path string, err error) {
	key := newKey()
	return joinPath(key), invite(ctx, c, key, false)
}

func invite(ctx context.Context, c Config, key string, guest bool) error {
	return c.Record.Invite(ctx, record.Invitation{Hash: hashed(key), Guest: guest, Until: c.Now().Add(invited)})
}

func joinPath(key string) string { return "/join?key=" + url.QueryEscape(key) }

// joinPages answer for devices that come in.
type joinPages struct{ *desk }

func (s *joinPages) routes(t *table) {
	t.on("GET /join", s.joinPage)
	t.on("POST /join", s.letIn)
}

// joinPage asks for the device's name. The invitation is not used up before that
// is sent: a program that looks at links beforehand does no harm.
func (s *joinPages) joinPage(w http.ResponseWriter, r *http.Request) error {
	if isHere(r) {
		return goTo(w, r, "/")
	}
	if !aKey.MatchString(r.FormValue("key")) {
		return s.show(w, r, http.StatusForbidden, outsidePage(s.look(r, "Join first"), true))
	}
	return s.show(w, r, http.StatusOK, joinPage(s.look(r, "Join the shop"), r.FormValue("key"), "", nil))
}

// letIn gives a device a key of its own, which from then on its browser shows.
func (s *joinPages) letIn(w http.ResponseWriter, r *http.Request) error {
	key, invitation, name := newKey(), r.FormValue("key"), strings.TrimSpace(r.FormValue("name"))
	_, err := s.Record.Join(r.Context(), hashed(invitation), record.Device{Name: name}, hashed(key), s.Now())
	var faults trade.Faults
	if errors.As(err, &faults) {
		return s.show(w, r, http.StatusUnprocessableEntity, joinPage(s.look(r, "Join the shop"), invitation, name, said(faults)))
	}
	if err != nil {
		return err
	}
	http.SetCookie(w, &http.Cookie{
		Name: keyCookie, Value: key, Path: "/", MaxAge: int(cookieAge.Seconds()),
		HttpOnly: true, Secure: s.guard.Sealed, SameSite: http.SameSiteStrictMode,
	})
	return goTo(w, r, "/")
}
