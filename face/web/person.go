package web

import (
	"net/http"
	"net/url"
	"strings"
	"time"
	"unicode/utf8"

	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// person is who looks, and how they like to see things: kept in their own
// browser, never in the record.
type person struct {
	Name  string    // as they call themselves
	Units unit.Unit // unit.One: as the job is written
	Guest bool      // may look and not write
}

// The cookies that a person's browser keeps for a year.
const (
	nameCookie  = "who"
	unitsCookie = "units"
	cookieAge   = 365 * 24 * time.Hour
	longestName = 60
)

// unitsCalled are the choices by the words of the cookie.
var unitsCalled = map[string]unit.Unit{"mm": unit.Millimetre, "in": unit.Inch}

func personOf(r *http.Request) person {
	p := person{Name: cookie(r, nameCookie), Units: unitsCalled[cookie(r, unitsCookie)]}
	if !utf8.ValidString(p.Name) || len(p.Name) > longestName {
		p.Name = ""
	}
	if device, ok := deviceOf(r.Context()); ok {
		p.Guest = device.Guest
		if p.Name == "" {
			p.Name = device.Name
		}
	}
	return p
}

func cookie(r *http.Request, name string) string {
	c, err := r.Cookie(name)
	if err != nil {
		return ""
	}
	value, err := url.QueryUnescape(c.Value)
	if err != nil {
		return ""
	}
	return strings.TrimSpace(value)
}

// keep has the browser remember something.
func keep(w http.ResponseWriter, name, value string) {
	http.SetCookie(w, &http.Cookie{
		Name: name, Value: url.QueryEscape(value), Path: "/", MaxAge: int(cookieAge.Seconds()),
		HttpOnly: true, SameSite: http.SameSiteLaxMode,
	})
}

// stamp says that this person does something now.
func (s *desk) stamp(r *http.Request, note string) record.Stamp {
	return record.Stamp{When: s.Now(), Who: personOf(r).Name, Note: note}
}
