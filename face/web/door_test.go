package web_test

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/http"
	"net/http/httptest"
	"net/url"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"codeberg.org/oddleg/oddleg/face/web"
	"codeberg.org/oddleg/oddleg/file/store"
)

// door is a page over a new record with the examples in it, and who stands
// before it.
type door struct {
	t      testing.TB
	bench  web.Config
	page   http.Handler
	log    *bytes.Buffer
	job    string // the id of one that is there
	from   string // address of who asks
	host   string // as which they ask for the page
	cookie string // the key they show
	head   http.Header
}

// Addresses of the tests (RFC 5737).
const (
	shopAddress   = "192.0.2.7"
	deviceAddress = "192.0.2.30"
)

// newDoor is the door of a page with this guard, seen from the same computer.
func newDoor(t testing.TB, g web.Guard) *door {
	t.Helper()
	shop, err := store.Make(filepath.Join(t.TempDir(), "shop.db"))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := shop.Close(); err != nil {
			t.Error(err)
		}
	})
	log := new(bytes.Buffer)
	b := web.Config{Record: shop, Now: time.Now, Log: slog.New(slog.NewTextHandler(log, nil))}
	if err := web.Begin(context.Background(), b); err != nil {
		t.Fatal(err)
	}
	jobs, err := b.Record.Jobs(context.Background())
	if err != nil || len(jobs) == 0 {
		t.Fatal("no jobs", err)
	}
	return &door{t: t, bench: b, page: web.New(b, g), log: log, job: jobs[0].ID, from: "127.0.0.1:40000", host: "127.0.0.1:7465", head: http.Header{}}
}

// device is the same door seen from another device, with a key or none.
func (d *door) device(key string) *door {
	other := *d
	other.from, other.host, other.cookie = deviceAddress+":40000", shopAddress+":7465", key
	return &other
}

// ask sends one request to the address of the shop.
func (d *door) ask(method, path, kind string, body io.Reader) *http.Response {
	d.t.Helper()
	r := httptest.NewRequest(method, path, body)
	at := &net.TCPAddr{IP: net.ParseIP(shopAddress), Port: 7465}
	r = r.WithContext(context.WithValue(r.Context(), http.LocalAddrContextKey, at))
	r.RemoteAddr, r.Host = d.from, d.host
	for name, values := range d.head {
		r.Header[name] = values
	}
	if kind != "" {
		r.Header.Set("Content-Type", kind)
	}
	if d.cookie != "" {
		r.AddCookie(&http.Cookie{Name: "key", Value: d.cookie})
	}
	w := httptest.NewRecorder()
	d.page.ServeHTTP(w, r)
	return w.Result()
}

func (d *door) get(path string) *http.Response {
	d.t.Helper()
	return d.ask(http.MethodGet, path, "", nil)
}

func (d *door) post(path string, fields url.Values) *http.Response {
	d.t.Helper()
	return d.ask(http.MethodPost, path, "application/x-www-form-urlencoded", strings.NewReader(fields.Encode()))
}

// said is the body of an answer.
func (d *door) said(r *http.Response) string {
	d.t.Helper()
	defer r.Body.Close()
	data, err := io.ReadAll(r.Body)
	if err != nil {
		d.t.Fatal(err)
	}
	return string(data)
}

// wants looks at a status and at words of the answer.
func (d *door) wants(r *http.Response, status int, words string) {
	d.t.Helper()
	if text := d.said(r); r.StatusCode != status || !strings.Contains(text, words) {
		d.t.Errorf("status %d where %d is wanted, with %q in: %.600s", r.StatusCode, status, words, text)
	}
}

// keyed finds the key in a path or a page.
var keyed = regexp.MustCompile(`(?:key=|name="(?:key|once)" value=")([A-Z2-7]{26})`)

func keyIn(t testing.TB, text string) string {
	t.Helper()
	found := keyed.FindStringSubmatch(text)
	if found == nil {
		t.Fatalf("no key in %.400s", text)
	}
	return found[1]
}

// joined is a device that has joined by an invitation of the page.
func (d *door) joined(name, may string) *door {
	d.t.Helper()
	key := keyIn(d.t, d.said(d.get("/you")))
	d.wants(d.post("/you/invite", url.Values{"once": {key}, "may": {may}}), http.StatusSeeOther, "")
	answer := d.device("").post("/join", url.Values{"key": {key}, "name": {name}})
	for _, c := range answer.Cookies() {
		if c.Name == "key" {
			return d.device(c.Value)
		}
	}
	d.t.Fatalf("%s could not join: %s", name, d.said(answer))
	return nil
}

// TestNames asks for the page by names that are its own, and others.
func TestNames(t *testing.T) {
	d := newDoor(t, web.Guard{Hosts: []string{"shop.local"}, Shared: true})
	for host, status := range map[string]int{
		"127.0.0.1:7465": 200, "localhost:7465": 200, "LOCALHOST": 200, "[::1]:7465": 200, "127.0.0.9": 200,
		// by these one is no longer known to be here
		"shop.local:7465": 403, "SHOP.local": 403, shopAddress + ":7465": 403,
		"evil.example:7465": 421, "192.0.2.8:7465": 421, "localhost.evil.example": 421, "127.0.0.1.evil.example": 421, "": 421, "]": 421,
	} {
		d.host = host
		if got := d.get("/"); got.StatusCode != status {
			t.Errorf("host %q: status %d where %d is wanted", host, got.StatusCode, status)
		}
	}
}

// TestOtherSites sends what pages of other sites can send.
func TestOtherSites(t *testing.T) {
	d := newDoor(t, web.Guard{Shared: true})
	for _, c := range []struct {
		name, value string
		status      int
	}{
		{"Origin", "https://evil.example", 403},
		{"Origin", "null", 403},
		{"Origin", "http://127.0.0.1:8080", 403},
		{"Origin", "http://127.0.0.1:7465", 303},
		{"Sec-Fetch-Site", "cross-site", 403},
		{"Sec-Fetch-Site", "same-site", 403},
		{"Sec-Fetch-Site", "same-origin", 303},
	} {
		d.head = http.Header{c.name: {c.value}}
		answer := d.post("/you/name", url.Values{"name": {"typed elsewhere"}})
		if text := d.said(answer); answer.StatusCode != c.status || strings.Contains(text, "typed elsewhere") {
			t.Errorf("%s %s: %d, %.300s", c.name, c.value, answer.StatusCode, text)
		}
	}
}

// TestHeaders looks at what every answer says of itself.
func TestHeaders(t *testing.T) {
	d := newDoor(t, web.Guard{})
	for _, path := range []string{"/", "/nowhere", "/you"} {
		h := d.get(path).Header
		if policy := h.Get("Content-Security-Policy"); !strings.Contains(policy, "default-src 'none'") || strings.Contains(policy, "unsafe") || strings.Contains(policy, "http") {
			t.Errorf("%s: %s", path, policy)
		}
		if h.Get("X-Content-Type-Options") != "nosniff" || h.Get("Cache-Control") != "no-store" || h.Get("Access-Control-Allow-Origin") != "" {
			t.Errorf("%s: %v", path, h)
		}
	}
}

// TestJoining lets a device in by an invitation, once and for a while.
func TestJoining(t *testing.T) {
	d := newDoor(t, web.Guard{Shared: true, Address: "http://" + shopAddress + ":7465"})
	now := time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC)
	d.bench.Now = func() time.Time { return now }
	d.page = web.New(d.bench, web.Guard{Shared: true, Address: "http://" + shopAddress + ":7465"})
	path, err := web.Invite(context.Background(), d.bench)
	if err != nil {
		t.Fatal(err)
	}
	stranger := d.device("")
	stranger.wants(stranger.get("/"), 403, "Let a device in")
	stranger.wants(stranger.get(path), 200, "Name of this device")
	stranger.wants(stranger.get(path), 200, "Name of this device") // looking uses nothing up
	key := keyIn(t, path)
	stranger.wants(stranger.post("/join", url.Values{"key": {key}, "name": {" "}}), 422, "needs a name")
	stranger.wants(stranger.post("/join", url.Values{"key": {"A" + key[1:25] + "7"}, "name": {"guess"}}), 422, "no such invitation")
	answer := stranger.post("/join", url.Values{"key": {key}, "name": {"telephone"}})
	cookie := answer.Header.Get("Set-Cookie")
	for _, attribute := range []string{"HttpOnly", "SameSite=Strict", "Path=/", "Max-Age=31536000"} {
		if !strings.Contains(cookie, attribute) {
			t.Errorf("the cookie %q is not %s", cookie, attribute)
		}
	}
	if strings.Contains(cookie, "Secure") {
		t.Error("a cookie that is kept from the page it is for")
	}
	stranger.wants(stranger.post("/join", url.Values{"key": {key}, "name": {"second"}}), 422, "used already")
	phone := d.device(answer.Cookies()[0].Value)
	phone.wants(phone.get("/"), 200, "Jobs")
	phone.wants(phone.get("/you"), 200, "(this one)")

	late, err := web.Invite(context.Background(), d.bench)
	if err != nil {
		t.Fatal(err)
	}
	now = now.Add(10*time.Minute + time.Second)
	stranger.wants(stranger.post("/join", url.Values{"key": {keyIn(t, late)}, "name": {"late"}}), 422, "run out")
}

// TestSealed: with TLS the key goes nowhere without it.
func TestSealed(t *testing.T) {
	d := newDoor(t, web.Guard{Shared: true, Sealed: true})
	key := keyIn(t, d.said(d.get("/you")))
	d.wants(d.post("/you/invite", url.Values{"once": {key}}), 303, "")
	if cookie := d.device("").post("/join", url.Values{"key": {key}, "name": {"x"}}).Header.Get("Set-Cookie"); !strings.Contains(cookie, "Secure") {
		t.Errorf("the cookie %q", cookie)
	}
	if text := d.said(d.get("/you")); strings.Contains(text, "read along") {
		t.Error("what is sealed is said to be open")
	}
}

// TestKeptOut is about who stays in and who does not.
func TestKeptOut(t *testing.T) {
	d := newDoor(t, web.Guard{Shared: true})
	phone := d.joined("telephone", "write")
	phone.wants(phone.get("/"), 200, "Jobs")
	devices, err := d.bench.Record.Devices(context.Background())
	if err != nil || len(devices) != 1 {
		t.Fatalf("%v, %v", devices, err)
	}
	d.wants(d.post("/you/revoke", url.Values{"device": {devices[0].ID}}), 303, "")
	phone.wants(phone.get("/"), 403, "may not come in any more")
	phone.wants(phone.post("/you/name", url.Values{"name": {"x"}}), 403, "may not come in any more")
	d.wants(d.get("/you"), 200, "kept out since")
	for name, other := range map[string]*door{
		"no key": d.device(""), "a guessed key": d.device("AAAAAAAAAAAAAAAAAAAAAAAAAA"), "nonsense": d.device("%00%ff"),
		"the hash of a key": d.device(devices[0].ID),
	} {
		other.wants(other.get("/"), 403, "Join first")
		if got := other.get("/job/x/readings"); got.StatusCode != 403 {
			t.Errorf("%s: %d", name, got.StatusCode)
		}
	}
}

// TestHere: only who is on this computer and asks for it as such needs no key.
func TestHere(t *testing.T) {
	open := newDoor(t, web.Guard{Shared: true})
	for _, c := range []struct {
		from, host, forwarded string
		status                int
	}{
		{"127.0.0.1:1", "127.0.0.1:7465", "", 200},
		{"[::1]:1", "localhost:7465", "", 200},
		{deviceAddress + ":1", "127.0.0.1:7465", "", 403},
		{"127.0.0.1:1", shopAddress + ":7465", "", 403},
		{"127.0.0.1:1", "127.0.0.1:7465", deviceAddress, 403},
		{"", "127.0.0.1:7465", "", 403},
	} {
		d := *open
		d.from, d.host, d.head = c.from, c.host, http.Header{}
		if c.forwarded != "" {
			d.head.Set("X-Forwarded-For", c.forwarded)
		}
		if got := d.get("/"); got.StatusCode != c.status {
			t.Errorf("%+v: status %d", c, got.StatusCode)
		}
	}
}

// TestNotShared keeps everybody else out, and says how that is changed.
func TestNotShared(t *testing.T) {
	d := newDoor(t, web.Guard{})
	other := d.device("")
	for _, path := range []string{"/", "/join?key=AAAAAAAAAAAAAAAAAAAAAAAAAA", "/you"} {
		other.wants(other.get(path), 403, "oddleg serve --share")
	}
	d.wants(d.get("/you"), 200, "oddleg serve --share")
	if got := d.get("/you/invitation?key=AAAAAAAAAAAAAAAAAAAAAAAAAA"); got.StatusCode != 404 {
		t.Errorf("an invitation where nobody may come in: %d", got.StatusCode)
	}
}

// TestGuests: a guest may look at all and change nothing.
func TestGuests(t *testing.T) {
	d := newDoor(t, web.Guard{Shared: true})
	guest := d.joined("visitor", "look")
	guest.wants(guest.get("/"), 200, "Jobs")
	if text := guest.said(guest.get("/you")); strings.Contains(text, "Let a device in") || strings.Contains(text, "visitor</th>") {
		t.Error("a guest is shown what is not for guests")
	}
	guest.wants(guest.post("/you/units", url.Values{"units": {"in"}}), 303, "")
	for _, pattern := range web.Patterns(d.bench) {
		method, path, _ := strings.Cut(pattern, " ")
		if method != http.MethodPost || path == "/you/units" || path == "/you/name" || path == "/join" {
			continue
		}
		guest.wants(guest.post(filled(d, path, "x"), url.Values{"from": {"1"}}), 403, "as a guest")
	}
	for _, method := range []string{"PUT", "DELETE", "PATCH", "OPTIONS"} {
		guest.wants(guest.ask(method, "/", "", nil), 403, "as a guest")
	}
}

// placeholder is a part of a pattern that stands for a value.
var placeholder = regexp.MustCompile(`\{([a-zA-Z0-9]+)(\.\.\.)?\}`)

// filled is a path of a pattern, of a job that is there and with a value in all
// other places.
func filled(d *door, pattern, value string) string {
	d.t.Helper()
	pattern = strings.TrimSuffix(pattern, "{$}")
	return placeholder.ReplaceAllStringFunc(pattern, func(place string) string {
		if place == "{job}" {
			return d.job
		}
		return url.PathEscape(value)
	})
}

// TestInvitation shows the code of the address that others know.
func TestInvitation(t *testing.T) {
	d := newDoor(t, web.Guard{Shared: true, Address: "http://" + shopAddress + ":7465"})
	key := keyIn(t, d.said(d.get("/you")))
	answer := d.post("/you/invite", url.Values{"once": {key}, "may": {"look"}})
	d.wants(answer, 303, "")
	again := d.post("/you/invite", url.Values{"once": {key}, "may": {"write"}}) // sent twice it is the first
	d.wants(again, 303, "")
	page := d.said(d.get(answer.Header.Get("Location")))
	if !strings.Contains(page, fmt.Sprintf("http://%s:7465/join?key=%s", shopAddress, key)) || !strings.Contains(page, "<svg") {
		t.Errorf("%.800s", page)
	}
	d.wants(d.device("").post("/join", url.Values{"key": {key}, "name": {"x"}}), 303, "")
	devices, err := d.bench.Record.Devices(context.Background())
	if err != nil || len(devices) != 1 || !devices[0].Guest {
		t.Errorf("%+v, %v", devices, err)
	}
	d.wants(d.post("/you/invite", url.Values{"once": {"short"}}), 422, "open the page again")
}
